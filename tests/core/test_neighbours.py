"""Nearest stems and indices made of them, against worked numbers, a general statistics library and simulation."""

import csv
import json
import math
from pathlib import Path

import numpy as np
import pytest

from stemmap.core.neighbours import (
    clark_evans,
    clark_evans_by_plot,
    competition,
    differentiation,
    dominance,
    mingling,
    nearest,
    neighbourhoods,
    uniform_angle,
    weighted_mingling,
)
from stemmap.core.windows import Disc, Rectangle
from stemmap.errors import InputError

REFERENCE = Path(__file__).parent.parent / "reference"


def load_patterns():
    with (REFERENCE / "patterns.csv").open(encoding="utf-8", newline="") as file:
        rows = list(csv.DictReader(file))
    numbers = json.loads((REFERENCE / "numbers.json").read_text(encoding="utf-8"))["patterns"]
    patterns = {}
    for name, expected in numbers.items():
        own = [row for row in rows if row["pattern"] == name]
        xy = np.array([[float(row["x_m"]), float(row["y_m"])] for row in own])
        patterns[name] = xy, np.array([ord(row["species"]) for row in own]), expected
    return patterns


PATTERNS = load_patterns()
RECTANGLES = [name for name in PATTERNS if name.startswith("rectangle")]


def window_of(expected):
    window = expected["window"]
    if "radius_m" in window:
        return Disc((0.0, 0.0), window["radius_m"])
    (x0, x1), (y0, y1) = window["x_m"], window["y_m"]
    return Rectangle(x0, y0, x1, y1)


def scattered(rng, *, plots, stems, radius=12.62):
    """Return positions uniform in discs far apart and in random order, and the plot of each."""
    plot = rng.permutation(np.repeat(np.arange(plots), stems))
    distance, azimuth = radius * np.sqrt(rng.random(len(plot))), 2 * math.pi * rng.random(len(plot))
    local = np.column_stack([distance * np.sin(azimuth), distance * np.cos(azimuth)])
    return local, plot


# Nearest stems


def test_neighbours_are_those_of_a_full_search_within_each_plot():
    rng = np.random.default_rng(3)
    xy, plot = scattered(rng, plots=7, stems=20)
    gap = np.hypot(*(xy[:, None, :] - xy[None, :, :]).transpose(2, 0, 1))
    gap[(plot[:, None] != plot[None, :]) | np.eye(len(xy), dtype=bool)] = np.inf

    near = nearest(xy, plot, 4)

    np.testing.assert_array_equal(near.index, np.argsort(gap, axis=1)[:, :4])
    np.testing.assert_allclose(near.distance, np.sort(gap, axis=1)[:, :4])


def test_overlapping_plots_and_plot_numbers_with_gaps_do_not_mix():
    xy = [[0.0, 0.0], [0.0, 0.0], [5.0, 0.0], [1.0, 0.0]]

    near = nearest(xy, [900, -3, 900, -3], 1)

    assert near.index[:, 0].tolist() == [2, 3, 0, 1]


def test_too_few_stems_leave_places_empty():
    near = nearest([[0.0, 0.0], [3.0, 4.0], [9.0, 9.0]], [0, 0, 1], 2)

    assert near.index.tolist() == [[1, -1], [0, -1], [-1, -1]]
    assert near.distance.tolist() == [[5.0, np.inf], [5.0, np.inf], [np.inf, np.inf]]


def test_coincident_stems_are_each_others_neighbours_never_their_own():
    xy = np.zeros((9, 2))

    near = nearest(xy, np.zeros(9), 3)

    assert (near.index != np.arange(9)[:, None]).all()
    assert (near.distance == 0.0).all()
    assert all(len(set(row)) == 3 for row in near.index.tolist())


def test_stem_without_position_has_no_neighbours_and_is_none():
    near = nearest([[0.0, 0.0], [np.nan, 0.0], [2.0, 0.0]], [0, 0, 0], 1)

    assert near.index[:, 0].tolist() == [2, -1, 0]


def test_no_stems_give_no_neighbours():
    assert nearest(np.empty((0, 2)), [], 4).index.shape == (0, 4)


