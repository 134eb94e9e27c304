"""Sampling designs: limiting distances, expansion factors, who is in."""

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from numpy.testing import assert_allclose, assert_array_equal

from stemmap.core.design import (
    Circle,
    DbhClass,
    Design,
    compared_distance,
    dbh_classes,
    ground_ellipse,
    membership,
    slope_radius,
)
from stemmap.core.locate import horizontal_distance
from stemmap.errors import InputError
from stemmap.units import SQUARE_FEET_PER_ACRE

FOOT, INCH_CM = 0.3048, 2.54
#: Swiss National Forest Inventory: 7.98 m from 12 cm, 12.62 m from 36 cm (LFI, sample plots).
SWISS = Design("concentric", circles=(Circle(7.98, 12.0), Circle(12.62, 36.0)))
#: Inventaire forestier national, France, ground plot (Chevrou): 6, 9 and 15 m, with upper limits.
FRANCE = Design("concentric", circles=(Circle(6.0, 7.5, 22.5), Circle(9.0, 22.5, 37.5), Circle(15.0, 37.5)))


def of(design, distance, dbh, **plot):
    return membership(design, azimuth_deg=plot.pop("azimuth", 0.0), distance_m=distance, dbh_cm=dbh, **plot)


# -- angle count ------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("dbh", "limits"),
    [
        (7, (3.500, 2.475, 1.750, 1.167)),
        (10, (5.000, 3.536, 2.500, 1.667)),
        (15, (7.500, 5.303, 3.750, 2.500)),
        (20, (10.000, 7.071, 5.000, 3.333)),
        (25, (12.500, 8.839, 6.250, 4.167)),
        (30, (15.000, 10.607, 7.500, 5.000)),
        (36, (18.000, 12.728, 9.000, 6.000)),
        (40, (20.000, 14.142, 10.000, 6.667)),
        (50, (25.000, 17.678, 12.500, 8.333)),
        (60, (30.000, 21.213, 15.000, 10.000)),
        (80, (40.000, 28.284, 20.000, 13.333)),
    ],
)
def test_limiting_distance_in_metres(dbh, limits):
    # Computed to the millimetre for factors 1, 2, 4 and 9.
    for factor, limit in zip((1.0, 2.0, 4.0, 9.0), limits, strict=True):
        found = of(Design("angle_count", basal_area_factor=factor), 1.0, float(dbh))
        assert_allclose(found.limiting_distance_m, limit, atol=5.1e-4)


# Plot radius factors, feet per inch: to the axis for factors in ft2/ac (computed from sqrt(43560 / BAF) / 24).
PLOT_RADIUS_FACTORS = {
    5: 3.8891, 8: 3.0746, 10: 2.7500, 15: 2.2454, 20: 1.9445, 25: 1.7393,
    30: 1.5877, 35: 1.4699, 40: 1.3750, 50: 1.2298, 60: 1.1227, 75: 1.0042,
}  # fmt: skip


@pytest.mark.parametrize("factor", PLOT_RADIUS_FACTORS)
def test_plot_radius_factors_in_feet_per_inch(factor):
    design = Design("angle_count", basal_area_factor=factor * SQUARE_FEET_PER_ACRE)
    limit = of(design, 1.0, INCH_CM).limiting_distance_m / FOOT
    assert_allclose(limit, PLOT_RADIUS_FACTORS[factor], atol=5.1e-5)


@pytest.mark.parametrize(
    ("factor", "to_axis", "to_face"),
    [
        # K. Iles, John Bell & Associates newsletter: factor 40 is 1.375 ft/in to the axis, 1.3333 to the face.
        (40, 1.375, 1.3333),
        # Borderline tree factors published for 10 and 20 (2.75, 1.94) and, to the face, 2.708 and 1.902.
        (10, 2.75, 2.708),
        (20, 1.9445, 1.9029),
    ],
)
def test_a_tree_on_the_limit_to_the_face_is_on_the_limit_to_the_axis(factor, to_axis, to_face):
    # A face distance of the face factor and half the diameter more is the axis factor, to the printed digit.
    dbh = 20 * INCH_CM
    axis = horizontal_distance(to_face * 20 * FOOT, dbh_cm=dbh)
    limit = of(Design("angle_count", basal_area_factor=factor * SQUARE_FEET_PER_ACRE), 1.0, dbh).limiting_distance_m
    assert_allclose([axis / FOOT / 20, limit / FOOT / 20], to_axis, atol=4e-4)


