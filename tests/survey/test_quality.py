"""What blind checks say of a survey agrees with the truth of a simulated one."""

from collections import Counter
from dataclasses import replace

import numpy as np
import pytest
from scipy.stats import binom, norm

from stemmap.core.agreement import agreement
from stemmap.survey.matched import Matched, match
from stemmap.survey.quality import differences, quality, stems_found
from stemmap.survey.tolerance import tolerances
from tests.crew import DECIMALS, VALUES, Errors, true_stems
from tests.uploads import survey

#: A first crew, and a second one that reads azimuths half a degree too small and diameters with another tape.
FIRST = Errors(bias=(0.0, 0.01, 0.0), sd=(0.8, 0.05, 0.25))
SECOND = Errors(bias=(-0.5, 0.0, 0.1), sd=(0.5, 0.03, 0.15))
SETTINGS = {
    "design": {"radius_m": 12},
    # Between two differences that can be written, so that rounding moves no share.
    "tolerance": {"azimuth_deg": 2.05, "distance_m": 0.0805, "dbh_mm": 5.05},
    "errors": {"azimuth_sd_deg": 0.7, "distance_sd_m": 0.04, "dbh_sd_mm": 2.0},
}


def cells(values):
    return {name: [f"{v:.{DECIMALS[name]}f}" for v in values[:, place]] for place, name in enumerate(VALUES)}


def looked(seed, *, plots=4, stems=10, exchanges=2, blind=True):
    """A survey measured by the first crew and, not knowing it, by the second, with some rows on each other's lines."""
    rng = np.random.default_rng(seed)
    names, true = true_stems(rng, plots=plots, stems=stems)
    recorded, again = FIRST.measured(true, rng), SECOND.measured(true, rng)
    for place in rng.choice(plots, exchanges, replace=False) * stems:
        again[[place, place + 1]] = again[[place + 1, place]]
    plot, stem = ([name[place] for name in names] for place in (0, 1))
    columns = {"plot": plot, "stem": stem}
    brought = {"packet": ["P"] * len(names), "row": [str(row + 1) for row in range(len(names))]}
    return survey(columns | cells(recorded), settings=SETTINGS, returned=brought | columns | cells(again), blind=blind)


def matched(made) -> Matched:
    found = match(made.upload, made.settings, ())
    assert found is not None
    return found


def told(made, look="blind"):
    return {each.field: each for each in quality(made.upload, made.settings, matched(made)) if each.look == look}


def wilson_holds(share, pairs):
    """How often Wilson's interval holds a share, exactly."""
    hits = np.arange(pairs + 1)
    made = [agreement([0.0] * hit + [9.0] * (pairs - hit), tolerance=1.0) for hit in hits]
    holds = np.array([each.within_low <= share <= each.within_high for each in made])
    return float(binom.pmf(hits, pairs, share)[holds].sum())


def test_intervals_of_blind_checks_hold_the_truth_95_of_100_times():
    """Truth: bias is that of the second crew less that of the first, variances add; own simulation, 400 surveys."""
    bias = np.subtract(SECOND.bias, FIRST.bias)
    spread = np.hypot(SECOND.sd, FIRST.sd)
    limit = np.array([2.05, 0.0805, 0.505])
    share = norm.cdf((limit - bias) / spread) - norm.cdf((-limit - bias) / spread)
    held: Counter[tuple[str, str]] = Counter()
    runs = 400
    for seed in range(runs):
        made = told(looked(seed))
        for place, field in enumerate(("azimuth", "distance", "dbh")):
            figures = made[field].agreement
            assert figures.pairs == 40
            held[field, "bias"] += figures.bias_low <= bias[place] <= figures.bias_high
            held[field, "spread"] += figures.spread_low <= spread[place] <= figures.spread_high
            held[field, "share"] += figures.within_low <= share[place] <= figures.within_high
    for (field, figure), count in held.items():
        # Of a share the interval holds it more or less often than 95 of 100 times, as its steps fall.
        place = ("azimuth", "distance", "dbh").index(field)
        expected = wilson_holds(share[place], 40) if figure == "share" else 0.95
        low, high = binom.ppf([0.0005, 0.9995], runs, expected)
        assert low <= count <= high, (field, figure, count / runs, expected)
        assert count / runs > 0.9


def test_standard_deviation_of_one_measurement():
    made = told(looked(1))["dbh"]
    assert made.sd_of_one == pytest.approx(made.agreement.spread / 2**0.5)


def test_cold_looks_are_kept_apart():
    made = looked(2, blind=False)
    assert told(made)["azimuth"].agreement.pairs == 0
    assert told(made)["azimuth"].reason == "nothing was measured twice"
    assert told(made, "cold")["azimuth"].agreement.pairs == 40


@pytest.mark.parametrize(
    ("stems", "reason"), [(1, "one pair tells no standard deviation"), (5, "only 5 pairs: the intervals are wide")]
)
def test_few_pairs_are_said(stems, reason):
    assert told(looked(3, plots=1, stems=stems, exchanges=0))["dbh"].reason == reason


