"""A survey: visits and stems as columns, put together from the records of an upload and its settings."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass, replace
from functools import cached_property
from typing import Any
from urllib.parse import quote

import numpy as np
from numpy.typing import NDArray

from stemmap.survey.decided import NOTHING_DECIDED, Decisions
from stemmap.survey.records import Column, Records, Upload
from stemmap.survey.settings import Settings, StatusWords

#: Dates of one plot that lie no further apart than this belong to one visit.
VISIT_GAP_DAYS = 182


@dataclass(frozen=True)
class Visits:
    """One row for each plot and visit, in the order of the upload, the visits of a plot in the order of time.

    Parameters
    ----------
    plot, visit
        Names as typed, shape (v,); a visit without a name is an empty string.
    date
        First day of the visit, NaT when unknown, shape (v,).
    first_stem
        Stems of visit i are rows first_stem[i] to first_stem[i + 1] of the stems; shape (v + 1,).
    previous
        Row of the same plot's visit before, -1 when there is none; shape (v,).
    special, general
        For each visit its own row of the plot records, and the row that holds for all visits of the plot; -1 when
        there is none; shape (v,).
    records
        The plot records.
    """

    plot: NDArray[np.object_]
    visit: NDArray[np.object_]
    date: NDArray[np.datetime64]
    first_stem: NDArray[np.int64]
    previous: NDArray[np.int64]
    special: NDArray[np.int64]
    general: NDArray[np.int64]
    records: Records

    def __len__(self) -> int:
        return len(self.plot)

    @property
    def described(self) -> NDArray[np.bool_]:
        """Whether the plots table has a row for this visit; shape (v,)."""
        return (self.special >= 0) | (self.general >= 0)

    @cached_property
    def of_record(self) -> NDArray[np.int64]:
        """For each plot record the first visit that uses it, -1 when none does; shape (plot records,)."""
        user = np.full(len(self.records) + 1, -1, np.int64)
        for used in (self.general, self.special):
            user[used[::-1]] = np.arange(len(used))[::-1]
        return user[:-1]

    @cached_property
    def stem_count(self) -> NDArray[np.int64]:
        """Number of recorded stems, shape (v,)."""
        return np.diff(self.first_stem)

    def stems(self, row: int) -> slice:
        """Rows of the stems of one visit."""
        return slice(int(self.first_stem[row]), int(self.first_stem[row + 1]))

    def numbers(self, name: str) -> NDArray[np.float64]:
        """Numbers of a plot column by visit; NaN where nothing or no number was typed."""
        numbers = np.append(self.records.numbers(name), np.nan)
        own = numbers[self.special]
        return np.where(np.isnan(own), numbers[self.general], own)

    def texts(self, name: str) -> NDArray[np.object_]:
        """Texts of a plot column by visit as typed; empty where nothing was typed."""
        texts = np.append(self.records.texts(name), "")
        own = texts[self.special]
        return np.where(own == "", texts[self.general], own)

    def text(self, name: str, row: int) -> str:
        """Text of a plot column at one visit as typed; empty where nothing was typed."""
        column = self.records.columns.get(name)
        if column is None:
            return ""
        rows = [place for place in (self.special[row], self.general[row]) if place >= 0]
        codes = [code for code in column.codes[rows].tolist() if code >= 0]
        return str(column.labels[codes[0]]) if codes else ""

    def unsaid_date(self, row: int) -> str:
        """Date of a visit that is known and not its name already; else empty."""
        date = str(self.date[row])
        if date == "NaT" or {*map(int, date.split("-"))} == {*map(int, re.findall(r"\d+", str(self.visit[row])))}:
            return ""
        return date

    def words(self, name: str) -> tuple[list[str], NDArray[np.int64]]:
        """Distinct texts of a plot column without blanks around them, sorted, and the place of each visit's among them.

        The empty text is always among them.
        """
        column = self.records.columns.get(name)
        if column is None:
            return [""], np.zeros(len(self), np.int64)
        codes = np.append(column.codes, -1)
        code = np.where(codes[self.special] < 0, codes[self.general], codes[self.special])
        stripped = [*(str(label).strip() for label in column.labels), ""]
        used = sorted({stripped[each] for each in np.unique(code).tolist()} | {""})
        place = {word: number for number, word in enumerate(used)}
        return used, np.array([place.get(word, 0) for word in stripped], np.int64)[code]


@dataclass(frozen=True)
class Stems:
    """One row for each recorded stem, sorted by visit, within a visit in the order of the upload.

    Parameters
    ----------
    records
        The stem records in that order.
    visit_row
        Row of the visit, shape (n,).
    """

    records: Records
    visit_row: NDArray[np.int64]

    def __len__(self) -> int:
        return len(self.visit_row)

    def numbers(self, name: str) -> NDArray[np.float64]:
        """Numbers of a column by stem; NaN where nothing or no number was typed."""
        return self.records.numbers(name)

    def texts(self, name: str) -> NDArray[np.object_]:
        """Texts of a column by stem as typed; empty where nothing was typed."""
        return self.records.texts(name)

    def stand_as(self, other: Stems) -> bool:
        """Whether the same records stand in the same rows of other stems, whatever their values."""
        mine, theirs = self.records, other.records
        return np.array_equal(mine.line, theirs.line) and np.array_equal(mine.source, theirs.source)

    def having(self, columns: Mapping[str, Column]) -> Stems:
        """The same stems with other values; plots, visits and numbers must be the same."""
        made = Stems(replace(self.records, columns=columns), self.visit_row)
        for name in ("number_code", "occurrence"):
            if name in self.__dict__:  # worked out already, and the same for both
                made.__dict__[name] = self.__dict__[name]
        return made

    def label(self, row: int) -> str:
        """Stem number as typed; the tree's where stems have none; empty where neither was typed."""
        for name in ("stem", "tree"):
            column = self.records.columns.get(name)
            if column is not None and column.codes[row] >= 0:
                return str(column.labels[column.codes[row]])
        return ""

    @cached_property
    def number_code(self) -> NDArray[np.int64]:
        """A code that is equal for two stems exactly when tree and stem number are typed alike; -1 without both."""
        code = np.zeros(len(self), np.int64)
        for name in ("tree", "stem"):
            column = self.records.columns.get(name)
            if column is not None:
                code = code * (len(column.labels) + 1) + column.alike() + 1
        return code - 1

    @cached_property
    def occurrence(self) -> NDArray[np.int64]:
        """1 for the first stem with its number on its visit, 2 for the second, and so on; shape (n,)."""
        return _count_within(self.visit_row, self.number_code)

    def key(self, row: int) -> str:
        """Tree, stem number and occurrence as one text that names a record of a visit and nothing else.

        It has neither white space nor a slash: such characters, and the point and tilde that part it, are escaped.
        """
        parts = []
        for name in ("tree", "stem"):
            column = self.records.columns.get(name)
            if column is not None:
                typed = str(column.labels[column.codes[row]]).strip() if column.codes[row] >= 0 else ""
                if not (typed.isascii() and typed.isalnum()):
                    typed = quote(typed, safe="").replace(".", "%2E").replace("~", "%7E").replace("-", "%2D")
                parts.append(typed or "-")
        again = int(self.occurrence[row])
        return (".".join(parts) or "-") + (f"~{again}" if again > 1 else "")