def test_projected_coordinates_and_a_stem_far_off_do_not_blur_distances():
    xy = np.array([[0.0, 0.0], [0.25, 0.0], [0.0, 4e6], [0.0, 0.0], [0.0, 0.5]])

    near = nearest(np.add(xy, [5e5, 5e6]), [0, 0, 0, 1, 1], 1)

    np.testing.assert_allclose(near.distance[[0, 1, 3, 4], 0], [0.25, 0.25, 0.5, 0.5], rtol=1e-8)


# Clark-Evans


@pytest.mark.parametrize(
    ("n", "mean", "window", "plain", "corrected"),
    [
        # Computed: expected distance, R, z; first plain, then Donnelly's form with 0.0412 in place of 0.041.
        (30, 2.30, Disc((0, 0), 12.62), (2.041943, 1.126378, 1.32423), (2.197682, 1.046557, 0.44700)),
        (100, 5.0, Rectangle(0, 0, 100, 100), (5.0, 1.0, 0.0), (5.22208, 0.957473, -0.76128)),
        # With the rounded constant 0.26136 of the plain standard error the last z would be 2.39134.
        (25, 2.5, Rectangle(0, 0, 20, 20), (2.0, 1.25, 2.39132), (2.190847, 1.141111, 1.22264)),
    ],
)
def test_clark_evans_worked_numbers(n, mean, window, plain, corrected):
    none = clark_evans_by_plot(mean, n, window.area, window.perimeter, correction="none")
    donnelly = clark_evans_by_plot(mean, n, window.area, window.perimeter, correction="donnelly")
    other_constant = donnelly.expected + 0.0002 * window.perimeter / n**1.5
    standard_error = (mean - donnelly.expected) / donnelly.z

    assert (float(none.expected), float(none.r)) == pytest.approx(plain[:2], abs=1e-6)
    assert float(none.z) == pytest.approx(plain[2], abs=1e-5)
    assert mean / other_constant == pytest.approx(corrected[1], abs=1e-6)
    assert (mean - other_constant) / standard_error == pytest.approx(corrected[2], abs=1e-5)
    assert other_constant == pytest.approx(corrected[0], abs=1e-5)


def test_donnelly_uses_the_constant_as_printed():
    disc = Disc((0.0, 0.0), 12.62)

    r = clark_evans_by_plot(2.30, 30, disc.area, disc.perimeter, correction="donnelly").r

    assert float(r) == pytest.approx(1.046603, abs=1e-6)  # computed


def test_clark_evans_of_four_stems():
    four, disc = [[0.0, 0.0], [3.0, 0.0], [0.0, 8.0], [-6.0, -6.0]], Disc((0.0, 0.0), 10.0)
    plain, corrected = clark_evans(four, disc), clark_evans(four, disc, correction="donnelly")

    # Computed; R' there with 0.0412, which at four stems is 0.00027 less.
    assert plain.mean_nearest == pytest.approx(5.621320, abs=1e-6)
    assert plain.expected == pytest.approx(4.431135, abs=1e-6)
    assert plain.r == pytest.approx(1.268596, abs=1e-6)
    assert 5.621320 / (corrected.expected + 0.0002 * disc.perimeter / 8) == pytest.approx(1.010646, abs=1e-6)
    assert plain.n == 4
    assert plain.too_few
    assert (plain.correction, corrected.correction) == ("none", "donnelly")


@pytest.mark.parametrize("name", PATTERNS)
def test_plain_clark_evans_agrees_with_the_library(name):
    xy, _, expected = PATTERNS[name]

    result = clark_evans(xy, window_of(expected))

    assert result.n == expected["n"]
    assert result.too_few == (expected["n"] < 8)
    assert result.mean_nearest == pytest.approx(expected["mean_nearest_m"], rel=1e-12)
    assert result.r == pytest.approx(expected["clark_evans_none"], rel=1e-12)
    assert result.z == pytest.approx(expected["z_none"], rel=1e-11)
    assert result.p == pytest.approx(expected["p_none"], rel=1e-9)


@pytest.mark.parametrize("name", RECTANGLES)
def test_donnelly_agrees_with_the_library_but_for_its_constant(name):
    xy, _, expected = PATTERNS[name]
    window = window_of(expected)

    result = clark_evans(xy, window, correction="donnelly")
    other_constant = result.expected + 0.0002 * window.perimeter / result.n**1.5

    assert result.mean_nearest / other_constant == pytest.approx(expected["clark_evans_donnelly_0.0412"], rel=1e-12)


@pytest.mark.parametrize("name", PATTERNS)
def test_cdf_form_agrees_with_the_library(name):
    xy, _, expected = PATTERNS[name]

    result = clark_evans(xy, window_of(expected), correction="cdf")

    # The library's disc is a polygon of 4,096 sides; no stem of these patterns falls in another step for that.
    assert result.r == pytest.approx(expected["clark_evans_cdf"], rel=1e-12)
    assert math.isnan(result.z)
    assert math.isnan(result.p)


@pytest.mark.parametrize("correction", ["none", "donnelly", "cdf"])
@pytest.mark.parametrize("stems", [0, 1])
def test_clark_evans_of_fewer_than_two_stems_is_missing(stems, correction):
    result = clark_evans(np.zeros((stems, 2)), Disc((0.0, 0.0), 10.0), correction=correction)

    assert result.n == stems
    assert result.too_few
    assert np.isnan([result.r, result.z, result.p]).all()


def test_cdf_form_is_missing_where_the_edge_hides_every_neighbour():
    assert math.isnan(clark_evans([[9.0, 0.0], [-9.0, 0.0]], Disc((0.0, 0.0), 10.0), correction="cdf").r)


@pytest.mark.parametrize("correction", ["none", "donnelly", "cdf"])
def test_coincident_stems_are_as_clumped_as_can_be(correction):
    result = clark_evans(np.zeros((10, 2)), Disc((0.0, 0.0), 10.0), correction=correction)

    assert result.r == 0.0


@pytest.mark.parametrize("correction", ["none", "donnelly", "cdf"])
def test_clark_evans_does_not_depend_on_unit_place_or_order(correction):
    xy, _, _ = PATTERNS["disc_regular"]
    here = clark_evans(xy, Disc((0.0, 0.0), 12.62), correction=correction)
    there = clark_evans(
        xy[::-1] / 0.3048 + [1000.0, -500.0], Disc((1000.0, -500.0), 12.62 / 0.3048), correction=correction
    )

    assert there.r == pytest.approx(here.r, rel=1e-9)


def test_square_lattice_has_twice_the_expected_distance():
    x, y = np.meshgrid(np.arange(20) + 0.5, np.arange(20) + 0.5)

    result = clark_evans(np.column_stack([x.ravel(), y.ravel()]), Rectangle(0, 0, 20, 20))

    assert result.r == pytest.approx(2.0)


def test_unknown_correction_is_refused():
    with pytest.raises(InputError, match='"guard" is not known'):
        clark_evans([[0.0, 0.0]], Disc((0.0, 0.0), 1.0), correction="guard")


@pytest.mark.parametrize("stems", [8, 30])
def test_donnelly_in_a_disc_is_right_for_random_stems(stems):
    plots, disc = 20_000, Disc((0.0, 0.0), 12.62)
    xy, plot = scattered(np.random.default_rng(stems), plots=plots, stems=stems)
    nearest_distance = nearest(xy, plot, 1).distance[:, 0]
    mean = np.bincount(plot, weights=nearest_distance, minlength=plots) / stems

    corrected = clark_evans_by_plot(mean, stems, disc.area, disc.perimeter, correction="donnelly")
    plain = clark_evans_by_plot(mean, stems, disc.area, disc.perimeter, correction="none")

    assert corrected.r.mean() == pytest.approx(1.0, abs=0.01)
    assert (corrected.p < 0.05).mean() == pytest.approx(0.05, abs=0.01)
    assert plain.r.mean() > 1.05


# Uniform angle


@pytest.mark.parametrize(
    ("azimuths", "expected"),
    [
        # Computed.
        ((0, 90, 180, 270), 0.0),
        ((0, 60, 120, 240), 0.5),
        ((0, 10, 20, 30), 1.0),
        ((0, 71, 144, 216), 0.25),
        ((0, 72, 144, 216), 0.0),
    ],
)
@pytest.mark.parametrize("turned", [0, 17, 72, 289])
def test_uniform_angle_worked_numbers(azimuths, expected, turned):
    azimuth = np.radians(np.add(azimuths, turned))
    around = np.column_stack([np.sin(azimuth), np.cos(azimuth)]) * [[3.0], [2.0], [4.0], [5.0]]

    assert uniform_angle(np.vstack([[0.0, 0.0], around]))[0] == expected


