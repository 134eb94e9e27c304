"""The one typeface of maps and sheets, shipped with the program so that widths are the same on every machine."""

from __future__ import annotations

from functools import cache
from typing import Final

import numpy as np
from numpy.typing import NDArray
from PySide6.QtGui import QFont, QFontDatabase, QFontMetricsF

from stemmap.assets import resource
from stemmap.errors import EnvironmentFault

#: Heights of the letter body in millimetres: numbers and ticks, words, titles.
SMALL: Final = 2.3
WORDS: Final = 3.0
TITLE: Final = 5.0

#: Height of the capitals as a share of the letter body.
CAPITALS: Final = 0.714
_MEASURED_AT: Final = 200


@cache
def family() -> str:
    """Name of the typeface, registered with Qt at the first call; a QGuiApplication must exist.

    Raises
    ------
    EnvironmentFault
        When the font file is missing.
    """
    path = resource("fonts") / "NotoSans-Regular.ttf"
    number = QFontDatabase.addApplicationFont(str(path))
    if number < 0:
        raise EnvironmentFault(f"The font {path} cannot be loaded; install stemmap again.")
    return QFontDatabase.applicationFontFamilies(number)[0]


def font(pixel_size: float) -> QFont:
    """The typeface in a size of the device."""
    made = QFont(family())
    made.setPixelSize(max(round(pixel_size), 1))
    made.setHintingPreference(QFont.HintingPreference.PreferNoHinting)
    return made


@cache
def _metrics() -> QFontMetricsF:
    return QFontMetricsF(font(_MEASURED_AT))


@cache
def _width(text: str) -> float:
    return _metrics().horizontalAdvance(text) / _MEASURED_AT


def widths(texts: tuple[str, ...]) -> NDArray[np.float64]:
    """Widths of texts as shares of the letter body's height, shape (n,)."""
    return np.array([_width(text) for text in texts], dtype=float)
