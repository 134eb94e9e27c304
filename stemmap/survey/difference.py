"""What an upload says that is new: against the records of the same plots and visits that a survey holds already."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace
from typing import Literal

import numpy as np
from numpy.typing import NDArray

from stemmap.survey.fields import Table
from stemmap.survey.records import Column, Records, Upload
from stemmap.survey.survey import Survey, assemble

Rows = NDArray[np.int64]
#: One number for what stands in a row, equal where the row is typed alike; two others fall together once in 1e19.
Sums = NDArray[np.uint64]


def _no_rows() -> Rows:
    return np.zeros(0, np.int64)


@dataclass(frozen=True)
class TableDifference:
    """Rows of one table that differ between a survey and an upload.

    Parameters
    ----------
    new
        Rows of the upload about plot visits that nobody uploaded yet.
    more
        Rows of the upload that known plot visits did not have.
    changed, was
        Rows of the upload that are typed otherwise, and the rows of the survey that they change; shape (c,).
    gone
        Rows of the survey that the upload has no more for the same plot visits.
    """

    new: Rows
    more: Rows = field(default_factory=_no_rows)
    changed: Rows = field(default_factory=_no_rows)
    was: Rows = field(default_factory=_no_rows)
    gone: Rows = field(default_factory=_no_rows)


@dataclass(frozen=True)
class Differing:
    """A record that differs, or one value of it.

    Parameters
    ----------
    kind
        new: the survey does not have it; gone: the upload has it no more; changed: a value is another one.
    plot, visit, stem
        As typed; the stem is empty for a plot row.
    field, old, new
        Heading or canonical field of a value that changed, with its texts; empty for whole records.
    """

    kind: Literal["new", "gone", "changed"]
    plot: str
    visit: str
    stem: str
    field: str = ""
    old: str = ""
    new: str = ""


@dataclass(frozen=True)
class Difference:
    """What an upload says against a survey; rows are those of the records as typed.

    Parameters
    ----------
    held, upload
        The records of the survey and of the upload.
    tables
        Table by table.
    """

    held: Upload
    upload: Upload
    tables: Mapping[Table, TableDifference]

    @property
    def changes(self) -> int:
        """Number of records that differ on known plot visits."""
        return sum(len(told.more) + len(told.changed) + len(told.gone) for told in self.tables.values())

    @property
    def new(self) -> int:
        """Number of records that are about nothing known."""
        return sum(len(told.new) for told in self.tables.values())

    @property
    def counts(self) -> tuple[int, int, int, int]:
        """Numbers of stems that are new, gone and changed on known plot visits, and of changed plot rows."""
        stems = self.tables["stems"]
        return len(stems.more), len(stems.gone), len(stems.changed), len(self.tables["plots"].changed)

    def sentence(self) -> str:
        """The difference on known plot visits in words."""
        more, gone, changed, plots = self.counts
        counts = (
            (more, "new stem", "new stems"),
            (gone, "stem that is gone", "stems that are gone"),
            (changed, "changed stem", "changed stems"),
            (plots, "changed plot row", "changed plot rows"),
        )
        words = ", ".join(f"{count} {one if count == 1 else many}" for count, one, many in counts if count)
        if not words:
            return "Nothing differs on the plots that the survey file has."
        where = ", ".join(self.plots()[:5])
        return (
            f"The upload differs from what the survey file has of the same plots and visits: {words} (plots {where})."
        )

    def records(self, most: int) -> list[Differing]:
        """The records that differ on known plot visits one by one, no more than `most`."""
        told: list[Differing] = []
        for table in ("stems", "plots"):
            held, upload, differs = getattr(self.held, table), getattr(self.upload, table), self.tables[table]
            old, new = held.take(differs.was[:most]), upload.take(differs.changed[:most])
            told += [each for row in range(len(new)) for each in _values(old, new, row)]
            more, gone = upload.take(differs.more[:most]), held.take(differs.gone[:most])
            told += [Differing("new", *_named(more, row)) for row in range(len(more))]
            told += [Differing("gone", *_named(gone, row)) for row in range(len(gone))]
        return told[:most]

    def plots(self) -> list[str]:
        """Names of plots with records that differ, a few."""
        names: list[str] = []
        for table, told in self.tables.items():
            rows = np.concatenate([told.more[:5], told.changed[:5]])
            names += map(str, getattr(self.upload, table).take(rows).texts("plot"))
            names += map(str, getattr(self.held, table).take(told.gone[:5]).texts("plot"))
        return list(dict.fromkeys(names))

    def to_add(self, *, replaces: bool) -> tuple[Upload, dict[Table, list[tuple[int, int]]]]:
        """The records to be added, and by table (source, line) of those that they replace."""
        parts: dict[Table, Records] = {}
        gone: dict[Table, list[tuple[int, int]]] = {}
        for table, told in self.tables.items():
            added = [told.new, told.more, told.changed] if replaces else [told.new]
            parts[table] = getattr(self.upload, table).take(np.sort(np.concatenate(added)))
            if replaces:
                old = getattr(self.held, table).take(np.concatenate([told.was, told.gone]))
                gone[table] = list(zip(old.source.tolist(), old.line.tolist(), strict=True))
        return replace(self.upload, plots=parts["plots"], stems=parts["stems"], stations=parts["stations"]), gone


def _named(records: Records, row: int) -> tuple[str, str, str]:
    """Plot, visit and number of a record as typed."""
    plot, visit, tree, stem, date = (_cell(records, name, row) for name in ("plot", "visit", "tree", "stem", "date"))
    return plot, visit or date, stem or tree


def _cell(records: Records, name: str, row: int) -> str:
    column = records.columns.get(name) or records.other.get(name)
    return "" if column is None or column.codes[row] < 0 else str(column.labels[column.codes[row]]).strip()


def _values(old: Records, new: Records, row: int) -> list[Differing]:
    """The values in which two records differ that stand in the same row of two tables."""
    names = dict.fromkeys(name for records in (old, new) for name in (*records.columns, *records.other))
    cells = [(name, _cell(old, name, row), _cell(new, name, row)) for name in names]
    return [Differing("changed", *_named(new, row), *cell) for cell in cells if cell[1] != cell[2]]


def difference(known: Survey, fresh: Survey) -> Difference:
    """Hold an upload, assembled by itself, against a survey.

    Stems are the same record when plot, visit, number and occurrence agree as typed; plot rows when plot and visit do.
    """
    held, upload = known.upload, fresh.upload
    if held.returned or known.decisions.values:
        # An upload is held against what was uploaded, not against what was decided or added by crews since.
        known = assemble(replace(held, returned=None), known.settings)
    return Difference(
        held,
        upload,
        {
            "plots": _of_plots(held.plots, upload.plots),
            "stems": _of_stems(known, fresh),
            "stations": TableDifference(np.flatnonzero(~np.isin(*_sums(upload.stations, held.stations)))),
        },
    )


def _of_plots(held: Records, rows: Records) -> TableDifference:
    new_key, old_key = _sums(rows, held, ("plot", "visit"))
    new_text, old_text = _sums(rows, held)
    _, mine, theirs = np.intersect1d(new_key, old_key, return_indices=True)
    differs = new_text[mine] != old_text[theirs]
    return TableDifference(np.flatnonzero(~np.isin(new_key, old_key)), changed=mine[differs], was=theirs[differs])


def _of_stems(known: Survey, fresh: Survey) -> TableDifference:
    new_text, old_text = _sums(fresh.upload.stems, known.upload.stems)
    new_row, old_row = _typed_rows(fresh), _typed_rows(known)
    new_visit, old_visit = _visit_codes(fresh, known)
    number = _sums(fresh.stems.records, known.stems.records, ("tree", "stem"))
    new_key = _mixed([number[0], new_visit[fresh.stems.visit_row], fresh.stems.occurrence])
    old_key = _mixed([number[1], old_visit[known.stems.visit_row], known.stems.occurrence])
    with_stems = [
        np.unique(code[visits.stem_count > 0])
        for code, visits in ((new_visit, fresh.visits), (old_visit, known.visits))
    ]
    on_known = np.isin(new_visit, with_stems[1])[fresh.stems.visit_row]
    asked_again = np.isin(old_visit, with_stems[0])[known.stems.visit_row]
    _, mine, theirs = np.intersect1d(new_key, old_key, return_indices=True)
    mine, theirs = mine[on_known[mine]], theirs[on_known[mine]]
    differs = new_text[new_row[mine]] != old_text[old_row[theirs]]
    more, gone = on_known.copy(), asked_again.copy()
    more[mine] = gone[theirs] = False
    # Stems that name no plot are new unless the same line was uploaded before.
    loose = np.setdiff1d(np.arange(len(new_text)), new_row)
    loose = loose[~np.isin(new_text[loose], old_text)]
    return TableDifference(
        new=np.concatenate([new_row[~on_known], loose]),
        more=new_row[more],
        changed=new_row[mine[differs]],
        was=old_row[theirs[differs]],
        gone=old_row[gone],
    )


def _typed_rows(survey: Survey) -> Rows:
    """Row in the upload of each stem of a survey."""

    def places(records: Records) -> NDArray[np.int64]:
        return records.source.astype(np.int64) << 32 | records.line.astype(np.int64)

    typed = places(survey.upload.stems)
    order = np.argsort(typed, kind="stable")
    rows: Rows = order[np.searchsorted(typed, places(survey.stems.records), sorter=order)]
    return rows


def _visit_codes(fresh: Survey, known: Survey) -> tuple[Rows, Rows]:
    """Codes of the plot visits of two surveys, equal where plot and visit are named alike."""
    codes: dict[tuple[str, str], int] = {}
    both = [
        np.array([codes.setdefault(pair, len(codes)) for pair in zip(visits.plot, visits.visit, strict=True)], np.int64)
        for visits in (fresh.visits, known.visits)
    ]
    return both[0], both[1]


def _sums(mine: Records, theirs: Records, names: Sequence[str] | None = None) -> tuple[Sums, Sums]:
    """A number for what was typed in each row of two tables; of all columns, or of those named."""
    if names is None:
        sides = [
            dict(records.columns) | {f" {name}": column for name, column in records.other.items()}
            for records in (mine, theirs)
        ]
        names = sorted({*sides[0], *sides[1]})
    else:
        sides = [dict(mine.columns), dict(theirs.columns)]
    mixed: list[list[Rows]] = [[], []]
    for name in names:
        codes: dict[str, int] = {}
        for side, records in enumerate((mine, theirs)):
            column = sides[side].get(name)
            mixed[side].append(np.zeros(len(records), np.int64) if column is None else _shared(column, codes))
    return _mixed(mixed[0], len(mine)), _mixed(mixed[1], len(theirs))


def _shared(column: Column, codes: dict[str, int]) -> Rows:
    """Code of each row's text, from 1, equal in all columns coded with the same table; 0 where nothing was typed."""
    labels = [codes.setdefault(str(label).strip(), len(codes) + 1) for label in column.labels]
    coded: Rows = np.array([*labels, 0], np.int64)[column.codes]
    return coded


def _mixed(parts: Sequence[NDArray[np.integer]], count: int | None = None) -> Sums:
    """One number a row from several."""
    total = np.zeros(len(parts[0]) if count is None else count, np.uint64)
    for part in parts:
        # Multiplication and folding of the upper half, as in SplitMix64.
        total = (total ^ part.astype(np.uint64)) * np.uint64(0xBF58476D1CE4E5B9) + np.uint64(0x9E3779B97F4A7C15)
        total ^= total >> np.uint64(31)
    return total
