"""Sentences about the survey's estimates: what they say, and that they claim no more."""

import pytest

from stemmap.survey.change import change_json
from stemmap.survey.error_budget import error_budget_json
from stemmap.survey.estimate_words import budget_sentences, change_sentences, estimate_sentences
from stemmap.survey.estimates import estimates_json
from stemmap.survey.measured import measure
from stemmap.survey.summary import summarise
from tests.survey.test_estimates import COUNTS, summary
from tests.uploads import survey


def said(made):
    return " ".join(estimate_sentences(estimates_json(made)[0]))


def budget(made):
    return budget_sentences(error_budget_json(made)[0])


def test_means_carry_their_error_in_percent_and_their_interval():
    told = estimates_json(summary())[0]["stems_per_ha"]
    text = said(summary())

    percent = 100.0 * told["standard_error"] / told["mean"]
    assert (
        f"{told['mean']:.0f} stems per hectare, standard error {told['standard_error']:.0f} or {percent:.0f} %" in text
    )
    assert f"95 % interval {told['low']:.0f} to {told['high']:.0f}." in text
    assert text.startswith("Computed as simple random sampling, from 6 plots.")


def test_totals_cautions_and_rare_species_are_told():
    strata = [{"name": "A", "area_ha": 30.0}, {"name": "B", "area_ha": 10.0}]
    text = said(summary({"layout": "systematic", "strata": strata}))

    assert "On 40 ha these are" in text
    assert "To be known: the plots lie on a grid" in text
    assert "the truth less often than it says: beech, oak." in text


def test_design_is_told_in_plots_drawn_at_random():
    text = said(summary(plot_columns={"cluster": list("xxyyzz")}))

    effect = estimates_json(summary(plot_columns={"cluster": list("xxyyzz")}))[0]["stems_per_ha"]["design_effect"]
    assert f"tell as much as {3 / effect:.0f} plots drawn at random would" in text


def test_survey_without_a_known_plot_says_why():
    assert said(summary(distance_m=[None] * sum(COUNTS))).startswith("Stems per hectare of the survey are not known: ")


def test_budget_says_what_buys_nothing():
    told = budget(summary())

    assert "A compass twice as exact would not change it: azimuths do not decide which stems are in." in told
    assert any(sentence.startswith("One further plot would take it to about ") for sentence in told)
    assert any("takes about 24 plots in all" in sentence for sentence in told)
    assert any(sentence.startswith("Hardly a stem stands so near") for sentence in told)


def test_budget_of_a_first_sample_says_that_more_plots_alone_do_not_do():
    photographs = {"auxiliary": [60, 110, 50, 170, 160, 150]}
    told = budget(summary({"auxiliary_mean": 110.0, "auxiliary_points": 12}, plot_columns=photographs))

    assert any("out of reach with more of the plots alone" in sentence for sentence in told)


def test_clusters_are_further_clusters():
    assert any(
        sentence.startswith("One further cluster")
        for sentence in budget(summary(plot_columns={"cluster": list("xxyyzz")}))
    )


def test_bias_is_told_apart_from_the_error():
    (told,) = error_budget_json(summary())
    area = {**told["basal_area_m2_per_ha"], "sampling_error": 2.0, "not_visible": 1.0}
    little = {**area, "not_visible": 0.1}

    assert budget_sentences({**told, "basal_area_m2_per_ha": area})[-1] == (
        "That is a bias, not a part of the error: 50 % of the standard error in basal area, and more plots do not "
        "lessen it."
    )
    assert (
        "are expected to be missed behind other stems" in budget_sentences({**told, "basal_area_m2_per_ha": little})[-1]
    )


@pytest.mark.parametrize(
    ("second", "verdict"),
    [([18.0, 36.0, 41.0], "no change is shown"), ([30.0, 38.0, 47.0], "more than by the choice of the plots alone")],
)
def test_change_is_claimed_only_when_its_interval_leaves_zero_out(second, verdict):
    rows = {
        "plot": ["1", "2", "3"] * 2,
        "visit": ["2020"] * 3 + ["2025"] * 3,
        "stem": ["1"] * 6,
        "azimuth": [10.0] * 6,
        "distance_m": [5.0] * 6,
        "dbh_cm": [20.0, 30.0, 40.0, *second],
    }
    made = survey(rows, {"plot": ["1", "2", "3"]}, settings={"design": {"radius_m": 12.62}})
    (told,) = change_json(summarise(made, measure(made)))
    text = " ".join(change_sentences(told))

    assert "3 plots were measured both times" in text
    assert verdict in text


def test_azimuths_are_not_said_to_decide_nothing_at_a_stand_edge():
    (told,) = error_budget_json(summary())

    assert not told["at_stand_edge"]
    assert any("at the stand edge alone" in sentence for sentence in budget_sentences({**told, "at_stand_edge": 1}))


def test_one_plot_is_told_in_the_singular():
    left_out = summary(distance_m=[None] * COUNTS[0] + [5.0] * sum(COUNTS[1:]))
    assert estimates_json(left_out)[0]["stems_per_ha"]["left_out"] == 1
    assert "1 plot without a known value was left out." in said(left_out)
    alone = summary(distance_m=[5.0] * COUNTS[0] + [None] * sum(COUNTS[1:]))
    assert said(alone).startswith("Computed as simple random sampling, from 1 plot.")
