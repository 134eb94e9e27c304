"""Small uploads, settings, decisions and survey files, and ways to damage them."""

import csv
import io
import json
import random
import sqlite3
import zipfile
import zlib
from collections.abc import Callable, Mapping
from contextlib import closing, suppress
from pathlib import Path
from types import MappingProxyType
from typing import Any

import xlsxwriter

from stemmap.store.decisions import Request, decide
from stemmap.store.survey_file import opened
from stemmap.tasks.packet import make_packet
from stemmap.tasks.packet_plots import Errand
from stemmap.tasks.survey_file import refresh_layers
from tests.store.crash import make_survey

#: Contents by file name.
Files = Mapping[str, bytes]

SAMPLE = Path(__file__).parents[1] / "sample_data"

_NASTY = (
    *("", " ", "0", "-1", "1e308", "-1e999", "9" * 400, "nan", "inf", "1,5", "1.234,5", "½", "١٢", "−3", "12x", "\x00"),
    *("\x1b[2J", "\ud800", "\ufeff", "\u202e", "=1+1", '"', '""', "a\nb", "\r", ";", ",", "\t", "2026-02-30"),
    *("0001-01-01", "99999-01-01", "true", "null", "plot", "ñ" * 300, "1e-320", "0x10", "1_000", "+5", "NaN", "%s"),
    *("{}", "../x", "{stem.__class__}", "{0}", "360", "400", "-0", "1e5", "1e-5", "18446744073709551616", "\u2028"),
)
_NASTY_JSON: tuple[Any, ...] = (
    *(None, True, False, 0, -1, 1e308, -1e308, 10**40, "", "x", "1,5", [], {}, [[]], [None], {"a": {}}, [1, 2, 3]),
    *("\ud800", "\x00", "ñ" * 300, [0, 0], [1e300, 1e300], [10.0, 95.0], ["a", "b"], float("nan"), float("inf")),
)
_NASTY_SQL: tuple[Any, ...] = (
    None,
    0,
    -1,
    2**62,
    1e308,
    -1e308,
    float("inf"),
    "",
    "x",
    "1,5",
    "ñ" * 300,
    b"",
    b"GP\0\1",
)
_NASTY_TOML = (
    *("0", "-1", "1e308", "nan", "inf", "-inf", "true", '""', '"x"', "[]", "{}", "[[]]", "[1, 2]", "2026-01-01", "'''"),
    *('"gon"', '"slope"', '"magnetic"', '"concentric"', '"angle_count"', "1e-300", "10_000", "[{radius_m = 1}]"),
    *(
        "9" * 400,
        "9" * 5000,
        '"\\u0000"',
        '"EPSG:4326"',
        '"EPSG:25832"',
        '"+proj=longlat"',
        "[{radius_m = 4, min_dbh_cm = 50}]",
    ),
)

_SETTINGS = """[survey]
name = "A"
crs = "EPSG:25832"
[measurement]
azimuth_unit = "degree"
north = "grid"
distance = "horizontal"
distance_to = "axis"
method = "from_centre"
breast_height_m = 1.3
length_unit = "metre"
[design]
kind = "concentric"
circles = [{radius_m = 4.0, min_dbh_cm = 7.0}, {radius_m = 9.0, min_dbh_cm = 20.0}]
slope = "horizontal"
[errors]
azimuth_sd_deg = 1.0
distance_sd_m = 0.05
dbh_sd_mm = 3
borderline_probability = 0.025
[instrument]
max_dbh_cm = 100
[columns]
dbh_cm = "thickness"
"""


def _stems(visits: tuple[str, ...] = ("",), stems: int = 4) -> list[list[str]]:
    rows = [["plot", "visit", "stem", "azimuth", "distance_m", "dbh_cm", "species", "status"]]
    for visit in visits:
        for plot in ("A", "B"):
            rows += [
                [plot, visit, str(n), str(n * 50 + len(visit)), f"{2 + n}.{n}", f"{15 + 5 * n}.5", "oak", "alive"]
                for n in range(1, stems + 1)
            ]
    return rows


_PLOTS = [["plot", "date", "easting", "northing", "radius_m"], ["A", "2026-05-03", "500000", "5600000", "9"]]
_PLOTS += [["B", "2026-05-04", "500100", "5600000", "9"]]


def _csv(rows: list[list[str]], separator: str = ";") -> bytes:
    return "".join(f"{separator.join(row)}\n" for row in rows).encode()


