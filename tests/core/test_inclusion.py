"""The probability of being in, against simulation and against cases that can be reckoned by hand."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from numpy.testing import assert_allclose, assert_array_equal
from scipy.stats import multivariate_normal, norm

from stemmap.core.design import Circle, Design, membership, slope_radius
from stemmap.core.inclusion import probability
from stemmap.core.locate import Precision, dbh_sd, horizontal_distance, position_errors

SWISS = Design("concentric", circles=(Circle(7.98, 12.0), Circle(12.62, 36.0)))
#: Upper limits, a gap between 12 and 14 cm, and small stems in a circle of their own 8 m off the centre.
OFFSET = Design("concentric", circles=(Circle(2.5, 4.0, 12.0, 75.0, 8.0), Circle(9.0, 14.0, 37.5), Circle(15.0, 37.5)))
DESIGNS = {
    "fixed": Design(radius_m=12.62),
    "fixed, thin stems not counted": Design(radius_m=12.62, min_dbh_cm=7.0),
    "concentric": SWISS,
    "concentric, thin stems not counted": Design("concentric", circles=SWISS.circles, min_dbh_cm=15.0),
    "concentric with upper limits and an offset circle": OFFSET,
    "angle count": Design("angle_count", basal_area_factor=4.0),
    "angle count with a largest radius": Design("angle_count", basal_area_factor=2.0, max_radius_m=12.52),
    "angle count, thin stems not counted": Design("angle_count", basal_area_factor=1.0, min_dbh_cm=10.0),
    "same radius on the slope": Design(radius_m=10.0, slope="same_radius_on_slope"),
    "enlarged radius on the slope": Design(radius_m=10.0, slope="enlarged_radius_on_slope"),
    "concentric on the slope": Design("concentric", circles=SWISS.circles, slope="same_radius_on_slope"),
    "offset circle on the slope": Design("concentric", circles=OFFSET.circles, slope="enlarged_radius_on_slope"),
}
PRECISIONS = {
    "the program's": Precision(),
    "coarse": Precision(
        azimuth_sd_deg=2.5,
        distance_sd_m=0.08,
        distance_sd_percent=1.0,
        vertical_angle_sd_deg=2.0,
        dbh_sd_percent=2.0,
        dbh_sd_mm=5.0,
    ),
    "dbh far worse than distance": Precision(distance_sd_m=0.01, dbh_sd_mm=30.0, azimuth_sd_deg=0.2),
}
DRAWS = 40_000


def records(design, rng, number=24):
    """Records that are in doubt: close to a limit in distance, half of them in dbh too."""
    edges = [e for c in design.circles for e in (c.min_dbh_cm, c.max_dbh_cm) if e] + [design.min_dbh_cm or 20.0]
    if design.max_radius_m:
        edges.append(design.max_radius_m * 2.0 * np.sqrt(design.basal_area_factor))
    near = rng.choice(edges, number) + rng.normal(size=number) * 0.4
    dbh = np.maximum(np.where(rng.random(number) < 0.5, near, rng.uniform(7.0, 60.0, number)), 3.0)
    azimuth = rng.uniform(0.0, 360.0, number)
    plain = Design(design.kind, design.radius_m, design.circles, design.basal_area_factor, design.max_radius_m)
    limit = membership(plain, azimuth_deg=azimuth, distance_m=1.0, dbh_cm=dbh).limiting_distance_m
    distance = np.where(np.isfinite(limit), limit, 5.0) * (1.0 + rng.normal(size=number) * 0.008)
    # Stems of an offset circle: put on its rim instead.
    for circle in design.circles:
        if circle.offset_m and circle.min_dbh_cm and circle.max_dbh_cm:
            small = (dbh >= circle.min_dbh_cm - 1.0) & (dbh < circle.max_dbh_cm + 1.0)
            rim = np.radians(rng.uniform(0.0, 360.0, number))
            radius = circle.radius_m * (1.0 + rng.normal(size=number) * 0.05)
            off = np.radians(circle.offset_azimuth_deg)
            east = circle.offset_m * np.sin(off) + radius * np.sin(rim)
            north = circle.offset_m * np.cos(off) + radius * np.cos(rim)
            azimuth = np.where(small, np.degrees(np.arctan2(east, north)), azimuth)
            distance = np.where(small, np.hypot(east, north), distance)
    return azimuth, distance, dbh


def simulated(design, precision, *, azimuth, slope, angle, dbh, to_face, measured_slope, plot, rng):
    """Shares among drawn truths: normal about the record, which is what a flat prior makes of it."""
    shape = (dbh.size, DRAWS)
    true_azimuth = azimuth[:, None] + rng.normal(size=shape) * precision.azimuth_sd_deg
    sd = np.hypot(precision.distance_sd_m, precision.distance_sd_percent / 100.0 * slope)
    true_slope = slope[:, None] + rng.normal(size=shape) * sd[:, None]
    true_angle = angle[:, None] + rng.normal(size=shape) * precision.vertical_angle_sd_deg
    true_dbh = dbh[:, None] + rng.normal(size=shape) * dbh_sd(dbh, precision)[:, None]
    true_distance = horizontal_distance(true_slope, vertical_angle_deg=true_angle, dbh_cm=true_dbh if to_face else None)
    along = true_distance / np.cos(np.radians(true_angle)) if measured_slope else None
    truth = membership(
        design, azimuth_deg=true_azimuth, distance_m=true_distance, dbh_cm=true_dbh, slope_distance_m=along, **plot
    )
    recorded = membership(design, azimuth_deg=azimuth, distance_m=1.0, dbh_cm=dbh, **plot)
    weight = np.where(truth.inside, truth.expansion_per_ha, 0.0)
    changed = truth.circle != recorded.circle[:, None]
    return truth.inside.mean(axis=1), weight.mean(axis=1), changed.mean(axis=1)


def stated(design, precision, *, azimuth, slope, angle, dbh, to_face, measured_slope, plot):
    distance = horizontal_distance(slope, vertical_angle_deg=angle, dbh_cm=dbh if to_face else None)
    errors = position_errors(azimuth, slope, precision, vertical_angle_deg=angle, dbh_cm=dbh if to_face else None)
    return probability(
        design,
        azimuth_deg=azimuth,
        distance_m=distance,
        dbh_cm=dbh,
        tape_sd_m=errors.tape_sd_m,
        tangential_sd_m=errors.tangential_sd_m,
        dbh_sd_cm=dbh_sd(dbh, precision),
        to_face=to_face,
        slope_distance_m=distance / np.cos(np.radians(angle)) if measured_slope else None,
        slope_sd_m=errors.slope_sd_m if measured_slope else None,
        shift_m=errors.shift_m,
        **plot,
    )


@pytest.mark.parametrize("precision", PRECISIONS)
@pytest.mark.parametrize("to_face", [False, True], ids=["axis", "face"])
@pytest.mark.parametrize("design", DESIGNS)
def test_the_stated_probability_is_the_share_of_truths_that_are_in(design, to_face, precision):
    """Within one point, for horizontal distances and for slope distances with their angle.

    Truths are drawn about the record (record = observation; the statement is about the truth given the record, with
    a flat prior), and each is decided as if it were known exactly.
    """
    design, precision = DESIGNS[design], PRECISIONS[precision]
    rng = np.random.default_rng(2024)
    azimuth, distance, dbh = records(design, rng)
    on_slope = design.slope_rule != "horizontal"
    plot = {"slope_percent": 45.0, "aspect_deg": 200.0} if on_slope else {}
    if on_slope:  # bring the stems to the limit along the slope
        terrain = np.sqrt(1.0 + (0.45 * np.cos(np.radians(azimuth - 200.0))) ** 2)
        distance = slope_radius(distance, 45.0, design.slope) / terrain
    steep = rng.random(dbh.size) < 0.5
    angle = np.where(steep & (not on_slope), rng.uniform(-30.0, 30.0, dbh.size), 0.0)
    level = distance - (dbh / 200.0 if to_face else 0.0)
    flat = Precision(**{**vars(precision), "vertical_angle_sd_deg": 0.0}) if on_slope else precision
    record = {
        "azimuth": azimuth,
        "slope": np.maximum(level, 0.5) / np.cos(np.radians(angle)),
        "angle": angle,
        "dbh": dbh,
        "to_face": to_face,
        "measured_slope": False,
        "plot": plot,
    }
    found = stated(design, flat, **record)
    share, weight, changed = simulated(design, flat, **record, rng=rng)
    assert_allclose(found.probability, share, atol=0.01)
    assert_allclose(found.class_change, changed, atol=0.01)
    if design.kind != "angle_count":
        largest = max(10_000.0 / (np.pi * r**2) for r in [c.radius_m for c in design.circles] or [design.radius_m])
        assert_allclose(found.expected_per_ha, weight, atol=0.01 * largest)
    assert ((share > 0.05) & (share < 0.95)).sum() > 5


@pytest.mark.parametrize("to_face", [False, True], ids=["axis", "face"])
@pytest.mark.parametrize("rule", ["same_radius_on_slope", "enlarged_radius_on_slope"])
def test_a_measured_slope_distance_decides_on_the_slope(rule, to_face):
    design = Design("concentric", circles=SWISS.circles, slope=rule)
    rng = np.random.default_rng(5)
    azimuth, distance, dbh = records(design, rng, 24)
    distance = slope_radius(distance, 45.0, rule)
    record = {
        "azimuth": azimuth,
        "slope": distance - (dbh / 200.0 if to_face else 0.0),
        "angle": rng.uniform(-24.0, 24.0, 24),
        "dbh": dbh,
        "to_face": to_face,
        "measured_slope": True,
        "plot": {"slope_percent": 45.0, "aspect_deg": 200.0},
    }
    found = stated(design, PRECISIONS["coarse"], **record)
    share, _weight, _changed = simulated(design, PRECISIONS["coarse"], **record, rng=rng)
    assert_allclose(found.probability, share, atol=0.01)
    assert ((share > 0.05) & (share < 0.95)).sum() > 5


# -- by hand ----------------------------------------------------------------------------------------------------


def known(design, distance, dbh, *, tape_sd_m=0.05, dbh_sd_cm=0.3, **rest):
    given_here = {"azimuth_deg": 0.0, "tangential_sd_m": 0.0, **rest}
    return probability(design, distance_m=distance, dbh_cm=dbh, tape_sd_m=tape_sd_m, dbh_sd_cm=dbh_sd_cm, **given_here)


def test_a_stem_just_under_the_step_is_in_as_often_as_it_is_over_it():
    # Computed: 35.9 +- 0.3 cm at 10 m, circles of 7.98 and 12.62 m, step at 36 cm: 1 - Phi(1/3) = 0.369.
    found = known(SWISS, 10.0, 35.9)
    assert_allclose(found.probability, norm.sf(1.0 / 3.0), rtol=1e-12)
    assert_allclose(found.expected_per_ha, norm.sf(1.0 / 3.0) * 10_000.0 / (np.pi * 12.62**2), rtol=1e-12)


def test_near_the_centre_the_step_puts_the_weight_in_doubt_not_the_stem():
    found = known(SWISS, 5.0, 35.9)
    assert_allclose(found.probability, 1.0, rtol=1e-12)
    assert_allclose(found.class_change, norm.sf(1.0 / 3.0), rtol=1e-12)
    inner, outer = (10_000.0 / (np.pi * radius**2) for radius in (7.98, 12.62))
    change = norm.sf(1.0 / 3.0)
    assert_allclose(found.expected_per_ha, (1.0 - change) * inner + change * outer, rtol=1e-12)


def test_on_the_limit_a_stem_is_in_with_one_half():
    assert_allclose(known(Design(radius_m=12.62), [12.62, 12.67], np.nan).probability, [0.5, norm.sf(1.0)])


@pytest.mark.parametrize("step", [-1.0, -0.2, 0.0, 0.2, 1.0])
@pytest.mark.parametrize("margin", [-0.1, 0.0, 0.04])
def test_to_the_face_dbh_and_distance_go_together(step, margin):
    """A thicker stem reaches the larger circle, but its axis is also farther away: an exact bivariate normal.

    D = face + d / 200; in the outer circle when d >= 36 and D <= 12.62 (the inner one is out of reach).
    """
    dbh, sd_dbh, sd_tape = 36.0 + step * 2.0, 2.0, 0.01
    half = sd_dbh / 200.0
    distance = 12.62 - margin
    total = np.hypot(half, sd_tape)
    # P(-z <= step, y <= margin / total), y = D's error, correlated with z by half / total.
    expected = multivariate_normal([0, 0], [[1, -half / total], [-half / total, 1]]).cdf([step, margin / total])
    found = known(SWISS, distance, dbh, tape_sd_m=sd_tape, dbh_sd_cm=sd_dbh, to_face=True)
    assert_allclose(found.probability, expected, atol=1e-7)


def test_without_errors_a_stem_is_in_or_out_and_equality_is_in():
    found = known(
        SWISS, [7.98, 7.99, 12.57 + 0.05, 12.63, 5.0], [35.9, 35.9, 36.0, 36.0, 11.9], tape_sd_m=0, dbh_sd_cm=0
    )
    assert_array_equal(found.probability, [1.0, 0.0, 1.0, 0.0, 0.0])
    assert_array_equal(found.class_change, 0.0)


@given(st.floats(0.5, 30.0), st.floats(5.0, 80.0), st.booleans())
def test_without_errors_probability_is_membership(distance, dbh, to_face):
    for design in (*DESIGNS.values(),):
        plot = {"azimuth_deg": 80.0, "slope_percent": 30.0, "aspect_deg": 10.0}
        sure = membership(design, distance_m=distance, dbh_cm=dbh, **plot)
        found = known(design, distance, dbh, tape_sd_m=0.0, dbh_sd_cm=0.0, to_face=to_face, **plot)
        assert found.probability == sure.inside
        assert_allclose(found.expected_per_ha, np.where(sure.inside, sure.expansion_per_ha, 0.0), rtol=1e-12)


@given(st.floats(0.5, 30.0), st.floats(5.0, 80.0), st.floats(0.0, 2.0), st.floats(0.0, 3.0), st.booleans())
def test_probabilities_stay_between_0_and_1(distance, dbh, tape_sd, dbh_sd_cm, to_face):
    for design in DESIGNS.values():
        found = known(
            design,
            distance,
            dbh,
            tape_sd_m=tape_sd,
            dbh_sd_cm=dbh_sd_cm,
            to_face=to_face,
            tangential_sd_m=0.2,
            slope_percent=60.0,
            aspect_deg=100.0,
        )
        assert 0.0 <= found.probability <= 1.0
        assert 0.0 <= found.class_change <= 1.0
        assert found.expected_per_ha >= 0.0


def test_the_compass_matters_for_an_offset_circle_only():
    sure, unsure = (known(OFFSET, 8.0, 8.0, azimuth_deg=92.0, tangential_sd_m=sd) for sd in (0.0, 0.3))
    assert sure.probability > unsure.probability
    sure, unsure = (known(OFFSET, 9.02, 20.0, azimuth_deg=92.0, tangential_sd_m=sd) for sd in (0.0, 0.3))
    assert sure.probability == unsure.probability


def test_unknown_figures_give_no_probability():
    for column in (
        known(SWISS, 5.0, np.nan),
        known(SWISS, np.nan, 20.0),
        known(SWISS, 5.0, 20.0, tape_sd_m=np.nan),
        known(Design(radius_m=9.0), 5.0, np.nan, to_face=True, dbh_sd_cm=np.nan),
        known(Design(radius_m=9.0, slope="same_radius_on_slope"), 5.0, 20.0, slope_percent=np.nan),
        known(Design("angle_count", basal_area_factor=4.0, max_radius_m=9.0), 5.0, np.nan),
        known(Design(), 5.0, 20.0),
    ):
        assert np.isnan(column.probability)
        assert np.isnan(column.expected_per_ha)


def test_a_fixed_plot_needs_no_dbh():
    found = known(Design(radius_m=9.0), 5.0, np.nan, dbh_sd_cm=np.nan)
    assert found.probability == 1.0
    assert found.class_change == 0.0


def test_a_plot_with_its_own_radius_is_held_against_it():
    found = known(Design(radius_m=9.0), 10.0, np.nan, radius_m=[np.nan, 10.0])
    assert_allclose(found.probability, [0.0, 0.5], atol=1e-12)


def test_columns_of_stems_give_what_each_stem_gives_alone():
    rng = np.random.default_rng(9)
    for design in DESIGNS.values():
        azimuth, distance, dbh = records(design, rng, 30)
        plot = {"slope_percent": 30.0, "aspect_deg": 10.0, "tangential_sd_m": 0.2, "to_face": True}
        found = known(design, distance, dbh, azimuth_deg=azimuth, **plot)
        alone = [known(design, distance[i], dbh[i], azimuth_deg=azimuth[i], **plot).probability for i in range(30)]
        assert_allclose(found.probability, alone, rtol=1e-12, atol=1e-15)


def test_no_stems_have_no_probability():
    assert known(SWISS, [], []).probability.shape == (0,)
