"""The one typeface of maps and sheets, shipped with the program so that widths are the same on every machine."""

from __future__ import annotations

from functools import cache, lru_cache
from threading import local
from typing import TYPE_CHECKING, Final

from PySide6.QtGui import QFont, QFontDatabase, QFontMetricsF

from stemmap.assets import resource
from stemmap.errors import EnvironmentFault

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

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
    made.setFeature(QFont.Tag("liga"), 0)  # so that text copied out of a PDF is the text
    return made


class _Metrics(local):
    """Measures of letters, one for each thread, since Qt's own must not be shared by threads."""

    def __init__(self) -> None:
        self.of_font = QFontMetricsF(font(_MEASURED_AT))


@cache
def _metrics() -> _Metrics:
    return _Metrics()


@lru_cache(maxsize=20_000)
def _width(text: str) -> float:
    return _metrics().of_font.horizontalAdvance(text) / _MEASURED_AT


def widths(texts: tuple[str, ...]) -> NDArray[np.float64]:
    """Widths of texts as shares of the letter body's height, shape (n,)."""
    import numpy as np  # Qt is started through this module, and numpy is not to hold up the first painting

    return np.array([_width(text) for text in texts], dtype=float)


def shortened(text: str, most: int) -> str:
    """Text on one line, cut with an ellipsis where it has more than `most` characters."""
    line = " ".join(text[: 4 * most].split())
    return line if len(line) <= most else line[: most - 1].rstrip() + "…"


def fitted(text: str, size_mm: float, width_mm: float) -> str:
    """Text on one line, cut with an ellipsis where it is wider than a width."""
    most = max(int(2.0 * width_mm / (size_mm * 0.3)), 1)
    line = shortened(text, most)
    while len(line) > 1 and _width(line) * size_mm > width_mm:
        line = line[:-2].rstrip() + "…"
    return line


def wrapped(text: str, size_mm: float, width_mm: float) -> tuple[str, ...]:
    """Lines of a paragraph, none wider than a width as long as its words are not."""
    lines = [""]
    for word in text.split():
        longer = f"{lines[-1]} {word}".strip()
        if lines[-1] and _width(longer) * size_mm > width_mm:
            lines.append(word)
        else:
            lines[-1] = longer
    return tuple(lines)
