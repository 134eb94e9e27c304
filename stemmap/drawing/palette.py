"""Colours of the maps, and which species gets which.

All hues are of the set that Masataka Okabe and Kei Ito chose to be told apart with any kind of colour vision ("Color
Universal Design: how to make figures and presentations that are friendly to colorblind people", 2002, revised 2008).
What each stands for is our own choice. No colour stands alone: species also differ by spots on the disc, findings by
letter and kind of outline.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache
from typing import Final

import numpy as np
from numpy.typing import NDArray

from stemmap.survey.survey import Survey

_ORANGE: Final = "#e69f00"
_SKY_BLUE: Final = "#56b4e9"
_BLUISH_GREEN: Final = "#009e73"
_YELLOW: Final = "#f0e442"
_BLUE: Final = "#0072b2"
_VERMILLION: Final = "#d55e00"
_REDDISH_PURPLE: Final = "#cc79a7"
_BLACK: Final = "#000000"
_WHITE: Final = "#ffffff"

#: Fills by rank of the species; six of them and seven kinds of spots make 42 different marks.
SPECIES_FILLS: Final = (_BLUISH_GREEN, _ORANGE, _SKY_BLUE, _REDDISH_PURPLE, _YELLOW, _BLUE)
#: Living, dead, cut, gone.
STATUS_FILLS: Final = (_BLUISH_GREEN, _ORANGE, _REDDISH_PURPLE, _SKY_BLUE)
#: Also at the last visit, new since then.
VISIT_FILLS: Final = (_SKY_BLUE, _ORANGE)
#: Error, to look at, note, nothing.
FINDING_FILLS: Final = (_VERMILLION, _YELLOW, _SKY_BLUE, "#d8dbd5")
#: Seven steps of a ramp that grows evenly in lightness with any kind of colour vision (J. R. Nunez, C. R. Anderton,
#: R. S. Renslow, "Optimizing colormaps with consideration for color vision deficiency", PLoS ONE 13(7), 2018).
CIVIDIS: Final = ("#00224e", "#2a3f6d", "#575d6d", "#7d7c78", "#a59c74", "#d2c060", "#fee838")
#: Spots on a disc of radius 1: centre east, centre north, radius; by rank of the species.
SPOTS: Final[tuple[tuple[tuple[float, float, float], ...], ...]] = (
    (),
    ((0.0, 0.0, 0.24),),
    ((-0.42, 0.0, 0.2), (0.42, 0.0, 0.2)),
    ((-0.42, -0.26, 0.2), (0.42, -0.26, 0.2), (0.0, 0.45, 0.2)),
    ((-0.4, -0.4, 0.18), (0.4, -0.4, 0.18), (-0.4, 0.4, 0.18), (0.4, 0.4, 0.18)),
    ((0.0, -0.5, 0.2), (0.0, 0.0, 0.2), (0.0, 0.5, 0.2)),
    ((0.0, 0.0, 0.5),),
)
#: Number of different marks; the two cues repeat together only after as many species.
MARKS: Final = len(SPECIES_FILLS) * len(SPOTS)


@dataclass(frozen=True)
class Theme:
    """The colours of a map.

    Parameters
    ----------
    page
        Sheet or window around the map.
    outside, inside
        Ground outside and inside the plot; the inside is a shade lighter.
    zone
        Borderline zone.
    ink
        Circle, outlines of stems, numbers.
    soft
        Ticks, the last visit, lesser words.
    hatch
        Ground that could not be seen.
    accent
        Outlines of findings, errors and warnings.
    ghost
        Proposals.
    unknown
        Fill of a stem whose species was not typed.
    finest_mm
        Radius of the smallest spot that is seen: less on paper than on a screen.
    """

    page: str
    outside: str
    inside: str
    zone: str
    ink: str
    soft: str
    hatch: str
    accent: str
    ghost: str
    unknown: str
    finest_mm: float


LIGHT: Final = Theme(
    page="#f3f3ef",
    outside="#e6e7e0",
    inside="#fdfdfb",
    zone="#d6d9cf",
    ink="#1d2321",
    soft="#555e59",
    hatch="#868f8a",
    accent=_VERMILLION,
    ghost=_BLUE,
    unknown="#b4b8b2",
    finest_mm=0.21,
)
DARK: Final = Theme(
    page="#151918",
    outside="#1d2221",
    inside="#2a312f",
    zone="#434d49",
    ink="#eef0ec",
    soft="#abb4af",
    hatch="#7d8884",
    accent=_VERMILLION,
    ghost=_SKY_BLUE,
    unknown="#7d8682",
    finest_mm=0.21,
)
PAPER: Final = Theme(
    page=_WHITE,
    outside="#efefeb",
    inside=_WHITE,
    zone="#dcdeda",
    ink=_BLACK,
    soft="#4f5652",
    hatch="#7a827d",
    accent=_VERMILLION,
    ghost=_BLUE,
    unknown="#b4b8b2",
    finest_mm=0.1,
)


@dataclass(frozen=True)
class SpeciesMarks:
    """Which mark stands for which species, the same on every map of a survey.

    Parameters
    ----------
    names
        Species by falling number of stems, ties by name.
    rank_of_code
        For each code of the species column the index of its species in `names`; the last entry, -1, is for none.
    """

    names: tuple[str, ...]
    rank_of_code: NDArray[np.int64]

    @classmethod
    def of(cls, survey: Survey) -> SpeciesMarks:
        """Marks of the species of a survey."""
        column = survey.stems.records.columns.get("species")
        if column is None:
            return cls((), np.array([-1]))
        stripped = [str(label).strip() for label in column.labels]
        names = sorted({name for name in stripped if name})
        place = {name: number for number, name in enumerate(names)}
        name_of_code = np.array([place.get(name, -1) for name in stripped] + [-1], np.int64)
        count = np.zeros(len(names) + 1, np.int64)
        np.add.at(count, name_of_code, np.append(np.bincount(column.codes + 1, minlength=len(stripped) + 1)[1:], 0))
        order = np.argsort(-count[:-1], kind="stable")
        rank = np.full(len(names) + 1, -1)
        rank[order] = np.arange(len(names))
        return cls(tuple(names[number] for number in order), rank[name_of_code])

    def rank(self, survey: Survey, rows: slice) -> NDArray[np.int64]:
        """Rank of the species of some stems; -1 where none was typed."""
        column = survey.stems.records.columns.get("species")
        codes = np.full(rows.stop - rows.start, -1) if column is None else column.codes[rows]
        return self.rank_of_code[codes]


def contrast(one: str, other: str) -> float:
    """Contrast ratio of two colours, 1 to 21 (W3C, Web Content Accessibility Guidelines 2.2, "contrast ratio")."""
    high, low = sorted((_luminance(one), _luminance(other)), reverse=True)
    return (high + 0.05) / (low + 0.05)


@cache
def readable_on(fill: str) -> str:
    """Black or white, whichever stands out more on a fill."""
    return max((_BLACK, _WHITE), key=lambda colour: contrast(colour, fill))


def _luminance(colour: str) -> float:
    parts = [int(colour[place : place + 2], 16) / 255.0 for place in (1, 3, 5)]
    red, green, blue = (part / 12.92 if part <= 0.04045 else ((part + 0.055) / 1.055) ** 2.4 for part in parts)
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue
