"""Which stem each row that came back from a field packet speaks of, and how its values compare with those recorded."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from enum import IntEnum

import numpy as np
from numpy.typing import NDArray

from stemmap.core.exchange import exchanged, misfit
from stemmap.survey.decided import Decisions, rows_of
from stemmap.survey.journal import Entry, until
from stemmap.survey.quantities import MEASURED, difference_sd, measured_values, typed_texts
from stemmap.survey.records import Records, Upload
from stemmap.survey.returned import Returned, cells, found, row_number
from stemmap.survey.settings import Settings

Floats = NDArray[np.float64]
Integers = NDArray[np.int64]
Texts = NDArray[np.object_]

#: Misfit beyond which the rows of a plot are looked at for exchanges: 1 row in 1000 has it by chance (chi-square of
#: three quantities). Exchanged rows fit up to this mean, a gross error among two of them included.
_DOUBTFUL, _FITS = 8.2, 6.0
#: By how much another stem must fit better: one row in a thousand stands on a wrong line (an assumption of ours).
_GAIN = 10.0


class Outcome(IntEnum):
    """What became of a row that came back."""

    COMPARED = 0
    NOT_FOUND = 1
    NEW = 2
    NOT_FILLED_IN = 3
    SPARE = 4
    REPEATED = 5
    UNMATCHED = 6


class Means(IntEnum):
    """How the stem of a row was known."""

    NONE = 0
    PACKET_ROW = 1
    NUMBER = 2
    EXCHANGED = 3
    OTHER_PLOT = 4


@dataclass(frozen=True)
class Matched:
    """Rows that came back, as columns of shape (rows,).

    Parameters
    ----------
    outcome, means
        What became of each row, and how its stem was known; numbers of `Outcome` and `Means`.
    asked
        The row of the packet that it stands on, -1 when it names none.
    stem
        The record it speaks of, a row of the upload's stems; -1: none.
    partner
        Where rows were exchanged: the row that stands on the line of this stem; -1 elsewhere.
    plot_differs
        Whether it names another plot than its row of the packet.
    blind
        Whether the former values were withheld.
    recorded, again
        Values as they held when the packet was made, and as measured again: azimuth in degrees, distance in metres,
        dbh in centimetres; NaN where there is none; shape (rows, 3).
    not_understood
        Whether something was typed that is no such value, shape (rows, 3).
    """

    outcome: NDArray[np.int8]
    means: NDArray[np.int8]
    asked: Integers
    stem: Integers
    partner: Integers
    plot_differs: NDArray[np.bool_]
    blind: NDArray[np.bool_]
    recorded: Floats
    again: Floats
    not_understood: NDArray[np.bool_]

    @property
    def compared(self) -> NDArray[np.bool_]:
        """Whether a row was compared with its stem."""
        mask: NDArray[np.bool_] = self.outcome == Outcome.COMPARED
        return mask


def match(upload: Upload, settings: Settings, entries: Sequence[Entry]) -> Matched | None:
    """Match what came back to the records; None when nothing did.

    A row belongs to the stem of the row of the packet that it names; one that names none, to the stem with its plot,
    visit and number. Where the values of rows of one plot fit far better on each other's lines, or a row that names
    another plot fits far better there, they are compared so.

    Parameters
    ----------
    entries
        The journal: values are compared with those that held when the packet was made.
    """
    returned = upload.returned
    if returned is None or not len(returned.rows):
        return None
    return _Matching(upload, settings, entries, returned).matched()


class _Matching:
    """The steps of one matching."""

    def __init__(self, upload: Upload, settings: Settings, entries: Sequence[Entry], returned: Returned) -> None:
        self._upload, self._settings, self._entries = upload, settings, entries
        self._rows, self._asked = returned.rows, returned.asked
        self._number = np.array([row_number(text) for text in cells(self._rows, "row")], np.int64)
        self._packet = cells(self._rows, "packet")
        self._own = [cells(self._rows, name) for name in ("plot", "visit", "tree", "stem")]
        known = {key: place for place, key in enumerate(zip(_folded(self._asked.packet), self._asked.row, strict=True))}
        keys = zip(_folded(self._packet), self._number.tolist(), strict=True)
        self.asked = np.array([known.get(key, -1) for key in keys], np.int64)
        asked = self._asked
        self._of_asked = rows_of(upload.stems, np.column_stack([asked.source, asked.line]))
        # A record that was replaced since is known by its plot and number.
        lost = np.flatnonzero((self._of_asked < 0) & (asked.source >= 0))
        names = (asked.plot, asked.visit, asked.tree, asked.stem)
        self._of_asked[lost] = self._by_number([each[lost] for each in names])
        after = np.append(asked.after_entry, -1)[self.asked]
        self._after = np.where(self.asked >= 0, after, returned.after_entry)
        self.again = measured_values(self._rows, settings)
        typed = np.column_stack([typed_texts(self._rows, place) != "" for place in range(len(MEASURED))])
        self._typed = typed.any(axis=1)
        self.not_understood = typed & np.isnan(self.again)

    def matched(self) -> Matched:
        spare = np.append(self._asked.source < 0, False)[self.asked]
        word = np.array([found(text) for text in cells(self._rows, "found")])
        named = self._by_number(self._own)
        self.stem = np.append(self._of_asked, -1)[self.asked]
        self.means = np.where(self.stem >= 0, Means.PACKET_ROW, Means.NONE)
        loose = (self.asked < 0) & (named >= 0)
        self.stem, self.means = np.where(loose, named, self.stem), np.where(loose, Means.NUMBER, self.means)

        filled = self._typed | (word != "") | (spare & (cells(self._rows, "remark") != ""))
        new = filled & ((word == "new") | (spare & (word != "no")))
        gone = (word == "no") & ~self._typed
        plots = _names(self._upload.stems, "plot") | _names(self._upload.plots, "plot")
        known_plot = np.array([plot in plots for plot in self._own[0]]) | (self.asked >= 0)
        outcome = np.select(
            [~filled & spare, ~filled, new & known_plot, new | (self.stem < 0), gone],
            [Outcome.SPARE, Outcome.NOT_FILLED_IN, Outcome.NEW, Outcome.UNMATCHED, Outcome.NOT_FOUND],
            Outcome.COMPARED,
        )
        self.stem = np.where(outcome == Outcome.NEW, -1, self.stem)
        plot = np.append(self._asked.plot, "")[self.asked]
        self.plot_differs = filled & (self.asked >= 0) & (self._own[0] != "") & (self._own[0] != plot)
        self.partner = np.full(len(outcome), -1, np.int64)
        compared = outcome == Outcome.COMPARED
        self.recorded = self._held(np.where(compared, self.stem, -1), self._after)
        self._believe_other_plots(compared, named)
        self._exchange(compared)
        outcome = np.where(self._repeated(outcome), Outcome.REPEATED, outcome)
        return Matched(
            outcome.astype(np.int8),
            self.means.astype(np.int8),
            self.asked,
            self.stem,
            self.partner,
            self.plot_differs,
            np.append(self._asked.blind, False)[self.asked],
            self.recorded,
            self.again,
            self.not_understood,
        )

    def _believe_other_plots(self, compared: NDArray[np.bool_], named: Integers) -> None:
        """Take rows to the stem of the plot that they name, where they fit far better there."""
        rows = np.flatnonzero(compared & self.plot_differs & (named >= 0) & (named != self.stem))
        there = self._held(named[rows], self._after[rows])
        stays, moved = self._misfit(rows, self.recorded[rows]), self._misfit(rows, there)
        better = (stays - moved >= _GAIN) & (moved <= _DOUBTFUL)
        rows = rows[better]
        self.stem[rows], self.means[rows], self.recorded[rows] = named[rows], Means.OTHER_PLOT, there[better]

    def _exchange(self, compared: NDArray[np.bool_]) -> None:
        """Take rows of one plot to each other's stems, where they fit far better so."""
        standing = np.flatnonzero(compared & (self.means == Means.PACKET_ROW))
        standing = standing[self._last_of(self.asked[standing])]
        asked = self._asked
        plots, group = _groups(asked.packet[self.asked[standing]], asked.plot[self.asked[standing]])
        doubtful = np.bincount(group, self._misfit(standing, self.recorded[standing]) > _DOUBTFUL, minlength=plots) > 0
        for place in np.flatnonzero(doubtful):
            rows = standing[group == place]
            cost = misfit(
                self.again[rows][:, None],
                self.recorded[rows][None],
                sd=difference_sd(self.recorded[rows], self._settings)[None],
                full_circle_at=0,
            )
            line = exchanged(cost, gain=_GAIN, fits=_FITS)
            moved = np.flatnonzero(line != np.arange(len(rows)))
            target = rows[line[moved]]
            self.stem[rows[moved]], self.recorded[rows[moved]] = self.stem[target], self.recorded[target]
            self.partner[rows[moved]], self.means[rows[moved]] = target, Means.EXCHANGED

    def _repeated(self, outcome: Integers) -> NDArray[np.bool_]:
        """Whether a row was filled in again further down or in a later table."""
        filled = np.isin(outcome, (Outcome.COMPARED, Outcome.NOT_FOUND, Outcome.NEW)) & (
            (self.asked >= 0) | (self.stem >= 0)
        )
        rows = np.flatnonzero(filled)
        repeated = np.zeros(len(outcome), bool)
        count = len(self._upload.stems)
        of_line = np.where(self.asked[rows] >= 0, count + self.asked[rows], self.stem[rows])
        repeated[rows[~self._last_of(of_line)]] = True
        return repeated

    @staticmethod
    def _last_of(keys: Integers) -> NDArray[np.bool_]:
        """Whether each is the last of its kind."""
        _, last = np.unique(keys[::-1], return_index=True)
        mask = np.zeros(len(keys), bool)
        mask[len(keys) - 1 - last] = True
        return mask

    def _by_number(self, names: Sequence[Texts]) -> Integers:
        """The last record not struck with each plot, visit and number; a visit counts where both name one. -1: none."""
        stems = self._upload.stems
        plot, wanted = stems.columns.get("plot"), set(names[0]) - {""}
        rows = np.zeros(0, np.int64)
        if plot is not None:
            asked = np.array([*(str(label).strip() in wanted for label in plot.labels), False])
            rows = np.flatnonzero(asked[plot.codes])
        few = Decisions(tuple(self._entries)).lay_over(stems.take(rows))
        stands = ~np.array([self._settings.status.strikes(status) for status in cells(few, "status")], bool)
        few, rows = few.take(np.flatnonzero(stands)), rows[stands]
        visits = cells(few, "visit")
        keys = list(zip(*(cells(few, name) for name in ("plot", "tree", "stem")), strict=True))
        with_visit = dict(zip(zip(keys, visits, strict=True), rows.tolist(), strict=True))
        without = dict(zip(keys, rows.tolist(), strict=True))
        rows_found = []
        for place, visit, tree, stem in zip(*names, strict=True):
            key = (place, tree, stem)
            numbered = bool(tree or stem)
            row = with_visit.get((key, visit), -1) if numbered else -1
            if row < 0 and numbered and (not visit or (key, "") in with_visit):
                row = without.get(key, -1)
            rows_found.append(row)
        return np.array(rows_found, np.int64)

    def _held(self, stems: Integers, after: Integers) -> Floats:
        """Values of stems as they were decided after an entry; NaN for row -1."""
        values = np.full((len(stems), len(MEASURED)), np.nan)
        for moment in np.unique(after[stems >= 0]):
            here = np.flatnonzero((stems >= 0) & (after == moment))
            decided = Decisions(until(self._entries, int(moment)))
            values[here] = measured_values(decided.lay_over(self._upload.stems.take(stems[here])), self._settings)
        return values

    def _misfit(self, rows: Integers, recorded: Floats) -> Floats:
        sd = difference_sd(recorded, self._settings)
        return misfit(self.again[rows], recorded, sd=sd, full_circle_at=0)


def _folded(names: Texts) -> list[str]:
    return [str(name).strip().casefold() for name in names]


def _names(records: Records, heading: str) -> set[str]:
    column = records.columns.get(heading)
    return set() if column is None else {str(label).strip() for label in column.labels}


def _groups(*names: Texts) -> tuple[int, Integers]:
    """Number of distinct combinations, and that of each."""
    codes: dict[tuple[str, ...], int] = {}
    group = [codes.setdefault(key, len(codes)) for key in zip(*names, strict=True)]
    return len(codes), np.array(group, np.int64)
