"""Layers of the survey file for a GIS: plots as circles and centres, stems as decided, findings."""

from __future__ import annotations

import sqlite3
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from typing import Any

from stemmap.store import geopackage
from stemmap.store.geometries import note_extent
from stemmap.store.layer_rows import (
    Differing,
    Layer,
    Row,
    RowSums,
    columns_of,
    differing_rows,
    insert_rows,
    row_sums,
)
from stemmap.store.schema import quoted
from stemmap.store.survey_file import SurveyFile, told
from stemmap.survey.journal import Entry, standing

#: When a layer was changed and made: as long as it is the same, nobody wrote it.
Stamp = tuple[Any, ...]

_PURPOSE = {
    "plots": "plots as circles, one for each visit",
    "plot_centres": "plot centres, one for each visit",
    "stems": "stems as decided, one for each record",
    "findings": "what is doubtful",
}


@dataclass(frozen=True)
class Layers:
    """The layers as they should be.

    Parameters
    ----------
    by_name
        plots, plot_centres, stems, findings.
    system
        The system of their positions; None where nothing has a place on the map.
    decided
        The decisions that hold, by id of their finding. A finding that is settled by its decision stays in the layer,
        so that it can be decided otherwise.
    at_entry
        The last journal entry that they know.
    """

    by_name: Mapping[str, Layer]
    system: geopackage.ReferenceSystem | None
    decided: Mapping[str, Entry]
    at_entry: int

    @property
    def srs(self) -> int:
        """Number of their system in the file."""
        return geopackage.NO_SYSTEM if self.system is None else self.system.srs_id


@dataclass(frozen=True)
class Written:
    """What became of the layers of a file.

    Parameters
    ----------
    kept
        Names under which layers were kept that another program had changed.
    rows
        By name of a layer: its stamp, and its rows as they were left under that.
    """

    kept: Sequence[str] = ()
    rows: Mapping[str, tuple[Stamp, RowSums]] = field(default_factory=dict)


@dataclass(frozen=True)
class Differences:
    """In which rows the layers of a file differ from what they should be.

    Parameters
    ----------
    stamps
        Of the layers that were compared: no other writer came since, as long as they are the same.
    of_layer
        By name; None for a layer that has to be made anew as a whole.
    settled
        Rows of findings that are settled by their decision, as they stand in the file.
    """

    stamps: Mapping[str, Stamp]
    of_layer: Mapping[str, Differing | None]
    settled: Sequence[Row]


def compare_layers(survey_file: SurveyFile, layers: Layers, before: Written | None = None) -> Differences:
    """Compare the layers of a file with what they should be; nothing is written, no transaction needed.

    Parameters
    ----------
    before
        How they were left the last time; layers that nobody wrote since are not read again.

    Raises
    ------
    InputError, OutputError
        When the file cannot be read.
    """
    with told(survey_file.path):
        return _compare(survey_file.connection, layers, before or Written())


def _compare(connection: sqlite3.Connection, layers: Layers, before: Written) -> Differences:
    stamps = _stamps(connection)
    settled = _as_they_were(connection, layers)
    of_layer: dict[str, Differing | None] = {}
    for name, layer in layers.by_name.items():
        declared = list(columns_of(connection, name).items()) == list(layer.declared().items())
        same_system = geopackage.system_of(connection, name) == layers.srs
        if not (declared and same_system) or geopackage.is_edited(connection, name):
            of_layer[name] = None
            continue
        stamp, present = before.rows.get(name, (None, None))
        if present is None or stamp != stamps[name]:
            present = row_sums(connection, name)
        of_layer[name] = differing_rows(present, _rows(layers, name, settled))
    return Differences(stamps, of_layer, settled)


def write_layers(connection: sqlite3.Connection, layers: Layers, differences: Differences | None = None) -> Written:
    """Bring the layers up to date, inside the caller's transaction.

    Only rows that differ are written. A layer that another program changed is kept under another name.

    Parameters
    ----------
    differences
        What `compare_layers` found before the transaction; it is compared again if somebody wrote layers since.
    """
    if differences is None or differences.stamps != _stamps(connection):
        differences = _compare(connection, layers, Written())
    if layers.system is not None:
        geopackage.add_system(connection, layers.system)
    kept = []
    for name, differing in differences.of_layer.items():
        layer = layers.by_name[name]
        if differing is None:
            if geopackage.is_edited(connection, name):
                kept.append(geopackage.set_aside(connection, name))
            _make_anew(connection, name, layer, layers.srs)
            for rows in _rows(layers, name, differences.settled):
                insert_rows(connection, name, rows)
        elif differing:
            geopackage.without_index(connection, name)
            connection.executemany(f"DELETE FROM {name} WHERE fid = ?", ((fid,) for fid in differing.gone))
            insert_rows(connection, name, differing.fresh, differing.fids)
        else:
            continue
        note_extent(connection, name, layer.x, layer.y)
        geopackage.note_made(connection, name, _PURPOSE[name])
    connection.execute("CREATE UNIQUE INDEX IF NOT EXISTS findings_id ON findings (id)")
    connection.execute("UPDATE survey_file SET layers_at = ?", (layers.at_entry,))
    stamps = _stamps(connection)
    of_layer = differences.of_layer.items()
    return Written(
        kept, {name: (stamps[name], differing.after) for name, differing in of_layer if differing is not None}
    )