@pytest.mark.parametrize(
    ("inches", "limits"),
    [
        (5, (13.75, 9.72, 6.88)), (8, (22.00, 15.56, 11.00)), (12, (33.00, 23.33, 16.50)), (14, (38.50, 27.22, 19.25)),
        (16, (44.00, 31.11, 22.00)), (20, (55.00, 38.89, 27.50)), (24, (66.00, 46.67, 33.00)),
        (30, (82.50, 58.34, 41.25)), (36, (99.00, 70.00, 49.50)),
    ],
)  # fmt: skip
def test_limiting_distance_in_feet(inches, limits):
    # Computed to 0.01 ft for factors 10, 20 and 40 ft2/ac; 12 in at 10 is 33 ft, at 20 23.3 ft in a published
    # lecture on point sampling.
    for factor, limit in zip((10, 20, 40), limits, strict=True):
        design = Design("angle_count", basal_area_factor=factor * SQUARE_FEET_PER_ACRE)
        assert_allclose(of(design, 1.0, inches * INCH_CM).limiting_distance_m / FOOT, limit, atol=5.1e-3)


@pytest.mark.parametrize(
    ("dbh", "distance", "borderline_factor"),
    [(30.0, 7.50, 4.0000), (50.5, 12.62, 4.0032), (20.0, 10.0, 1.0), (30.0, 7.40, 4.1088)],
)
def test_a_tree_is_in_where_its_borderline_factor_reaches_the_basal_area_factor(dbh, distance, borderline_factor):
    # (d/R)^2 / 4, in if >= k: Spurr 1962 after McTague & Weiskittel 2016, Forests 7(10):238. Figures computed.
    assert_allclose((dbh / distance) ** 2 / 4.0, borderline_factor, atol=5e-5)
    exact = (dbh / distance) ** 2 / 4.0
    assert of(Design("angle_count", basal_area_factor=exact), distance, dbh).inside
    assert of(Design("angle_count", basal_area_factor=exact * 0.999), distance, dbh).inside
    assert not of(Design("angle_count", basal_area_factor=exact * 1.001), distance, dbh).inside


def test_a_stem_of_an_angle_count_stands_for_the_factor_over_its_basal_area():
    # Published lecture on point sampling: factor 20 ft2/ac, 12 in: 25.479 trees per acre, reckoned there from the
    # rounded plot radius factor 1.944.
    found = of(Design("angle_count", basal_area_factor=20 * SQUARE_FEET_PER_ACRE), 1.0, 12 * INCH_CM)
    acre = 4046.8564224
    assert_allclose(found.expansion_per_ha * acre / 10_000.0, 25.479, rtol=6e-4)
    assert_allclose(found.expansion_per_ha * math.pi / 4.0 * (12 * FOOT / 12) ** 2, 20 * SQUARE_FEET_PER_ACRE)


def test_beyond_the_largest_radius_an_angle_count_is_that_circle():
    # Finnish NFI, southern part: factor 2, largest radius 12.52 m (from memory): reached at 35.41 cm.
    design = Design("angle_count", basal_area_factor=2.0, max_radius_m=12.52)
    found = of(design, [12.0, 12.52, 12.53], [35.0, 60.0, 60.0])
    assert_allclose(found.limiting_distance_m, [12.3744, 12.52, 12.52], atol=5e-5)
    assert_array_equal(found.inside, [True, True, False])
    assert_allclose(found.expansion_per_ha, [2.0 / (math.pi * 0.175**2)] + [10_000 / (math.pi * 12.52**2)] * 2)


def test_an_angle_count_goes_by_horizontal_distance_on_any_slope():
    design = Design("angle_count", basal_area_factor=4.0, slope="same_radius_on_slope")
    found = of(design, 7.5, 30.0, slope_percent=80.0, aspect_deg=0.0, slope_distance_m=9.6)
    assert found.inside
    assert found.compared_distance_m == 7.5