@pytest.mark.parametrize("name", PATTERNS)
def test_uniform_angle_and_mingling_agree_with_the_reference(name):
    xy, species, expected = PATTERNS[name]
    result = neighbourhoods(xy, np.zeros(len(xy)), plots=1, species=species)

    np.testing.assert_array_equal(uniform_angle(xy), expected["uniform_angle"])
    assert result.uniform_angle[0] == pytest.approx(np.mean(expected["uniform_angle"]))
    assert result.mingling[0] == pytest.approx(np.mean(expected["mingling"]))
    assert result.mean_nearest[0] == pytest.approx(expected["mean_nearest_m"])


@pytest.mark.parametrize("stems", [0, 1, 4])
def test_uniform_angle_needs_four_neighbours(stems):
    xy = np.random.default_rng(1).random((stems, 2))

    assert np.isnan(uniform_angle(xy)).all()
    assert uniform_angle(xy).shape == (stems,)


def test_uniform_angle_of_coincident_stems_is_a_number():
    assert np.isfinite(uniform_angle(np.zeros((6, 2)))).all()


# All plots at once


def test_many_plots_at_once_give_what_each_gives_alone():
    rng = np.random.default_rng(5)
    names = list(PATTERNS)
    plot = np.repeat(np.arange(len(names)), [len(PATTERNS[name][0]) for name in names])
    order = rng.permutation(len(plot))
    xy = np.concatenate([PATTERNS[name][0] for name in names])[order]
    species = np.concatenate([PATTERNS[name][1] for name in names])[order]
    windows = [window_of(PATTERNS[name][2]) for name in names]

    together = neighbourhoods(xy, plot[order], plots=len(names) + 1, species=species)
    index = clark_evans_by_plot(
        together.mean_nearest[:-1],
        together.stems[:-1],
        [window.area for window in windows],
        [window.perimeter for window in windows],
    )

    for i, (name, window) in enumerate(zip(names, windows, strict=True)):
        alone = clark_evans(PATTERNS[name][0], window, correction="donnelly")
        assert (index.r[i], index.z[i], index.p[i]) == pytest.approx((alone.r, alone.z, alone.p), rel=1e-9)
        assert (index.n[i], index.too_few[i]) == (alone.n, alone.too_few)
        assert together.uniform_angle[i] == pytest.approx(uniform_angle(PATTERNS[name][0]).mean())
        assert together.counted[i] == alone.n


def test_empty_plot_has_no_values_but_its_place():
    result = neighbourhoods([[0.0, 0.0]], [1], plots=3, species=[0])

    assert result.stems.tolist() == [0, 1, 0]
    assert result.counted.tolist() == [0, 0, 0]
    for values in (result.mean_nearest, result.uniform_angle, result.mingling):
        assert np.isnan(values).all()


def test_survey_without_stems_is_answered():
    result = neighbourhoods(np.empty((0, 2)), [], plots=2, species=[])

    assert result.stems.tolist() == [0, 0]
    assert np.isnan(result.mean_nearest).all()


def test_stems_whose_fourth_neighbour_may_lie_outside_do_not_count():
    cross = np.array([[0.0, 0.0], [0.0, 2.0], [2.0, 0.0], [0.0, -2.0], [-2.0, 0.0]])
    disc = Disc((0.0, 0.0), 3.0)

    every = neighbourhoods(cross, np.zeros(5), plots=1, species=np.arange(5))
    inner = neighbourhoods(
        cross, np.zeros(5), plots=1, species=np.arange(5), edge="nearest", to_edge=disc.to_edge(cross)
    )

    assert (every.edge, every.counted.tolist()) == ("none", [5])
    assert (inner.edge, inner.counted.tolist(), inner.uniform_angle.tolist()) == ("nearest", [1], [0.0])
    assert inner.stems.tolist() == [5]
    assert inner.mean_nearest[0] == pytest.approx(2.0)