@dataclass(frozen=True)
class StandGround:
    """The polygons of a stand.

    Parameters
    ----------
    name
        Of the file they come from.
    crs
        Their coordinate system.
    polygons
        One shapely geometry of all of them.
    """

    name: str
    crs: str
    polygons: Any


@dataclass(frozen=True)
class Survey:
    """Everything known of a survey before anything is computed.

    Parameters
    ----------
    settings
        Units, design, errors.
    visits, stems
        The model's columns.
    stations
        Further stand-points, as typed.
    unplaced, struck
        Stem records that name no plot, and those that are struck by their status; kept, counted nowhere.
    upload
        The records as typed, from which the survey can be put together again under other settings.
    decisions
        What was decided about them; the values that it changes stand in `stems`.
    ground
        The polygons of the stand, where the settings name them and they were found.
    """

    settings: Settings
    visits: Visits
    stems: Stems
    stations: Records
    unplaced: Records
    struck: Records
    upload: Upload
    decisions: Decisions = NOTHING_DECIDED
    ground: StandGround | None = None

    def under(self, settings: Settings) -> Survey:
        """The same records under other settings."""
        if settings.status.struck != self.settings.status.struck:
            return replace(assemble(self.upload, settings, self.decisions), ground=self.ground)
        return replace(self, settings=settings)

    def visit_row(self, plot: str, visit: str | None = None) -> int:
        """Row of a plot's visit; of its last visit when none is named; -1 when there is none."""
        rows = np.flatnonzero(self.visits.plot == plot)
        if visit is not None:
            rows = rows[self.visits.visit[rows] == visit]
        return int(rows[-1]) if len(rows) else -1


