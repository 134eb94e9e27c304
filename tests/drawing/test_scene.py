"""Metres and millimetres on a device."""

import numpy as np
import pytest

from stemmap.drawing.scene import Box, Discs, Scene, StemPlaces, View


def test_fitting_view_shows_the_whole_box_centred_and_touches_its_narrower_side():
    box = Box.around_centre(10.0, 5.0)
    view = View.fitting(box, 400.0, 300.0, per_millimetre=4.0)

    corners = view.to_device(np.array([box.low, box.high]), np.array([box.low_mm, box.high_mm]))
    assert corners[:, 1].tolist() == pytest.approx([300.0, 0.0])
    assert corners[:, 0].sum() == pytest.approx(400.0)
    assert view.millimetres_per_metre == pytest.approx((300.0 - 40.0) / 20.0 / 4.0)


def test_north_is_up_and_millimetres_do_not_grow_with_the_map():
    view = View(100.0, 100.0, per_metre=10.0, per_millimetre=4.0)

    assert view.to_device(np.array([[1.0, 2.0]]), (3.0, 1.0)).tolist() == [[122.0, 76.0]]
    assert view.zoomed(2.0, 100.0, 100.0).to_device(np.array([[1.0, 2.0]]), (3.0, 1.0)).tolist() == [[132.0, 56.0]]


def test_zooming_keeps_the_ground_under_the_pointer_and_moving_moves_it():
    view = View(50.0, 60.0, per_metre=7.0, per_millimetre=3.0)
    ground = view.to_metres(120.0, 30.0)

    assert view.zoomed(1.7, 120.0, 30.0).to_metres(120.0, 30.0) == pytest.approx(ground)
    assert view.moved(5.0, -4.0).to_metres(125.0, 26.0) == pytest.approx(ground)


def test_the_stem_under_the_pointer_is_found_and_empty_ground_is_not():
    places = StemPlaces(np.array([7, 8]), np.array([[1.0, 1.0], [2.0, 1.0]]), np.array([0.2, 0.1]), np.zeros(2))
    scene = Scene((), Box(), "#ffffff", places)
    view = View(0.0, 0.0, per_metre=100.0, per_millimetre=4.0)

    assert scene.stem_at(view, 115.0, -100.0) == 7
    assert scene.stem_at(view, 188.0, -104.0) == 8
    assert scene.stem_at(view, 150.0, -150.0) == -1
    assert Scene((), Box(), "#ffffff").stem_at(view, 0.0, 0.0) == -1


def test_a_moved_scene_keeps_its_shapes():
    scene = Scene((Discs(np.zeros((1, 2)), 1.0, centre_mm=(1.0, 2.0)),), Box(), "#ffffff")
    (moved,) = scene.at((3.0, 4.0), (10.0, 20.0))

    assert moved.centre.tolist() == [[3.0, 4.0]]
    assert moved.centre_mm.tolist() == [11.0, 22.0]