# -- circles ----------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("radius", "per_ha"),
    [
        (7.98, 49.986), (12.62, 19.986), (5.64, 100.067), (7.32, 59.406), (17.84, 10.0014),
        # Inventaire forestier national, France (Chevrou), and Spain, Ireland (from memory): computed from the radii.
        (6.0, 88.419), (9.0, 39.298), (15.0, 14.147), (5.0, 127.324), (10.0, 31.831), (25.0, 5.093),
        (3.0, 353.68), (7.0, 64.96), (8.92, 40.006),
    ],
)  # fmt: skip
def test_a_stem_of_a_circle_stands_for_a_hectare_over_its_area(radius, per_ha):
    assert_allclose(of(Design(radius_m=radius), 1.0, np.nan).expansion_per_ha, per_ha, rtol=5e-5)


@pytest.mark.parametrize(
    ("feet", "plots", "per_acre"),
    # FIA Database user manual, RMRS-GTR-245: 6.018046 for the four subplots of 24.0 ft; microplot 6.8 ft and
    # macroplot 58.9 ft from memory.
    [(24.0, 4, 6.018046), (6.8, 4, 74.965282), (58.9, 4, 0.999188)],
)
def test_expansion_of_the_four_subplots_of_a_cluster(feet, plots, per_acre):
    found = of(Design(radius_m=feet * FOOT), 1.0, np.nan).expansion_per_ha * 0.40468564224 / plots
    assert_allclose(found, per_acre, rtol=1e-6)


def test_worked_fixed_plot():
    # Computed: 500 m2, five stems: 100 /ha, 7.461283 m2/ha.
    dbh = np.array([20.0, 25.0, 30.0, 35.0, 40.0])
    found = of(Design(radius_m=math.sqrt(500.0 / math.pi)), np.full(5, 5.0), dbh)
    assert_allclose(found.expansion_per_ha.sum(), 100.0)
    assert_allclose((found.expansion_per_ha * math.pi * (dbh / 200) ** 2).sum(), 7.461283, atol=5e-7)


def test_worked_nested_plot():
    # Computed with the nominal factors 50 and 20: 210 /ha, 15.407941 m2/ha. The stem of 38 cm at 6 m counts 20, not
    # 50; the one of 30 cm at 9 m is out.
    exact = Design(
        "concentric", circles=(Circle(math.sqrt(200 / math.pi), 12.0), Circle(math.sqrt(500 / math.pi), 36.0))
    )
    dbh = np.array([14.0, 20.0, 30.0, 40.0, 55.0, 38.0, 30.0])
    found = of(exact, [5.0, 7.5, 3.0, 11.0, 12.0, 6.0, 9.0], dbh)
    assert_array_equal(found.inside, [True] * 6 + [False])
    assert_array_equal(found.circle, [0, 0, 0, 1, 1, 1, 0])
    weight = np.where(found.inside, found.expansion_per_ha, 0.0)
    assert_allclose(weight.sum(), 210.0)
    assert_allclose((weight * math.pi * (dbh / 200) ** 2).sum(), 15.407941, atol=5e-7)


def test_a_stem_belongs_to_the_largest_circle_it_reaches_whatever_their_order():
    turned = Design("concentric", circles=SWISS.circles[::-1])
    dbh = [11.9, 12.0, 35.9, 36.0, 90.0]
    for design, numbers in ((SWISS, [-1, 0, 0, 1, 1]), (turned, [-1, 1, 1, 0, 0])):
        found = of(design, 1.0, dbh)
        assert_array_equal(found.circle, numbers)
        assert_allclose(found.limiting_distance_m, [np.nan, 7.98, 7.98, 12.62, 12.62])


def test_an_upper_limit_is_the_first_dbh_that_is_too_thick():
    found = of(FRANCE, 5.9, [7.4, 7.5, 22.4, 22.5, 37.4, 37.5])
    assert_array_equal(found.circle, [-1, 0, 0, 1, 1, 2])


