"""Which layers of a plot map are drawn, and what the fills of its stems mean."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final, Literal

#: What the fill of a stem can stand for.
ColourBy = Literal["species", "status", "dbh", "visit", "finding"]
COLOURS_BY: Final[tuple[ColourBy, ...]] = ("species", "status", "dbh", "visit", "finding")
#: How many times as thick as they are stems can be drawn.
SYMBOL_FACTORS: Final = (1.0, 1.5, 2.0, 3.0, 5.0)


@dataclass(frozen=True)
class Layers:
    """What is drawn of a plot.

    Parameters
    ----------
    stems
        The marks of the stems; without them neither numbers nor outlines of findings.
    numbers, species
        Stem number and name of the species beside each stem.
    findings
        Outlines, letters and proposals.
    last_visit
        Where the stems stood at the visit before.
    uncertainty
        Ellipses of two standard deviations of each position.
    circles, borderline_zone
        Borders of the plot, and the ring in which a stem is too close to one.
    polar_grid
        Rings at round distances and rays of azimuth.
    projected_grid
        Lines of round easting and northing.
    unseen
        Hatching of the ground that could not be seen from the centre.
    order
        The order of numbers as a path from stem to stem.
    backgrounds
        The user's own ground under the map.
    legend
        What the marks mean, in a corner of the window; a sheet always has it.
    colour_by
        What the fill of a stem stands for.
    symbol_factor
        How many times as thick as they are stems are drawn.
    """

    stems: bool = True
    numbers: bool = True
    species: bool = False
    findings: bool = True
    last_visit: bool = True
    uncertainty: bool = False
    circles: bool = True
    borderline_zone: bool = True
    polar_grid: bool = False
    projected_grid: bool = False
    unseen: bool = True
    order: bool = False
    backgrounds: bool = True
    legend: bool = True
    colour_by: ColourBy = "species"
    symbol_factor: float = 1.0


#: As a map is drawn where nobody asks for anything else.
USUAL: Final = Layers()