def test_edge_handling_keeps_the_uniform_angle_of_random_stems_unbiased():
    xy, plot = scattered(np.random.default_rng(11), plots=2000, stems=60)
    to_edge = Disc((0.0, 0.0), 12.62).to_edge(xy)

    inner = neighbourhoods(xy, plot, plots=2000, species=plot * 0, edge="nearest", to_edge=to_edge)
    every = neighbourhoods(xy, plot, plots=2000, species=plot * 0)
    mean = np.average(inner.uniform_angle, weights=inner.counted)

    # Four directions at random: an angle is below 72 degrees with 1 - (4/5)³, above 288 with (1/5)³ (computed).
    assert mean == pytest.approx(0.488 + 0.008, abs=0.003)
    assert np.mean(every.uniform_angle) > mean + 0.02


def test_mingling_is_missing_where_a_species_is_unknown():
    cross = np.array([[0.0, 0.0], [0.0, 2.0], [2.1, 0.0], [0.0, -2.2], [-2.3, 0.0]])
    known = neighbourhoods(cross, np.zeros(5), plots=1, species=[4, 4, 4, 4, 7])
    unknown = neighbourhoods(cross, np.zeros(5), plots=1, species=[4, 4, 4, 4, -1])

    assert known.mingling[0] == pytest.approx((4 * 0.25 + 1.0) / 5)
    assert math.isnan(unknown.mingling[0])
    assert (unknown.counted[0], unknown.counted_mingling[0]) == (5, 0)


@pytest.mark.parametrize(("edge", "to_edge"), [("nearest", None), ("wide", [1.0])])
def test_edge_handling_that_cannot_be_done_is_refused(edge, to_edge):
    with pytest.raises(InputError, match="cannot be done"):
        neighbourhoods([[0.0, 0.0]], [0], plots=1, species=[0], edge=edge, to_edge=to_edge)


# Marks of the neighbours


AROUND = [[0.0, 0.0], [0.0, 3.0], [5.0, 0.0], [-2.0, 0.0], [0.0, -7.0]]


def four_around():
    return nearest(AROUND, np.zeros(5, dtype=int), 4)


@pytest.mark.parametrize(("other", "expected"), [(15, 0.5), (20, 1 / 3), (30, 0.0), (45, 1 / 3)])
def test_differentiation_of_one_neighbour(other, expected):
    near = nearest(AROUND[:2], [0, 0], 1)

    assert differentiation(near, [30, other])[0] == pytest.approx(expected)  # computed


def test_differentiation_and_dominance_of_four_neighbours():
    dbh = np.array([30.0, 15.0, 30.0, 45.0, 20.0])

    assert differentiation(four_around(), dbh)[0] == pytest.approx((1 / 2 + 0 + 1 / 3 + 1 / 3) / 4)
    # Thinner are two; the equal one is not.
    assert dominance(four_around(), dbh)[0] == 0.5


def test_mingling_counts_strangers_and_weighs_rich_neighbourhoods():
    species = np.array([1, 1, 2, 3, 3])

    assert mingling(four_around(), species)[0] == 0.75
    assert weighted_mingling(four_around(), species)[0] == pytest.approx(0.75 * 3 / 5)
    assert weighted_mingling(four_around(), np.array([1, 2, 3, 4, 5]))[0] == 1.0
    assert mingling(four_around(), np.ones(5, dtype=int))[0] == 0.0


def test_many_ways_to_deal_out_marks_go_at_once():
    dealt = np.array([[1, 1, 2, 3, 3], [1, 1, 1, 1, 1]])

    assert mingling(four_around(), dealt)[:, 0].tolist() == [0.75, 0.0]
    assert dominance(four_around(), 10.0 * dealt).shape == (2, 5)


def test_unknown_marks_leave_no_value():
    dbh = np.array([30.0, 15.0, np.nan, 45.0, 20.0])

    assert np.isnan(differentiation(four_around(), dbh)).all()
    assert np.isnan(dominance(four_around(), dbh)).all()
    assert np.isnan(mingling(four_around(), np.array([1, 2, -1, 1, 1]))).all()
    assert np.isnan(differentiation(nearest(AROUND[:3], [0, 0, 0], 4), [1.0, 2.0, 3.0])).all()


