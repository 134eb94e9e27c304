"""What settling a doubt is worth, against figures worked out by hand."""

import numpy as np
import pytest

from stemmap import checks
from stemmap.survey.batches import Batch, Proposal
from stemmap.survey.findings import Findings
from stemmap.survey.measured import measure
from stemmap.survey.registry import Case, catalogue, run_checks
from stemmap.survey.summary import summarise
from stemmap.survey.worth import Worth
from tests.uploads import survey

#: A circle of 10 m: each stem stands for 10000 / (pi 100) stems a hectare.
PER_HA = 10_000 / (np.pi * 100)
AREA = np.pi * 0.1**2  # of a stem of 20 cm


def plain_stems(**columns):
    """Two plots of four stems of 20 cm, well apart and well inside."""
    made = {
        "plot": ["1"] * 4 + ["2"] * 4,
        "stem": ["1", "2", "3", "4"] * 2,
        "azimuth": [10, 100, 190, 280] * 2,
        "distance_m": [5.0] * 8,
        "dbh_cm": [20.0] * 8,
    }
    return made | columns


def worth_of(stems, *batches, settings=None, plots=None):
    """Worth of a survey with findings of a kind given by hand."""
    checks.load()
    made = survey(
        stems, plots, settings={"design": {"radius_m": 10.0}, "measurement": {"method": "at_stem"}} | (settings or {})
    )
    measured = measure(made)
    found = Findings(made, tuple((catalogue()[slug], batch) for slug, batch in batches))
    return Worth(summarise(made, measured), found)


