"""Mistyped records on simulated plots: how many are found, how many are accused, and whether probabilities hold.

The plots are random, numbered clockwise or in no order, with or without a last visit; every error is put in by hand.
"""

import numpy as np
import pytest
from scipy.stats import binom

from stemmap import checks
from stemmap.survey.measured import measure
from stemmap.survey.registry import Case, run_checks
from tests.uploads import survey

PLOTS, STEMS, RADIUS_M = 150, 24, 10.0


def simulated(seed, *, last_visit, ordered=True, wrong_share=0.03):
    """Columns of the stems, and by plot and stem of 2026 the field that is wrong and what was meant."""
    rng = np.random.default_rng(seed)
    columns = {name: [] for name in ("plot", "visit", "stem", "azimuth", "distance_m", "dbh_cm")}
    truth = {}
    for plot in range(PLOTS):
        azimuth, distance = rng.uniform(0, 360, STEMS), RADIUS_M * np.sqrt(rng.uniform(0.01, 0.98, STEMS))
        if ordered:
            azimuth = np.sort(azimuth)
        dbh = np.exp(rng.normal(3.2, 0.35, STEMS))
        for visit in ("2021", "2026") if last_visit else ("2026",):
            grown = dbh + (rng.normal(1.5, 0.7, STEMS) if visit == "2026" else 0.0)
            gone = rng.random(STEMS) < (0.03 if visit == "2026" else 0.0)
            for stem in np.flatnonzero(~gone):
                seen = f"{(azimuth[stem] + rng.normal(0, 1)) % 360:.0f}"
                far = f"{max(distance[stem] + rng.normal(0, 0.05), 0.2):.2f}"
                if visit == "2026" and rng.random() < wrong_share:
                    meant = (seen, far)
                    seen, far = mistyped(rng, seen, far)
                    if (seen, far) != meant:
                        truth[f"{plot}", f"{stem + 1}"] = meant
                cells = (plot, visit, stem + 1, seen, far, f"{grown[stem] + rng.normal(0, 0.2):.1f}")
                for name, cell in zip(columns, cells, strict=True):
                    columns[name].append(f"{cell}")
    return columns, truth


def mistyped(rng, azimuth, distance):
    """The two numbers with one slip."""
    slip = rng.integers(5)
    if slip == 0:
        return f"{(int(azimuth) + 180) % 360}", distance
    if slip == 1:
        place = rng.integers(max(len(azimuth) - 1, 1))
        digits = list(azimuth)
        digits[place : place + 2] = digits[place : place + 2][::-1]
        return f"{int(''.join(digits))}", distance
    if slip == 2:
        place = rng.integers(len(azimuth))
        return f"{int((azimuth[:place] + azimuth[place + 1 :]) or 0)}", distance
    if slip == 3:
        return azimuth, distance.replace(".", "")
    return f"{round(int(azimuth) / 0.9)}", distance


def judged(columns):
    """Findings of the family by plot and stem, of the visit 2026."""
    checks.load()
    settings = {"design": {"radius_m": RADIUS_M}, "errors": {"dbh_sd_mm": 2}}
    made = survey(columns, settings=settings)
    told = run_checks(Case(made, measure(made)))
    found = [finding for finding in told if finding.family == "typing" and finding.visit == "2026"]
    keys = [(finding.plot, finding.stem) for finding in found]
    assert len(keys) == len(set(keys)), "a record has more than one finding"
    return dict(zip(keys, found, strict=True))


def moved_m(columns, key, meant):
    """How far the slip moved the stem."""
    row = next(
        row
        for row, cells in enumerate(zip(columns["plot"], columns["stem"], columns["visit"], strict=True))
        if cells == (*key, "2026")
    )
    typed = columns["azimuth"][row], columns["distance_m"][row]
    places = [float(far) * np.exp(1j * np.radians(float(seen))) for seen, far in (typed, meant)]
    return abs(places[0] - places[1])


@pytest.fixture(scope="module", params=[True, False], ids=["with a last visit", "without"])
def case(request):
    columns, truth = simulated(11, last_visit=request.param)
    return request.param, columns, truth, judged(columns)


def test_errors_that_move_a_stem_are_found(case):
    with_last, columns, truth, found = case
    big = [key for key, meant in truth.items() if moved_m(columns, key, meant) > 1.0]
    sure = {key for key, finding in found.items() if finding.severity != "note"}
    assert len(big) > 50
    assert np.mean([key in sure for key in big]) > (0.95 if with_last else 0.8)


def test_right_records_are_not_accused(case):
    _, _, truth, found = case
    accused = [key for key, finding in found.items() if finding.severity != "note" and key not in truth]
    assert len(accused) < 0.004 * PLOTS * STEMS


def test_probability_of_being_wrong_holds(case):
    _, _, truth, found = case
    chance = np.array([finding.evidence["probability_wrong"] for finding in found.values()])
    wrong = np.array([key in truth for key in found])
    for low, high in ((0.2, 0.8), (0.8, 1.01)):
        some = (chance >= low) & (chance < high)
        if some.sum() >= 10:
            lowest, highest = binom.interval(0.999, some.sum(), chance[some].mean())
            assert lowest <= wrong[some].sum() <= highest


def test_best_proposal_is_as_often_right_as_it_says(case):
    _, _, truth, found = case
    said, right = [], []
    for key, finding in found.items():
        if finding.proposals:
            best = max(finding.proposals, key=lambda proposal: proposal["probability"])
            said.append(best["probability"])
            meant = dict(zip(("azimuth", "distance_m"), truth.get(key, ("nan", "nan")), strict=True))
            off = abs(best["value"] - float(meant.get(best["field"], "nan")))
            off = min(off, 360.0 - off) if best["field"] == "azimuth" else off
            right.append(off <= (2.0 if best["field"] == "azimuth" else 0.1))
    lowest, highest = binom.interval(0.9999, len(said), np.mean(said))
    assert lowest <= sum(right) <= highest


def test_severity_follows_the_probability(case):
    *_, found = case
    for finding in found.values():
        assert (finding.severity == "note") == (finding.evidence["probability_wrong"] <= 0.5)


def test_survey_without_errors_is_left_alone():
    columns, _ = simulated(12, last_visit=True, wrong_share=0.0)
    found = judged(columns)
    assert sum(finding.severity != "note" for finding in found.values()) < 0.002 * PLOTS * STEMS


def test_numbers_in_no_order_are_no_doubt():
    columns, truth = simulated(13, last_visit=False, ordered=False)
    found = judged(columns)
    accused = [key for key, finding in found.items() if finding.severity != "note" and key not in truth]
    assert len(accused) < 0.002 * PLOTS * STEMS


def test_it_is_known_whether_the_order_of_the_numbers_tells(case):
    told = list(case[3].values())
    for each in told:
        said = "breaks the order" in each.message or "it fits the order" in each.message
        assert each.told_by_order == said
    assert 0 < sum(each.told_by_order for each in told) < len(told)
