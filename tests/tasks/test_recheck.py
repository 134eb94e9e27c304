"""The re-check list of the sample survey."""

import numpy as np
import pytest

from stemmap.assets import sample_data
from stemmap.errors import InputError
from stemmap.tasks.recheck import recheck_list
from stemmap.tasks.workup import open_uploads


@pytest.fixture(scope="module")
def workup():
    files = [sample_data("survey") / name for name in ("plots.csv", "stems.csv")]
    return open_uploads(files, settings=sample_data("survey") / "settings.toml")


def test_list_goes_from_the_most_to_the_least_for_each_minute_and_carries_each_walk_once(workup):
    made = recheck_list(workup, blind_share=0.0)
    rules = workup.survey.settings.recheck

    assert (np.diff(made.rate) <= 1e-12).all()
    walk = rules.minutes_to_plot + rules.minutes_to_set_up
    own = np.where(made.stem >= 0, rules.minutes_per_stem, rules.minutes_to_search)
    assert made.minutes.sum() == pytest.approx(walk * len(made.by_visit) + own.sum())


@pytest.mark.parametrize("hours", [0.0, 0.5, 2.0, 8.0, 1000.0])
def test_list_stays_within_its_budget_with_its_blind_checks(workup, hours):
    made = recheck_list(workup, budget_hours=hours, blind_share=0.2)

    assert made.minutes.sum() <= 60 * hours + 1e-6


def test_more_time_brings_more(workup):
    gains = [np.nansum(recheck_list(workup, budget_hours=hours).percent) for hours in (1, 2, 4, 8, 100)]

    assert gains == sorted(gains)


def test_blind_checks_are_stems_that_are_not_on_the_list_and_follow_the_seed(workup):
    made = recheck_list(workup, blind_share=0.3, seed=4)
    blind = made.stem[made.doubt < 0]

    assert len(blind) == np.ceil(0.3 * (len(made) - len(blind)))
    assert not np.isin(blind, made.stem[made.doubt >= 0]).any()
    assert len(np.unique(blind)) == len(blind)
    assert recheck_list(workup, blind_share=0.3, seed=4).stem.tolist() == made.stem.tolist()
    assert recheck_list(workup, blind_share=0.3, seed=5).stem.tolist() != made.stem.tolist()


def test_every_line_says_why(workup):
    for line in recheck_list(workup, blind_share=0.2).lines():
        assert line["reasons"], line
        assert all(reason.strip() for reason in line["reasons"])


def test_totals_add_up_the_lines(workup):
    made = recheck_list(workup, budget_hours=6.0, blind_share=0.1)
    lines, totals = list(made.lines()), made.totals()

    assert totals["doubts"] + totals["blind"] == len(lines)
    assert totals["minutes"] == pytest.approx(sum(line["minutes"] for line in lines))
    assert totals["worth_percent"] == pytest.approx(sum(line["worth_percent"] or 0.0 for line in lines))
    for line in lines[: totals["doubts"]]:
        moved = [line["effect"][name] / totals["result"][name] for name in ("stems_per_ha", "basal_area_m2_per_ha")]
        # What stands in a wrong place counts a share beside what moves the result.
        assert line["worth_percent"] >= 100 * line["probability"] * np.mean(moved) - 1e-9


def test_budget_below_zero_and_share_above_one_are_refused(workup):
    with pytest.raises(InputError, match="budget"):
        recheck_list(workup, budget_hours=-1.0)
    with pytest.raises(InputError, match="share"):
        recheck_list(workup, blind_share=1.5)
