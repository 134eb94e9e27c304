"""Colours that everybody can tell apart and read."""

import pytest

from stemmap.drawing.colouring import colouring
from stemmap.drawing.palette import (
    DARK,
    LIGHT,
    PAPER,
    SPECIES_FILLS,
    SPOTS,
    SpeciesMarks,
    contrast,
    readable_on,
)
from stemmap.survey.measured import measure

THEMES = pytest.mark.parametrize("theme", [LIGHT, DARK, PAPER], ids=["light", "dark", "paper"])


def test_contrast_of_black_and_white_is_21():
    # W3C, Web Content Accessibility Guidelines 2.2: ratios range from 1 to 21.
    assert contrast("#000000", "#ffffff") == pytest.approx(21.0)
    assert contrast("#777777", "#777777") == pytest.approx(1.0)
    # Computed by the definition there: (1.05) / (0.2126 * 1 + 0.05).
    assert contrast("#ff0000", "#ffffff") == pytest.approx(1.05 / 0.2626)


@THEMES
def test_text_is_readable_on_every_ground(theme):
    for ground in (theme.page, theme.outside, theme.inside):
        assert contrast(theme.ink, ground) >= 4.5
        assert contrast(theme.soft, ground) >= 4.5


@THEMES
def test_signs_stand_out_from_every_ground(theme):
    for ground in (theme.outside, theme.inside):
        for sign in (theme.accent, theme.ghost, theme.ink):
            assert contrast(sign, ground) >= 3.0


@THEMES
def test_letters_and_spots_are_readable_on_their_fills(theme):
    for fill in (*SPECIES_FILLS, theme.unknown, theme.accent, theme.inside):
        assert contrast(readable_on(fill), fill) >= 4.5


@THEMES
def test_the_ground_inside_is_a_shade_lighter(theme):
    assert contrast(theme.inside, "#000000") > contrast(theme.outside, "#000000")


def test_42_species_have_different_marks_and_the_first_six_differ_in_both_cues(plot, scattered):
    survey = plot(scattered(5))
    colours = colouring(survey, measure(survey), 0)
    marks = [(colours.fill_of(rank, LIGHT), colours.spots_of(rank)) for rank in range(42)]

    assert len(set(marks)) == 42
    assert len({fill for fill, _ in marks[:6]}) == len({spots for _, spots in marks[:6]}) == 6
    assert len(set(SPOTS)) == 7


def test_species_are_ranked_by_number_of_stems_then_by_name(plot, scattered):
    stems = scattered(6)
    stems["species"] = ["oak", "beech ", "beech", "ash", None, "oak"]
    survey = plot(stems)
    marks = SpeciesMarks.of(survey)

    assert marks.names == ("beech", "oak", "ash")
    assert marks.rank(survey, slice(0, 6)).tolist() == [1, 0, 0, 2, -1, 1]


def test_a_survey_without_species_has_no_marks(plot):
    survey = plot({"azimuth": [1.0], "distance_m": [2.0]})

    assert SpeciesMarks.of(survey).rank(survey, slice(0, 1)).tolist() == [-1]
