"""Write the sample uploads: an invented survey with planted recording errors and the truth about them.

``python sample_data/make_sample.py`` writes the same bytes every time, into this folder or into ``--output``.
Only ``random.random`` is drawn from, the one stream that Python promises to keep from version to version.

A stand of stems is grown on each plot, a crew measures it with realistic errors and numbers the stems
clockwise from north; five years later the stand has grown and is measured again. Recording errors are then
typed over the second visit, and each is written down in ``truth.csv``. Forests, owners and numbers are
invented.
"""

from __future__ import annotations

import argparse
import csv
import io
import math
import random
from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace
from datetime import date, timedelta
from itertools import pairwise
from pathlib import Path
from statistics import NormalDist
from typing import TypeVar

SEED = 20260511
Row = dict[str, str]
T = TypeVar("T")

CIRCLES = ((9.0, 7.0), (13.0, 30.0))   # radius in metres, smallest dbh in centimetres
REACH_M = 16.0                         # the stand is grown beyond the circle: a moved centre still lies in it
AZIMUTH_SD_DEG, DISTANCE_SD_M, DBH_SD_CM = 1.0, 0.05, 0.3
PLOT_HEADINGS = ("plot", "visit", "date", "stratum", "easting", "northing", "elevation_m", "slope_percent",
                 "aspect_deg", "plot_status", "crew", "instrument")
STEM_HEADINGS = ("plot", "visit", "date", "stem", "azimuth", "distance_m", "dbh_cm", "species", "status",
                 "remark")
TRUTH_HEADINGS = ("error", "kind", "plot", "visit", "stem", "field", "typed", "meant")
MEASURED = ("azimuth", "distance_m", "dbh_cm")
REMARKS = ["leaning", "bark damage", "crown broken", "woodpecker holes"]
FIRST, SECOND = "2021", "2026"
FIRST_DAY = {FIRST: date(2021, 5, 10), SECOND: date(2026, 5, 11)}   # Mondays

EMPTY_PLOT = "12"      # a glade: a valid zero on both visits
THINNED_PLOTS = ("4", "15")
GON_PLOT, DECLINATION_PLOT, CENTRE_PLOT = "5", "13", "21"
# Declination +4.1 deg (spring of 2026) less the convergence of +0.8 deg was left out: azimuths too small.
FORGOTTEN_ROTATION_DEG = -3.3
MOVED_CENTRE_M = (1.15, -0.8)   # east and north, this visit's centre against the last one's


class Dice:
    """Seeded draws made from ``random.random`` alone."""

    def __init__(self, seed: str) -> None:
        self._random = random.Random(seed).random

    def uniform(self, low: float, high: float) -> float:
        """Draw evenly between `low` and `high`."""
        return low + (high - low) * self._random()

    def chance(self, probability: float) -> bool:
        """Say yes with the given probability."""
        return self._random() < probability

    def normal(self, mean: float, sd: float) -> float:
        """Draw from a normal distribution."""
        return NormalDist(mean, sd).inv_cdf(max(self._random(), 1e-12))

    def weibull(self, scale: float, shape: float) -> float:
        """Draw from a Weibull distribution by its inverse."""
        return scale * math.pow(-math.log(1.0 - self._random()), 1.0 / shape)

    def pick(self, values: list[T]) -> T:
        """Draw one of `values`."""
        return values[int(self._random() * len(values))]

    def species(self, shares: dict[str, float]) -> str:
        """Draw a species by its share."""
        level = self._random() * sum(shares.values())
        for name, share in shares.items():
            level -= share
            if level < 0:
                return name
        return name


@dataclass(frozen=True)
class Stratum:
    """How the stands of one stratum look: species by share, layers of dbh, pattern on the ground."""

    name: str
    species: dict[str, float]
    canopy_share: float
    canopy_dbh_cm: tuple[float, float]
    patterns: tuple[str, ...]
    stems_per_ha: tuple[float, float]


PLATEAU = Stratum("plateau", {"spruce": 70, "beech": 14, "fir": 10, "sycamore": 6}, 0.85, (31.0, 7.0),
                  ("regular", "regular", "random"), (420, 760))
