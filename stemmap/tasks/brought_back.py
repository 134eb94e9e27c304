"""What crews brought back from field packets, told row by row, with what can be decided and how well was measured."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any

import numpy as np

from stemmap.checks.evidence.again import again, matched_rows
from stemmap.core.agreement import within
from stemmap.survey.finding import Finding
from stemmap.survey.matched import Matched, Means, Outcome
from stemmap.survey.quality import Quality, allowed, differences, quality, stems_found
from stemmap.survey.quantities import MEASURED, typed_texts
from stemmap.survey.returned import cells
from stemmap.survey.tolerance import source
from stemmap.tasks.workup import Workup

#: Words of what became of a row.
OUTCOMES = {
    Outcome.COMPARED: "measured again",
    Outcome.NOT_FOUND: "not found",
    Outcome.NEW: "new stem",
    Outcome.NOT_FILLED_IN: "not filled in",
    Outcome.SPARE: "empty row for a new stem",
    Outcome.REPEATED: "written again later",
    Outcome.UNMATCHED: "fits nothing",
}
#: Words of how its stem was known.
MEANS = {
    Means.NONE: None,
    Means.PACKET_ROW: "row of the packet",
    Means.NUMBER: "plot and number",
    Means.EXCHANGED: "values exchanged with another row",
    Means.OTHER_PLOT: "the plot that it names",
}
_QUANTITIES = ("azimuth_deg", "distance_m", "dbh_cm")


@dataclass(frozen=True)
class Tally:
    """What the rows that are new came to.

    Parameters
    ----------
    rows
        Number of them; the numbers from `within` to `blank` add up to it.
    within, beyond
        Rows measured again with all values within the tolerance, or with one beyond it.
    added
        Of the other rows measured again, those with a value where none was recorded.
    bare
        Rows of stems that were found, with no value that can be compared.
    not_found, new, unmatched
        Rows whose stem was not found, that are new stems, or that fit nothing.
    repeated
        Rows that were written again further down or in a later table.
    blank
        Rows that nobody wrote into.
    other_plot, exchanged
        Of all these, rows that name another plot than was printed on them, or with the values of another row.
    plots
        Plots of the rows that somebody wrote into, as typed.
    to_decide
        Open findings with proposals about all that came back.
    """

    rows: int = 0
    within: int = 0
    beyond: int = 0
    added: int = 0
    bare: int = 0
    not_found: int = 0
    new: int = 0
    unmatched: int = 0
    repeated: int = 0
    blank: int = 0
    other_plot: int = 0
    exchanged: int = 0
    plots: tuple[str, ...] = ()
    to_decide: int = 0


@dataclass(frozen=True)
class BroughtBack:
    """All that crews brought back so far.

    Parameters
    ----------
    workup
        The survey with it.
    matched
        What became of each row; None where nothing came back.
    new_rows
        Number of rows that are new: taken in just now, or to be taken in.
    known_files
        Files that were there already.
    taken
        Number of proposals that were taken over just now, and of records kept because they were confirmed.
    """

    workup: Workup
    matched: Matched | None
    new_rows: int = 0
    known_files: tuple[str, ...] = ()
    taken: int = 0

    def sentence(self, name: str) -> str:
        """What was done, in words.

        Parameters
        ----------
        name
            Of the survey file.
        """
        parts = []
        if self.known_files:
            files = ", ".join(self.known_files)
            parts.append(f"{files}: every row is in {name} already; nothing of it was added.")
        if self.new_rows:
            parts.append(f"{name} holds {self.new_rows} rows more that crews brought back.")
        if self.taken:
            parts.append(f"{self.taken} decisions were taken over, each with an entry in the journal.")
        return " ".join(parts) or f"{name} was not changed."

    def rows(self) -> Iterator[dict[str, Any]]:
        """Every row that came back: as typed, what became of it, and how it compares."""
        survey, matched = self.workup.survey, self.matched
        returned = survey.upload.returned
        if returned is None or matched is None:
            return
        records, stems = returned.rows, survey.upload.stems.take(matched.stem)
        texts = {name: cells(records, name) for name in ("packet", "row", "plot", "visit", "tree", "stem", "found")}
        difference, tolerance = differences(matched), allowed(matched, survey.settings)
        inside = within(difference, tolerance)
        of_stem = {name: cells(stems, name) for name in ("plot", "visit", "tree", "stem")}
        typed = [typed_texts(records, place) for place in range(len(MEASURED))]
        remark = cells(records, "remark")
        for row, outcome in enumerate(matched.outcome.tolist()):
            values = {}
            for place, name in enumerate(_QUANTITIES):
                values[name] = {
                    "typed": typed[place][row] or None,
                    "again": _finite(matched.again[row, place]),
                    "recorded": _finite(matched.recorded[row, place]),
                    "difference": _finite(difference[row, place]),
                    "tolerance": _finite(tolerance[row, place]) if np.isfinite(difference[row, place]) else None,
                    "within": bool(inside[row, place]) if np.isfinite(difference[row, place]) else None,
                }
            known = matched.stem[row] >= 0
            yield {
                "file": survey.upload.sources[records.source[row]],
                "line": int(records.line[row]),
                **{name: column[row] or None for name, column in texts.items()},
                "look": "blind" if matched.blind[row] else "cold",
                "outcome": OUTCOMES[Outcome(outcome)],
                "known_by": MEANS[Means(int(matched.means[row]))] if known else None,
                "of": {name: column[row] or None for name, column in of_stem.items()} if known else None,
                "names_other_plot": bool(matched.plot_differs[row]),
                **values,
                "remark": remark[row] or None,
            }

    def counts(self) -> dict[str, Any]:
        """How many rows came back, what became of them, and how many of those sent out did not come back."""
        survey = self.workup.survey
        outcome = np.zeros(0, np.int8) if self.matched is None else self.matched.outcome
        of_outcome = np.bincount(outcome, minlength=len(Outcome))
        returned = survey.upload.returned
        there = set() if self.matched is None else set(self.matched.asked.tolist())
        missing: dict[str, int] = {}
        if returned is not None:
            packets, asked = returned.asked.packet, returned.asked.source >= 0
            for place in np.flatnonzero(asked).tolist():
                if place not in there:
                    missing[packets[place]] = missing.get(packets[place], 0) + 1
        return {
            "rows": len(outcome),
            "outcomes": {OUTCOMES[each]: int(of_outcome[each]) for each in Outcome},
            "not_come_back": missing,
        }

    def tally(self) -> Tally:
        """What the rows that are new came to."""
        matched, returned = self.matched, self.workup.survey.upload.returned
        to_decide = sum(1 for _ in self.proposals())
        if matched is None or returned is None or not self.new_rows:
            return Tally(to_decide=to_decide)
        rows = slice(-self.new_rows, None)
        outcome, means = matched.outcome[rows], matched.means[rows]
        difference, tolerance = differences(matched)[rows], allowed(matched, self.workup.survey.settings)[rows]
        compared, has_pair = outcome == Outcome.COMPARED, ~np.isnan(difference)
        beyond = compared & np.any(has_pair & ~within(difference, tolerance), axis=1)
        fills = np.any(np.isfinite(matched.again[rows]) & np.isnan(matched.recorded[rows]), axis=1)
        added = compared & ~beyond & fills
        inside = compared & ~beyond & ~added & has_pair.any(axis=1)
        counted = np.bincount(outcome, minlength=len(Outcome))
        blank = np.isin(outcome, (Outcome.NOT_FILLED_IN, Outcome.SPARE))
        plots = cells(returned.rows, "plot")[rows][~blank].tolist()
        return Tally(
            len(outcome),
            int(inside.sum()),
            int(beyond.sum()),
            int(added.sum()),
            int((compared & ~beyond & ~added & ~inside).sum()),
            int(counted[Outcome.NOT_FOUND]),
            int(counted[Outcome.NEW]),
            int(counted[Outcome.UNMATCHED]),
            int(counted[Outcome.REPEATED]),
            int(blank.sum()),
            int(matched.plot_differs[rows].sum()),
            int((compared & (means == Means.EXCHANGED)).sum()),
            tuple(dict.fromkeys(plot for plot in plots if plot)),
            to_decide,
        )

    def findings(self) -> Iterator[Finding]:
        """The open findings about what came back."""
        return (finding for finding in self.workup.findings if finding.check == "remeasured")

    def proposals(self) -> Iterator[dict[str, Any]]:
        """What can be decided: old, new, the difference and the tolerance."""
        for finding in self.findings():
            if finding.proposals:
                told = {name: finding.evidence.get(name) for name in _PROPOSAL_EVIDENCE}
                best = max(finding.proposals, key=lambda each: each["probability"] or 0.0)
                yield {
                    "finding": finding.id,
                    "plot": finding.plot,
                    "visit": finding.visit,
                    "stem": finding.stem,
                    "field": finding.field,
                    "old": told["recorded"],
                    "new": best["value"] if finding.brought is None else None,
                    "difference": told["difference"],
                    "tolerance": told["tolerance"],
                    "probability": best["probability"],
                    "look": told["look"],
                    "message": finding.message,
                }

    def confirmed(self) -> Iterator[dict[str, Any]]:
        """Open findings that doubt a value which was measured again within the tolerance: they can be kept."""
        found = self.workup.case.once(again)
        if found is None:
            return
        agrees = {
            (stem, name)
            for place, names in enumerate(MEASURED)
            for stem in found.stem[found.confirmed[:, place]].tolist()
            for name in names
        }
        for finding in self.workup.findings:
            doubts = finding.family in _OF_VALUES and finding.severity != "note"
            if doubts and (finding.stem_row, finding.field) in agrees:
                told = {name: getattr(finding, name) for name in ("plot", "visit", "stem", "field", "message")}
                yield {"finding": finding.id, **told}

    def quality(self) -> dict[str, Any]:
        """How well the survey was measured: agreement by look and field, and how many stems were found."""
        survey = self.workup.survey
        if self.matched is None:
            return {"tolerance": source(survey.settings), "confidence": 0.95, "fields": [], "stems": []}
        told = quality(survey.upload, survey.settings, self.matched)
        return {
            "tolerance": source(survey.settings),
            "confidence": 0.95,
            "fields": [_quality_as_json(each) for each in told],
            "stems": [vars(each) for each in stems_found(self.matched)],
        }


def brought_back(workup: Workup) -> BroughtBack:
    """All that crews brought back to a survey so far."""
    return BroughtBack(workup, workup.case.once(matched_rows))


#: Findings that doubt a single value, so that measuring it again settles them.
_OF_VALUES = ("typing", "diameter")
_PROPOSAL_EVIDENCE = ("recorded", "difference", "tolerance", "look")


def _quality_as_json(told: Quality) -> dict[str, Any]:
    figures = {name: _finite(value) for name, value in vars(told.agreement).items()}
    robust_sd = {
        "robust_sd": _finite(told.robust.spread),
        "robust_sd_low": _finite(told.robust.spread_low),
        "robust_sd_high": _finite(told.robust.spread_high),
    }
    return {
        "look": told.look,
        "field": told.field,
        "unit": told.unit or None,
        **figures,
        "pairs": told.agreement.pairs,
        "sd_of_one": _finite(told.sd_of_one),
        "tolerance_low": _finite(told.tolerance_low),
        "tolerance_high": _finite(told.tolerance_high),
        "reason": told.reason or None,
        "median": _finite(told.robust.median),
        "median_low": _finite(told.robust.median_low),
        "median_high": _finite(told.robust.median_high),
        **{name: None if told.robust_reason else value for name, value in robust_sd.items()},
        "robust_reason": told.robust_reason or None,
        "gross": [vars(each) for each in told.gross],
        "gross_share": _finite(told.gross_share) if told.gross else None,
        "bias_without_gross": _finite(told.without_gross.bias),
        "spread_without_gross": _finite(told.without_gross.spread),
        "gross_reason": told.gross_words or None,
    }


def _finite(value: float) -> float | None:
    return float(value) if np.isfinite(value) else None
