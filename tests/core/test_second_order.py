"""Second-order values against a general statistics library, exact integrals and patterns at random."""

import csv
import json
import math
from itertools import pairwise
from pathlib import Path

import numpy as np
import pytest
import shapely
from numpy.testing import assert_allclose

from stemmap.core.envelopes import global_envelope
from stemmap.core.replicates import random_k
from stemmap.core.second_order import (
    cross_k,
    farthest,
    k_function,
    kind_correlation,
    l_function,
    mark_correlation,
    mark_variogram,
    pair_correlation,
    pooled_k,
)
from stemmap.core.windows import CutDisc, Disc, Rectangle
from stemmap.errors import InputError

REFERENCE = Path(__file__).parents[1] / "reference"
R = np.arange(1.0, 7.0)
RADIUS = 12.62
FOUR = [[0.0, 0.0], [3.0, 0.0], [0.0, 8.0], [-6.0, -6.0]]
TEN = Disc((0.0, 0.0), 10.0)


def patterns():
    numbers = json.loads((REFERENCE / "numbers.json").read_text("utf-8"))["patterns"]
    with (REFERENCE / "patterns.csv").open(encoding="utf-8", newline="") as stream:
        rows = list(csv.DictReader(stream))
    for name, known in numbers.items():
        points = np.array([[float(row["x_m"]), float(row["y_m"])] for row in rows if row["pattern"] == name])
        window = known["window"]
        at = Disc((0.0, 0.0), window["radius_m"]) if "radius_m" in window else Rectangle(0.0, 0.0, 40.0, 25.0)
        yield name, points, at, known


@pytest.mark.parametrize("correction", ["isotropic", "translation", "border"])
@pytest.mark.parametrize(
    ("name", "points", "window", "known"), list(patterns()), ids=lambda value: value if isinstance(value, str) else ""
)
def test_k_agrees_with_the_library(name, points, window, known, correction):
    """The library's disc is a polygon of 4,096 sides, which agrees with the circle to 4e-7."""
    expected = known[f"k_{correction}"]
    if correction != "isotropic" and "disc" in name:
        pytest.skip("in a disc the library takes translation weights from a raster, distances to the edge from bins")
    values = [np.nan if each in (None, "NaN", "NA") else each for each in expected]
    assert_allclose(
        k_function(points, window, R, correction=correction), values, rtol=1e-6 if "disc" in name else 1e-12
    )


def test_translation_weights_of_a_disc_are_those_of_the_lens():
    """Two stems d apart: K jumps at d to A²/(2 γ(d)) × 2 / A with the area γ that two circles d apart share."""
    d, disc = 5.0, Disc((3.0, -2.0), RADIUS)
    points = np.array([[3.0, -2.0], [3.0, 3.0]])
    x = np.linspace(-RADIUS, RADIUS, 2_000_001)
    # The shared area by plain integration of the chords, from d/2 on twice.
    half = x[x >= d / 2]
    shared = 2.0 * np.trapezoid(2.0 * np.sqrt(np.maximum(RADIUS**2 - half**2, 0.0)), half)
    assert_allclose(
        k_function(points, disc, [4.9, 5.0], correction="translation"), [0.0, disc.area**2 / shared], rtol=1e-5
    )


@pytest.mark.parametrize("window", [Disc((10.0, 4.0), 9.0), Rectangle(-3.0, 2.0, 14.0, 12.0)])
def test_arc_fraction_is_the_share_of_a_fine_circle(window):
    rng = np.random.default_rng(3)
    points = window.random(50, rng)
    distance = rng.uniform(0.5, 8.0, 50)
    angle = (np.arange(40_000) + 0.5) * 2.0 * np.pi / 40_000
    counted = [
        window.inside(point + d * np.column_stack([np.cos(angle), np.sin(angle)])).mean()
        for point, d in zip(points, distance, strict=True)
    ]
    assert_allclose(window.arc_fraction(points, distance), counted, atol=2e-4)


