"""The map of all plots: where they lie, how they gather, what is drawn of them."""

from time import perf_counter

import numpy as np
import pytest
from pyproj import Transformer

from stemmap.drawing.layers import Layers
from stemmap.drawing.overview import CLEAR, ERROR, NO_STEMS, TO_LOOK_AT, overview
from stemmap.drawing.overview_map import describe_grid, describe_overview, describe_overview_legend
from stemmap.drawing.palette import DARK, LIGHT
from stemmap.drawing.scene import Lines, Texts, View
from stemmap.survey.measured import measure
from tests.uploads import survey as made

WIDTH, HEIGHT, PER_MM = 900.0, 700.0, 4.0


def plots_of(columns, *, stems=None, gravest=None, **settings):
    survey = made(stems or {}, columns, settings={"design": {"kind": "fixed", "radius_m": 10.0}, **settings})
    states = np.full(len(survey.visits), CLEAR) if gravest is None else np.array(gravest)
    return overview(survey, measure(survey), states)


def words(scene):
    return [text for shape in scene.shapes if isinstance(shape, Texts) for text in shape.texts]


def drawn(plots, view=None, theme=LIGHT, **layers):
    view = view or View.fitting(plots.box, WIDTH, HEIGHT, PER_MM)
    return describe_overview(plots, view, WIDTH, HEIGHT, theme=theme, layers=Layers(**layers))


def grid(count, step=200.0):
    side = np.arange(count)
    return {
        "plot": [str(number) for number in range(count * count)],
        "easting": (400_000.0 + step * np.tile(side, count)).tolist(),
        "northing": (5_300_000.0 + step * np.repeat(side, count)).tolist(),
    }


UTM = {"survey": {"crs": "EPSG:25833"}}


def test_plots_lie_at_their_projected_places():
    plots = plots_of(grid(3), **UTM)
    order = np.argsort(plots.visit)

    # Projecting their own system back and forth through WGS 84 costs less than a millimetre.
    assert (plots.place + plots.base)[order][:, 0] == pytest.approx(grid(3)["easting"], abs=1e-3)
    assert (plots.place + plots.base)[order][:, 1] == pytest.approx(grid(3)["northing"], abs=1e-3)


def test_plots_given_as_longitude_and_latitude_are_projected():
    plots = plots_of({"plot": ["A"], "lon": [15.3], "lat": [47.9]}, **UTM)

    # Computed with pyproj, EPSG:4326 to EPSG:25833.
    east, north = Transformer.from_crs(4326, 25833, always_xy=True).transform(15.3, 47.9)
    assert plots.place[0] + plots.base == pytest.approx([east, north], abs=1e-3)


def test_a_system_in_feet_is_shown_in_metres():
    plots = plots_of({"plot": ["A"], "easting": [2_000_000.0], "northing": [500_000.0]}, survey={"crs": "EPSG:2232"})

    # US survey foot, 1200/3937 m.
    assert plots.place[0] + plots.base == pytest.approx([2e6 * 1200 / 3937, 5e5 * 1200 / 3937], abs=1e-2)


def test_a_system_in_degrees_gives_way_to_a_zone_and_says_so():
    plots = plots_of({"plot": ["A"], "lon": [15.3], "lat": [47.9]}, survey={"crs": "EPSG:4258"})

    assert plots.crs == "EPSG:32633"
    assert "EPSG:4258 counts in degrees, so the plots are shown in EPSG:32633." in plots.notes


def test_plots_without_coordinates_are_named():
    plots = plots_of({"plot": ["A", "B"], "easting": [400_000.0, None], "northing": [5_300_000.0, None]}, **UTM)

    assert plots.names.tolist() == ["A"]
    assert plots.plot_of_visit.tolist() == [0, -1]
    assert "Without coordinates, so not on the map: B." in plots.notes


def test_a_survey_without_any_coordinates_has_no_overview():
    plots = plots_of({"plot": ["A", "B"]})

    assert plots.crs is None
    assert plots.notes == ("No plot has coordinates, so there is no map of the whole survey.",)
    assert plots.near(0.0, 0.0) == -1