def _geojson(rows: list[list[str]]) -> bytes:
    features = [
        {
            "type": "Feature",
            "properties": {name: _number(text) for name, text in zip(rows[0], row, strict=True)},
            "geometry": {"type": "Point", "coordinates": [10.0 + number / 1000, 50.1]},
        }
        for number, row in enumerate(rows[1:])
    ]
    return json.dumps({"type": "FeatureCollection", "features": features}).encode()


def _number(text: str) -> float | str:
    try:
        return float(text)
    except ValueError:
        return text


def _xlsx(sheets: Mapping[str, list[list[str]]]) -> bytes:
    stream = io.BytesIO()
    with xlsxwriter.Workbook(stream) as workbook:
        for name, rows in sheets.items():
            sheet = workbook.add_worksheet(name)
            for number, row in enumerate(rows):
                for place, text in enumerate(row):
                    sheet.write(number, place, _number(text))
    return stream.getvalue()


def _gpkg(folder: Path) -> bytes:
    import geopandas as gpd
    import pandas as pd
    from shapely.geometry import Point

    path = folder / "upload.gpkg"
    for name, rows in (("plots", _PLOTS), ("stems", _stems())):
        frame = pd.DataFrame([list(map(_number, row)) for row in rows[1:]], columns=rows[0])
        points = [Point(500000 + n, 5600000) for n in range(len(frame))] if name == "plots" else [None] * len(frame)
        gpd.GeoDataFrame(frame, geometry=points, crs="EPSG:25832").to_file(path, layer=name, engine="pyogrio")
    return path.read_bytes()


def _returned(folder: Path, survey: Path) -> Files:
    """A survey file that sent a packet out, and the packet's table filled in."""
    make_packet(survey, folder / "packet", Errand(("0", "1"), blind_share=0.5), who="Ida")
    with (folder / "packet" / "fill_in.csv").open(encoding="utf-8-sig", newline="") as stream:
        rows = list(csv.DictReader(stream))
    for number, row in enumerate(rows):
        if row["stem"]:
            row.update(found="no" if number == 3 else "yes", azimuth=str(number * 30), distance_m="3,5", dbh_cm="21.5")
    table = io.StringIO()
    writer = csv.DictWriter(table, rows[0], delimiter=";")
    writer.writeheader()
    writer.writerows(rows)
    return {"survey.gpkg": survey.read_bytes(), "fill_in.csv": table.getvalue().encode()}


def seeds(folder: Path) -> dict[str, list[Files]]:
    """Files that are right, by kind."""
    survey, findings = make_survey(folder)
    with opened(survey, write=True) as survey_file:
        for number, decision in enumerate(("keep", "value=4", "recheck", "keep")):
            decide(survey_file, Request(findings[number % len(findings)], decision, f"reason {number}", "Ida"))
    refresh_layers(survey)
    decided = survey.read_bytes()
    sample = [(SAMPLE / "broken" / name).read_bytes().splitlines(keepends=True) for name in ("stems.csv", "plots.csv")]
    visits = _stems(("2021", "2026"))
    lines = "".join(
        f"{each} {word} why so\n" for each, word in zip(findings, ("keep", "value=3", "recheck"), strict=False)
    )
    lines = f"x/y keep\n{lines}undo 5 no\nredo 5\nundo\n"
    return {
        "csv": [
            {"stems.csv": _csv(_stems()), "plots.csv": _csv(_PLOTS)},
            {"stems.csv": _csv(visits, ",")},
            {"stems.csv": b"".join(sample[0][:10]), "plots.csv": b"".join(sample[1][:6])},
        ],
        "geojson": [{"stems.geojson": _geojson(_stems())}, {"stems.geojson": _geojson(visits)}],
        "xlsx": [{"upload.xlsx": _xlsx({"plots": _PLOTS, "stems": _stems()})}],
        "gpkg": [{"upload.gpkg": _gpkg(folder)}],
        "settings": [
            {"settings.toml": _SETTINGS.encode(), "stems.csv": _csv(visits), "plots.csv": _csv(_PLOTS)},
            {"settings.toml": (SAMPLE / "survey" / "settings.toml").read_bytes(), "stems.csv": _csv(_stems())},
        ],
        "decisions": [{"survey.gpkg": decided, "lines": lines.encode()}],
        "survey": [{"survey.gpkg": decided}],
        "returned": [_returned(folder, survey)],
    }


def mutated(kind: str, files: Files, dice: random.Random) -> Files:
    """The files with one or more of them damaged."""
    names = {"settings": ["settings.toml"], "decisions": ["lines"], "returned": ["fill_in.csv"]}.get(kind, list(files))
    changed = dict(files)
    for name in names if dice.random() < 0.2 else [dice.choice(names)]:
        ways = (_bytes_changed,) if dice.random() < 0.1 else _WAYS[kind]
        for _ in range(dice.choice((1, 1, 1, 2, 3))):
            with suppress(ValueError, RecursionError):  # what is damaged already may no longer have such parts
                changed[name] = dice.choice(ways)(changed[name], dice)
    return MappingProxyType(changed)