def mistyped(row, field, value, probability, wrong):
    proposals = () if value is None else (Proposal(field, np.array([value]), np.array([probability])),)
    return "mistyped", Batch(
        "No. {stem}",
        np.array([row // 4]),
        np.array([row]),
        field=field,
        evidence={"probability_wrong": np.array([wrong])},
        proposals=proposals,
    )


def test_survey_without_doubts_has_none():
    assert len(worth_of(plain_stems()).doubts) == 0


def test_borderline_stem_counts_its_weight_times_the_probability_of_the_other_side():
    worth = worth_of(plain_stems(distance_m=[9.97, *[5.0] * 7]))
    doubts = worth.doubts

    wrong = 1 - worth.summary.measured.inside_probability[0]
    assert 0.1 < wrong < 0.5
    assert doubts.stem.tolist() == [0]
    assert doubts.probability == pytest.approx([wrong])
    assert doubts.stems_per_ha == pytest.approx([PER_HA])
    assert doubts.basal_area_m2_per_ha == pytest.approx([PER_HA * AREA])
    # One stem of four on an average plot, in stems and in basal area.
    assert doubts.worth == pytest.approx([25.0 * wrong])


def test_stem_just_outside_counts_what_it_would_add():
    worth = worth_of(plain_stems(distance_m=[10.03, *[5.0] * 7]))

    assert worth.doubts.stems_per_ha == pytest.approx([PER_HA])
    assert worth.doubts.probability == pytest.approx(worth.summary.measured.inside_probability[:1])


def test_mistyped_dbh_moves_the_basal_area_to_that_of_its_proposals():
    worth = worth_of(plain_stems(), mistyped(0, "dbh_cm", 40.0, 0.6, 0.6))

    assert worth.doubts.stems_per_ha == pytest.approx([0.0])
    assert worth.doubts.basal_area_m2_per_ha == pytest.approx([PER_HA * 3 * AREA])
    assert worth.doubts.worth == pytest.approx([0.5 * 0.6 * 3 * 25.0])


def test_mistyped_distance_counts_as_far_as_the_stem_comes_in_or_falls_out():
    stays = worth_of(plain_stems(), mistyped(0, "distance_m", 6.0, 0.9, 0.9)).doubts
    leaves = worth_of(plain_stems(), mistyped(0, "distance_m", 15.0, 0.9, 0.9)).doubts
    unknown = worth_of(plain_stems(distance_m=[50.0, *[5.0] * 7]), mistyped(0, "distance_m", None, 0.0, 0.9)).doubts

    assert stays.stems_per_ha == pytest.approx([0.0])
    assert leaves.stems_per_ha == pytest.approx([PER_HA])
    assert unknown.stems_per_ha == pytest.approx([PER_HA])


def test_mistyped_azimuth_moves_no_result_and_counts_the_share_of_the_settings():
    found = mistyped(0, "azimuth", 101.0, 0.8, 0.8)
    usual, none = (
        worth_of(plain_stems(), found),
        worth_of(plain_stems(), found, settings={"recheck": {"misplaced_share": 0.0}}),
    )

    assert usual.doubts.stems_per_ha.tolist() == [0.0]
    assert usual.doubts.worth == pytest.approx([0.1 * 0.8 * 25.0])
    assert len(none.doubts) == 0


def test_record_entered_twice_counts_its_whole_weight():
    doubts = worth_of(plain_stems(), mistyped(1, None, None, 0.0, 0.7)).doubts

    assert doubts.stems_per_ha == pytest.approx([PER_HA])
    assert doubts.worth == pytest.approx([25.0 * 0.7])


def test_two_doubts_about_one_stem_are_one_line_and_add_up():
    both = worth_of(plain_stems(), mistyped(0, "dbh_cm", 40.0, 0.5, 0.5), mistyped(0, None, None, 0.0, 0.5)).doubts

    assert both.stem.tolist() == [0]
    assert both.probability == pytest.approx([0.75])
    assert both.worth == pytest.approx([0.5 * 0.5 * 75.0 + 0.5 * 25.0])


def test_stem_without_distance_or_dbh_counts_as_an_ordinary_one():
    worth = worth_of(plain_stems(distance_m=[None, *[5.0] * 7], dbh_cm=[20.0, None, *[20.0] * 6]))

    assert worth.doubts.probability.tolist() == [1.0, 1.0]
    assert worth.doubts.stems_per_ha == pytest.approx([PER_HA, 0.0])
    assert worth.doubts.basal_area_m2_per_ha == pytest.approx([PER_HA * AREA, PER_HA * AREA])


def test_only_the_last_visit_of_a_plot_can_be_measured_again():
    stems = plain_stems(plot=["1"] * 8, visit=["2015"] * 4 + ["2025"] * 4, distance_m=[9.97, 5, 5, 5, 9.97, 5, 5, 5])
    worth = worth_of(stems)

    assert worth.result.plots == 1
    assert worth.doubts.stem.tolist() == [4]


def test_hidden_stems_make_a_doubt_about_their_plot():
    stems = plain_stems(distance_m=[1.0] * 8, dbh_cm=[60.0] * 8)
    worth = worth_of(stems, settings={"measurement": {"method": "from_centre"}})
    doubts, missed = worth.doubts, worth.summary.unseen

    assert doubts.stem.tolist() == [-1, -1]
    np.testing.assert_allclose(doubts.probability * doubts.stems_per_ha, missed.stems_per_ha.expected)
    assert "may stand unseen" in " ".join(worth.reasons(0, -1))


def test_worth_of_a_finding_is_that_of_its_record():
    made = survey(plain_stems(distance_m=[9.97, *[5.0] * 7]), settings={"design": {"radius_m": 10.0}})
    measured = measure(made)
    checks.load()
    found = run_checks(Case(made, measured))
    worth = Worth(summarise(made, measured), found)

    of_borderline = [place for place, told in enumerate(found) if told.check == "borderline"]
    stem = worth.doubts.stem == 0
    assert worth.of_findings[of_borderline] == pytest.approx(worth.doubts.worth[stem])
    assert np.isnan(worth.of_findings[found.order.visit < 0]).all()
    assert any("borderline" in reason for reason in worth.reasons(0, 0))


def test_without_a_radius_nothing_is_known_and_nothing_ranked():
    worth = worth_of(plain_stems(), mistyped(0, None, None, 0.0, 0.9), settings={"design": {}})

    assert np.isnan(worth.result.stems_per_ha)
    assert len(worth.doubts) == 0


def test_doubts_do_not_depend_on_the_order_of_findings():
    found = [mistyped(0, "dbh_cm", 40.0, 0.5, 0.5), mistyped(5, "distance_m", 15.0, 0.9, 0.9)]
    one, other = worth_of(plain_stems(), *found).doubts, worth_of(plain_stems(), *found[::-1]).doubts

    np.testing.assert_allclose(one.worth, other.worth)


def test_plot_that_does_not_lie_as_before_counts_the_share_of_all_its_stems():
    turned = Batch("Plot {plot}", np.array([1]), np.array([-1]), evidence={"probability": np.array([0.8])})
    worth = worth_of(plain_stems(), ("plot-rotated", turned))

    assert worth.doubts.visit.tolist() == [1]
    assert worth.doubts.probability == pytest.approx([0.8])
    assert worth.doubts.worth == pytest.approx([0.1 * 0.8 * 100.0])
    assert list(worth.reasons(1, -1)) == ["Plot 2"]


def test_plot_without_stems_may_be_an_ordinary_one():
    empty = Batch("Plot {plot}", np.array([2]), np.array([-1]))
    worth = worth_of(plain_stems(), ("plot-without-stems", empty), plots={"plot": ["1", "2", "3"]})

    assert worth.doubts.visit.tolist() == [2]
    assert worth.doubts.stems_per_ha == pytest.approx([4 * PER_HA])