def test_a_stem_between_the_classes_is_known_not_to_count():
    design = Design("concentric", circles=(Circle(3.0, 7.0, 12.0), Circle(12.62, 20.0)))
    found = of(design, 1.0, [6.0, 8.0, 15.0, 20.0])
    assert_array_equal(found.inside, [False, True, False, True])
    assert found.known.all()
    assert_allclose(found.expansion_per_ha[[0, 2]], 0.0)


def test_a_stem_of_an_offset_circle_is_held_against_that_circle():
    # Swiss regeneration circles lie 10 m from the plot centre; this one lies 10 m east.
    design = Design("concentric", circles=(Circle(2.5, 4.0, 12.0, 90.0, 10.0), Circle(7.98, 12.0)))
    found = of(design, [10.0, 12.5, 12.51, 1.0, 1.0], [8.0, 8.0, 8.0, 8.0, 20.0], azimuth=90.0)
    assert_allclose(found.compared_distance_m, [0.0, 2.5, 2.51, 9.0, 1.0], atol=1e-12)
    assert_array_equal(found.inside, [True, True, False, False, True])


def test_the_classes_of_dbh_are_told_without_gaps():
    assert dbh_classes(Design(radius_m=5.0)) == (DbhClass(-math.inf, math.inf, 0),)
    assert dbh_classes(Design(radius_m=5.0, min_dbh_cm=7.0)) == (
        DbhClass(-math.inf, 7.0, -1),
        DbhClass(7.0, math.inf, 0),
    )
    assert dbh_classes(FRANCE) == (
        DbhClass(-math.inf, 7.5, -1),
        DbhClass(7.5, 22.5, 0),
        DbhClass(22.5, 37.5, 1),
        DbhClass(37.5, math.inf, 2),
    )


def test_the_smallest_dbh_holds_for_every_circle():
    design = Design("concentric", circles=SWISS.circles, min_dbh_cm=20.0)
    assert_array_equal(of(design, 1.0, [15.0, 20.0, 40.0]).circle, [-1, 0, 1])


# -- in or out --------------------------------------------------------------------------------------------------


def test_equality_is_in():
    # US Forest Service, Common Stand Exam user guide, App. I: in if the distance is not over the radius.
    assert_array_equal(of(Design(radius_m=12.62), [12.62, 12.621], np.nan).inside, [True, False])


def test_float_noise_does_not_put_a_stem_out():
    assert 12.57 + 0.05 > 12.62
    assert of(Design(radius_m=12.62), 12.57 + 0.05, np.nan).inside
    assert of(SWISS, 1.0, 35.9 + 0.1 - 1e-14).circle == 1


def test_half_the_diameter_puts_a_stem_out():
    # Computed: 12.50 m to the face of 30 cm is 12.65 m.
    assert not of(Design(radius_m=12.62), horizontal_distance(12.50, dbh_cm=30.0), 30.0).inside


def test_a_thin_stem_is_not_counted():
    found = of(Design(radius_m=10.0, min_dbh_cm=7.0), 1.0, [6.9, 7.0])
    assert_array_equal(found.inside, [False, True])
    assert found.known.all()
    assert found.expansion_per_ha[0] == 0.0


def test_a_stem_without_dbh_counts_where_no_dbh_is_asked_for():
    assert of(Design(radius_m=10.0), 9.0, np.nan).inside


@pytest.mark.parametrize(
    "design", [SWISS, Design(radius_m=10.0, min_dbh_cm=7.0), Design("angle_count", basal_area_factor=4.0)]
)
def test_a_stem_without_dbh_is_undecided_where_the_design_asks_for_it(design):
    found = of(design, 1.0, np.nan)
    assert not found.known
    assert not found.inside
    assert np.isnan([found.limiting_distance_m, found.expansion_per_ha]).all()


def test_a_stem_without_distance_is_undecided_but_has_its_limit():
    found = of(SWISS, np.nan, 40.0)
    assert not found.known
    assert found.limiting_distance_m == 12.62


def test_a_plot_may_state_its_own_radius():
    found = of(Design(radius_m=12.62), 10.0, np.nan, radius_m=[np.nan, 9.77, 10.0])
    assert_allclose(found.limiting_distance_m, [12.62, 9.77, 10.0])
    assert_array_equal(found.inside, [True, False, True])