SLOPE = Stratum("slope", {"beech": 50, "sycamore": 18, "fir": 14, "oak": 12, "spruce": 6}, 0.28, (40.0, 8.0),
                ("clustered", "clustered", "random"), (330, 860))
GROWTH_CM = {"spruce": (2.0, 0.7), "beech": (1.6, 0.6), "fir": (2.2, 0.7), "sycamore": (1.7, 0.6),
             "oak": (1.4, 0.5)}   # dbh increment in five years: mean and spread


@dataclass
class Stem:
    """One stem of the stand: metres east and north of the plot centre, dbh in centimetres."""

    x: float
    y: float
    dbh: float
    species: str
    status: str = "living"
    number: int | None = None

    def azimuth(self) -> float:
        """Grid azimuth from the centre in degrees."""
        return math.degrees(math.atan2(self.x, self.y)) % 360

    def distance(self) -> float:
        """Horizontal distance from the centre in metres."""
        return math.hypot(self.x, self.y)


# --- the stand ------------------------------------------------------------------------------------


def _draw_dbh(dice: Dice, stratum: Stratum) -> float:
    if dice.chance(stratum.canopy_share):
        return max(dice.normal(*stratum.canopy_dbh_cm), 9.0)
    return 4.0 + dice.weibull(13.0, 1.3)


def _is_free(stem: Stem, stand: list[Stem], gap: float) -> bool:
    return stem.distance() > 0.6 and all(
        math.hypot(stem.x - other.x, stem.y - other.y) > max(gap, (stem.dbh + other.dbh) / 200 + 0.25)
        for other in stand)


def _in_disc(dice: Dice, radius: float) -> tuple[float, float]:
    angle, distance = dice.uniform(0, 2 * math.pi), radius * math.sqrt(dice.uniform(0, 1))
    return distance * math.sin(angle), distance * math.cos(angle)


