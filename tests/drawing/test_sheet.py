"""The plot sheet: what fits, and what it says."""

import pytest

from stemmap.drawing.scene import Texts
from stemmap.drawing.sheet import PAPERS, describe_sheet, fitting_scale
from stemmap.errors import InputError
from stemmap.survey.measured import measure


def words(page):
    return [
        text for part in page.parts for shape in part.scene.shapes if isinstance(shape, Texts) for text in shape.texts
    ]


def reach_on_page(page):
    """Left, top, right and bottom of each part on the page, millimetres."""
    for part in page.parts:
        box, scale = part.scene.box, part.millimetres_per_metre
        yield (
            part.x_mm + box.low[0] * scale + box.low_mm[0],
            part.y_mm - box.high[1] * scale - box.high_mm[1],
            part.x_mm + box.high[0] * scale + box.high_mm[0],
            part.y_mm - box.low[1] * scale - box.low_mm[1],
        )


@pytest.mark.parametrize(
    ("radius", "paper", "scale"),
    [
        (7.98, "A4", 100),
        (7.98, "Letter", 100),
        (12.62, "A4", 150),
        (12.62, "A3", 100),
        (12.62, "Letter", 150),
        (17.84, "A4", 250),
        (25.0, "A4", 500),
        (56.42, "A4", 1000),
    ],
)
def test_the_largest_scale_that_fits_is_taken(plot, scattered, radius, paper, scale):
    survey = plot(scattered(40), radius_m=radius)
    measured = measure(survey)
    page = describe_sheet(survey, measured, 0, paper=paper)

    assert fitting_scale(survey, measured, 0, paper=paper) == scale
    assert f"1:{scale}" in words(page)
    for left, top, right, bottom in reach_on_page(page):
        assert 0.0 < left < right < page.width_mm
        assert 0.0 < top < bottom < page.height_mm


@pytest.mark.parametrize("paper", PAPERS)
def test_parts_of_a_full_sheet_do_not_overlap(plot, scattered, finding, paper):
    stems = scattered(60)
    stems["species"] = [f"a species with a long name, number {number}" for number in range(60)]
    stems["status"] = ["dead", "cut", "gone", ""] * 15
    stems["azimuth"][0] = None
    stems["distance_m"][1] = 99.0
    families = ("import", "inclusion", "typing", "diameter", "revisit", "visibility")
    found = [finding(number, family, azimuth=3.0) for number, family in enumerate(families)]
    survey = plot(stems, radius_m=7.98)
    page = describe_sheet(survey, measure(survey), 0, findings=found, paper=paper)
    _, plot_map, legend, foot = reach_on_page(page)

    assert plot_map[3] <= legend[1]
    assert legend[3] <= foot[1]
    assert any("more species" in text for text in words(page)) == (paper != "A3")


def test_a_stem_outside_does_not_make_the_scale_smaller(plot, scattered):
    stems = scattered(10, radius_m=7.0)
    stems["distance_m"][0] = 9.5
    survey = plot(stems, radius_m=7.98)

    assert "1:100" in words(describe_sheet(survey, measure(survey), 0))


def test_a_scale_at_which_the_plot_does_not_fit_is_refused(plot):
    survey = plot()

    with pytest.raises(InputError, match=r"does not fit on A4 at 1:100; 1:150 is the largest"):
        describe_sheet(survey, measure(survey), 0, scale=100)
    assert "1:300" in words(describe_sheet(survey, measure(survey), 0, scale=300))


def test_an_unknown_paper_is_named(plot):
    survey = plot()

    with pytest.raises(InputError, match="A4, A3, Letter"):
        fitting_scale(survey, measure(survey), 0, paper="B5")


def test_the_sheet_says_what_a_crew_needs(plot, scattered):
    survey = plot(
        scattered(5),
        plots={"declination_deg": [3.5], "stratum": ["north slope"], "date": ["2025-06-14"]},
        measurement={"azimuth_unit": "gon", "north": "magnetic"},
        survey={"name": "Example Forest"},
    )
    text = " ".join(words(describe_sheet(survey, measure(survey), 0)))

    for part in (
        "Plot A",
        "Example Forest · stratum north slope · measured 2025-06-14",
        "Azimuth ticks: gon, clockwise from magnetic north (declination +3.5°). Up on the map is true north.",
        "This bar is 100 mm long when printed at 100 %",
        "The rules of your employer and of the place come before this sheet.",
        "no legal survey",
        "radius 12.62 m",
        "borderline zone, ± 0.10 m",
    ):
        assert part in text


def test_the_legend_tells_only_what_occurs(plot, scattered):
    survey = plot(scattered(5, radius_m=3.0))
    text = " ".join(words(describe_sheet(survey, measure(survey), 0)))

    for absent in ("dead", "hollow", "dbh not known", "finding", "last visit"):
        assert absent not in text.replace("dead trees", "")


def test_an_empty_plot_has_a_sheet(plot):
    survey = plot()

    assert "Plot A" in words(describe_sheet(survey, measure(survey), 0))