def test_without_any_radius_stems_are_undecided():
    assert not of(Design(), 1.0, 20.0).known


def test_no_stems_have_no_membership():
    found = of(SWISS, [], [])
    assert found.inside.shape == found.limiting_distance_m.shape == (0,)


# -- slopes -----------------------------------------------------------------------------------------------------

# US Forest Service, Common Stand Exam user guide, App. I, table 1 "Circular plot radii corrected for slope", feet,
# for plots of 1/300, 1/100, 1/50, 1/20, 1/10 and 1/5 acre; the row's slope class in percent.
CORRECTED_RADII = """
0  9  6.8 11.8 16.7 26.3 37.2 52.7
10 17 6.8 11.8 16.7 26.5 37.4 52.9
18 22 6.9 11.9 16.8 26.6 37.6 53.2
23 26 6.9 12.0 16.9 26.7 37.8 53.4
27 30 6.9 12.0 17.0 26.9 38.0 53.7
31 33 7.0 12.1 17.1 27.0 38.2 54.0
34 36 7.0 12.1 17.1 27.1 38.3 54.2
37 39 7.0 12.2 17.2 27.2 38.5 54.5
40 42 7.1 12.2 17.3 27.4 38.7 54.7
43 44 7.1 12.3 17.4 27.5 38.9 55.0
45 47 7.1 12.3 17.5 27.6 39.1 55.2
48 49 7.2 12.4 17.5 27.7 39.2 55.5
50 51 7.2 12.5 17.6 27.9 39.4 55.7
"""


def test_the_enlarged_radius_is_that_of_the_published_table():
    rows = np.array([line.split() for line in CORRECTED_RADII.strip().splitlines()], dtype=float)
    radius = np.sqrt(43_560.0 / np.array([300, 100, 50, 20, 10, 5]) / math.pi)
    low, high = (slope_radius(radius, rows[:, [i]], "enlarged_radius_on_slope") for i in (0, 1))
    # Printed to 0.1 ft for a class of slopes: the figure of some slope of the class rounds to it.
    assert_array_equal((rows[:, 2:] >= low - 0.0501) & (rows[:, 2:] <= high + 0.0501), True)


def test_the_published_example_of_an_enlarged_radius():
    # Same guide: 1/300 acre at 50 % is 7.2 ft (computed 7.19).
    radius = math.sqrt(43_560.0 / 300.0 / math.pi)
    assert_allclose(slope_radius(radius, 50.0, "enlarged_radius_on_slope"), 7.19, atol=0.005)


@pytest.mark.parametrize("rule", ["same_radius_on_slope", "enlarged_radius_on_slope"])
@given(slope=st.floats(0.0, 150.0), radius=st.floats(1.0, 30.0))
def test_the_expansion_factor_is_that_of_the_border_on_the_map(rule, slope, radius):
    design = Design(radius_m=radius, slope=rule)
    found = of(design, 1.0, np.nan, slope_percent=slope, aspect_deg=0.0)
    border = ground_ellipse(radius, slope, rule)
    assert_allclose(found.expansion_per_ha, 10_000.0 / (math.pi * border.along_m * border.across_m), rtol=1e-12)
    if rule == "enlarged_radius_on_slope":
        assert_allclose(border.along_m * border.across_m, radius**2, rtol=1e-12)


@pytest.mark.parametrize("rule", ["same_radius_on_slope", "enlarged_radius_on_slope"])
@given(azimuth=st.floats(0.0, 360.0), slope=st.floats(0.0, 150.0))
def test_stems_on_the_ellipse_of_the_map_are_on_the_limit(rule, azimuth, slope):
    aspect = 40.0
    border = ground_ellipse(10.0, slope, rule)
    turn = math.radians(azimuth - aspect)
    distance = 1.0 / math.hypot(math.cos(turn) / border.along_m, math.sin(turn) / border.across_m)
    found = of(
        Design(radius_m=10.0, slope=rule), distance, np.nan, azimuth=azimuth, slope_percent=slope, aspect_deg=aspect
    )
    assert_allclose(found.compared_distance_m, found.limiting_distance_m, rtol=1e-12)
    assert found.inside


