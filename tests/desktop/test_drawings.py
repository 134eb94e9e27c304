"""Pictures in the window: the histogram and the kept picture of the map."""

import numpy as np
from PySide6.QtCore import QSize
from PySide6.QtGui import QColor, QImage

from stemmap.desktop.histogram import HistogramRequest, draw_histogram
from stemmap.desktop.map_picture import painted
from stemmap.desktop.map_request import MapRequest, describe_map
from stemmap.drawing.layers import USUAL


def colours(image: QImage) -> set[str]:
    return {image.pixelColor(x, y).name() for x in range(0, image.width(), 2) for y in range(0, image.height(), 2)}


def histogram(*, ratio: float = 1.0, ink: str = "#112233", fill: str = "#0072b2") -> QImage:
    return draw_histogram(
        HistogramRequest(
            edges_cm=(0.0, 5.0, 10.0, 15.0),
            stems_per_ha=(0.0, 120.0, 40.0),
            ink=ink,
            fill=fill,
            width=280,
            height=170,
            pixel_ratio=ratio,
            font_pixels=11.0,
            x_label="dbh, cm",
            y_label="stems/ha",
        )
    )


def test_histogram_has_the_colours_and_the_size_asked_for(qapp):
    image = histogram(ratio=2.0)
    assert (image.width(), image.height(), image.devicePixelRatio()) == (560, 340, 2.0)
    assert "#0072b2" in colours(image)
    assert image.pixelColor(0, 0).alpha() == 0


def test_bars_are_as_high_as_their_classes(qapp):
    image = histogram()
    heights = [
        sum(image.pixelColor(x, y).name() == "#0072b2" for y in range(image.height())) for x in range(image.width())
    ]
    highest = max(heights)
    assert highest > 60
    assert min(height for height in heights if height > 5) == round(highest / 3.0) or np.isclose(
        min(height for height in heights if height > 5), highest / 3.0, atol=2
    )


def test_map_is_painted_alike_at_any_resolution_of_the_screen(qapp, sample):
    request = MapRequest(sample, 0, tuple(sample.findings.of_visit(0)), dark=False, width=500, height=400,
                         per_millimetre=4.0, view=None, layers=USUAL)  # fmt: skip
    described = describe_map(request)
    once = painted(described.scene, described.view, QSize(500, 400), 1.0)
    twice = painted(described.scene, described.view, QSize(1000, 800), 2.0)
    assert once.pixelColor(0, 0) == twice.pixelColor(0, 0) == QColor(described.scene.background)
    assert twice.devicePixelRatio() == 2.0
    small = twice.scaled(500, 400)
    differing = sum(
        abs(small.pixelColor(x, y).lightness() - once.pixelColor(x, y).lightness()) > 90
        for x in range(0, 500, 3)
        for y in range(0, 400, 3)
    )
    assert differing < 100


def test_plot_with_very_many_stems_is_painted_elsewhere(qtbot, show):
    rng = np.random.default_rng(2)
    count = 4500
    stems = {
        "plot": ["A"] * count,
        "azimuth": rng.integers(0, 360, count),
        "distance_m": rng.random(count).round(2) * 10 + 0.1,
        "dbh_cm": np.full(count, 10),
    }
    window = show(stems, {"plot": ["A"]}, {"design": {"radius_m": 12.0}})
    canvas = window.panels.map_panel.canvas
    before = canvas.shown.scene.background

    def painted_ground():
        image = canvas.grab().toImage()
        return len(colours(image) - {before}) > 3

    qtbot.waitUntil(painted_ground, timeout=20_000)
