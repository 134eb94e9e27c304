"""The plot sheet: what fits, what it says, and that its list loses no stem."""

from dataclasses import replace
from datetime import date
from itertools import pairwise

import pytest
from PySide6.QtCore import QTranslator

from stemmap.assets import resource
from stemmap.drawing.scene import Discs, Texts
from stemmap.drawing.sheet import PAPERS, SheetStyle, describe_sheet, fitting_scale
from stemmap.drawing.typeface import WORDS
from stemmap.errors import InputError
from stemmap.survey.measured import measure
from stemmap.survey.withheld import without_values


def sheet(survey, *, findings=(), first_number=None, **style):
    return describe_sheet(
        SheetStyle.of(survey, measure(survey), **style), 0, findings=findings, first_number=first_number
    )


def words(*pages, size_mm=None):
    return [
        text
        for page in pages
        for part in page.parts
        for shape in part.scene.shapes
        if isinstance(shape, Texts) and size_mm in (None, shape.size_mm)
        for text in shape.texts
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
    pages = sheet(survey, paper=paper)

    assert fitting_scale(survey, measure(survey), 0, paper=paper) == scale
    assert f"1:{scale}" in words(pages[0])
    for page in pages:
        for left, top, right, bottom in reach_on_page(page):
            assert 9.99 < left < right < page.width_mm - 9.99
            assert 9.99 < top < bottom < page.height_mm - 9.99


@pytest.fixture(params=["en", "de"])
def language(qt, request):
    """The language in which sheets speak."""
    translator = QTranslator()
    if request.param != "en":
        assert translator.load(str(resource("translations") / f"stemmap_{request.param}.qm"))
        qt.installTranslator(translator)
    yield request.param
    qt.removeTranslator(translator)


@pytest.mark.parametrize("paper", PAPERS)
def test_parts_of_a_full_sheet_do_not_overlap(plot, scattered, finding, paper, language):
    stems = scattered(60)
    stems["species"] = [f"a species with a long name, number {number}" for number in range(60)]
    stems["status"] = ["dead", "cut", "gone", ""] * 15
    stems["azimuth"][0] = None
    stems["distance_m"][1] = 99.0
    families = ("import", "inclusion", "typing", "diameter", "revisit", "visibility")
    found = [finding(number, family, azimuth=3.0) for number, family in enumerate(families)]
    survey = plot(stems, radius_m=7.98)
    pages = sheet(survey, findings=found, paper=paper)

    for page in pages:
        boxes = sorted(reach_on_page(page), key=lambda box: box[1])
        for upper, lower in pairwise(boxes):
            assert upper[3] <= lower[1] + 1e-6
    if language == "en":
        assert any("more species" in text for text in words(pages[0])) == (paper != "A3")


def test_a_stem_outside_does_not_make_the_scale_smaller(plot, scattered):
    stems = scattered(10, radius_m=7.0)
    stems["distance_m"][0] = 9.5
    survey = plot(stems, radius_m=7.98)

    assert "1:100" in words(*sheet(survey))


def test_a_scale_at_which_the_plot_does_not_fit_is_refused(plot):
    survey = plot()

    with pytest.raises(InputError, match=r"does not fit on A4 at 1:100; 1:150 is the largest"):
        sheet(survey, scale=100)
    assert "1:300" in words(*sheet(survey, scale=300))


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
    text = " ".join(words(*sheet(survey, printed=date(2026, 6, 1))))

    for part in (
        "Plot A",
        "Example Forest · stratum north slope · measured 2025-06-14 · printed 2026-06-01",
        "Plot centre: no coordinates are known.",
        "Azimuths: gon, clockwise from magnetic north; up on the map is true north.",
        "Magnetic declination +3.50° on 2025-06-14 (as stated for the plot).",
        "Design: one circle of radius 12.62 m, radius held level; horizontal distances to the axis of the stem;",
        "Standard errors: azimuth 1°, distance 0.05 m, dbh 3 mm.",
        "Borderline: in with a probability from 0.025 to 0.975.",
        "Print at 100 % (actual size): then this bar is 100 mm long.",
        "storm-damaged",
        "never look into the beam of a laser",
        "The rules of your employer and of the place come before this sheet.",
        "no legal survey",
        "radius 12.62 m",
        "borderline zone, ± 0.10 m",
    ):
        assert part in text


def test_the_day_of_printing_is_said_only_when_given(plot):
    assert "printed" not in " ".join(words(*sheet(plot())))


def test_the_centre_is_told_in_both_systems_with_convergence_and_declination(plot):
    # Convergence at 9° + 1.1° east: 1.1 * sin(50.2°) = 0.85 degrees, computed by hand to the first order.
    place = {"lon": [10.1], "lat": [50.2], "date": ["2025-06-14"]}
    text = " ".join(words(*sheet(plot(plots=place))))

    assert "easting 578505.40, northing 5561447.01 in EPSG:32632 (WGS 84 / UTM zone 32N)" in text
    assert "longitude 10.100000°, latitude 50.200000° (WGS 84)" in text
    assert "Convergence +0.85°" in text
    assert "on 2025-06-14 (computed by IGRF-14)" in text


@pytest.mark.parametrize(
    ("design", "said"),
    [
        (
            {"kind": "concentric", "circles": [{"radius_m": 9, "min_dbh_cm": 7}, {"radius_m": 13, "min_dbh_cm": 30}]},
            "concentric circles of radius 9 m from dbh 7 cm, 13 m from dbh 30 cm",
        ),
        ({"kind": "angle_count", "basal_area_factor": 4}, "angle count with a basal area factor of 4 m²/ha"),
        ({"slope": "same_radius_on_slope", "min_dbh_cm": 7}, "from dbh 7 cm, radius laid along the slope"),
    ],
)
def test_the_design_is_told_in_words(plot, scattered, design, said):
    survey = plot(scattered(5), radius_m=None if "kind" in design else 8.0, design=design)

    assert said in " ".join(words(*sheet(survey)))


@pytest.mark.parametrize("paper", PAPERS)
@pytest.mark.parametrize("count", [1, 300])
def test_the_list_shows_every_stem_once_and_as_typed(plot, scattered, count, paper):
    stems = scattered(count)
    stems["stem"] = [f"n{number}" for number in range(count)]
    stems["dbh_cm"][0] = None
    pages = sheet(plot(stems), paper=paper)
    listed = [text for text in words(*pages, size_mm=WORDS) if text in stems["stem"]]

    assert set(listed) == set(stems["stem"])
    assert len(listed) == count
    assert all(f"page {number + 1} of {len(pages)} of this plot" in words(page) for number, page in enumerate(pages))
    assert len(pages) == 1 if count == 1 and paper != "Letter" else len(pages) > 1


def test_a_small_plot_needs_one_page(plot, scattered):
    pages = sheet(plot(scattered(5, radius_m=4.0), radius_m=4.0))

    assert len(pages) == 1
    assert "measured again" in words(*pages)


def test_a_doubtful_stem_carries_its_letter_and_the_reason_under_its_row(plot, scattered, finding):
    survey = plot(scattered(40))
    told = [
        replace(finding(3, "typing"), message="No. 4 may be mistyped."),
        replace(finding(3, "diameter", "error"), message="No. 4 is too thick."),
        replace(finding(-1, "revisit"), message="The plot is turned."),
    ]
    text = words(*sheet(survey, findings=told)[1:])

    assert text.index("R: The plot is turned.") < text.index("as recorded")
    assert text.index("D: No. 4 is too thick.") + 1 == text.index("T: No. 4 may be mistyped.")
    assert {"T", "D"} <= set(text)


def test_very_many_reasons_are_counted(plot, scattered, finding):
    told = [replace(finding(0), message="A reason. " * 20) for _ in range(60)]
    pages = sheet(plot(scattered(3)), findings=told)

    assert any(text.endswith("more, see the window") for text in words(*pages))


@pytest.mark.parametrize("columns", [{"vertical_angle_deg": [5]}, {"girth_cm": [90]}, {"dbh_mm": [310]}, {"tree": [7]}])
def test_columns_of_the_record_are_columns_of_the_list(plot, columns):
    stems = {"stem": [1], "azimuth": [10], "distance_m": [5], **columns}
    text = words(*sheet(plot(stems)))
    heading = {"vertical_angle_deg": "vertical °", "girth_cm": "girth cm", "dbh_mm": "dbh mm", "tree": "tree"}

    (name,) = columns
    assert heading[name] in text
    assert str(columns[name][0]) in text


def test_values_that_were_not_understood_are_listed_as_typed(plot):
    text = words(*sheet(plot({"stem": [1], "azimuth": ["1o5"], "distance_m": ["seven"], "dbh_cm": [""]})))

    assert {"1o5", "seven", "–"} <= set(text)


def test_pages_bear_the_number_of_their_document(plot, scattered):
    pages = sheet(plot(scattered(60)), first_number=17)

    assert f"page 18 · page 2 of {len(pages)} of this plot" in words(pages[1])
    assert [bool(page.bookmark) for page in pages] == [True] + [False] * (len(pages) - 1)


def test_the_legend_tells_only_what_occurs(plot, scattered):
    survey = plot(scattered(5, radius_m=3.0))
    text = " ".join(words(*sheet(survey)))

    for absent in ("dead", "hollow", "dbh not known", "finding", "last visit"):
        assert absent not in text.replace("dead trees", "")


def test_an_empty_plot_has_a_sheet(plot):
    survey = plot()

    assert "Plot A" in words(*sheet(survey))


def test_a_blind_sheet_shows_the_ground_and_the_numbers_and_no_stem(plot, scattered):
    whole = plot(scattered(12), radius_m=12.62)
    blind = without_values(whole, [0])
    pages = describe_sheet(SheetStyle.of(blind, measure(blind), packet="BCDFGH"), 0, blind=True)
    cold = describe_sheet(SheetStyle.of(whole, measure(whole)), 0)
    discs = [[shape for part in pages_of[0].parts for shape in part.scene.shapes if isinstance(shape, Discs)]
             for pages_of in (pages, cold)]  # fmt: skip
    assert len(discs[0]) < len(discs[1])
    assert all(part.scene.stems is None for page in pages for part in page.parts)
    said = words(*pages)
    assert any("Blind check" in text for text in said)
    assert any("field packet BCDFGH" in text for text in said)
    assert not {"as recorded", "doubt"} & set(said)
    assert {"found", "yes", "no", "new"} <= set(said)
    assert "found" not in words(*cold)
    assert set(whole.stems.texts("stem").tolist()) <= set(said)
    assert not any("Not drawn" in text for text in said)
