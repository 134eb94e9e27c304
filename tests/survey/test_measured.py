"""From records to in or out: designs in the file's own units, status, membership, borderline."""

import numpy as np
import pytest

from stemmap.core import locate
from stemmap.survey.measured import Status, first_records, largest_radius, measure
from tests.uploads import survey

ACRE_IN_HECTARES = 0.40468564224


def measured(stems, *, plots=None, **settings):
    count = len(next(iter(stems.values())))
    return measure(survey({"plot": [1] * count, "azimuth": [45] * count, **stems}, plots, settings=settings))


# Designs


def test_expansion_factors_of_a_nested_design_of_two_circles():
    """Swiss National Forest Inventory: 7.98 m from 12 cm (200 m²), 12.62 m from 36 cm (500 m²): 50 and 20 per hectare.

    The last stem is thinner than 36 cm and outside 7.98 m: it is not counted.
    """
    circles = [{"radius_m": 7.98, "min_dbh_cm": 12}, {"radius_m": 12.62, "min_dbh_cm": 36}]
    made = measured(
        {"dbh_cm": [14, 20, 30, 40, 55, 38, 30], "distance_m": [5.0, 7.5, 3.0, 11.0, 12.0, 6.0, 9.0]},
        design={"kind": "concentric", "circles": circles},
    )
    assert made.inside.tolist() == [True] * 6 + [False]
    np.testing.assert_allclose(made.expansion_per_ha[:3], 50, rtol=5e-4)
    # Computed: 10000 / (pi 12.62²) = 19.986.
    np.testing.assert_allclose(made.expansion_per_ha[3:6], 19.986, atol=5e-4)
    np.testing.assert_allclose(made.limiting_distance_m, [7.98, 7.98, 7.98, 12.62, 12.62, 12.62, 7.98])
    assert made.circle.tolist() == [0, 0, 0, 1, 1, 1, 0]
    assert made.radius_m.tolist() == [12.62]


def test_expansion_factors_of_a_nested_design_with_upper_limits():
    """Chevrou, ground plot of the French inventory: 6, 9 and 15 m for 7.5, 22.5 and 37.5 cm; factors computed."""
    circles = [
        {"radius_m": 6, "min_dbh_cm": 7.5, "max_dbh_cm": 22.5},
        {"radius_m": 9, "min_dbh_cm": 22.5, "max_dbh_cm": 37.5},
        {"radius_m": 15, "min_dbh_cm": 37.5},
    ]
    made = measured(
        {"dbh_cm": [7.4, 7.5, 22.4, 22.5, 37.5], "distance_m": [3, 6, 6.1, 9, 15]},
        design={"kind": "concentric", "circles": circles},
    )
    np.testing.assert_allclose(made.expansion_per_ha, [0, 88.419, 88.419, 39.298, 14.147], atol=1e-3)
    assert made.inside.tolist() == [False, True, False, True, True]
    assert made.inside_known.all()


def test_expansion_factor_of_a_plot_in_feet():
    """US Forest Inventory and Analysis, FIADB: four circles of 24.0 ft stand for 6.018046 stems per acre a stem."""
    made = measured({"distance_m": [24.0]}, measurement={"length_unit": "foot"}, design={"radius_m": 24.0})
    assert made.inside.tolist() == [True]
    assert made.expansion_per_ha[0] == pytest.approx(4 * 6.018046 / ACRE_IN_HECTARES, rel=1e-7)


@pytest.mark.parametrize(
    ("dbh", "factor", "limit"),
    # Bitterlich's rule 0.5 d / sqrt(k), metres to the axis; computed.
    [(20, 1, 10.0), (30, 2, 10.607), (36, 4, 9.0), (50, 4, 12.5), (80, 9, 13.333)],
)
def test_limiting_distance_of_an_angle_count(dbh, factor, limit):
    made = measured(
        {"dbh_cm": [dbh, dbh, None], "distance_m": [round(limit, 3) - 0.001, round(limit, 3) + 0.002, 3]},
        design={"kind": "angle_count", "basal_area_factor": factor},
    )
    np.testing.assert_allclose(made.limiting_distance_m, [limit, limit, np.nan], atol=5e-4)
    assert made.inside.tolist() == [True, False, False]
    assert made.inside_known.tolist() == [True, True, False]
    assert np.isnan(made.radius_m).all()


