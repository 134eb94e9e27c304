"""The re-check list against surveys whose every error is known."""

import numpy as np
import pytest

from stemmap.tasks.recheck import recheck_list
from stemmap.tasks.workup import work_up
from tests.benchmarks.bench_recheck import ORDERS, PART, within
from tests.known_survey import known_survey, recovered


@pytest.fixture(scope="module", params=[(500, False), (1000, False), (500, True), (1000, True)])
def listed(request):
    per_ha, groups = request.param
    known = known_survey(np.random.default_rng([7, per_ha, groups]), plots=200, per_ha=per_ha, groups=groups)
    made = recheck_list(work_up(known.made), blind_share=0.0)
    return known, made, recovered(known, made)


def test_first_fifth_of_the_list_mends_at_least_twice_what_random_order_does(listed):
    _, made, gains = listed
    rng = np.random.default_rng(8)
    count = int(PART * len(made))
    mixed = np.mean([gains[rng.permutation(len(made))[:count]].sum() for _ in range(ORDERS)])

    assert gains[:count].sum() > 2 * mixed


def test_a_fifth_of_the_time_mends_at_least_twice_what_random_order_does(listed):
    _, made, gains = listed
    rng, rules = np.random.default_rng(9), made.workup.survey.settings.recheck
    walk = rules.minutes_to_plot + rules.minutes_to_set_up
    own = np.where(made.stem >= 0, rules.minutes_per_stem, rules.minutes_to_search)
    time = PART * made.minutes.sum()
    orders = [rng.permutation(len(made)) for _ in range(ORDERS)]
    mixed = np.mean([within(gains[order], made.visit[order], own[order], walk, time) for order in orders])

    assert within(gains, made.visit, own, walk, time) > 2 * mixed


def test_most_of_what_is_wrong_is_on_the_list_and_worth_what_the_list_says(listed):
    known, made, gains = listed
    expected = np.nansum(made.percent) * made.workup.worth.result.plots

    assert gains.sum() > 0.75 * (known.of_stem.sum() + known.of_plot.sum())
    assert expected == pytest.approx(gains.sum(), rel=0.3)
