"""Numbers do not overlap, and stand where a reader looks first."""

import numpy as np
import pytest

from stemmap.drawing.labels import place


def placed(count, *, seed=1, radius=80.0):
    rng = np.random.default_rng(seed)
    angle, away = rng.random(count) * 2.0 * np.pi, radius * np.sqrt(rng.random(count))
    anchors = np.column_stack([away * np.cos(angle), away * np.sin(angle)])
    radii = rng.uniform(0.4, 2.0, count)
    sizes = np.column_stack([rng.uniform(1.3, 4.0, count), np.full(count, 1.7)])
    discs = np.column_stack([anchors, radii])
    found = place(anchors, radii, sizes, discs_mm=discs, rings_mm=np.zeros((0, 3)), reach_mm=radius + 2.0)
    return anchors, sizes, discs, found


@pytest.mark.parametrize("count", [1, 40, 200, 300])
def test_no_number_lies_on_a_number_or_a_stem(count):
    anchors, sizes, discs, found = placed(count)
    middle, half = (anchors + found.offset_mm)[found.placed], sizes[found.placed] / 2.0

    gap = np.abs(middle[:, None] - middle[None, :]) - half[:, None] - half[None, :]
    assert (gap.max(axis=2)[~np.eye(len(middle), dtype=bool)] >= 0.0).all()
    away = np.maximum(np.abs(middle[:, None] - discs[None, :, :2]) - half[:, None], 0.0)
    assert (np.hypot(away[..., 0], away[..., 1]) >= discs[:, 2]).all()


def test_nearly_all_numbers_of_a_crowded_plot_find_a_place():
    assert placed(200)[3].placed.mean() > 0.99
    assert placed(300)[3].placed.mean() > 0.97


def test_numbers_stay_within_reach():
    anchors, sizes, _, found = placed(200)
    corner = np.abs(anchors + found.offset_mm)[found.placed] + sizes[found.placed] / 2.0

    assert np.hypot(corner[:, 0], corner[:, 1]).max() <= 82.0


def test_a_lone_number_stands_beside_its_stem_to_the_right():
    found = place(
        np.zeros((1, 2)),
        np.array([1.0]),
        np.array([[3.0, 1.6]]),
        discs_mm=np.array([[0.0, 0.0, 1.0]]),
        rings_mm=np.zeros((0, 3)),
        reach_mm=50.0,
    )

    assert found.offset_mm[0] == pytest.approx([1.0 + 0.5 + 1.5, 0.0])
    assert not found.tied[0]


def test_a_number_without_room_beside_gets_a_hair_line_and_one_without_any_room_is_left_out():
    crowd = np.array([[3.0 * x, 3.0 * y, 1.6] for x in range(-2, 3) for y in range(-2, 3) if x or y])
    discs = np.vstack([[0.0, 0.0, 1.0], crowd])
    arguments = (np.zeros((1, 2)), np.array([1.0]), np.array([[1.5, 1.5]]))

    alone = place(*arguments, discs_mm=discs, rings_mm=np.zeros((0, 3)), reach_mm=5.0)
    assert not alone.placed[0]
    assert np.isnan(alone.offset_mm[0]).all()
    corridor = np.array([disc for disc in discs if not (disc[0] > 0.0 and disc[1] == 0.0)])
    narrow = np.vstack([corridor, [[3.0, 2.2, 1.6], [3.0, -2.2, 1.6]]])
    tied = place(*arguments, discs_mm=narrow, rings_mm=np.zeros((0, 3)), reach_mm=50.0)
    assert tied.placed[0]
    assert tied.tied[0]


def test_placement_is_the_same_every_time():
    first, second = placed(150)[3], placed(150)[3]

    np.testing.assert_array_equal(first.offset_mm, second.offset_mm)


def test_a_number_avoids_a_border_when_there_is_room_elsewhere():
    arguments = (np.array([[10.0, 0.0]]), np.array([0.5]), np.array([[3.0, 1.6]]))
    ring = np.array([[0.0, 0.0, 12.0]])
    found = place(*arguments, discs_mm=np.array([[10.0, 0.0, 0.5]]), rings_mm=ring, reach_mm=50.0)
    corners = (
        np.array([10.0, 0.0]) + found.offset_mm[0] + np.array([[-1.5, -0.8], [1.5, -0.8], [1.5, 0.8], [-1.5, 0.8]])
    )

    assert len(set((np.hypot(*corners.T) > 12.0).tolist())) == 1
    assert not found.tied[0]


def test_nothing_to_place_is_no_fault():
    empty = np.zeros((0, 2))

    assert (
        len(place(empty, np.zeros(0), empty, discs_mm=np.zeros((0, 3)), rings_mm=np.zeros((0, 3)), reach_mm=9.0).placed)
        == 0
    )
