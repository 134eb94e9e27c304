"""Plots on which too much is hidden from the centre."""

from collections.abc import Iterator

import numpy as np
from numpy.typing import NDArray

from stemmap.checks.evidence.hidden import hidden
from stemmap.core.visibility import HiddenGround
from stemmap.survey.batches import Batch
from stemmap.survey.measured import Status
from stemmap.survey.registry import Case, check

#: Share of the stems expected to be missed that is worth a word, and one that is worth a walk; the counts go with it.
_SOME, _MUCH = 0.15, 0.25
_FEWEST = 1.0

Floats = NDArray[np.float64]


@check("one-stand-point", family="visibility", severity="note", needs=("azimuth", "distance_m"), of_survey=True)
def one_stand_point(case: Case) -> Iterator[Batch]:
    """One stand-point does not do: many stems may have been missed behind others.

    What: at least one stem, and more than 15 % of all (25 %: to look at), is expected to stand wholly hidden
    from the centre behind the recorded stems. Only for stems measured from the centre.
    Why: seen from one point, counts in open stands fall short by 1 to 6 %, in dense or grouped ones by 30 to 50 %;
    beyond 15 % the shortfall is larger than that of an ordinary stand, and correcting it does not make it good.
    What to do: look from a second stand-point into the sector named (degrees from grid north) and the others.
    Source: Corona et al. 2019, Canadian Journal of Forest Research 49, 41; sectors by half-angle asin(dbh / 2D), the
    number missed by Horvitz and Thompson 1952, from memory.
    """
    if case.survey.settings.measurement.method != "from_centre":
        return
    measured, visits = case.measured, len(case.survey.visits)
    made = case.once(hidden)
    per_ha, number = made.stems_per_ha, made.stems
    counted = measured.inside & (measured.status == Status.LIVING)
    weight = np.where(counted, measured.expansion_per_ha, 0.0)
    recorded = np.bincount(case.survey.stems.visit_row, weight, minlength=visits)
    all_stems = per_ha.expected + recorded
    share = np.divide(per_ha.expected, all_stems, out=np.zeros(visits), where=all_stems > 0.0)
    doubtful = (number.expected >= _FEWEST) & (share > _SOME)
    if not doubtful.any():
        return
    area = made.basal_area_m2_per_ha
    start, end, beyond = _widest(made.ground, visits)
    for chosen, severity in ((share <= _MUCH, None), (share > _MUCH, "warning")):
        rows = np.flatnonzero(doubtful & chosen)
        missed = number.take(rows)
        yield case.about_visits(
            rows,
            "From the centre of plot {plot} {hidden_percent:.0f} % of the ground is hidden, the widest part at "
            "{sector_from_deg:.0f} to {sector_to_deg:.0f} degrees beyond {sector_beyond_m:.1f} m; about "
            "{missed_stems:.0f} living stems ({missed_low:.0f} to {missed_high:.0f}), {missed_percent:.0f} % of all, "
            "may stand unseen.",
            evidence={
                "hidden_percent": 100.0 * made.ground.share[rows],
                "missed_stems": missed.expected,
                "missed_low": missed.low,
                "missed_high": missed.high,
                "missed_percent": 100.0 * share[rows],
                "sector_from_deg": start[rows],
                "sector_to_deg": end[rows],
                "sector_beyond_m": beyond[rows],
            },
            severity=severity,
            stems_per_ha=per_ha.expected[rows],
            basal_area_m2_per_ha=area.expected[rows],
        )


def _widest(ground: HiddenGround, plots: int) -> tuple[Floats, Floats, Floats]:
    """Start, end and least distance of the widest hidden sector of each plot, neighbours as one; NaN for none."""
    start, end, beyond = np.full(plots, np.nan), np.full(plots, np.nan), np.full(plots, np.nan)
    if len(ground.plot):
        gap = (ground.start_deg[1:] > ground.end_deg[:-1] + 1e-9) | (ground.plot[1:] != ground.plot[:-1])
        first = np.flatnonzero(np.append(True, gap))
        last = np.append(first[1:], len(ground.plot)) - 1
        begins, ends = ground.start_deg[first], ground.end_deg[last]
        order = np.argsort(ends - begins, kind="stable")
        plot = ground.plot[first][order]
        start[plot], end[plot] = begins[order], ends[order]
        beyond[plot] = np.minimum.reduceat(ground.beyond_m, first)[order]
    return start, end, beyond