def test_limiting_distance_of_an_angle_count_in_feet():
    """Basal area factor 10 ft²/ac: 12 in may stand 33 ft away (factor 2.75 ft/in to the centre, US practice)."""
    made = measured(
        {"dbh_cm": [12], "distance_m": [33.0]},
        measurement={"length_unit": "foot"},
        design={"kind": "angle_count", "basal_area_factor": 10, "max_radius_m": 40},
    )
    assert made.limiting_distance_m[0] / 0.3048 == pytest.approx(33.0, abs=1e-3)
    assert made.radius_m.tolist() == [pytest.approx(40 * 0.3048)]


def test_equality_is_in_also_through_float_noise():
    """12.57 m to the face and a dbh of 10 cm make 12.62 m."""
    made = measured(
        {"distance_m": [12.57], "dbh_cm": [10]}, measurement={"distance_to": "face"}, design={"radius_m": 12.62}
    )
    assert made.inside.tolist() == [True]


def test_half_the_diameter_belongs_to_the_distance():
    # Computed: 12.50 m to the face and 30 cm make 12.65 m, out of 12.62 m.
    made = measured(
        {"distance_m": [12.50], "dbh_cm": [30]}, measurement={"distance_to": "face"}, design={"radius_m": 12.62}
    )
    assert made.inside.tolist() == [False]


def test_radius_of_the_plot_stands_above_that_of_the_design():
    made = survey(
        {"plot": [1, 2, 3], "distance_m": [9, 9, 9]},
        {"plot": [1, 2, 3], "radius_m": [8, None, -1]},
        settings={"design": {"radius_m": 10}},
    )
    assert largest_radius(made).tolist() == [8.0, 10.0, 10.0]
    assert measure(made).inside.tolist() == [False, True, True]


def test_nothing_is_known_without_a_radius():
    made = measured({"distance_m": [5]})
    assert made.inside_known.tolist() == [False]
    assert np.isnan(made.limiting_distance_m).all()
    assert np.isnan(made.inside_probability).all()
    assert made.borderline.tolist() == [False]


def test_stem_without_dbh_counts_in_a_fixed_circle_and_is_unknown_under_a_smallest_dbh():
    stems = {"distance_m": [5, 5], "dbh_cm": [None, 6]}
    assert measured(stems, design={"radius_m": 10}).inside.tolist() == [True, True]
    made = measured(stems, design={"radius_m": 10, "min_dbh_cm": 7})
    assert made.inside_known.tolist() == [False, True]
    assert made.expansion_per_ha[1] == 0.0


def test_offset_circle_is_measured_from_its_own_centre():
    circles = [
        {"radius_m": 2, "max_dbh_cm": 12, "offset_azimuth": 100, "offset_m": 10},
        {"radius_m": 8, "min_dbh_cm": 12},
    ]
    made = measured(
        {"azimuth": [100, 100, 300], "distance_m": [11, 5, 5], "dbh_cm": [5, 5, 20]},
        measurement={"azimuth_unit": "gon"},
        design={"kind": "concentric", "circles": circles},
    )
    np.testing.assert_allclose(made.compared_distance_m, [1.0, 5.0, 5.0])
    assert made.inside.tolist() == [True, False, True]
    assert made.radius_m.tolist() == [12.0]


# Slope


@pytest.mark.parametrize(
    ("percent", "feet"),
    # US Forest Service, Common Stand Exam user guide, Appendix I, circular plot radii corrected for slope, 1/10 acre.
    [(0, 37.2), (14, 37.4), (25, 37.8), (50, 39.4)],
)
def test_enlarged_radius_on_the_slope(percent, feet):
    tenth_acre = np.sqrt(4356 / np.pi)
    made = measured(
        {"distance_m": [10]},
        plots={"plot": [1], "slope_percent": [percent], "aspect_deg": [180], "radius_m": [tenth_acre]},
        measurement={"length_unit": "foot"},
        design={"slope": "enlarged_radius_on_slope"},
    )
    assert made.limiting_distance_m[0] / 0.3048 == pytest.approx(feet, abs=0.05)
    assert made.expansion_per_ha[0] == pytest.approx(10_000 / (np.pi * (tenth_acre * 0.3048) ** 2))