def test_competition_within_a_radius():
    dbh = [30.0, 25.0, 40.0, 18.0, 60.0]

    assert competition(AROUND, dbh, radius=6.0)[0] == pytest.approx(0.844444, abs=5e-7)  # computed
    assert competition(AROUND, dbh, radius=7.0)[0] == pytest.approx(25 / 90 + 40 / 150 + 18 / 60 + 60 / 210)
    assert competition(AROUND, dbh, radius=1.0).tolist() == [0.0] * 5


def test_competition_stays_within_the_plot_and_says_what_it_cannot():
    xy = np.array([*AROUND[:3], [0.1, 0.0], [np.nan, 0.0], [0.1, 0.0]])
    dbh = [30.0, 25.0, 0.0, 50.0, 20.0, 10.0]

    together = competition(xy, dbh, radius=4.0, plot=[7, 7, 7, 8, 8, 8])

    assert together[:2] == pytest.approx([25 / 30 / 3, 30 / 25 / 3])
    assert np.isnan(together[[2, 4]]).all()
    assert np.isinf(together[[3, 5]]).all()
    assert competition(np.empty((0, 2)), [], radius=4.0).shape == (0,)


# Edge handling


def test_buffer_takes_stems_far_enough_inside_only():
    rng = np.random.default_rng(4)
    xy, plot = scattered(rng, plots=30, stems=30)
    to_edge = 12.62 - np.hypot(*xy.T)
    species = rng.integers(0, 3, len(xy))

    inner = neighbourhoods(xy, plot, plots=30, species=species, edge="buffer", to_edge=to_edge, buffer_m=4.0)
    by_hand = [np.mean(uniform_angle(xy[plot == i])[to_edge[plot == i] >= 4.0]) for i in range(30)]

    assert inner.edge == "buffer"
    assert inner.counted.tolist() == [np.sum(to_edge[plot == i] >= 4.0) for i in range(30)]
    np.testing.assert_allclose(inner.uniform_angle, by_hand)


def test_weights_by_neighbours_mend_what_the_edge_hides():
    """Stems with far neighbours are lost near the edge; weights bring their share back."""
    rng = np.random.default_rng(9)
    xy, plot = scattered(rng, plots=3000, stems=25)
    to_edge = 12.62 - np.hypot(*xy.T)
    near = nearest(xy, plot, 4).distance[:, 3]
    counts = near < to_edge
    weight = np.where(counts, 1.0 / (12.62 - np.where(counts, near, 0.0)) ** 2, 0.0)
    density = 25 / (math.pi * 12.62**2)
    # Mean squared distance to the fourth neighbour in the unbounded random wood: 4 / (π density).
    true = 4 / (math.pi * density)

    assert np.average(near**2, weights=weight) == pytest.approx(true, rel=0.02)
    assert np.mean(near[counts] ** 2) < 0.9 * true

    result = neighbourhoods(
        xy, plot, plots=3000, species=plot, edge="weighted", to_edge=to_edge, radius=np.full(len(xy), 12.62)
    )
    angle = uniform_angle(xy[plot == 5])
    own = weight[plot == 5]
    assert result.uniform_angle[5] == pytest.approx(np.average(angle[own > 0], weights=own[own > 0]))


@pytest.mark.parametrize("edge", ["nearest", "buffer", "weighted", "plus"])
def test_edge_handling_without_what_it_needs_is_refused(edge):
    with pytest.raises(InputError, match=f'"{edge}" cannot be done'):
        neighbourhoods([[0.0, 0.0]], [0], plots=1, species=[1], edge=edge)


def test_differences_in_diameter_are_told_by_plot_when_dbh_is_given():
    near = four_around()
    dbh = np.array([30.0, 15.0, 30.0, 45.0, 20.0])

    with_dbh = neighbourhoods(AROUND, np.zeros(5, dtype=int), plots=1, species=np.ones(5, dtype=int), dbh=dbh)
    without = neighbourhoods(AROUND, np.zeros(5, dtype=int), plots=1, species=np.ones(5, dtype=int))

    assert with_dbh.differentiation[0] == pytest.approx(differentiation(near, dbh).mean())
    assert with_dbh.dominance[0] == pytest.approx(dominance(near, dbh).mean())
    assert (with_dbh.counted_dbh[0], without.counted_dbh[0]) == (5, 0)
    assert math.isnan(without.differentiation[0])