def _bytes_changed(content: bytes, dice: random.Random) -> bytes:
    data = bytearray(content)
    place = dice.randrange(len(data) + 1)
    kind = dice.randrange(6)
    if kind == 0 and data:
        data[min(place, len(data) - 1)] ^= 1 << dice.randrange(8)
    elif kind == 1:
        data[place : place + dice.choice((1, 2, 20, 500))] = b""
    elif kind == 2:
        data[place:place] = bytes(dice.randrange(256) for _ in range(dice.choice((1, 1, 4, 30))))
    elif kind == 3 and dice.random() < 0.2:
        del data[place:]
    elif kind == 4:
        start = dice.randrange(len(data) + 1)
        data[place:place] = data[start : start + dice.choice((5, 50, 400))]
    else:
        data[place:place] = dice.choice(_NASTY).encode("utf-8", "surrogatepass")
    return bytes(data)


def _bytes_flipped(content: bytes, dice: random.Random) -> bytes:
    data = bytearray(content)
    for _ in range(dice.choice((1, 1, 3, 20))):
        data[dice.randrange(len(data))] ^= 1 << dice.randrange(8)
    return bytes(data)


def _cells_changed(content: bytes, dice: random.Random) -> bytes:
    """One cell given another text, or two cells or lines swapped."""
    separator = max((b",", b";", b"\t"), key=content.count)
    lines = [line.split(separator) for line in content.split(b"\n")]
    one, other = dice.choice(lines), dice.choice(lines)
    first, second = dice.randrange(len(one)), dice.randrange(len(other))
    way = dice.random()
    if way < 0.6:
        text = dice.choice(_NASTY).encode("utf-8", "surrogatepass")
        for line in lines if dice.random() < 0.1 else [one]:
            if first < len(line):
                line[first] = text
    elif way < 0.8:
        one[first], other[second] = other[second], one[first]
    else:
        lines.insert(dice.randrange(len(lines)), list(one))
    return b"\n".join(separator.join(line) for line in lines)


def _json_changed(content: bytes, dice: random.Random) -> bytes:
    """One value of a JSON text replaced, taken away or doubled."""
    root = {"root": json.loads(content)}
    places: list[tuple[Any, Any]] = []
    waiting: list[Any] = [root]
    while waiting:
        node = waiting.pop()
        for key in node if isinstance(node, dict) else range(len(node)):
            places.append((node, key))
            if isinstance(node[key], dict | list):
                waiting.append(node[key])
    node, key = dice.choice(places)
    way = dice.random()
    if way < 0.7:
        node[key] = dice.choice(_NASTY_JSON)
    elif way < 0.85 and node is not root:
        del node[key]
    elif isinstance(node, dict):
        node[dice.choice(("plot", "stem", "type", "crs", "id", "dbh_cm", "date"))] = node[key]
    else:
        node.insert(key, node[key])
    return json.dumps(root["root"]).encode("utf-8", "surrogatepass")


def _parts_changed(content: bytes, dice: random.Random) -> bytes:
    """One part of a workbook damaged."""
    made = io.BytesIO()
    try:
        with zipfile.ZipFile(io.BytesIO(content)) as whole, zipfile.ZipFile(made, "w", zipfile.ZIP_DEFLATED) as changed:
            parts = {name: whole.read(name) for name in whole.namelist()}
            name = dice.choice([each for each in parts if "sheet" in each] or [*parts])
            name = dice.choice([*parts]) if dice.random() < 0.15 else name
            parts[name] = (
                _markup_changed(parts[name], dice) if dice.random() < 0.7 else _bytes_changed(parts[name], dice)
            )
            for each, part in parts.items():
                if each != name or dice.random() > 0.05:
                    changed.writestr(each, part)
    except (zipfile.BadZipFile, zlib.error, OSError, EOFError, NotImplementedError, RuntimeError) as fault:
        raise ValueError from fault
    return made.getvalue()


def _markup_changed(content: bytes, dice: random.Random) -> bytes:
    """One text or one attribute of an XML part given another text."""
    pieces = content.split(b"<")
    place = dice.randrange(len(pieces))
    nasty = dice.choice(_NASTY).encode("utf-8", "surrogatepass")
    inside, sign, behind = pieces[place].partition(b">")
    if dice.random() < 0.6:
        behind = nasty
    else:
        quoted = inside.split(b'"')
        quoted[dice.randrange(len(quoted))] = nasty
        inside = b'"'.join(quoted)
    pieces[place] = inside + sign + behind
    return b"<".join(pieces)


