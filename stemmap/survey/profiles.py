"""How the stems of plots lie about their centres, by azimuth and by distance, and how thick each species is."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from stemmap.core.neighbours import FEWEST_STEMS
from stemmap.survey.curves import SIGNIFICANT, counted, ground
from stemmap.survey.summary import Summary

Floats = NDArray[np.float64]

#: Sectors, rings of equal area, and the width of a dbh class, cm.
SECTORS, RINGS, DBH_CLASS_CM = 12, 5, 5.0
#: So many species are told apart; the rest are one.
_MOST_SPECIES = 5


@dataclass(frozen=True)
class Profile:
    """Stems counted by class.

    Parameters
    ----------
    edges
        Limits of the classes, one more than classes.
    counts
        Stems by class, for each species by its name, or all under "".
    expected
        Stems in each class were they spread evenly; None where that says nothing.
    stems
        How many stand behind it.
    sentence
        What it says.
    """

    edges: Floats
    counts: dict[str, Floats]
    expected: float | None
    stems: int
    sentence: str


def profiles(summary: Summary, rows: Sequence[int]) -> dict[str, Profile]:
    """Count the stems of some visits by azimuth, distance and dbh; the same stems as for the spatial structure.

    Parameters
    ----------
    rows
        Rows of visits.

    Returns
    -------
    By name: azimuth, distance, dbh; empty where there are no stems. Azimuth and distance are those on whole circles.
    """
    measured, pattern = summary.measured, summary.pattern
    known = (pattern.reason == "") & np.isin(np.arange(len(summary.status)), rows)
    chosen = pattern.rows[known[pattern.visit]]
    chosen = chosen[np.isfinite(measured.x_m[chosen] + measured.y_m[chosen])]
    visit = summary.survey.stems.visit_row[chosen]
    whole = np.array([outline is None for outline in pattern.outline], dtype=bool)[visit]
    made: dict[str, Profile] = {}
    if whole.any():
        round_about = chosen[whole]
        plots = len(np.unique(visit[whole]))
        azimuth = np.arctan2(measured.x_m[round_about], measured.y_m[round_about])
        outward = (measured.horizontal_distance_m[round_about] / pattern.radius_m[visit[whole]]) ** 2
        made |= {"azimuth": _by_azimuth(azimuth, plots), "distance": _by_distance(outward, plots)}
    dbh = measured.dbh_cm[chosen]
    if np.isfinite(dbh).any():
        plots = len(np.unique(visit))
        made["dbh"] = _by_dbh(dbh, summary.species_code[chosen], summary.species_names, plots)
    return made


def _by_azimuth(azimuth: Floats, plots: int) -> Profile:
    """Rayleigh's test of evenness, p as approximated by Zar (1999), Biostatistical Analysis."""
    n = len(azimuth)
    edges = np.linspace(0.0, 360.0, SECTORS + 1)
    counts, _ = np.histogram(np.degrees(azimuth) % 360.0, edges)
    east, north = float(np.sin(azimuth).sum()), float(np.cos(azimuth).sum())
    length = math.hypot(east, north)
    p = min(1.0, math.exp(math.sqrt(1.0 + 4.0 * n + 4.0 * (n * n - length * length)) - (1.0 + 2.0 * n)))
    if n < FEWEST_STEMS:
        sentence = f"Too few stems to judge how they lie about the centre; {counted(n, plots)}."
    elif p < SIGNIFICANT:
        side = math.degrees(math.atan2(east, north)) % 360.0
        sentence = f"More stems lie towards {side:.0f}° than on the other side; {ground(p, n, plots)}."
    else:
        sentence = f"No side is shown to hold more stems than another; {ground(p, n, plots)}."
    return Profile(edges, {"": counts.astype(np.float64)}, n / SECTORS, n, sentence)


def _by_distance(outward: Floats, plots: int) -> Profile:
    """Stems by rings of equal area; the inner half of the area against the outer by the binomial test."""
    from scipy.stats import binomtest

    n = len(outward)
    edges = np.linspace(0.0, 1.0, RINGS + 1)
    counts, _ = np.histogram(np.minimum(outward, 1.0), edges)
    inner = int((outward <= 0.5).sum())
    p = float(binomtest(inner, n).pvalue)
    told = f"The inner half of the area holds {inner} of {n} stems"
    if n < FEWEST_STEMS:
        sentence = f"Too few stems to judge how they lie from the centre outwards; {counted(n, plots)}."
    elif p < SIGNIFICANT:
        kind = "that is more than the outer half" if 2 * inner > n else "that is fewer than the outer half"
        sentence = f"{told}; {kind}; {ground(p, n, plots)}."
    else:
        sentence = f"{told}; no difference is shown; {ground(p, n, plots)}."
    return Profile(edges, {"": counts.astype(np.float64)}, n / RINGS, n, sentence)


def _by_dbh(dbh: Floats, species: NDArray[np.int64], names: NDArray[np.object_], plots: int) -> Profile:
    known = np.isfinite(dbh)
    dbh, species = dbh[known], species[known]
    # A single giant, or a slip of the pen, must not press all others into one corner.
    usual = float(np.quantile(dbh, 0.95)) * 1.5
    first, last = (math.floor(limit / DBH_CLASS_CM) for limit in (float(dbh.min()), min(usual, float(dbh.max()))))
    edges = np.arange(min(first, last), last + 2, dtype=np.float64) * DBH_CLASS_CM
    beyond = int((dbh >= edges[-1]).sum())
    codes, number = np.unique(species, return_counts=True)
    order = codes[np.argsort(-number, kind="stable")].tolist()
    counts: dict[str, Floats] = {}
    for place, code in enumerate(order):
        name = str(names[code]) if place < _MOST_SPECIES and code >= 0 else "others"
        one, _ = np.histogram(np.minimum(dbh[species == code], edges[-1]), edges)
        counts[name] = counts.get(name, 0.0) + one.astype(np.float64)
    low, middle, high = (float(np.quantile(dbh, share)) for share in (0.25, 0.5, 0.75))
    told = (
        f"Half of the stems are thinner than {middle:.0f} cm, a quarter thinner than {low:.0f} cm and a quarter "
        f"thicker than {high:.0f} cm"
    )
    parts = [told, counted(len(dbh), plots)]
    if beyond:
        parts.append(f"the last class also holds what is thicker: {beyond} more")
    return Profile(edges, counts, None, len(dbh), "; ".join(parts) + ".")