def grow_stand(dice: Dice, stratum: Stratum, pattern: str) -> list[Stem]:
    """Place stems in the disc, in clusters, at random or with a least distance between them."""
    per_ha = dice.uniform(*stratum.stems_per_ha)
    count = round(per_ha * math.pi * REACH_M**2 / 1e4)
    gap = 0.68 * math.sqrt(1e4 / per_ha) if pattern == "regular" else 0.0
    parents = [(*_in_disc(dice, REACH_M), dice.species(stratum.species)) for _ in range(count // 4)]
    stand: list[Stem] = []
    while len(stand) < count:
        if pattern == "clustered" and dice.chance(0.75):
            x, y, species = dice.pick(parents)
            x, y = dice.normal(x, 1.3), dice.normal(y, 1.3)
            if dice.chance(0.3):
                species = dice.species(stratum.species)
        else:
            x, y = _in_disc(dice, REACH_M)
            species = dice.species(stratum.species)
        stem = Stem(x, y, _draw_dbh(dice, stratum), species, "dead" if dice.chance(0.03) else "living")
        if stem.distance() < REACH_M and _is_free(stem, stand, gap):
            stand.append(stem)
    return stand


def age_stand(dice: Dice, stand: list[Stem], *, thinned: bool) -> None:
    """Let five years pass: growth, some mortality, on a thinned plot some stems cut."""
    for stem in stand:
        if stem.status != "living":
            continue
        if dice.chance(0.02):
            stem.status = "dead"
        elif thinned and stem.number is not None and dice.chance(0.15):
            stem.status = "cut"
        else:
            stem.dbh += max(dice.normal(*GROWTH_CM[stem.species]), 0.1)


# --- the crew -------------------------------------------------------------------------------------


def limit_m(dbh: float) -> float:
    """Give the radius of the largest circle whose smallest dbh the stem reaches, 0 below all of them."""
    return max((radius for radius, least in CIRCLES if dbh >= least), default=0.0)


def is_hidden(stem: Stem, stand: list[Stem]) -> bool:
    """Say whether nearer stems cover the whole width of the stem, seen from the centre."""
    def half(other: Stem) -> float:
        return math.degrees(math.asin(min(other.dbh / 200 / other.distance(), 1.0)))

    spans = []
    for other in stand:
        if other.distance() < stem.distance() and other.status != "cut":
            turn = (other.azimuth() - stem.azimuth() + 180) % 360 - 180
            spans.append((turn - half(other), turn + half(other)))
    covered_to = -half(stem)
    for low, high in sorted(spans):
        if low <= covered_to:
            covered_to = max(covered_to, high)
    return covered_to >= half(stem)


def measure(dice: Dice, stem: Stem, *, rotation_deg: float = 0.0) -> Row:
    """Read azimuth, distance and dbh as the crew would: whole degrees, centimetres, millimetres."""
    azimuth = round(dice.normal(stem.azimuth() + rotation_deg, AZIMUTH_SD_DEG)) % 360
    distance = dice.normal(stem.distance(), DISTANCE_SD_M)
    dbh = dice.normal(stem.dbh, DBH_SD_CM)
    return {"azimuth": str(azimuth), "distance_m": f"{distance:.2f}", "dbh_cm": f"{dbh:.1f}"}


def record_visit(dice: Dice, stand: list[Stem], *, plot: str, visit: str, day: str) -> list[Row]:
    """Measure the stems in their circle; number new ones clockwise from north after the highest number."""
    if visit == SECOND and plot == CENTRE_PLOT:
        east, north = MOVED_CENTRE_M
        stand = [replace(stem, x=stem.x - east, y=stem.y - north) for stem in stand]
    rotation = FORGOTTEN_ROTATION_DEG if visit == SECOND and plot == DECLINATION_PLOT else 0.0
    rows: list[Row] = []
    next_number = 1 + max((stem.number or 0 for stem in stand), default=0)
    known = sorted((stem for stem in stand if stem.number is not None), key=lambda stem: stem.number or 0)
    fresh = sorted((stem for stem in stand if stem.number is None), key=Stem.azimuth)
    for stem in known + fresh:
        cells = measure(dice, stem, rotation_deg=rotation)
        if stem.status == "cut":
            cells = dict.fromkeys(MEASURED, "")   # nothing is left to measure
        elif float(cells["distance_m"]) > limit_m(float(cells["dbh_cm"])):
            continue
        elif stem.number is None:
            if is_hidden(stem, stand):
                continue
            stem.number, next_number = next_number, next_number + 1
        remark = dice.pick(REMARKS) if dice.chance(0.04) else ""
        rows.append({"plot": plot, "visit": visit, "date": day, "stem": str(stem.number), **cells,
                     "species": stem.species, "status": stem.status, "remark": remark})
    return rows


# --- how numbers get mistyped ---------------------------------------------------------------------

KEYPAD = {"1": "24", "2": "135", "3": "26", "4": "157", "5": "2468", "6": "359", "7": "48", "8": "5790",
          "9": "68", "0": "8"}


def _transposed(text: str) -> Iterator[str]:
    for i in range(len(text) - 1):
        yield text[:i] + text[i + 1] + text[i] + text[i + 2:]


def _neighbouring_key(text: str) -> Iterator[str]:
    for i, digit in enumerate(text):
        for key in KEYPAD.get(digit, ""):
            yield text[:i] + key + text[i + 1:]


def _dropped(text: str) -> Iterator[str]:
    for i, digit in enumerate(text):
        if digit != ".":
            yield text[:i] + text[i + 1:]


def _doubled(text: str) -> Iterator[str]:
    for i, digit in enumerate(text):
        if digit != ".":
            yield text[:i] + digit + text[i:]


def _added(text: str) -> Iterator[str]:
    for i in range(len(text)):
        for digit in "123456789":
            yield text[:i] + digit + text[i:]


def _in_azimuth(change: Callable[[int], int]) -> Callable[[str], Iterator[str]]:
    def slips(text: str) -> Iterator[str]:
        yield str(change(int(text)))
    return slips


# Kind -> field and what may have been typed for the text that was meant.
SLIPS: dict[str, tuple[str, Callable[[str], Iterator[str]]]] = {
    "digits-transposed": ("azimuth", _transposed),
    "neighbouring-key": ("azimuth", _neighbouring_key),
    "digit-dropped": ("distance_m", _dropped),
    "digit-doubled": ("azimuth", _doubled),
    "digit-added": ("dbh_cm", _added),
    "decimal-point-lost": ("distance_m", lambda text: iter([text.replace(".", "")])),
    "back-bearing": ("azimuth", _in_azimuth(lambda a: (a + 180) % 360)),
    "mirrored-reading": ("azimuth", _in_azimuth(lambda a: 360 - a)),
    "quadrant": ("azimuth", _in_azimuth(lambda a: (a + 90) % 360)),
    "gon-for-degrees": ("azimuth", _in_azimuth(lambda a: round(a / 0.9))),
    "mm-for-cm": ("dbh_cm", lambda text: iter([text.replace(".", "")])),
    "girth-for-diameter": ("dbh_cm", lambda text: iter([f"{float(text) * math.pi:.1f}"])),
    "dbh-missing": ("dbh_cm", lambda _: iter([""])),
    "distance-missing": ("distance_m", lambda _: iter([""])),
}


def _offset(row: Row) -> tuple[float, float]:
    angle, distance = math.radians(float(row["azimuth"])), float(row["distance_m"])
    return distance * math.sin(angle), distance * math.cos(angle)


def _shows(meant: Row, typed: Row) -> bool:
    """Say whether an error is worth planting: possible to type, and it moves or changes the stem clearly."""
    if "" in (typed["dbh_cm"], typed["distance_m"]):
        return True
    if not 0 < int(typed["azimuth"]) <= 360 or typed["azimuth"][0] == "0" or typed["distance_m"][0] == ".":
        return False
    if typed["dbh_cm"] != meant["dbh_cm"]:
        factor = float(typed["dbh_cm"]) / float(meant["dbh_cm"])
        return "." not in typed["dbh_cm"] or (factor > 1.5 and float(typed["dbh_cm"]) < 95)
    return math.dist(_offset(meant), _offset(typed)) > 2.0


class Planter:
    """Types errors over the second visit and keeps the truth about each."""

    def __init__(self, dice: Dice, rows: dict[str, list[Row]]) -> None:
        self._dice = dice
        self._rows = rows
        self._touched: set[tuple[str, str]] = set()
        self._errors = 0
        self.truth: list[Row] = []

    def note(self, kind: str, plot: str, entries: list[tuple[str, str, str, str]]) -> None:
        """Write down one error: stem, field, typed and meant for every cell it concerns."""
        self._errors += 1
        for stem, field, typed, meant in entries:
            self._touched.add((plot, stem))
            self.truth.append({"error": str(self._errors), "kind": kind, "plot": plot, "visit": SECOND,
                               "stem": stem, "field": field, "typed": typed, "meant": meant})

    def _type(self, kind: str, plot: str, changes: list[tuple[Row, Row]]) -> None:
        entries = []
        for row, typed in changes:
            entries += [(row["stem"], field, typed[field], row[field]) for field in MEASURED
                        if typed[field] != row[field]]
            row.update(typed)
        self.note(kind, plot, entries)

    def _sound(self, plot: str) -> list[Row]:
        return [row for row in self._rows[plot]
                if row["status"] == "living" and (plot, row["stem"]) not in self._touched]

    def _chosen(self, kind: str, plot: str, options: list[T]) -> T:
        if not options:
            raise SystemExit(f"no record on plot {plot} can carry the error '{kind}'; choose another plot")
        return self._dice.pick(options)

    def slip(self, kind: str, plot: str) -> None:
        """Mistype one cell."""
        field, slips = SLIPS[kind]
        options = [(row, typed) for row in self._sound(plot) for text in slips(row[field])
                   if text != row[field] and _shows(row, typed := {**row, field: text})]
        self._type(kind, plot, [self._chosen(kind, plot, options)])

    def slope_distance(self, plot: str, *, slope_percent: float, aspect_deg: float) -> None:
        """Write the distance along the slope where the horizontal one was meant."""
        def along(row: Row) -> float:
            rise = slope_percent / 100 * math.cos(math.radians(float(row["azimuth"]) - aspect_deg))
            return float(row["distance_m"]) * math.hypot(1.0, rise)

        row = max(self._sound(plot), key=lambda row: along(row) - float(row["distance_m"]))
        self._type("slope-distance", plot, [(row, {**row, "distance_m": f"{along(row):.2f}"})])

    def exchange_azimuths(self, plot: str) -> None:
        """Exchange the azimuths of two neighbouring lines."""
        kind, sound = "azimuths-exchanged", self._sound(plot)
        pairs = [(row, other) for row, other in pairwise(sound)
                 if int(other["stem"]) == int(row["stem"]) + 1 and all(
                     _shows(a, {**a, "azimuth": b["azimuth"]}) for a, b in ((row, other), (other, row)))]
        row, other = self._chosen(kind, plot, pairs)
        self._type(kind, plot, [(row, {**row, "azimuth": other["azimuth"]}),
                                (other, {**other, "azimuth": row["azimuth"]})])

    def exchange_fields(self, plot: str) -> None:
        """Exchange distance and dbh of one record."""
        row = self._chosen("fields-exchanged", plot, self._sound(plot))
        exchanged = {**row, "distance_m": row["dbh_cm"], "dbh_cm": row["distance_m"]}
        self._type("fields-exchanged", plot, [(row, exchanged)])

    def repeat_line_above(self, plot: str) -> None:
        """Write the numbers of the line above once more."""
        sound = self._sound(plot)
        pairs = [(above, row) for above, row in pairwise(sound)
                 if int(row["stem"]) == int(above["stem"]) + 1
                 and _shows(row, {**row, "azimuth": above["azimuth"]})]
        above, row = self._chosen("line-above-repeated", plot, pairs)
        repeated = {**row, **{field: above[field] for field in MEASURED}}
        self._type("line-above-repeated", plot, [(row, repeated)])

    def record_twice(self, plot: str) -> None:
        """Write a whole record a second time."""
        row = self._chosen("record-twice", plot, self._sound(plot))
        self._rows[plot].insert(self._rows[plot].index(row) + 1, dict(row))
        self.note("record-twice", plot, [(row["stem"], "record", "twice", "once")])

    def record_outside(self, kind: str, plot: str, *, distance: float, dbh: float) -> None:
        """Append a stem that should not have been recorded, in free and visible ground."""
        rows = self._rows[plot]
        taken = [Stem(*_offset(row), float(row["dbh_cm"]), row["species"]) for row in rows
                 if all(row[field] for field in MEASURED)]

        def room(azimuth: int) -> float:
            return min(abs((stem.azimuth() - azimuth + 180) % 360 - 180) for stem in taken)

        azimuth = max(range(1, 360), key=room)
        number = str(1 + max(int(row["stem"]) for row in rows))
        rows.append({**rows[0], "stem": number, "azimuth": str(azimuth), "distance_m": f"{distance:.2f}",
                     "dbh_cm": f"{dbh:.1f}", "species": "beech", "status": "living", "remark": ""})
        self.note(kind, plot, [(number, "record", "recorded", "not recorded")])

    def whole_plot_in_gon(self, plot: str) -> None:
        """Write every azimuth of the plot in gon."""
        for row in self._rows[plot]:
            if row["azimuth"]:
                row["azimuth"] = str(round(int(row["azimuth"]) / 0.9))
        self.note("plot-in-gon", plot, [("", "azimuth", "gon", "degree")])

    def point_out(self, kind: str, plots: list[str], doubt: Callable[[Row], float], field: str) -> None:
        """Name the record of the clean plots that is most in doubt; nothing is changed."""
        rows = [row for plot in plots for row in self._sound(plot)]
        row = min(rows, key=doubt)
        self.note(kind, row["plot"], [(row["stem"], field, row[field], row[field])])


def plant_errors(rows: dict[str, list[Row]], plots: dict[str, Row]) -> list[Row]:
    """Plant every kind of error once, on nine of the plots; return the truth."""
    planter = Planter(Dice(f"{SEED} errors"), rows)
    plan = {
        "2": ("digits-transposed", "decimal-point-lost", "dbh-missing"),
        "7": ("neighbouring-key", "girth-for-diameter"),
        "10": ("digit-doubled", "back-bearing", "mm-for-cm"),
        "14": ("mirrored-reading",),
        "18": ("gon-for-degrees", "digit-added", "distance-missing"),
        "20": ("quadrant", "digit-dropped"),
    }
    planter.record_outside("outside-circle", "7", distance=13.42, dbh=38.4)
    planter.record_outside("circle-not-reached", "20", distance=10.85, dbh=24.6)
    for plot, kinds in plan.items():
        for kind in kinds:
            planter.slip(kind, plot)
    planter.slope_distance("14", slope_percent=float(plots["14"]["slope_percent"]),
                           aspect_deg=float(plots["14"]["aspect_deg"]))
    planter.exchange_azimuths("7")
    planter.repeat_line_above("14")
    planter.exchange_fields("20")
    planter.record_twice("2")
    planter.whole_plot_in_gon(GON_PLOT)
    planter.note("declination-forgotten", DECLINATION_PLOT,
                 [("", "rotation_deg", str(FORGOTTEN_ROTATION_DEG), "0")])
    planter.note("centre-moved", CENTRE_PLOT,
                 [("", "shift_east_m", str(MOVED_CENTRE_M[0]), "0"),
                  ("", "shift_north_m", str(MOVED_CENTRE_M[1]), "0")])
    clean = [plot for plot in rows if plot not in {*plan, GON_PLOT, DECLINATION_PLOT, CENTRE_PLOT}]
    planter.point_out("borderline", clean, lambda row: abs(
        float(row["distance_m"]) - limit_m(float(row["dbh_cm"]))), "distance_m")
    planter.point_out("class-limit", clean, lambda row: abs(float(row["dbh_cm"]) - CIRCLES[1][1]), "dbh_cm")
    return planter.truth


# --- the three uploads ----------------------------------------------------------------------------


def survey(dice: Dice) -> tuple[list[Row], list[Row], list[Row]]:
    """Make plots, stems and truth of the main survey: 24 plots on a grid of 200 m, two visits."""
    plots: list[Row] = []
    stems: dict[str, list[list[Row]]] = {FIRST: [], SECOND: []}
    for index in range(24):
        plot, (line, column) = str(index + 1), divmod(index, 6)
        stratum = PLATEAU if line < 2 else SLOPE
        slope = dice.uniform(2, 9) if stratum is PLATEAU else dice.uniform(30, 46)
        fixed = {"stratum": stratum.name, "easting": f"{577400 + 200 * column + dice.normal(0, 1.5):.2f}",
                 "northing": f"{5562600 - 200 * line + dice.normal(0, 1.5):.2f}",
                 "elevation_m": f"{(452 if stratum is PLATEAU else 640 - 90 * line) + dice.normal(0, 6):.0f}",
                 "slope_percent": f"{slope:.0f}", "aspect_deg": f"{dice.normal(165, 14):.0f}",
                 "plot_status": "empty" if plot == EMPTY_PLOT else "measured"}
        stand = [] if plot == EMPTY_PLOT else grow_stand(dice, stratum, stratum.patterns[index % 3])
        for visit in (FIRST, SECOND):
            day = (FIRST_DAY[visit] + timedelta(days=index // 5)).isoformat()
            crew = "north" if visit == FIRST or index % 2 else "south"
            plots.append({"plot": plot, "visit": visit, "date": day, **fixed, "crew": crew,
                          "instrument": "compass and rangefinder"})
            if visit == SECOND:
                age_stand(dice, stand, thinned=plot in THINNED_PLOTS)
            stems[visit].append(record_visit(dice, stand, plot=plot, visit=visit, day=day))
    plots.sort(key=lambda row: row["visit"])
    second = {str(index + 1): rows for index, rows in enumerate(stems[SECOND])}
    truth = plant_errors(second, {row["plot"]: row for row in plots})
    return plots, [row for rows in (*stems[FIRST], *second.values()) for row in rows], truth


def young_stand(dice: Dice) -> tuple[list[Row], list[Row]]:
    """Make plots and stems of a young stand: six fixed circles, azimuths in gon from true north."""
    shares = {"oak": 60.0, "beech": 25.0, "sycamore": 15.0}
    plots, stems = [], []
    for index in range(6):
        plot, (line, column) = f"Y{index + 1}", divmod(index, 3)
        radius = 3.99 if plot == "Y4" else 5.64   # a smaller circle in the thicket
        spacing = 1.3 if plot == "Y4" else 1.8
        plots.append({"plot": plot, "date": "2026-06-02", "lon": f"{10.1212 + 0.0009 * column:.6f}",
                      "lat": f"{50.1967 - 0.0006 * line:.6f}", "radius_m": f"{radius:.2f}",
                      "slope_percent": f"{dice.uniform(3, 14):.0f}",
                      "aspect_deg": f"{dice.normal(250, 15):.0f}"})
        across, along = dice.uniform(0, spacing), dice.uniform(0, spacing)
        rows = [Stem(across + spacing * i + dice.normal(0, 0.12), along + spacing * j + dice.normal(0, 0.12),
                     4.0 + dice.weibull(5.5, 2.2), dice.species(shares))
                for i in range(-5, 5) for j in range(-5, 5) if dice.chance(0.82)]
        number = 0
        for stem in sorted(rows, key=Stem.azimuth):
            cells = measure(dice, stem)
            if float(cells["distance_m"]) <= radius and stem.distance() > 0.4 and not is_hidden(stem, rows):
                number += 1
                stems.append({"plot": plot, "stem": str(number),
                              "azimuth": str(round(int(cells["azimuth"]) / 0.9)),
                              "distance_m": cells["distance_m"], "diameter": cells["dbh_cm"],
                              "species": stem.species, "status": "living"})
    return plots, stems


BROKEN_PLOTS = """\
Probefläche;Datum;Rechtswert;Hochwert
B1;12.05.2026;581200,00;5559400,00
B2;12.05.2026;581350,00;5559400,00
B3;31.02.2026;581500,00;5559400,00
B4;13.05.2026;581650,00;5559400,00
"""
BROKEN_STEMS = """\
Probefläche;Stammnummer;Azimut;Distanz;BHD;Baumart;Güte;Bemerkung
B1;1;12;4,35;31,2;Buche;2;
B1;2;58;7,80;24.6;Buche;2;Fäule am Stammfuß
B1;3;103;1,234;27,9;Fichte;1;
B1;4;170;6,02;ca. 30;Fichte;1;
B1;5;231;8,47;42,5;Tanne;1;
B1;6;412;5,15;18,8;Buche;3;schräg
B2;1;25;0;22,1;Fichte;2;
B2;2;77;-6,40;35,7;Fichte;1;
B2;3;NaN;9,12;28,3;Buche;2;
B2;4;198;3,66;inf;Buche;2;
B2;5;264;7,05;19,4;Bergahorn;3;Höhle
B2;5;305;8,21;33,0;Buche;1;
B3;1;41;5,58;26,4;Fichte
B3;2;133;6,93;30,8;Fichte;2;;zu prüfen
B3;3;287;4,77;21,5;Buche;2;Zwiesel über 3 m
B9;1;90;5,00;25,0;Fichte;2;
"""
# Way, file, line of the file, heading, text, what is wrong with it.
BROKEN_TRUTH = (
    ("1", "stems.csv", "4", "Distanz", "1,234", "ambiguous decimal mark: 1.234 or 1234; both marks are used"),
    ("2", "stems.csv", "1", "Güte", "Güte", "unknown heading"),
    ("3", "stems.csv", "5", "BHD", "ca. 30", "text for a number"),
    ("4", "stems.csv", "10", "Azimut", "NaN", "not finite"),
    ("4", "stems.csv", "11", "BHD", "inf", "not finite"),
    ("5", "stems.csv", "7", "Azimut", "412", "azimuth outside the full circle of 360 degrees"),
    ("6", "stems.csv", "8", "Distanz", "0", "distance zero"),
    ("6", "stems.csv", "9", "Distanz", "-6,40", "distance negative"),
    ("7", "stems.csv", "17", "Probefläche", "B9", "stem without plot"),
    ("7", "plots.csv", "5", "Probefläche", "B4", "plot without stems and without a status"),
    ("8", "stems.csv", "13", "Stammnummer", "5", "the same stem number twice on one visit"),
    ("9", "plots.csv", "4", "Datum", "31.02.2026", "unreadable date"),
    ("10", "stems.csv", "14", "", "", "line with two cells too few"),
    ("10", "stems.csv", "15", "", "zu prüfen", "line with one cell too many"),
)

SETTINGS = {
    "survey": """\
[survey]
name = "Ottmarshag town forest"
crs = "EPSG:25832"

[measurement]
azimuth_unit = "degree"
north = "grid"
distance = "horizontal"
distance_to = "axis"
method = "from_centre"

[design]
kind = "concentric"
circles = [{radius_m = 9.0, min_dbh_cm = 7}, {radius_m = 13.0, min_dbh_cm = 30}]
slope = "horizontal"
membership = "each_visit"

[errors]
azimuth_sd_deg = 1.0
distance_sd_m = 0.05
dbh_sd_mm = 3

[status]
living = ["living"]
dead = ["dead"]
cut = ["cut"]
""",
    "young_stand": """\
[survey]
name = "Birklohen plantation"
crs = "EPSG:25832"

[measurement]
azimuth_unit = "gon"
north = "true"

[design]
kind = "fixed"
radius_m = 5.64

[columns]
dbh_cm = "diameter"
""",
    "broken": """\
[survey]
name = "Ottmarshag town forest, a bad day"
crs = "EPSG:25832"

[measurement]
azimuth_unit = "degree"

[design]
kind = "fixed"
radius_m = 10.0
""",
}


def table(rows: list[Row], headings: tuple[str, ...], *, delimiter: str = ",") -> str:
    """Lay rows out as CSV."""
    text = io.StringIO()
    writer = csv.DictWriter(text, headings, delimiter=delimiter, lineterminator="\n")
    writer.writeheader()
    writer.writerows(rows)
    return text.getvalue()


def files() -> dict[str, bytes]:
    """Make every file of the sample: its path below the folder, and its bytes."""
    plots, stems, truth = survey(Dice(f"{SEED} survey"))
    young_plots, young_stems = young_stand(Dice(f"{SEED} young stand"))
    for row in (*young_plots, *young_stems):   # this upload comes from a computer that writes a decimal comma
        row.update({field: text.replace(".", ",") for field, text in row.items()})
    broken_truth = [dict(zip(("way", "file", "line", "heading", "text", "what"), row, strict=True))
                    for row in BROKEN_TRUTH]
    texts = {
        "survey/plots.csv": table(plots, PLOT_HEADINGS),
        "survey/stems.csv": table(stems, STEM_HEADINGS),
        "survey/truth.csv": table(truth, TRUTH_HEADINGS),
        "young_stand/plots.csv": table(young_plots, tuple(young_plots[0]), delimiter=";"),
        "young_stand/stems.csv": table(young_stems, tuple(young_stems[0]), delimiter=";"),
        "broken/truth.csv": table(broken_truth, tuple(broken_truth[0])),
        **{f"{folder}/settings.toml": text for folder, text in SETTINGS.items()},
    }
    return {name: text.encode() for name, text in texts.items()} | {
        "broken/plots.csv": BROKEN_PLOTS.replace("\n", "\r\n").encode("cp1252"),
        "broken/stems.csv": BROKEN_STEMS.replace("\n", "\r\n").encode("cp1252"),
    }


def main() -> None:
    """Write the files into this folder, or into the one given with --output."""
    parser = argparse.ArgumentParser(description="Write the sample uploads of stemmap.")
    parser.add_argument("--output", type=Path, default=Path(__file__).parent, help="folder to write into")
    folder: Path = parser.parse_args().output
    for name, content in files().items():
        path = folder / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_bytes(content)
        print(path)


if __name__ == "__main__":
    main()
