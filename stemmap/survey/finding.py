"""One finding, told in full: its sentence, evidence and proposals."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from string import Formatter
from typing import Any

from stemmap.survey.batches import Family, Severity, StemMeant
from stemmap.survey.fields import STRUCK

#: From this probability what was measured again is likely to be right and the record wrong.
LIKELY = 0.5


@dataclass(frozen=True)
class Finding:
    """One finding, told in full. Numbers that are not known are None.

    `meant` holds, for a finding about a whole plot, what each of its stems may have been meant to be; `brought` source
    and line of the row that a crew brought back, if it speaks of one that is no stem.
    """

    id: str
    plot: str | None
    visit: str | None
    stem: str | None
    check: str
    severity: Severity
    family: Family
    field: str | None
    message: str
    evidence: dict[str, Any]
    proposals: list[dict[str, Any]]
    effect: dict[str, float | None]
    visit_row: int
    stem_row: int
    meant: tuple[StemMeant, ...] = ()
    meant_stems: tuple[str, ...] = ()
    brought: tuple[int, int] | None = None

    def as_json(self) -> dict[str, Any]:
        """The finding in the form that `stemmap check --format json` promises."""
        return {
            "id": self.id,
            "plot": self.plot,
            "visit": self.visit,
            "stem": self.stem,
            "check": self.check,
            "severity": self.severity,
            "family": self.family,
            "field": self.field,
            "message": self.message,
            "evidence": self.evidence,
            "proposals": self.proposals + self._meant_as_json(),
            "effect": self.effect,
        }

    @property
    def proposes_number(self) -> bool:
        """Whether a number is proposed, so that stems may stand elsewhere or be of another size."""
        of_finding = any(isinstance(each["value"], int | float) for each in self.proposals)
        return of_finding or any(each.numbers for each in self.meant)

    @property
    def told_by_order(self) -> bool:
        """Whether the order of the numbers speaks for or against a value, so that it helps to see it on the map."""
        return bool(self.evidence.get("told_by_order"))

    @property
    def strikes_all(self) -> bool:
        """Whether it is proposed for stems of a plot to strike their records."""
        return any(STRUCK in each.values.values() for each in self.meant)

    def told_probability(self, proposal: Mapping[str, Any]) -> float | None:
        """Probability of a proposal as a person is told it.

        None where it is not known or would mislead: of two measurements that differ no more than ordinary errors make
        them, neither is improbable.
        """
        probability: float | None = proposal["probability"]
        misleads = self.check == "remeasured" and (probability or 0.0) < LIKELY
        return None if misleads else probability

    def _meant_as_json(self) -> list[dict[str, Any]]:
        """Proposals for the stems of a whole plot; each names its stem."""
        return [
            {"stem": stem, "field": name, "value": value, "probability": each.probability}
            for stem, each in zip(self.meant_stems, self.meant, strict=True)
            for name, value in each.values.items()
        ]


class Sentence(Formatter):
    """Fills a message; a number that is not known reads as a dash, a text too long to read is cut."""

    LONGEST = 300

    def format_field(self, value: Any, format_spec: str) -> str:
        """Text of one value."""
        if value is None:
            return "–"
        if isinstance(value, str):
            return value if len(value) <= self.LONGEST else f"{value[: self.LONGEST]}… ({len(value)} characters)"
        return str(super().format_field(value, format_spec))


_SENTENCE = Sentence()


class _Unknown:
    """A number that is not known: a dash in every format."""

    def __format__(self, _: str) -> str:
        return "–"


_UNKNOWN = _Unknown()


def filled(message: str, values: dict[str, Any]) -> str:
    """A message with its values; the interpreter's own formatting, ten times faster, where it says the same."""
    if all(len(value) <= Sentence.LONGEST for value in values.values() if type(value) is str):
        return message.format_map({name: _UNKNOWN if value is None else value for name, value in values.items()})
    return _SENTENCE.vformat(message, (), values)
