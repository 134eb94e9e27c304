"""Missed stems and their intervals, against invented stands in which every hidden stem is known."""

import numpy as np
import pytest

from stemmap.core.missed import missed
from stemmap.core.visibility import Grouping, grouping, seen_probability
from tests.stands import grouped_places, random_places, seen_from_centre, with_diameters


def surveyed(rng, places, *, radius, plots):
    """True numbers of missed stems by plot; of the seen ones the probability and plot; how they are grouped."""
    stand = with_diameters(rng, places)
    seen = seen_from_centre(stand)
    records, radii = stand.take(seen).records, np.full(plots, radius)
    chance = seen_probability(*records, radius_m=radii)
    grouped = grouping(*records, radius_m=radii, probability=chance)
    return np.bincount(stand.plot, ~seen, minlength=plots), chance, records[3], grouped


def held(true, made):
    """Share of the plots whose interval holds the true number."""
    return np.mean((made.low <= true) & (true <= made.high))


def test_where_all_is_seen_nothing_is_missed():
    made = missed(np.ones(3), np.array([0, 0, 2]), plots=3)

    assert made.expected.tolist() == made.low.tolist() == made.high.tolist() == [0.0, 0.0, 0.0]


def test_without_stems_nothing_is_missed():
    made = missed(np.zeros(0), np.zeros(0, int), plots=2, grouped=Grouping(np.zeros(2), np.zeros(2)))

    assert made.expected.tolist() == made.high.tolist() == [0.0, 0.0]


def test_a_plot_alone_misses_what_its_stems_stand_for():
    made = missed(np.array([0.8, 0.5]), np.zeros(2, int), plots=1)

    assert made.expected[0] == pytest.approx(1 / 0.8 - 1 + 1.0)
    assert made.low[0] <= made.expected[0] <= made.high[0]


@pytest.mark.parametrize(("per_ha", "radius"), [(400, 12.62), (800, 12.62), (1200, 12.62), (2000, 10.0)])
def test_intervals_hold_in_95_of_100_plots_for_stems_at_random(per_ha, radius):
    rng = np.random.default_rng(21)
    places = random_places(rng, per_ha=per_ha, radius=radius, plots=800)
    true, chance, plot, grouped = surveyed(rng, places, radius=radius, plots=800)
    made = missed(chance, plot, plots=800, grouped=grouped)

    assert made.expected.sum() == pytest.approx(true.sum(), rel=0.06)
    assert 0.93 <= held(true, made) <= 0.97


@pytest.mark.parametrize(
    ("of", "spread", "per_ha", "radius"),
    [(4, 1.5, 800, 12.62), (6, 2.5, 600, 12.62), (6, 2.5, 1200, 12.62), (10, 4.0, 600, 12.62), (20, 3.0, 1000, 12.62)],
)
def test_intervals_hold_in_95_of_100_plots_for_stems_in_groups(of, spread, per_ha, radius):
    rng = np.random.default_rng(22)
    places = grouped_places(rng, per_ha=per_ha, radius=radius, plots=800, of=of, spread=spread)
    true, chance, plot, grouped = surveyed(rng, places, radius=radius, plots=800)
    made = missed(chance, plot, plots=800, grouped=grouped)

    assert made.expected.sum() == pytest.approx(true.sum(), rel=0.1)
    assert 0.93 <= held(true, made) <= 0.97


def test_intervals_hold_in_surveys_of_twenty_plots_too():
    rng = np.random.default_rng(24)
    places = grouped_places(rng, per_ha=1200, radius=12.62, plots=600, of=6, spread=2.5)
    true, chance, plot, grouped = surveyed(rng, places, radius=12.62, plots=600)
    holds = []
    for first in range(0, 600, 20):
        mine = plot // 20 == first // 20
        here = slice(first, first + 20)
        of_these = Grouping(grouped.observed[here], grouped.expected[here])
        holds.append(held(true[here], missed(chance[mine], plot[mine] - first, plots=20, grouped=of_these)))

    assert 0.93 <= np.mean(holds) <= 0.97


def test_plots_with_many_and_with_few_hidden_are_right_on_average():
    """Where the plot alone would say too much for plots with many stems by chance, and too little for others."""
    rng = np.random.default_rng(25)
    places = random_places(rng, per_ha=800, radius=12.62, plots=2000)
    true, chance, plot, grouped = surveyed(rng, places, radius=12.62, plots=2000)
    expected = missed(chance, plot, plots=2000, grouped=grouped).expected

    for part in np.array_split(np.argsort(expected), 4):
        assert expected[part].mean() == pytest.approx(true[part].mean(), abs=4 * true[part].std() / np.sqrt(500))


def test_intervals_of_basal_area_hold_as_well():
    rng = np.random.default_rng(26)
    stand = with_diameters(rng, random_places(rng, per_ha=1200, radius=12.62, plots=800))
    seen = seen_from_centre(stand)
    records = stand.take(seen).records
    chance = seen_probability(*records, radius_m=np.full(800, 12.62))
    area = stand.dbh**2
    true = np.bincount(stand.plot, area * ~seen, minlength=800)

    assert 0.93 <= held(true, missed(chance, records[3], plots=800, weight=area[seen])) <= 0.97


def test_totals_of_groups_are_sums_and_their_intervals_are_narrower_than_the_sum():
    rng = np.random.default_rng(27)
    places = random_places(rng, per_ha=900, radius=12.62, plots=100)
    _, chance, plot, grouped = surveyed(rng, places, radius=12.62, plots=100)
    by_plot = missed(chance, plot, plots=100, grouped=grouped)
    into = np.where(np.arange(100) < 90, np.arange(100) % 2, -1)
    made = missed(chance, plot, plots=100, grouped=grouped, into=into, groups=2)

    for group in (0, 1):
        assert made.expected[group] == pytest.approx(by_plot.expected[into == group].sum())
        assert made.high[group] - made.low[group] < np.sum((by_plot.high - by_plot.low)[into == group])


def test_stems_in_groups_are_missed_more_often_than_a_plot_alone_would_say():
    rng = np.random.default_rng(28)
    places = grouped_places(rng, per_ha=900, radius=12.62, plots=300, of=8, spread=2.0)
    true, chance, plot, grouped = surveyed(rng, places, radius=12.62, plots=300)

    assert missed(chance, plot, plots=300).expected.sum() < 0.9 * true.sum()
    assert missed(chance, plot, plots=300, grouped=grouped).expected.sum() == pytest.approx(true.sum(), rel=0.1)