def test_circle_laid_on_the_slope_compares_the_measured_slope_distance():
    """At 10.1 m along 20 degrees up the slope a stem is out of 10 m on the ground, and in on the map."""
    stems = {"azimuth": [0], "distance_m": [10.1], "vertical_angle_deg": [20]}
    ground = {"plot": [1], "slope_percent": [np.tan(np.radians(20)) * 100], "aspect_deg": [180]}
    slope = {"distance": "slope"}
    on_ground = measured(
        stems, plots=ground, measurement=slope, design={"radius_m": 10, "slope": "same_radius_on_slope"}
    )
    assert on_ground.compared_distance_m.tolist() == [10.1]
    assert on_ground.inside.tolist() == [False]
    assert measured(stems, plots=ground, measurement=slope, design={"radius_m": 10}).inside.tolist() == [True]
    # Horizontal area counts: the circle covers pi R² cos(20 degrees) of it.
    assert on_ground.expansion_per_ha[0] == pytest.approx(10_000 / (np.pi * 100 * np.cos(np.radians(20))))


def test_slope_distance_to_the_face_of_a_stem_without_dbh_decides_nothing():
    made = measured(
        {"distance_m": [5], "vertical_angle_deg": [10], "dbh_cm": [None]},
        plots={"plot": [1], "slope_percent": [18], "aspect_deg": [0]},
        measurement={"distance": "slope", "distance_to": "face"},
        design={"radius_m": 10, "slope": "same_radius_on_slope"},
    )
    assert made.inside_known.tolist() == [False]


def test_circle_on_a_slope_that_nobody_measured_is_unknown():
    made = measured({"distance_m": [5]}, design={"radius_m": 10, "slope": "same_radius_on_slope"})
    assert made.inside_known.tolist() == [False]


# Probability and borderline


def test_stem_on_the_limit_is_as_likely_in_as_out():
    made = measured({"distance_m": [10.0, 9.8, 10.2]}, design={"radius_m": 10})
    np.testing.assert_allclose(made.inside_probability, [0.5, 0.99997, 3.2e-5], atol=1e-5)
    assert made.borderline.tolist() == [True, False, False]


def test_just_outside_is_as_borderline_as_just_inside():
    made = measured({"distance_m": [9.95, 10.05]}, design={"radius_m": 10})
    assert made.borderline.tolist() == [True, True]
    assert made.inside.tolist() == [True, False]
    assert made.inside_probability.sum() == pytest.approx(1.0)


def test_distance_of_the_settings_makes_borderline_too():
    made = measured({"distance_m": [9.5, 9.4]}, design={"radius_m": 10}, errors={"borderline_m": 0.5})
    assert made.borderline.tolist() == [True, False]


def test_diameter_at_a_class_limit_may_bring_a_stem_in():
    """35.9 ± 0.3 cm at 10 m, in 7.98 and 12.62 m with the step at 36 cm: in with 0.37 (computed)."""
    circles = [{"radius_m": 7.98, "min_dbh_cm": 12}, {"radius_m": 12.62, "min_dbh_cm": 36}]
    made = measured({"distance_m": [10, 5], "dbh_cm": [35.9, 35.9]}, design={"kind": "concentric", "circles": circles})
    np.testing.assert_allclose(made.inside_probability, [0.369, 1.0], atol=1e-3)
    np.testing.assert_allclose(made.class_change_probability, [0.369, 0.369], atol=1e-3)
    assert made.inside.tolist() == [False, True]


# Status


@pytest.mark.parametrize(
    ("typed", "status", "known"),
    [
        ("living", Status.LIVING, True),
        (" DEAD ", Status.DEAD, True),
        ("2", Status.DEAD, True),
        ("cut", Status.CUT, True),
        ("not found", Status.GONE, True),
        ("", Status.LIVING, True),
        ("q7", Status.LIVING, False),
    ],
)
def test_status_words(typed, status, known):
    made = measured({"status": [typed]}, design={"radius_m": 10})
    assert (made.status[0], made.status_known[0]) == (status, known)


def test_codes_of_the_settings_mean_what_was_said():
    made = measured({"status": ["2", "dead", "x"]}, status={"living": ["2"], "cut": [" X "]})
    assert made.status.tolist() == [Status.LIVING, Status.DEAD, Status.CUT]


def test_upload_without_status_lives():
    assert measured({"distance_m": [3]}).status.tolist() == [Status.LIVING]


# Membership fixed at the first visit