def _make_anew(connection: sqlite3.Connection, name: str, layer: Layer, srs: int) -> None:
    """An empty layer in place of the one that is there, if there is one."""
    geopackage.without_index(connection, name)
    geopackage.unlist(connection, name)
    connection.execute(f"DROP TABLE IF EXISTS {name}")
    _, *others = layer.declared().items()
    declared = "".join(f", {quoted(each)} {kind}" for each, kind in others)
    connection.execute(f"CREATE TABLE {name} (fid INTEGER PRIMARY KEY{declared})")
    geopackage.add_features(connection, name, _PURPOSE[name], kind=layer.kind, srs_id=srs)
    if name == "findings":
        # One that was set aside keeps its index under this name.
        connection.execute("DROP INDEX IF EXISTS findings_id")


def edited_layers(survey_file: SurveyFile) -> list[str]:
    """Names of the layers that another program changed since they were made."""
    with told(survey_file.path):
        return [name for name in _PURPOSE if geopackage.is_edited(survey_file.connection, name)]


def mark_decided(connection: sqlite3.Connection, journal: Sequence[Entry]) -> bool:
    """Bring the layers up to date without working the survey up, inside the caller's transaction.

    That is enough as long as nobody did more since than to keep findings or to send the crew again: no value changes by
    that.

    Parameters
    ----------
    journal
        All entries.

    Returns
    -------
    Whether the layers are up to date now; if not, nothing was changed.
    """
    at = connection.execute("SELECT layers_at FROM survey_file").fetchone()[0]
    if at is None or any(geopackage.is_edited(connection, name) for name in _PURPOSE):
        return False
    before = standing(journal[:at])
    last = {entry.finding: entry for entry in journal[at:]}
    if any(entry.decision not in ("keep", "recheck") for entry in journal[at:]):
        return False
    rows = {
        finding: connection.execute(
            "SELECT fid, open, plot, visit, severity FROM findings WHERE id = ?", (finding,)
        ).fetchone()
        for finding in last
    }
    for finding, entry in last.items():
        was = before.get(finding)
        closed = rows[finding] is None or not rows[finding][1]
        if (was is not None and was.changes) or (closed and entry.decision == "recheck"):
            return False
    if last:
        for name in ("findings", "plots", "plot_centres"):
            geopackage.without_index(connection, name)
        for finding, entry in last.items():
            if rows[finding] is not None:
                _mark(connection, rows[finding], entry)
        for name in ("findings", "plots", "plot_centres"):
            geopackage.note_made(connection, name, _PURPOSE[name])
        connection.execute("UPDATE survey_file SET layers_at = ?", (journal[-1].entry,))
    return True


def _mark(connection: sqlite3.Connection, row: tuple[Any, ...], entry: Entry) -> None:
    fid, was_open, plot, visit, severity = row
    still_open = entry.decision != "keep"
    connection.execute(
        "UPDATE findings SET decision = ?, open = ? WHERE fid = ?", (entry.decision, int(still_open), fid)
    )
    if was_open and not still_open:
        for layer in ("plots", "plot_centres"):
            count = f"{severity}s"
            connection.execute(
                f"UPDATE {layer} SET {count} = {count} - 1 WHERE plot IS ? AND visit IS ?", (plot, visit)
            )


def _stamps(connection: sqlite3.Connection) -> dict[str, Stamp]:
    """When each layer was changed, and when it was made."""
    listed = connection.execute(
        "SELECT table_name, last_change, description FROM gpkg_contents WHERE data_type = 'features'"
    )
    return {name: (last_change, description) for name, last_change, description in listed}


def _rows(layers: Layers, name: str, settled: Sequence[Row]) -> Iterator[Sequence[Row]]:
    """Rows of a layer; for findings also those settled ones that are found no more."""
    layer, found = layers.by_name[name], set[str]()
    if name != "findings":
        yield from layer.rows(layers.srs)
        return
    place = 1 + list(layer.types).index("id")
    for rows in layer.rows(layers.srs):
        found.update(row[place] for row in rows)
        yield rows
    yield [row for row in settled if row[place] not in found]


def _as_they_were(connection: sqlite3.Connection, layers: Layers) -> list[Row]:
    """Rows of the layer as it was for decided findings, as they stand there once they are found no more."""
    before = geopackage.system_of(connection, "findings")
    if before is None:
        return []
    rows: list[Row] = []
    names = ["geom", *layers.by_name["findings"].types]
    for each, entry in layers.decided.items():
        cursor = connection.execute("SELECT * FROM findings WHERE id = ?", (each,))
        there = [column[0] for column in cursor.description]
        for values in cursor:
            row = dict(zip(there, values, strict=True)) | {"open": 0, "decision": entry.decision}
            if before != layers.srs:
                row["geom"] = None  # it stands in another system
            rows.append(tuple(row.get(name) for name in names))
    return rows