def test_differences_are_missing_where_nothing_was_compared():
    made = looked(4)
    found = matched(made)
    assert np.isfinite(differences(found)).all()
    assert [(each.look, each.asked, each.found, each.not_found) for each in stems_found(found)] == [
        ("blind", 40, 40, 0),
        ("cold", 0, 0, 0),
    ]


def test_species_agree_as_texts():
    made = survey(
        {"plot": ["1", "1", "1"], "stem": ["1", "2", "3"], "species": ["oak", "oak ", ""]},
        returned={"packet": ["P"] * 3, "row": ["1", "2", "3"], "found": ["yes"] * 3, "species": ["Oak", "ash", "ash"]},
    )
    figures = told(made, "cold")["species"].agreement
    assert (figures.pairs, figures.within) == (2, 0.5)


def test_the_tolerance_of_each_pair_is_that_of_its_recorded_value():
    made = looked(5)
    limits = tolerances(made.settings, distance_m=[5.0], dbh_cm=[20.0])
    azimuth = told(made)["azimuth"]
    assert (azimuth.tolerance_low, azimuth.tolerance_high) == (limits.azimuth_deg[0], limits.azimuth_deg[0])


def test_one_gross_slip_is_named_and_leaves_the_robust_figures_alone():
    made = looked(6)
    clean = matched(made)
    again = clean.again.copy()
    again[12, 2] = 10.0 * clean.recorded[12, 2]
    slipped = replace(clean, again=again)
    before, after = (
        {each.field: each for each in quality(made.upload, made.settings, rows) if each.look == "blind"}
        for rows in (clean, slipped)
    )
    assert before["dbh"].gross == ()
    assert before["dbh"].gross_words == ""
    dbh = after["dbh"]
    (one,) = dbh.gross
    texts = made.upload.stems.take(clean.stem[[12]])
    assert (one.plot, one.stem) == (texts.texts("plot")[0], texts.texts("stem")[0])
    assert one.difference == pytest.approx(9.0 * clean.recorded[12, 2])
    # The plain figures are what they are called, with the slip.
    assert dbh.agreement.pairs == 40
    assert dbh.agreement.spread > 10.0 * before["dbh"].agreement.spread
    assert dbh.robust.spread == pytest.approx(before["dbh"].robust.spread, rel=0.2)
    others = np.delete(differences(clean)[:, 2], 12)
    assert dbh.without_gross.bias == pytest.approx(others.mean())
    assert dbh.without_gross.spread == pytest.approx(others.std(ddof=1))
    assert dbh.gross_words == (
        f"One of 40 differences, plot {one.plot} stem {one.stem} ({one.difference:+.2f} cm), makes 100 % of their "
        f"scatter; without it the bias is {others.mean():+.2f} cm and the standard deviation "
        f"{others.std(ddof=1):.2f} cm."
    )
    for field in ("azimuth", "distance", "species"):
        assert after[field].gross == before[field].gross == ()


def test_several_gross_differences_are_named_the_largest_first():
    made = looked(7)
    clean = matched(made)
    again = clean.again.copy()
    again[[1, 2, 3, 4], 1] += [3.0, -9.0, 4.0, 6.0]
    told = {
        each.field: each
        for each in quality(made.upload, made.settings, replace(clean, again=again))
        if each.look == "blind"
    }["distance"]
    assert np.round([each.difference for each in told.gross]).tolist() == [-9.0, 6.0, 4.0, 3.0]
    assert "4 of 40 differences" in told.gross_words
    assert "and 2 more, make" in told.gross_words
    assert told.gross_share > 0.99


def test_a_difference_within_the_tolerance_is_never_gross():
    made = looked(8)
    clean = matched(made)
    again = clean.recorded.copy()
    again[3, 2] += 0.4
    told = quality(made.upload, made.settings, replace(clean, again=again))
    assert all(each.gross == () for each in told)


def test_intervals_of_the_median_hold_the_truth_beside_gross_slips():
    """Truth: the median is the bias of the crews; three slips of 40 move it hardly. Own simulation, 300 surveys."""
    held, runs = 0, 300
    for seed in range(runs):
        made = looked(seed)
        found = matched(made)
        again = found.again.copy()
        again[[5, 15, 25], 2] *= 10.0
        told = quality(made.upload, made.settings, replace(found, again=again))
        (dbh,) = (each for each in told if each.look == "blind" and each.field == "dbh")
        assert len(dbh.gross) >= 3
        held += dbh.robust.median_low <= SECOND.bias[2] - FIRST.bias[2] <= dbh.robust.median_high
    assert held / runs > 0.92


def test_where_most_differences_are_the_same_no_spread_by_the_median_is_told():
    made = looked(9)
    clean = matched(made)
    again = np.where(np.arange(len(clean.again))[:, None] % 3 == 0, clean.again, clean.recorded)
    told = quality(made.upload, made.settings, replace(clean, again=again))
    (dbh,) = (each for each in told if each.look == "blind" and each.field == "dbh")
    assert dbh.robust_reason == "more than half of the differences are the same"
    assert dbh.agreement.spread > 0.0
