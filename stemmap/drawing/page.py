"""Pages: scenes at their true scale on a sheet of paper or in a picture."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from stemmap.drawing.scene import Scene


@dataclass(frozen=True)
class Placed:
    """A scene on a page.

    Parameters
    ----------
    scene
        The scene.
    x_mm, y_mm
        Where its origin lies: millimetres from the left and from the top of the page.
    millimetres_per_metre
        Its scale: 10 at 1:100.
    """

    scene: Scene
    x_mm: float
    y_mm: float
    millimetres_per_metre: float = 1.0


@dataclass(frozen=True)
class Page:
    """A sheet of paper or a picture.

    Parameters
    ----------
    width_mm, height_mm
        Its size.
    parts
        The scenes on it, painted in this order.
    colour
        Of the page.
    title
        What the file is called inside.
    bookmark
        Name under which the outline of a document leads to this page; empty: it does not.
    """

    width_mm: float
    height_mm: float
    parts: tuple[Placed, ...]
    colour: str
    title: str = ""
    bookmark: str = ""


def picture(scene: Scene, millimetres_per_metre: float, *, title: str = "") -> Page:
    """Page that a scene just fills."""
    width, height = scene.box.size_mm(millimetres_per_metre)
    left = -scene.box.low[0] * millimetres_per_metre - scene.box.low_mm[0]
    above = scene.box.high[1] * millimetres_per_metre + scene.box.high_mm[1]
    part = Placed(scene, left, above, millimetres_per_metre)
    return Page(width, height, (part,), scene.background, title)


def stacked(pages: Sequence[Page]) -> Page:
    """One page that shows pages of the same width below each other, for a picture of them all."""
    parts: list[Placed] = []
    above = 0.0
    for page in pages:
        parts += [replace(part, y_mm=part.y_mm + above) for part in page.parts]
        above += page.height_mm
    return replace(pages[0], height_mm=above, parts=tuple(parts))