def assemble(upload: Upload, settings: Settings, decisions: Decisions = NOTHING_DECIDED) -> Survey:
    """Put the records of an upload together as plots, visits and stems, with what was decided laid over them.

    A plot row without a visit holds for all visits of its plot. Stems without a `visit` column are grouped by date:
    dates of one plot within half a year are one visit, named by its first date as typed. A row of a field packet is a
    stem where it was decided so.
    """
    plots = upload.plots
    stems = decisions.lay_over(upload.stems, upload.returned.rows if upload.returned else None)
    stems, struck = _without_struck(stems, settings.status)
    named = np.flatnonzero(stems.columns["plot"].filled) if stems.has("plot") else np.zeros(0, np.int64)
    unplaced = np.setdiff1d(np.arange(len(stems)), named, assume_unique=True)
    placed = stems if len(named) == len(stems) else stems.take(named)

    plot_names, (plot_of_row, plot_of_stem) = _shared_codes(plots, placed, "plot")
    visit_names, (visit_of_row, visit_of_stem) = _shared_codes(plots, placed, "visit")
    if placed.has("date") or not len(placed):
        visit_names, visit_of_row, visit_of_stem = _visits_from_dates(
            plots, placed, (plot_of_row, plot_of_stem), (visit_of_row, visit_of_stem), visit_names
        )
    visit_of_stem = _adopt_only_visit(plot_of_stem, visit_of_stem, plot_of_row, visit_of_row)

    width = len(visit_names) + 1
    valid = plot_of_row >= 0
    general_rows = np.flatnonzero(valid & (visit_of_row < 0))
    special_rows = np.flatnonzero(valid & (visit_of_row >= 0))
    stem_pairs = plot_of_stem * width + visit_of_stem + 1
    pairs = _distinct(np.concatenate([stem_pairs, (plot_of_row * width + visit_of_row + 1)[special_rows]]))
    has_visit = np.isin(np.arange(len(plot_names)), pairs // width)
    general_plot = _distinct(plot_of_row[general_rows])
    without_visit = general_plot[~has_visit[general_plot]]
    pairs = np.concatenate([pairs, without_visit * width])
    plot, visit = pairs // width, pairs % width - 1

    row_pairs = np.where(visit_of_row >= 0, plot_of_row * width + visit_of_row + 1, -1)
    general_plots = np.where(visit_of_row < 0, plot_of_row, -1)
    own = _first_days(pairs, row_pairs, plots.dates("date"))
    of_stems = _first_days(pairs, stem_pairs, placed.dates("date"))
    of_plot = _first_days(plot, general_plots, plots.dates("date"))
    date = np.where(np.isnat(own), np.where(np.isnat(of_stems), of_plot, of_stems), own)
    # A date tells the order only where all visits of the plot have one.
    undated = np.isin(plot, plot[np.isnat(date)])
    order = np.lexsort((_natural_rank(visit_names)[visit], np.where(undated, 0.0, _as_sortable(date)), plot))
    pairs, plot, visit, date = pairs[order], plot[order], visit[order], date[order]

    row_of_pair = np.argsort(pairs)
    visit_row = row_of_pair[np.searchsorted(pairs[row_of_pair], stem_pairs)]
    stem_order = np.argsort(visit_row, kind="stable")
    if not np.array_equal(stem_order, np.arange(len(stem_order))):
        placed, visit_row = placed.take(stem_order), visit_row[stem_order]

    visits = Visits(
        plot=np.append(plot_names, "")[plot],
        visit=np.append(visit_names, "")[visit],
        date=date,
        first_stem=np.searchsorted(visit_row, np.arange(len(pairs) + 1)),
        previous=np.where(np.append(-1, plot[:-1]) == plot, np.arange(len(plot)) - 1, -1)
        if len(plot)
        else np.zeros(0, np.int64),
        special=_first_row(pairs, (plot_of_row * width + visit_of_row + 1)[special_rows], special_rows),
        general=_first_row(plot, plot_of_row[general_rows], general_rows),
        records=plots,
    )
    return Survey(
        settings, visits, Stems(placed, visit_row), upload.stations, stems.take(unplaced), struck, upload, decisions
    )


def _without_struck(stems: Records, words: StatusWords) -> tuple[Records, Records]:
    """Stem records that are not struck by their status, and those that are."""
    status = stems.columns.get("status")
    if status is None:
        return stems, stems.take(np.zeros(0, np.int64))
    strikes = np.array([*(words.strikes(str(label)) for label in status.labels), False])
    struck = strikes[status.codes]
    if not struck.any():
        return stems, stems.take(np.zeros(0, np.int64))
    return stems.take(np.flatnonzero(~struck)), stems.take(np.flatnonzero(struck))


def _shared_codes(
    plots: Records, stems: Records, name: str
) -> tuple[NDArray[np.object_], tuple[NDArray[np.int64], NDArray[np.int64]]]:
    """Names of a column that two tables share, in order of appearance, and each table's codes into them (-1: none)."""
    names: dict[str, int] = {}
    codes = []
    for records in (plots, stems):
        column = records.columns.get(name)
        if column is None:
            codes.append(np.full(len(records), -1, np.int64))
            continue
        used, first = np.unique(column.codes, return_index=True)
        used = used[np.argsort(first)]
        shared = np.full(len(column.labels) + 1, -1, np.int64)
        for code in used[used >= 0]:
            shared[code] = names.setdefault(str(column.labels[code]).strip(), len(names))
        codes.append(shared[column.codes])
    return np.array(list(names), dtype=object), (codes[0], codes[1])


def _visits_from_dates(
    plots: Records,
    stems: Records,
    plot: tuple[NDArray[np.int64], NDArray[np.int64]],
    visit: tuple[NDArray[np.int64], NDArray[np.int64]],
    visit_names: NDArray[np.object_],
) -> tuple[NDArray[np.object_], NDArray[np.int64], NDArray[np.int64]]:
    """Names of visits, and each table's codes into them, where dates say what no visit column says.

    A new visit begins where the dates of a plot leave a gap of more than half a year. It is named by a record that
    names its visit, else by its first date as typed. Plot rows without a visit get one only where the dates of a
    plot's rows belong to several visits; a single row holds for all of them.
    """
    by_date = not stems.has("visit")
    count = len(plots)
    dates = np.concatenate([plots.dates("date"), stems.dates("date")])
    plot_of, visit_of = np.concatenate(plot), np.concatenate(visit)
    day = _as_sortable(dates)
    is_stem = np.arange(len(dates)) >= count
    rows = np.flatnonzero((plot_of >= 0) & (np.isfinite(day) | (is_stem & by_date)))
    order = rows[np.lexsort((day[rows], plot_of[rows]))]
    if not len(order):
        return visit_names, *visit
    sorted_day, sorted_plot = day[order], plot_of[order]
    # A date that was not understood sorts last (infinity) and stays with the visit before it.
    gap = np.where(np.isinf(sorted_day[1:]), 0.0, sorted_day[1:] - np.minimum(sorted_day[:-1], 1e18))
    starts = np.append(True, (np.diff(sorted_plot) != 0) | (gap > VISIT_GAP_DAYS))
    group = np.cumsum(starts) - 1

    name_of_group = np.full(int(group[-1]) + 1, -1, np.int64)
    named = np.flatnonzero(visit_of[order] >= 0)[::-1]
    name_of_group[group[named]] = visit_of[order[named]]
    if by_date:
        nameless = np.flatnonzero(name_of_group < 0)
        texts = np.concatenate([plots.texts("date"), stems.texts("date")])[order[starts][nameless]]
        names = {str(name): code for code, name in enumerate(visit_names)}
        name_of_group[nameless] = [
            names.setdefault(text.strip(), len(names)) if text else -1 for text in map(str, texts)
        ]
        visit_names = np.array(list(names), dtype=object)

    made = visit_of.copy()
    if by_date:
        made[order] = np.where(is_stem[order], name_of_group[group], made[order])
    loose = ~is_stem[order] & (made[order] < 0)
    having, groups = np.unique(sorted_plot[starts][np.unique(group[loose])], return_counts=True)
    parted = loose & np.isin(sorted_plot, having[groups > 1])
    made[order[parted]] = name_of_group[group[parted]]
    return visit_names, made[:count], made[count:]


def _adopt_only_visit(
    plot_of_stem: NDArray[np.int64],
    visit_of_stem: NDArray[np.int64],
    plot_of_row: NDArray[np.int64],
    visit_of_row: NDArray[np.int64],
) -> NDArray[np.int64]:
    """Stems that name no visit belong to their plot's visit when the plots table names just one."""
    known = (plot_of_row >= 0) & (visit_of_row >= 0)
    if not known.any() or not (visit_of_stem < 0).any():
        return visit_of_stem
    size = max(int(plot_of_row.max()), int(plot_of_stem.max(initial=-1))) + 1
    lowest = np.full(size, np.iinfo(np.int64).max)
    highest = np.full(size, -1, np.int64)
    np.minimum.at(lowest, plot_of_row[known], visit_of_row[known])
    np.maximum.at(highest, plot_of_row[known], visit_of_row[known])
    only = np.where(lowest == highest, highest, -1)
    return np.where(visit_of_stem < 0, only[plot_of_stem], visit_of_stem)


def _distinct(codes: NDArray[np.int64]) -> NDArray[np.int64]:
    """The distinct codes in order; sorted, since `numpy.unique` counts by a table that stops all other threads."""
    ordered = np.sort(codes)
    distinct: NDArray[np.int64] = ordered[np.diff(ordered, prepend=-1) != 0]
    return distinct


def _first_days(
    wanted: NDArray[np.int64], keys: NDArray[np.int64], dates: NDArray[np.datetime64]
) -> NDArray[np.datetime64]:
    """First day among the dated rows that carry each wanted key; NaT where there is none."""
    dated = np.flatnonzero(~np.isnat(dates) & (keys >= 0))
    rows = dated[np.lexsort((dates[dated], keys[dated]))]
    first = _first_row(wanted, keys[rows], rows)
    days: NDArray[np.datetime64] = np.append(dates, np.datetime64("NaT", "D"))[first]
    return days


def _as_sortable(dates: NDArray[np.datetime64]) -> NDArray[np.float64]:
    """Days as numbers; an unknown date sorts last."""
    return np.where(np.isnat(dates), np.inf, dates.astype("datetime64[D]").astype(np.int64).astype(np.float64))


def _natural_rank(names: NDArray[np.object_]) -> NDArray[np.int64]:
    """Rank of each name with numbers inside sorted as numbers; one more entry (the last) for "no name"."""

    def key(name: str) -> list[tuple[int, int, str]]:
        parts = re.findall(r"\d+|\D+", name)
        return [(0, int(part), "") if part.isdecimal() else (1, 0, part) for part in parts]

    rank = np.full(len(names) + 1, -1, np.int64)
    rank[sorted(range(len(names)), key=lambda code: key(str(names[code])))] = np.arange(len(names))
    return rank


def _first_row(wanted: NDArray[np.int64], keys: NDArray[np.int64], rows: NDArray[np.int64]) -> NDArray[np.int64]:
    """For each wanted key the first of `rows` that carries it; -1 when none does."""
    if not len(keys):
        return np.full(len(wanted), -1, np.int64)
    distinct, first = np.unique(keys, return_index=True)
    place = np.minimum(np.searchsorted(distinct, wanted), len(distinct) - 1)
    return np.where(distinct[place] == wanted, rows[first[place]], -1)


def _count_within(group: NDArray[np.int64], code: NDArray[np.int64]) -> NDArray[np.int64]:
    """Running number, from 1, of each row among the rows with the same group and code."""
    order = np.lexsort((code, group))
    same = (np.diff(group[order]) == 0) & (np.diff(code[order]) == 0)
    place = np.arange(len(order))
    start = np.maximum.accumulate(np.where(np.append(True, ~same)[: len(order)], place, 0))
    count = np.empty(len(order), np.int64)
    count[order] = place - start + 1
    return count


__all__ = ["Column", "Stems", "Survey", "Visits", "assemble"]
