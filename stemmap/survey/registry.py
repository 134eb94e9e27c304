"""The registry of checks: every doubt that stemmap can raise is declared here once, with its reason."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass, field
from functools import cached_property
from inspect import cleandoc
from types import MappingProxyType
from typing import TYPE_CHECKING, Any, TypeVar, get_args

import numpy as np
from numpy.typing import NDArray

from stemmap.errors import Cancelled
from stemmap.progress import Progress
from stemmap.survey.batches import Batch, Family, Severity
from stemmap.survey.findings import Findings
from stemmap.survey.records import Records, Remark
from stemmap.survey.survey import Survey

if TYPE_CHECKING:
    from stemmap.survey.measured import Measured

Run = Callable[["Case"], Iterable[Batch]]
Made = TypeVar("Made")


@dataclass(frozen=True)
class Case:
    """What a check looks at.

    Parameters
    ----------
    survey, measured
        The records and what follows from them.
    whole
        The case of the whole survey, where this is a part of it: what evidence learns from a survey is taken there.
    """

    survey: Survey
    measured: Measured
    whole: Case | None = None
    _made: dict[Callable[[Case], Any], Any] = field(default_factory=dict, init=False, repr=False, compare=False)

    def once(self, make: Callable[[Case], Made]) -> Made:
        """What a function makes of the case, made once: evidence that several checks build on."""
        if make not in self._made:
            self._made[make] = make(self)
        made: Made = self._made[make]
        return made

    def about_stems(self, rows: NDArray[np.integer], message: str, **rest: Any) -> Batch:
        """Batch about stems, shape (n,); `rest` as in `Batch`."""
        return Batch(message, self.survey.stems.visit_row[rows], rows, **rest)

    def about_visits(self, rows: NDArray[np.integer], message: str, **rest: Any) -> Batch:
        """Batch about whole plots by visit row, shape (n,); `rest` as in `Batch`."""
        return Batch(message, rows, np.full(len(rows), -1, np.int64), **rest)

    def about_files(self, count: int, message: str, **rest: Any) -> Batch:
        """Batch about `count` places in files or the whole survey; `rest` as in `Batch`."""
        nothing = np.full(count, -1, np.int64)
        return Batch(message, nothing, nothing, **rest)

    def cells(self, records: Records, rows: NDArray[np.integer], name: str) -> dict[str, NDArray[Any]]:
        """File, line, column and text of cells, as evidence."""
        sources = np.array([*self.survey.upload.sources, "?"], dtype=object)
        return {
            "file": sources[records.source[rows]],
            "line": records.line[rows],
            "column": np.full(len(rows), name, dtype=object),
            "text": records.texts(name)[rows],
        }

    def worth(self, rows: NDArray[np.integer]) -> dict[str, NDArray[np.float64]]:
        """What each stem adds per hectare when it is in, as the two effects of a batch.

        Where a stem that is out may be in, it is the weight it would have then, perhaps that of another circle.
        """
        measured = self.measured
        inside, chance = measured.inside[rows], measured.inside_probability[rows]
        may_be_in = ~inside & (chance > 0.001)
        if_in = np.divide(measured.expected_per_ha[rows], chance, out=np.zeros(len(rows)), where=may_be_in)
        return self.effects(rows, np.where(may_be_in, if_in, measured.expansion_per_ha[rows]))

    def effects(self, rows: NDArray[np.integer], per_ha: NDArray[np.float64]) -> dict[str, NDArray[np.float64]]:
        """Stems per hectare that are in doubt with each stem, and their basal area, as the two effects of a batch."""
        return {
            "stems_per_ha": per_ha,
            "basal_area_m2_per_ha": per_ha * np.pi * (self.measured.dbh_cm[rows] / 200.0) ** 2,
        }


@dataclass(frozen=True)
class Check:
    """One kind of doubt.

    Parameters
    ----------
    slug
        Its name for ever, lower case with hyphens.
    family, severity
        As they stand in a finding, unless a batch says another severity.
    explanation
        What is doubted, why, what to do, and the source; the first line is the title.
    needs
        Canonical stem fields without which the check has nothing to say.
    of_survey
        Whether it judges the survey as a whole, so that nothing is learnt by running it on a part.
    run
        Yields batches; None for doubts that reading raises.
    """

    slug: str
    family: Family
    severity: Severity
    explanation: str
    needs: tuple[str, ...] = ()
    run: Run | None = None
    of_survey: bool = False

    @cached_property
    def title(self) -> str:
        """First line of the explanation."""
        return self.explanation.partition("\n")[0]


_CHECKS: dict[str, Check] = {}


def declare(
    slug: str,
    *,
    family: Family,
    severity: Severity,
    explanation: str,
    needs: tuple[str, ...] = (),
    run: Run | None = None,
    of_survey: bool = False,
) -> Check:
    """Enter a check into the registry.

    Raises
    ------
    ValueError
        When the slug is taken or malformed, the family or severity is not known, or the explanation is too short.
    """
    if not re.fullmatch(r"[a-z]+(-[a-z0-9]+)*", slug):
        raise ValueError(f"A check's slug is lower case with hyphens, not {slug!r}.")
    if slug in _CHECKS:
        raise ValueError(f"The check {slug!r} is declared twice.")
    if family not in get_args(Family) or severity not in get_args(Severity):
        raise ValueError(f"The check {slug!r} has an unknown family or severity.")
    if len(cleandoc(explanation).splitlines()) < 3:
        raise ValueError(f"The check {slug!r} must explain what, why and what to do.")
    made = Check(slug, family, severity, cleandoc(explanation), needs, run, of_survey)
    _CHECKS[slug] = made
    return made


def check(
    slug: str, *, family: Family, severity: Severity, needs: tuple[str, ...] = (), of_survey: bool = False
) -> Callable[[Run], Run]:
    """Enter a function as a check; its docstring is the explanation."""

    def enter(run: Run) -> Run:
        explanation = run.__doc__ or ""
        declare(
            slug,
            family=family,
            severity=severity,
            explanation=explanation,
            needs=needs,
            run=run,
            of_survey=of_survey,
        )
        return run

    return enter


def catalogue() -> Mapping[str, Check]:
    """All declared checks by slug, sorted. Import the packages that declare them first."""
    return MappingProxyType(dict(sorted(_CHECKS.items())))


_FAILED = declare(
    "check-failed",
    family="import",
    severity="note",
    explanation="""A check stopped with an internal fault.

    What: one check could not finish; its findings are missing, all others are complete.
    What to do: report it together with the upload.
    """,
)


def run_checks(case: Case, progress: Progress | None = None) -> Findings:
    """Run all checks that the upload has the columns for, and add what reading remarked.

    On a part of a survey those are left out that judge the survey as a whole.
    """
    progress = progress or Progress()
    survey = case.survey
    batches: list[tuple[Check, Batch]] = [_of_remark(remark) for remark in survey.upload.remarks]
    part = case.whole is not None
    running = [made for made in catalogue().values() if made.run is not None and not (part and made.of_survey)]
    for place, made in enumerate(running):
        progress.step(made.title, place / len(running))
        if made.run is None or not all(survey.stems.records.has(name) for name in made.needs):
            continue
        try:
            batches += [(made, batch) for batch in made.run(case) if len(batch)]
        except (Cancelled, MemoryError):
            raise
        except Exception as fault:
            batches.append((_FAILED, _of_survey("The check {name} stopped: {fault}", made.slug, fault)))
    return Findings(survey, tuple(batches))


def _of_survey(message: str, name: str, fault: Exception) -> Batch:
    none = np.array([-1])
    evidence = {"name": np.array([name], object), "fault": np.array([repr(fault)], object)}
    return Batch(message, none, none, evidence=evidence, about=evidence["name"])


def _of_remark(remark: Remark) -> tuple[Check, Batch]:
    none = np.array([-1])
    places = {"file": remark.file, "line": remark.line, "column": remark.column, "text": remark.text}
    evidence = {name: np.array([value], object) for name, value in places.items()}
    sentence = np.array([remark.sentence], object)
    return _CHECKS[remark.check], Batch("{sentence}", none, none, evidence={**evidence, "sentence": sentence})