@pytest.mark.parametrize("window", [Disc((0.0, 0.0), 9.0), Rectangle(0.0, 0.0, 20.0, 12.0)])
@pytest.mark.parametrize("correction", ["isotropic", "translation", "border"])
def test_k_is_unbiased_at_random(window, correction):
    rng = np.random.default_rng(11)
    r = np.array([1.0, 2.0, 4.0])
    patterns = [window.random(60, rng) for _ in range(2000)]
    values = np.array([k_function(points, window, r, correction=correction) for points in patterns])
    if correction == "border":
        # A ratio: its numerator and denominator are unbiased, with n instead of n - 1 by the library's convention.
        centres = np.array([(window.to_edge(points)[:, None] >= r).sum(axis=0) for points in patterns])
        mean = np.nansum(values * centres, axis=0) / centres.sum(axis=0) * 60.0 / 59.0
    else:
        mean = values.mean(axis=0)
    assert_allclose(mean / (np.pi * r**2), 1.0, atol=0.015)


def test_equal_distances_count_and_order_of_radii_does_not_matter():
    window = Rectangle(0.0, 0.0, 10.0, 10.0)
    points = np.array([[5.0, 5.0], [5.3, 5.0], [5.0, 5.1]])
    # 5.3 - 5.0 is a little more than 0.3 in binary.
    inside = k_function(points, window, [0.3, 0.1])
    assert_allclose(inside, [100.0 / 6.0 * 4.0, 100.0 / 6.0 * 2.0])


def test_too_few_stems_give_no_value_and_stems_outside_are_refused():
    disc = Disc((0.0, 0.0), 5.0)
    for points in (np.zeros((0, 2)), np.zeros((1, 2))):
        assert np.isnan(k_function(points, disc, R)).all()
        assert np.isnan(pair_correlation(points, disc, R)).all()
    with pytest.raises(InputError, match="inside the window"):
        k_function([[0.0, 0.0], [9.0, 0.0]], disc, R)
    with pytest.raises(InputError, match="not known"):
        k_function([[0.0, 0.0], [1.0, 0.0]], disc, R, correction="torus")  # type: ignore[arg-type]


def test_l_is_r_and_g_is_one_at_random():
    rng, window = np.random.default_rng(5), Rectangle(0.0, 0.0, 300.0, 300.0)
    points = window.random(9_000, rng)
    assert_allclose(l_function(points, window, R), R, rtol=0.03)
    for divisor in ("r", "d"):
        assert_allclose(pair_correlation(points, window, R, divisor=divisor), 1.0, atol=0.08)


def test_pair_correlation_integrates_to_k():
    _, points, window, _ = next(patterns())
    fine = np.linspace(0.001, 6.0, 6000)
    g = pair_correlation(points, window, fine, halfwidth=0.02, divisor="d")
    assert_allclose(np.trapezoid(2.0 * np.pi * fine * g, fine), k_function(points, window, [6.0])[0], rtol=0.01)


def test_marks_without_relation_correlate_to_one():
    rng, window = np.random.default_rng(7), Disc((0.0, 0.0), 60.0)
    points, marks = window.random(3_000, rng), rng.uniform(10.0, 40.0, 3_000)
    assert_allclose(mark_correlation(points, marks, window, R), 1.0, atol=0.03)
    assert_allclose(mark_variogram(points, marks, window, R), marks.var(), rtol=0.08)


def test_cross_k_of_all_kinds_adds_up_to_k():
    rng, window = np.random.default_rng(9), Disc((0.0, 0.0), 10.0)
    points = window.random(40, rng)
    kind = rng.integers(0, 3, 40)
    ordered = k_function(points, window, R) * 40 * 39
    parts = np.zeros(len(R))
    for a in range(3):
        same = points[kind == a]
        parts += k_function(same, window, R) * len(same) * (len(same) - 1)
        for b in range(3):
            if a != b:
                parts += cross_k(points, window, R, of=kind == a, to=kind == b) * (kind == a).sum() * (kind == b).sum()
    assert_allclose(parts, ordered)


def test_pooling_equal_plots_weighs_pairs():
    rng, disc = np.random.default_rng(2), Disc((0.0, 0.0), 8.0)
    few, many = disc.random(5, rng), disc.random(40, rng)
    expected = (20 * k_function(few, disc, R) + 1560 * k_function(many, disc, R)) / 1580
    assert_allclose(pooled_k([(few, disc), (many, disc), (few[:1], disc)], R), expected)