def _rows_changed(content: bytes, dice: random.Random) -> bytes:
    """One cell, column or row of a table in a database changed, as another program would."""
    with closing(sqlite3.connect(":memory:", isolation_level=None)) as connection:
        try:
            connection.deserialize(content)
            tables = [name for (name,) in connection.execute("SELECT name FROM sqlite_master WHERE type = 'table'")]
            table = _quoted(dice.choice(tables))
            columns = [row[1] for row in connection.execute(f"PRAGMA table_info({table})")]
            column = _quoted(dice.choice(columns))
            count = connection.execute(f"SELECT COUNT(*) FROM {table}").fetchone()[0]
            some = f"WHERE rowid IN (SELECT rowid FROM {table} LIMIT 1 OFFSET {dice.randrange(count + 1)})"
            way = dice.random()
            if way < 0.7:
                every = "" if dice.random() < 0.1 else some
                connection.execute(f"UPDATE OR IGNORE {table} SET {column} = ? {every}", (dice.choice(_NASTY_SQL),))
            elif way < 0.8:
                connection.execute(f"DELETE FROM {table} {some}")
            elif way < 0.85:
                connection.execute(f"ALTER TABLE {table} RENAME COLUMN {column} TO {_quoted(dice.choice(_NASTY))}")
            elif way < 0.9:
                connection.execute(f"ALTER TABLE {table} DROP COLUMN {column}")
            elif way < 0.93:
                connection.execute(f"DROP TABLE {table}")
            else:
                connection.execute(f"UPDATE {table} SET {column} = {_quoted(dice.choice(columns))} {some}")
            return connection.serialize()
        except (sqlite3.Error, IndexError, UnicodeEncodeError) as fault:
            raise ValueError from fault


def _quoted(name: str) -> str:
    return '"' + name.replace('"', '""') + '"'


def _settings_changed(content: bytes, dice: random.Random) -> bytes:
    """One value, key or heading of settings changed."""
    lines = content.decode("utf-8", "replace").split("\n")
    place = dice.randrange(len(lines))
    key, sign, _ = lines[place].partition("=")
    way = dice.random()
    if sign and way < 0.6:
        lines[place] = f"{key}= {dice.choice(_NASTY_TOML)}"
    elif way < 0.65:
        lines[place] = dice.choice(lines)
    elif way < 0.75:
        lines.insert(place, f"{dice.choice(_KEYS)} = {dice.choice(_NASTY_TOML)}")
    else:
        del lines[place]
    return "\n".join(lines).encode()


_KEYS = (
    *("basal_area_factor", "max_radius_m", "radius_m", "min_dbh_cm", "membership", "outside_recorded_to_m", "kind"),
    *("min_distance_m", "max_distance_m", "living", "dead", "azimuth_sd_deg", "dbh_sd_percent", "plot", "crs"),
    *("distance_sd_percent", "vertical_angle_sd_deg", "borderline_m", "stand", "strata", "[sample]\nx", "[x]\ny"),
)


def _lines_changed(content: bytes, dice: random.Random) -> bytes:
    """One word of one decision replaced, or two lines swapped."""
    lines = [line.split(b" ") for line in content.split(b"\n")]
    line = dice.choice(lines)
    words = (*_NASTY, "keep", "correct", "correct=2", "correct=-1", "correct=99", "value=", "value=x", "value=1e999")
    words += ("undo", "redo", "value=-1", "value=nan", "recheck=1", "keep=", "x" * 5000)
    line[dice.randrange(len(line))] = dice.choice(words).encode("utf-8", "surrogatepass")
    return b"\n".join(b" ".join(line) for line in lines)


_WAYS: Mapping[str, tuple[Callable[[bytes, random.Random], bytes], ...]] = MappingProxyType(
    {
        "csv": (_bytes_changed, _cells_changed, _cells_changed),
        "geojson": (_bytes_changed, _json_changed, _json_changed, _json_changed),
        "xlsx": (_parts_changed,),
        "gpkg": (_bytes_flipped, _rows_changed, _rows_changed),
        "settings": (_settings_changed,),
        "decisions": (_bytes_changed, _lines_changed, _lines_changed),
        "returned": (_bytes_changed, _cells_changed, _cells_changed),
        "survey": (_bytes_flipped, _rows_changed, _rows_changed),
    }
)
