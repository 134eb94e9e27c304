"""Layers of the map are kept from one start to the next."""

import json

import pytest
from PySide6.QtCore import QSettings

from stemmap.desktop.map_layers import MapLayers
from stemmap.drawing.layers import USUAL


@pytest.fixture(autouse=True)
def forgotten(qapp):
    """Other tests find the layers as usual."""
    QSettings().remove("map/layers")
    yield
    QSettings().remove("map/layers")


def test_layers_are_as_they_were_left():
    MapLayers().want(numbers=False, colour_by="dbh", symbol_factor=2.0)
    again = MapLayers().value
    assert (again.numbers, again.colour_by, again.symbol_factor) == (False, "dbh", 2.0)
    assert again.stems


@pytest.mark.parametrize(
    "kept",
    [
        "",
        "no list of layers",
        "[]",
        json.dumps({"stems": "yes", "colour_by": "mood", "symbol_factor": 7.0, "unknown": True, "numbers": []}),
    ],
)
def test_what_is_kept_but_not_understood_is_as_usual(kept):
    QSettings().setValue("map/layers", kept)
    assert MapLayers().value == USUAL