def test_up_and_down_the_slope_the_distance_is_longest():
    design = Design(radius_m=10.0, slope="same_radius_on_slope")
    found = of(design, 9.5, np.nan, azimuth=[180.0, 0.0, 90.0], slope_percent=50.0, aspect_deg=180.0)
    assert_allclose(found.compared_distance_m, [9.5 * math.sqrt(1.25)] * 2 + [9.5])
    assert_array_equal(found.inside, [False, False, True])


def test_a_measured_slope_distance_is_taken_before_a_computed_one():
    design = Design(radius_m=10.0, slope="same_radius_on_slope")
    found = of(design, 9.5, np.nan, slope_percent=50.0, aspect_deg=0.0, slope_distance_m=[9.9, np.nan])
    assert_array_equal(found.inside, [True, False])


def test_without_a_slope_a_circle_on_the_slope_is_undecided():
    design = Design(radius_m=10.0, slope="enlarged_radius_on_slope")
    for plot in ({}, {"slope_percent": np.nan, "aspect_deg": 10.0}, {"slope_percent": 20.0, "aspect_deg": np.nan}):
        assert not of(design, 1.0, np.nan, **plot).known


@pytest.mark.parametrize("rule", ["horizontal", "same_radius_on_slope", "enlarged_radius_on_slope"])
def test_on_level_ground_all_rules_agree_and_need_no_aspect(rule):
    found = of(Design(radius_m=10.0, slope=rule), [9.0, 10.0, 10.1], np.nan, slope_percent=0.0)
    assert_array_equal(found.inside, [True, True, False])
    assert_allclose(found.expansion_per_ha, 10_000.0 / (math.pi * 100.0))


def test_an_offset_circle_on_a_slope_is_measured_along_the_slope_from_its_own_centre():
    circle = Circle(2.5, offset_azimuth_deg=0.0, offset_m=10.0)
    found = compared_distance(
        circle,
        rule="same_radius_on_slope",
        azimuth_deg=np.array([0.0]),
        distance_m=np.array([12.0]),
        slope_percent=75.0,
        aspect_deg=180.0,
        slope_distance_m=15.0,
    )
    assert_allclose(found, 2.5)


def test_a_horizontal_border_is_a_circle_on_every_slope():
    border = ground_ellipse([10.0, 12.0], np.nan, "horizontal")
    assert_array_equal(border.along_m, border.across_m)


# -- validation -------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("figures", "sentence"),
    [
        ({"kind": "square"}, "'square' is not known: choose one of fixed"),
        ({"slope": "steep"}, "'steep' is not known"),
        ({"radius_m": 0.0}, "plot radius is 0"),
        ({"radius_m": math.nan}, "plot radius is nan"),
        ({"kind": "concentric"}, "needs its circles"),
        ({"radius_m": 5.0, "circles": (Circle(5.0),)}, "has no circles"),
        ({"kind": "angle_count"}, "needs its basal_area_factor"),
        ({"kind": "angle_count", "basal_area_factor": -4.0}, "factor is -4"),
        ({"kind": "angle_count", "basal_area_factor": 4.0, "max_radius_m": 0.0}, "largest radius"),
        ({"radius_m": 5.0, "min_dbh_cm": -1.0}, "smallest dbh"),
    ],
)
def test_figures_that_make_no_design_are_refused(figures, sentence):
    with pytest.raises(InputError, match=sentence):
        Design(**figures)


@pytest.mark.parametrize(
    ("figures", "sentence"),
    [
        ({"radius_m": -1.0}, "radius of a circle is -1"),
        ({"radius_m": 6.0, "min_dbh_cm": 22.5, "max_dbh_cm": 22.5}, "which is none"),
        ({"radius_m": 6.0, "offset_m": -2.0}, "offset that is no place"),
        ({"radius_m": 6.0, "offset_azimuth_deg": math.nan}, "offset that is no place"),
    ],
)
def test_figures_that_make_no_circle_are_refused(figures, sentence):
    with pytest.raises(InputError, match=sentence):
        Circle(**figures)