def test_every_plot_is_in_exactly_one_cluster_at_every_scale():
    plots = plots_of(grid(30), **UTM)

    for level in plots.levels:
        assert level.count.sum() == 900
        bounds = np.append(level.first, 900)
        assert np.array_equal(np.diff(bounds), level.count)
        for number in (0, len(level.count) // 2, len(level.count) - 1):
            members = plots.place[bounds[number] : bounds[number + 1]]
            assert level.place[number] == pytest.approx(members.mean(axis=0))
            assert level.low[number] == pytest.approx(members.min(axis=0))


def test_clusters_are_cells_so_marks_of_one_scale_keep_apart():
    plots = plots_of(grid(30), **UTM)
    counts = [len(plots.clusters(scale).count) for scale in (10.0, 0.1, 0.02, 0.005, 0.0005)]

    assert counts[0] == 900
    assert counts == sorted(counts, reverse=True)
    assert counts[-1] <= 4


def test_the_gravest_state_of_all_visits_counts():
    stems = {"plot": ["A", "A", "B"], "visit": ["1", "2", "1"], "azimuth": [1, 2, 3], "distance_m": [4, 5, 6]}
    columns = {"plot": ["A", "B", "C"], "easting": [4e5, 4.01e5, 4.02e5], "northing": [5.3e6] * 3}
    plots = plots_of(columns, stems=stems, gravest=[ERROR, CLEAR, TO_LOOK_AT, CLEAR], **UTM)
    states = dict(zip(plots.names.tolist(), plots.state.tolist(), strict=True))

    assert states == {"A": ERROR, "B": TO_LOOK_AT, "C": NO_STEMS}
    assert plots.levels[-1].state.min() == ERROR


@pytest.mark.parametrize("theme", [LIGHT, DARK], ids=["light", "dark"])
def test_states_have_signs_and_clusters_have_counts(theme):
    stems = {"plot": ["0", "1", "2"], "azimuth": [1, 2, 3], "distance_m": [4, 5, 6]}
    plots = plots_of(grid(2), stems=stems, gravest=[ERROR, TO_LOOK_AT, CLEAR, CLEAR], **UTM)

    assert {"!", "?", "–", "0", "1", "2", "3"} == set(words(drawn(plots, theme=theme)))
    far = View(450.0, 350.0, 0.0001, PER_MM)
    assert "4" in words(drawn(plots, far, theme=theme))
    legend = words(describe_overview_legend(plots, theme=theme, width_mm=40.0))
    assert {"with errors: 1", "to look at: 1", "nothing to look at: 1", "without stems: 1"} <= set(legend)


def test_names_never_lie_on_each_other():
    plots = plots_of({**grid(2), "plot": ["far to the westx", "right", "c", "d"]}, **UTM)
    scale = 0.08  # 200 m are 16 mm: the long name would reach the plot to the right
    scene = drawn(plots, View(450.0, 350.0, scale * PER_MM, PER_MM))

    assert not [word for word in words(scene) if word.startswith("far")]
    assert {"right", "c", "d"} <= set(words(scene))


def test_what_lies_outside_the_view_is_not_described():
    plots = plots_of(grid(20), **UTM)
    view = View.fitting(plots.around(plots.place[0], plots.place[0]), WIDTH, HEIGHT, PER_MM)

    assert len(words(drawn(plots, view))) <= 4


def test_lines_of_the_projected_grid_carry_their_coordinates():
    plots = plots_of(grid(3), **UTM)
    scene = describe_grid(plots, View.fitting(plots.box, WIDTH, HEIGHT, PER_MM), WIDTH, HEIGHT, theme=LIGHT)
    lines = [shape for shape in scene.shapes if isinstance(shape, Lines)]

    assert len(lines) == 2
    assert {"400200 E", "5300200 N"} <= set(words(scene))


def test_a_mark_is_hit_where_it_is_drawn():
    plots = plots_of(grid(3), **UTM)
    view = View.fitting(plots.box, WIDTH, HEIGHT, PER_MM)
    x, y = view.to_device(plots.place[4:5])[0]

    assert plots.cluster_at(view, x + 5.0, y, within_mm=2.0) == 4
    assert plots.cluster_at(view, x + 60.0, y, within_mm=2.0) == -1


def test_geographic_and_projected_are_the_reverse_of_each_other():
    plots = plots_of(grid(2), **UTM)
    lon, lat = plots.geographic([(100.0, 200.0)])

    assert plots.projected(float(lon[0]), float(lat[0])) == pytest.approx((100.0, 200.0), abs=1e-3)


def test_a_view_of_a_hundred_thousand_plots_is_described_at_once():
    rng = np.random.default_rng(3)
    count = 100_000
    columns = {
        "plot": [str(number) for number in range(count)],
        "easting": rng.uniform(3e5, 7e5, count).round().tolist(),
        "northing": rng.uniform(5.2e6, 5.6e6, count).round().tolist(),
    }
    plots = plots_of(columns, **UTM)
    drawn(plots)
    view = View.fitting(plots.box, WIDTH, HEIGHT, PER_MM).zoomed(3.0, 400.0, 300.0)
    began = perf_counter()
    scene = drawn(plots, view)

    assert perf_counter() - began < 0.05
    assert len(words(scene)) < 1500


def test_plots_whose_coordinate_system_is_not_known_say_so():
    plots = plots_of({"plot": ["A", "B"], "easting": [400_000.0, 400_100.0], "northing": [5_300_000.0, 5_300_000.0]})

    assert plots.crs is None
    assert "coordinate system of the plots is not known" in plots.notes[0]
