"""Hatching of hidden ground, and the order of numbers as a path."""

import numpy as np
import pytest

from stemmap.drawing.layers import Layers
from stemmap.drawing.legend import describe_legend
from stemmap.drawing.palette import DARK, LIGHT, PAPER, contrast
from stemmap.drawing.paths import hidden_shapes
from stemmap.drawing.plot_map import describe_plot
from stemmap.drawing.scene import Lines, Texts
from stemmap.survey.measured import measure
from stemmap.survey.unseen import unseen

ONE = {"stem": [1], "azimuth": [90.0], "distance_m": [5.0], "dbh_cm": [100.0]}
RADIUS = 10.0


def hatching(survey, millimetres_per_metre=10.0):
    ground = unseen(survey, measure(survey)).ground_of(0)
    return hidden_shapes(ground, millimetres_per_metre, LIGHT, radius_m=RADIUS)


def length(lines):
    return float(np.hypot(*(lines.end - lines.start).T).sum())


def legend_words(survey, **layers):
    measured = measure(survey)
    seen = unseen(survey, measured)
    scene = describe_legend(
        survey, measured, 0, theme=PAPER, width_mm=180.0, layers=Layers(**layers), unseen=seen
    )
    return [text for shape in scene.shapes if isinstance(shape, Texts) for text in shape.texts]


def test_hatching_stays_in_the_sector_behind_the_stem(plot):
    (lines,) = hatching(plot(ONE, radius_m=RADIUS))
    for ends in (lines.start, lines.end):
        distance = np.hypot(*ends.T)
        azimuth = np.degrees(np.arctan2(*ends.T))
        assert (distance >= 5.0 - 1e-9).all()
        assert (distance <= RADIUS + 1e-9).all()
        assert (np.abs(azimuth - 90.0) <= np.degrees(np.arcsin(0.1)) + 1e-6).all()


def test_the_length_of_the_hatching_is_the_hidden_ground_over_the_distance_of_its_lines(plot, scattered):
    survey = plot(scattered(60, radius_m=RADIUS), radius_m=RADIUS)
    share = unseen(survey, measure(survey)).ground.share[0]
    fine, coarse = (hatching(survey, scale)[0] for scale in (20.0, 10.0))
    ground = share * np.pi * RADIUS**2

    assert length(fine) == pytest.approx(2.0 * length(coarse), rel=0.05)
    assert length(fine) * 1.4 * (1.0 + share) / 20.0 == pytest.approx(ground, rel=0.05)


def test_a_map_enlarged_very_much_has_no_more_than_some_hundred_lines(plot):
    (lines,) = hatching(plot(ONE, radius_m=RADIUS), 100_000.0)
    assert len(lines.start) <= 401


def test_ground_of_one_visit_is_that_of_all(plot, scattered):
    survey = plot(scattered(40))
    seen = unseen(survey, measure(survey))

    assert seen.ground_of(0).share == pytest.approx(seen.ground.share)
    assert seen.ground_of(0).start_deg.tolist() == seen.ground.start_deg.tolist()


def test_nothing_is_hatched_where_stems_were_measured_at_the_stem(plot):
    survey = plot(ONE, radius_m=RADIUS, measurement={"method": "at_stem"})

    assert hatching(survey) == []
    assert "not seen from the centre" not in legend_words(survey)


def test_the_legend_names_the_hatching_while_it_is_drawn(plot):
    survey = plot(ONE, radius_m=RADIUS)

    assert "not seen from the centre" in legend_words(survey)
    assert "not seen from the centre" not in legend_words(survey, unseen=False)


def test_the_path_goes_from_stem_to_stem_by_number_not_by_line(plot):
    survey = plot({"stem": [10, 9, 2], "azimuth": [0.0, 90.0, 180.0], "distance_m": [3.0, 3.0, 3.0]})
    scene = describe_plot(survey, measure(survey), 0, millimetres_per_metre=10.0, layers=Layers(order=True))
    places = [shape for shape in scene.shapes if isinstance(shape, Lines) and len(shape.start) == 2]
    (path,) = [lines for lines in places if np.allclose(lines.start[0], [0.0, -3.0])]

    assert path.end == pytest.approx(np.array([[3.0, 0.0], [0.0, 3.0]]))
    assert "order of numbers, from the ring" in legend_words(survey, order=True)
    assert "order of numbers, from the ring" not in legend_words(survey)


@pytest.mark.parametrize("theme", [LIGHT, DARK, PAPER])
def test_hatching_and_path_stand_out_from_the_ground(theme):
    assert contrast(theme.hatch, theme.inside) >= 3.0
    assert contrast(theme.ghost, theme.inside) >= 3.0


def test_a_stem_without_dbh_stops_no_hatching_behind_others(plot):
    more = {name: [*values, other] for (name, values), other in zip(ONE.items(), (2, 180.0, 4.0, None), strict=True)}

    assert length(hatching(plot(more, radius_m=RADIUS))[0]) == length(hatching(plot(ONE, radius_m=RADIUS))[0])