def two_visits(**design):
    """A stem that stands at 10 m and grows from 30 to 40 cm, and one that is new at the second visit."""
    circles = [{"radius_m": 7.98, "min_dbh_cm": 12}, {"radius_m": 12.62, "min_dbh_cm": 36}]
    stems = {
        "plot": [1, 1, 1],
        "visit": ["2021", "2026", "2026"],
        "stem": [1, 1, 2],
        "azimuth": [0, 0, 90],
        "distance_m": [10, 10, 10],
        "dbh_cm": [30, 40, 40],
    }
    return survey(stems, settings={"design": {"kind": "concentric", "circles": circles, **design}})


def test_each_visit_decides_for_itself():
    assert measure(two_visits(membership="each_visit")).inside.tolist() == [False, True, True]


def test_first_visit_decides_for_all():
    made = measure(two_visits(membership="first_visit"))
    assert made.inside.tolist() == [False, False, True]
    assert made.limiting_distance_m.tolist() == [7.98, 7.98, 12.62]
    assert made.expansion_per_ha[1] == made.expansion_per_ha[0]
    # What is said of the chance belongs to the decision that holds.
    assert made.inside_probability[1] == made.inside_probability[0]
    assert made.inside_probability[2] == pytest.approx(1.0)


def test_first_record_of_a_stem_is_that_of_its_plot_and_number():
    made = survey(
        {
            "plot": [1, 1, 1, 1, 2, 1, 1],
            "visit": ["a", "a", "b", "c", "b", "a", "b"],
            "stem": [1, 1, 1, 1, 1, "", ""],
        }
    )
    lines = made.stems.records.line
    first = dict(zip(lines.tolist(), lines[first_records(made.stems, made.visits.previous)].tolist(), strict=True))
    # Two records of one visit are two stems; without a number a stem is nobody's successor.
    assert first == {2: 2, 3: 3, 4: 2, 5: 2, 6: 6, 7: 7, 8: 8}


# All at once


def test_empty_upload_measures_to_nothing():
    made = measure(survey())
    assert made.x_m.shape == made.inside.shape == (0,)
    assert made.radius_m.shape == (0,)


def test_plots_do_not_touch_each_other():
    rng = np.random.default_rng(4)
    count = 60
    stems = {
        "plot": rng.integers(0, 7, count).tolist(),
        "azimuth": rng.uniform(0, 360, count).round(1).tolist(),
        "distance_m": rng.uniform(0.5, 14, count).round(2).tolist(),
        "dbh_cm": rng.uniform(5, 60, count).round(1).tolist(),
    }
    settings = {"design": {"kind": "concentric", "circles": [{"radius_m": 8}, {"radius_m": 12, "min_dbh_cm": 30}]}}
    together = survey(stems, settings=settings)
    whole = measure(together)
    for row, plot in enumerate(together.visits.plot):
        alone = [place for place, name in enumerate(stems["plot"]) if str(name) == plot]
        part = measure(survey({name: [stems[name][i] for i in alone] for name in stems}, settings=settings))
        rows = together.visits.stems(row)
        for name in ("x_m", "y_m", "limiting_distance_m", "inside_probability", "expansion_per_ha", "inside"):
            np.testing.assert_array_equal(getattr(whole, name)[rows], getattr(part, name))


def test_position_is_azimuth_and_distance():
    # Computed: 48.2 degrees and 12.62 m are 9.4079 m east and 8.4116 m north.
    made = measured({"azimuth": [48.2], "distance_m": [12.62]})
    assert (made.x_m[0], made.y_m[0]) == (pytest.approx(9.4079, abs=5e-5), pytest.approx(8.4116, abs=5e-5))
    azimuth, distance = locate.polar(made.x_m, made.y_m)
    np.testing.assert_allclose([azimuth[0], distance[0]], [48.2, 12.62])


def test_dbh_alone_makes_borderline_only_where_the_distance_is_clear():
    circles = [{"radius_m": 7.98, "min_dbh_cm": 12}, {"radius_m": 12.62, "min_dbh_cm": 36}]
    stems = {"distance_m": [10, 7.98, 12.62, 5], "dbh_cm": [35.9, 20, 36.0, 36.0]}
    made = measured(stems, design={"kind": "concentric", "circles": circles})
    assert made.borderline.tolist() == [True, True, True, False]
    assert made.borderline_by_dbh.tolist() == [True, False, False, False]