def test_simulated_k_is_what_k_says_of_the_same_points():
    disc, r = Disc((2.0, 1.0), 9.0), np.linspace(0.5, 4.0, 8)
    simulated = random_k(20, disc, r, 3, rng=np.random.default_rng(4))
    points = disc.random(60, np.random.default_rng(4))
    for row, (first, last) in zip(simulated, pairwise((0, 20, 40, 60)), strict=True):
        assert_allclose(row, k_function(points[first:last], disc, r))


def test_the_envelope_holds_as_often_as_it_says():
    """1,000 patterns at random against 199 others each: 5 % leave the envelope, with their binomial error."""
    disc, r, rng = Disc((0.0, 0.0), 9.0), np.linspace(0.3, 4.5, 15), np.random.default_rng(8)
    curves = np.sqrt(random_k(15, disc, r, 60_000, rng=rng) / np.pi).reshape(300, 200, -1)
    left, p = [], []
    for together in curves:
        made = global_envelope(together[0], together[1:])
        left.append(bool(made.leaves.any()))
        p.append(made.p)
    assert 0.02 <= np.mean(left) <= 0.085
    assert np.mean(np.array(p) <= 0.5) == pytest.approx(0.5, abs=0.09)


def test_a_clumped_pattern_leaves_the_envelope_above():
    disc, r = Disc((0.0, 0.0), RADIUS), np.linspace(0.25, farthest(Disc((0.0, 0.0), RADIUS)), 25)
    clumped = next(points for name, points, _, _ in patterns() if name == "disc_clumped")
    simulated = random_k(len(clumped), disc, r, 499, rng=np.random.default_rng(1))
    made = global_envelope(k_function(clumped, disc, r), simulated)
    assert made.p <= 0.01
    assert (made.leaves == 1).any()
    assert not (made.leaves == -1).any()


# K and L


@pytest.mark.parametrize(
    ("correction", "k"),
    [
        # Computed by hand from the weights of the pairs at 3, 8, 8.485, 8.544 m.
        ("isotropic", (52.359878, 230.892314, 336.943464)),
        ("translation", (64.663163, 278.309717, 388.983345)),
    ],
)
def test_k_of_four_stems(correction, k):
    np.testing.assert_allclose(k_function(FOUR, TEN, [5.0, 8.5, 9.0], correction=correction), k, atol=5e-7)


def test_l_is_k_as_a_distance_in_any_order_of_radii():
    np.testing.assert_allclose(l_function(FOUR, TEN, [9.0, 5.0, 8.5]), [10.356275, 4.082483, 8.572940], atol=5e-7)


def test_border_takes_centres_far_enough_inside_only():
    # Of centres at 0, 3, 8 and 8.49 m the first two lie 5 m inside; each has one other within 5 m.
    assert k_function(FOUR, TEN, [5.0], correction="border")[0] == pytest.approx(TEN.area * 2 / (4 * 2))
    assert math.isnan(k_function(FOUR, TEN, [10.1], correction="border")[0])


WINDOWS = [
    Disc((3.0, -4.0), 12.62),
    Rectangle(0, 0, 30, 15),
    CutDisc(Disc((0, 0), 12.62), shapely.box(-50, -3, 50, 50)),
]


@pytest.mark.parametrize("correction", ["isotropic", "translation"])
@pytest.mark.parametrize("window", WINDOWS, ids=["disc", "rectangle", "cut disc"])
def test_k_and_g_of_stems_at_random_are_those_of_randomness(window, correction):
    rng, radii = np.random.default_rng(11), np.array([2.0, 4.0, 6.0])
    plots = [(window.random(60, rng), window) for _ in range(20)]
    g = np.mean([pair_correlation(xy, window, radii, correction=correction) for xy, _ in plots], axis=0)

    np.testing.assert_allclose(pooled_k(plots, radii, correction=correction), math.pi * radii**2, rtol=0.1)
    np.testing.assert_allclose(g, 1.0, atol=0.12)


def test_k_does_not_depend_on_place_turn_or_order():
    xy = TEN.random(30, np.random.default_rng(2))
    turn = np.array([[math.cos(0.7), -math.sin(0.7)], [math.sin(0.7), math.cos(0.7)]])
    there = (xy @ turn.T + [5e5, 5e6])[::-1]

    np.testing.assert_allclose(
        k_function(there, Disc((5e5, 5e6), 10.0), [1.0, 5.0]), k_function(xy, TEN, [1.0, 5.0]), rtol=1e-6
    )


def test_cross_k_of_one_kind_only_is_missing_and_kinds_may_not_overlap():
    every = np.ones(4, dtype=bool)

    assert math.isnan(cross_k(FOUR, TEN, [3.0], of=every, to=~every)[0])
    with pytest.raises(InputError, match="one kind only"):
        cross_k(FOUR, TEN, [3.0], of=every, to=every)


# g and marks


def test_g_of_two_stems_is_the_kernel_written_out():
    xy, r, h = [[-1.5, 0.0], [1.5, 0.0]], 2.6, 1.0
    kernel = 0.75 / h * (1 - ((r - 3.0) / h) ** 2)

    g_r = pair_correlation(xy, TEN, [r], halfwidth=h, divisor="r")[0]
    g_d = pair_correlation(xy, TEN, [r], halfwidth=h, divisor="d")[0]

    assert g_r == pytest.approx(TEN.area / (2 * math.pi * r) * kernel)
    assert g_d == pytest.approx(TEN.area / (2 * math.pi * 3.0) * kernel)


def test_g_at_zero_is_missing_by_radius_and_a_number_by_distance():
    xy = TEN.random(40, np.random.default_rng(1))

    assert math.isnan(pair_correlation(xy, TEN, [0.0], divisor="r")[0])
    assert math.isfinite(pair_correlation(xy, TEN, [0.0], divisor="d")[0])


def test_equal_marks_have_no_correlation_and_no_difference():
    xy = TEN.random(30, np.random.default_rng(5))

    np.testing.assert_allclose(mark_correlation(xy, np.full(30, 25.0), TEN, [1.0, 3.0]), 1.0)
    np.testing.assert_allclose(mark_variogram(xy, np.full(30, 25.0), TEN, [1.0, 3.0]), 0.0)


def test_marks_of_one_pair():
    xy, marks = [[0.0, 0.0], [2.0, 0.0]], [10.0, 30.0]

    assert mark_correlation(xy, marks, TEN, [2.0])[0] == pytest.approx(300 / 400)
    assert mark_variogram(xy, marks, TEN, [2.0])[0] == pytest.approx(200.0)
    assert math.isnan(mark_correlation(xy, marks, TEN, [5.0])[0])


def test_farthest_is_half_the_radius_or_a_quarter_of_the_side():
    assert farthest(TEN) == pytest.approx(5.0)
    assert farthest(Rectangle(0, 0, 40, 20)) == 5.0
    assert farthest(CutDisc(TEN, shapely.box(-50, 0, 50, 50))) == pytest.approx(50 * math.pi / (20 + 10 * math.pi))


def test_kinds_dealt_out_at_random_do_not_correlate_and_those_in_halves_do():
    rng, window = np.random.default_rng(7), Disc((0.0, 0.0), 60.0)
    points = window.random(3_000, rng)

    mixed = kind_correlation(points, rng.choice(["beech", "oak", "ash"], 3_000), window, R)
    halves = kind_correlation(points, points[:, 0] > 0.0, window, R)

    assert_allclose(mixed, 1.0, atol=0.05)
    assert (halves > 1.8).all()


def test_kinds_of_three_stems():
    # At 2 m one pair alike; of the places of two kinds, two and one, (4 + 1) / 9 are alike.
    xy = [[0.0, 0.0], [2.0, 0.0], [0.0, 6.0]]

    assert kind_correlation(xy, ["a", "a", "b"], TEN, [2.0])[0] == pytest.approx(9 / 5)
    assert kind_correlation(xy, ["a", "b", "b"], TEN, [2.0])[0] == 0.0
    assert math.isnan(kind_correlation(np.zeros((0, 2)), [], TEN, [2.0])[0])
