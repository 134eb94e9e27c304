"""An invented survey whose truth is known: what a crew sees, measures and mistypes, and what each stem really adds."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from stemmap.survey.survey import Survey
from stemmap.tasks.recheck import RecheckList
from tests.stands import Stand, grouped_places, random_places, seen_from_centre, with_diameters
from tests.uploads import survey

Floats = NDArray[np.float64]

RADIUS_M = 12.62
PER_HA = 10_000 / (np.pi * RADIUS_M**2)
#: Stems outside are recorded so far; standard deviations of distance, azimuth and dbh.
MARGIN_M, DISTANCE_M, AZIMUTH_DEG, DBH_CM = 0.5, 0.05, 1.0, 0.3
#: Share of records with a typing error, and of records entered twice.
SLIPS, TWICE = 0.02, 0.004


@dataclass(frozen=True)
class KnownSurvey:
    """A survey as uploaded, and what is wrong with it.

    Parameters
    ----------
    made
        The survey.
    of_stem
        Error of the result by record, in percent of an average plot: half in stems, half in basal area.
    of_plot
        The same of the stems that were not seen, by visit.
    """

    made: Survey
    of_stem: Floats
    of_plot: Floats


def known_survey(rng: np.random.Generator, *, plots: int, per_ha: float, groups: bool) -> KnownSurvey:
    """Survey `plots` circles in a stand at random, or in groups of six."""
    where = {"per_ha": per_ha, "radius": RADIUS_M + MARGIN_M, "plots": plots}
    places = grouped_places(rng, **where, of=6, spread=2.5) if groups else random_places(rng, **where)
    stand = with_diameters(rng, places)
    order = np.lexsort((stand.azimuth, stand.plot))
    stand = Stand(*(values[order] for values in stand.records))
    seen = seen_from_centre(stand)
    stems, area = _adds(stand.distance, stand.dbh)
    means = stems.sum() / plots, area.sum() / plots

    def percent(stem_error: Floats, area_error: Floats) -> Floats:
        return 50.0 * (np.abs(stem_error) / means[0] + np.abs(area_error) / means[1])

    recorded = np.flatnonzero(seen)
    again = rng.random(len(recorded)) < TWICE
    rows = np.sort(np.concatenate([recorded, recorded[again]]))
    twin = np.append(False, rows[1:] == rows[:-1])
    typed = _typed(rng, stand, rows, twin)
    distance, dbh = (np.array(typed[name], float) for name in ("distance_m", "dbh_cm"))
    now = _adds(distance, dbh)
    true = np.where(twin, 0.0, stems[rows]), np.where(twin, 0.0, area[rows])
    lost = np.zeros(plots)
    hidden = ~seen
    np.add.at(lost, stand.plot[hidden], percent(stems[hidden], area[hidden]))
    made = survey(
        {"plot": [str(plot + 1) for plot in stand.plot[rows]], **typed},
        {"plot": [str(plot + 1) for plot in range(plots)], "plot_status": ["measured"] * plots},
        settings={
            "design": {"radius_m": RADIUS_M, "outside_recorded_to_m": MARGIN_M},
            "errors": {"distance_sd_m": DISTANCE_M, "azimuth_sd_deg": AZIMUTH_DEG, "dbh_sd_mm": 10 * DBH_CM},
        },
    )
    return KnownSurvey(made, percent(now[0] - true[0], now[1] - true[1]), lost)


def recovered(known: KnownSurvey, listed: RecheckList) -> Floats:
    """Error of the result that each line of a list mends, percent of an average plot."""
    return np.where(listed.stem >= 0, known.of_stem[listed.stem], known.of_plot[listed.visit])


def _adds(distance: Floats, dbh: Floats) -> tuple[Floats, Floats]:
    inside = distance <= RADIUS_M
    return inside * PER_HA, inside * PER_HA * np.pi * (dbh / 200.0) ** 2


def _typed(
    rng: np.random.Generator, stand: Stand, rows: NDArray[np.int64], twin: NDArray[np.bool_]
) -> dict[str, list[str]]:
    """Columns as typed, numbered clockwise: measured with errors, every fiftieth record mistyped in one value."""
    count = len(rows)
    azimuth = np.rint(stand.azimuth[rows] + rng.normal(0.0, AZIMUTH_DEG, count)).astype(int) % 360
    distance = np.maximum(stand.distance[rows] + rng.normal(0.0, DISTANCE_M, count), 0.15)
    dbh = np.maximum(stand.dbh[rows] + rng.normal(0.0, DBH_CM, count), 5.0)
    columns = {
        "azimuth": [str(value) for value in azimuth],
        "distance_m": [f"{value:.2f}" for value in distance],
        "dbh_cm": [f"{value:.1f}" for value in dbh],
    }
    names = list(columns)
    for row in np.flatnonzero(rng.random(count) < SLIPS).tolist():
        name = names[int(rng.choice(3, p=[0.4, 0.3, 0.3]))]
        columns[name][row] = _slip(rng, columns[name][row], name)
    for row in np.flatnonzero(twin).tolist():
        for name in names:
            columns[name][row] = columns[name][row - 1]
    number = np.arange(count) - np.searchsorted(stand.plot[rows], stand.plot[rows]) + 1
    return {"stem": [str(value) for value in number], **columns}


def _slip(rng: np.random.Generator, text: str, name: str) -> str:
    """A value mistyped: back bearing, point lost, two digits exchanged, a digit left out or the key beside."""
    kind = rng.integers(4)
    if kind == 0:
        return str((int(text) + 180) % 360) if name == "azimuth" else text.replace(".", "")
    digits = [place for place, sign in enumerate(text) if sign != "."]
    place = int(rng.choice(len(digits) - 1)) if len(digits) > 1 else 0
    at, signs = digits[place], list(text)
    if kind == 1 and len(digits) > 1:
        signs[at], signs[digits[place + 1]] = signs[digits[place + 1]], signs[at]
    elif kind == 2 and len(digits) > 1:
        del signs[at]
    else:
        signs[at] = str((int(signs[at]) + int(rng.choice([-1, 1]))) % 10)
    mistyped = "".join(signs)
    return str(int(mistyped) % 360) if name == "azimuth" else mistyped
