"""The ground a pattern of stems was seen in: a disc, a rectangle or a disc that a stand edge cuts, in metres."""

from stemmap.core.cut_disc import CutDisc
from stemmap.core.disc import ROUNDING_M, Disc
from stemmap.core.rectangle import Rectangle

__all__ = ["ROUNDING_M", "CutDisc", "Disc", "Rectangle", "Window"]

Window = Disc | Rectangle | CutDisc
