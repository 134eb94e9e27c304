"""From files to a worked-up survey: read, measured, checked and summarised. Both shells show what comes out here."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from functools import cached_property
from pathlib import Path
from types import MappingProxyType
from typing import Any

import numpy as np
from numpy.typing import NDArray

from stemmap import checks
from stemmap.checks.evidence.again import measured_otherwise
from stemmap.checks.evidence.fieldwork import fieldwork
from stemmap.checks.evidence.hidden import hidden
from stemmap.errors import InputError
from stemmap.progress import Progress
from stemmap.reading import SettingsFound, find_settings, read_settings, read_upload
from stemmap.reading.stand import read_stand
from stemmap.store.survey_file import is_survey_file
from stemmap.survey.decided import Decisions
from stemmap.survey.findings import Findings
from stemmap.survey.kept import kept
from stemmap.survey.measured import Measured, measure
from stemmap.survey.part import Part, part_of
from stemmap.survey.redecided import redecided
from stemmap.survey.registry import Case, run_checks
from stemmap.survey.settings import Settings, columns_above
from stemmap.survey.summary import Summary, summarise
from stemmap.survey.survey import Survey, assemble
from stemmap.survey.worth import Worth
from stemmap.tasks.stored import load_path
from stemmap.writing.settings import write_settings

#: So many stems are summed up in a few milliseconds.
SUMMARISED_AT_ONCE = 20_000
_NO_COLUMNS: Mapping[str, str] = MappingProxyType({})


@dataclass(frozen=True)
class Workup:
    """A survey with everything that was computed from it.

    Parameters
    ----------
    survey, measured, findings, summary
        What was uploaded, placed, doubted and summed up.
    fieldwork
        What the whole survey, and each visit, crew, instrument and day tells of how it was measured.
    case
        What the checks looked at and what they learnt from the survey.
    """

    survey: Survey
    measured: Measured
    findings: Findings
    summary: Summary
    fieldwork: tuple[dict[str, Any], ...]
    case: Case

    @cached_property
    def worth(self) -> Worth:
        """What settling each doubt would be worth, computed when somebody asks."""
        # Stems that came or went since the summary was made are other rows of it.
        same = self.summary.survey.stems.stand_as(self.survey.stems)
        return Worth(self.summary if same else summarise(self.survey, self.measured), self.findings)


def open_uploads(
    paths: Sequence[Path | str],
    *,
    settings: Path | str | Settings | None = None,
    radius_m: float | None = None,
    columns: Mapping[str, str] = _NO_COLUMNS,
    as_of: str | None = None,
    progress: Progress | None = None,
) -> Workup:
    """Read uploads, or a survey file as decided, and work them up.

    Parameters
    ----------
    paths
        Files of plots and stems, in any order; a settings file among them is taken as such.
    settings
        Settings, or their file; None: a settings file beside the uploads, else what is assumed.
    radius_m
        Radius of a fixed circle, above what the settings say.
    columns
        Canonical field to heading, above what the settings say.
    as_of
        Number of a journal entry or a time, of a survey file.

    Raises
    ------
    InputError
        When nothing usable was read or the settings contradict themselves.
    Cancelled
        When `progress` says so.
    """
    progress = progress or Progress()
    files = [Path(path) for path in paths]
    if any(map(is_survey_file, files)):
        if len(files) > 1 or columns:
            raise InputError("A survey file is opened alone; add uploads to it with stemmap add or File, Add uploads.")
        progress.step(f"Reading {files[0].name}")
        survey = load_path(files[0], as_of)
        _, chosen = settings_of([], settings=settings or survey.settings, radius_m=radius_m)
        return work_up(with_stand(survey.under(chosen), files[0].parent, progress), progress)
    if as_of is not None:
        raise InputError("Only a survey file knows how it was earlier; make one with stemmap add.")
    found, chosen = settings_of(files, settings=settings, radius_m=radius_m, columns=columns)
    upload = read_upload(files, columns=chosen.columns, progress=progress)
    upload = replace(upload, remarks=(*found.remarks, *upload.remarks))
    folder = (found.path or files[0]).parent
    return work_up(with_stand(assemble(upload, chosen), folder, progress), progress)


def with_stand(survey: Survey, folder: Path, progress: Progress | None = None) -> Survey:
    """The survey with the polygons of the stand that its settings name.

    Parameters
    ----------
    survey
        The survey.
    folder
        Where the file lies when its name says no folder.

    Raises
    ------
    InputError
        When the file cannot be used.
    """
    named = survey.settings.design.stand
    return replace(survey, ground=None if named is None else read_stand(folder / named, progress))


def settings_of(
    files: Sequence[Path],
    *,
    settings: Path | str | Settings | None = None,
    radius_m: float | None = None,
    columns: Mapping[str, str] = _NO_COLUMNS,
) -> tuple[SettingsFound, Settings]:
    """The settings under which an upload is read, and which file they come from; parameters as in `open_uploads`.

    Raises
    ------
    InputError
        When the settings cannot be read or contradict themselves.
    """
    if isinstance(settings, Settings):
        found, chosen = SettingsFound(), settings
    else:
        found = find_settings(files) if settings is None else SettingsFound(Path(settings))
        chosen = read_settings(found.path)
    if radius_m is not None:
        chosen = chosen.having("design.radius_m", radius_m)
    if columns:
        chosen = chosen.with_columns(columns_above(columns, chosen.columns))
    return found, chosen


def work_up(survey: Survey, progress: Progress | None = None) -> Workup:
    """Measure, check and summarise a survey.

    Raises
    ------
    InputError
        When the settings contradict themselves.
    Cancelled
        When `progress` says so.
    """
    progress = progress or Progress()
    progress.step("Computing positions")
    return _check(survey, measure(survey), progress)


def relocate(workup: Workup, settings: Settings, progress: Progress | None = None) -> Workup:
    """Place and summarise a survey under other settings; findings and fieldwork are still those of before.

    Parameters
    ----------
    workup
        The survey under its present settings.
    settings
        Those wanted; which column is which field must stay the same.

    Raises
    ------
    InputError
        When the settings contradict themselves.
    """
    (progress or Progress()).step("Computing positions")
    survey = workup.survey.under(settings)
    measured = measure(survey)
    return replace(workup, survey=survey, measured=measured, summary=summarise(survey, measured))


def check_again(relocated: Workup, progress: Progress | None = None) -> Workup:
    """Check a survey that was placed under other settings.

    Raises
    ------
    Cancelled
        When `progress` says so.
    """
    return _check(relocated.survey, relocated.measured, progress or Progress())


def decide_again(workup: Workup, decisions: Decisions) -> Workup | None:
    """A survey under other decisions, of which only the plots are checked again that are decided otherwise.

    Returns
    -------
    None where that is not possible, as `redecided` says. What is told of the fieldwork and of missed stems, and the
    summary of many stems, are those of before.
    """
    made = redecided(workup.survey, decisions)
    if made is None:
        return None
    survey, visits = made.survey, made.visits
    before, after = (_kept(each) for each in (workup.survey.decisions, decisions))
    if survey.stems is workup.survey.stems and not before - after:
        # No record changed and no finding comes back: some are kept, or the crew is sent.
        ids, rows = _put_away(survey, workup.case)
        findings = replace(workup.findings, survey=survey).without(ids, set(rows) & set(visits.tolist()))
        return replace(workup, survey=survey, findings=findings)
    part, of_part = _alone(workup, survey, visits)
    measured = workup.measured.with_part(of_part, part.stems, made.came_from)
    findings = _check_part(workup, survey, part, of_part, made.came_from)
    again = replace(workup, survey=survey, measured=measured, findings=findings)
    return again if len(survey.stems) > SUMMARISED_AT_ONCE else summed_up(again)


def summed_up(workup: Workup) -> Workup:
    """The survey with a summary of its stems as they are now; missed stems are those told by the last check of all."""
    summary = summarise(workup.survey, workup.measured)
    as_told = workup.case.once(hidden)
    return replace(workup, summary=replace(summary, unseen=replace(summary.unseen, as_told=as_told)))


def _kept(decisions: Decisions) -> set[tuple[str, int]]:
    return {(finding, entry.entry) for finding, entry in decisions.standing.items() if entry.decision == "keep"}


def _put_away(survey: Survey, case: Case) -> tuple[frozenset[str], frozenset[int]]:
    """Ids of the findings that were kept as recorded, and the visit rows they may stand at, as `kept`.

    Without those whose stem was measured again since, otherwise.
    """
    ids, rows = kept(survey)
    return ids - measured_otherwise(case, survey.decisions), rows


def _check_part(
    workup: Workup, survey: Survey, part: Part, measured: Measured, came_from: NDArray[np.int64] | None
) -> Findings:
    """Check some plots by the rates that the whole survey has told; what is judged of it as a whole stays as it was."""
    made = run_checks(Case(part.survey, measured, workup.case))
    findings = workup.findings.with_part(survey, made, visits=part.visits, stems=part.stems, came_from=came_from)
    ids, rows = _put_away(survey, workup.case)
    return findings.without(ids, set(rows) & set(part.visits.tolist()))


def _alone(workup: Workup, survey: Survey, visits: NDArray[np.integer]) -> tuple[Part, Measured]:
    """The plots of some visits as a survey of their own, placed as in the whole one."""
    part, crs = part_of(survey, visits), workup.measured.crs
    if crs is not None:
        part = replace(part, survey=part.survey.under(survey.settings.having("survey.crs", crs)))
    return part, measure(part.survey)


def _check(survey: Survey, measured: Measured, progress: Progress) -> Workup:
    checks.load()
    case = Case(survey, measured)
    findings = run_checks(case, progress).without(*_put_away(survey, case))
    progress.step("Summarising")
    told = tuple(fieldwork(case, findings))
    summary = replace(summarise(survey, measured), unseen=case.once(hidden))
    return Workup(survey, measured, findings, summary, told, case)


def save_settings(settings: Settings, path: Path | str) -> None:
    """Write the settings that were said as a TOML file.

    Raises
    ------
    OutputError
        When the file cannot be written.
    """
    write_settings(settings, Path(path))
