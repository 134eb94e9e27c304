"""Files of drawings: PNG, SVG and PDF, each from the same pages and the same painter.

A file is written beside its name and takes its place only when it is complete.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Final

from PySide6.QtCore import QByteArray, QMarginsF, QRect, QSaveFile, QSize, QSizeF
from PySide6.QtGui import QColor, QImage, QImageWriter, QPageLayout, QPageSize, QPainter, QPdfWriter
from PySide6.QtSvg import QSvgGenerator

from stemmap.drawing.page import Page
from stemmap.drawing.painter import paint_page
from stemmap.errors import OutputError

_MILLIMETRES_PER_INCH: Final = 25.4
_PDF_DPI: Final = 1200
#: Units of an SVG per millimetre, fine enough for font sizes in whole units.
_SVG_UNITS: Final = 100


def write_png(page: Page, path: Path, *, dpi: float = 200.0) -> None:
    """Write a page as PNG.

    Raises
    ------
    OutputError
        When the file cannot be written; a file of that name is then as it was.
    """
    with _saved(path) as file:
        if not QImageWriter(file, QByteArray(b"png")).write(image_of(page, dpi=dpi)):
            raise OutputError(f"The picture for {path} could not be made; nothing was written.")


def image_of(page: Page, *, dpi: float = 200.0) -> QImage:
    """Page as an image whose resolution says its size on paper."""
    per_millimetre = dpi / _MILLIMETRES_PER_INCH
    size = QSize(round(page.width_mm * per_millimetre), round(page.height_mm * per_millimetre))
    image = QImage(size, QImage.Format.Format_RGB32)
    image.setDotsPerMeterX(round(per_millimetre * 1000.0))
    image.setDotsPerMeterY(round(per_millimetre * 1000.0))
    image.fill(QColor(page.colour))
    painter = QPainter(image)
    paint_page(page, painter, per_millimetre)
    painter.end()
    return image


def write_svg(page: Page, path: Path) -> None:
    """Write a page as SVG in its true size.

    Raises
    ------
    OutputError
        As for `write_png`.
    """
    width, height = round(page.width_mm * _SVG_UNITS), round(page.height_mm * _SVG_UNITS)
    with _saved(path) as file:
        generator = QSvgGenerator()
        generator.setOutputDevice(file)
        generator.setResolution(round(_SVG_UNITS * _MILLIMETRES_PER_INCH))
        generator.setSize(QSize(width, height))
        generator.setViewBox(QRect(0, 0, width, height))
        generator.setTitle(page.title)
        painter = QPainter()
        if not painter.begin(generator):
            raise OutputError(f"The drawing for {path} could not be made; nothing was written.")
        painter.fillRect(QRect(0, 0, width, height), QColor(page.colour))
        paint_page(page, painter, _SVG_UNITS)
        painter.end()


def write_pdf(pages: Iterable[Page], path: Path, *, title: str = "") -> None:
    """Write pages as PDF at true scale, one after the other as they come.

    Parameters
    ----------
    pages
        At least one; each is asked for when the one before it is written.
    path
        The file.
    title
        Of the document.

    Raises
    ------
    OutputError
        As for `write_png`; also when there is no page.
    """
    painter = QPainter()
    with _saved(path) as file:
        writer = QPdfWriter(file)
        writer.setResolution(_PDF_DPI)
        writer.setTitle(title)
        writer.setCreator("stemmap")
        try:
            for page in pages:
                writer.setPageLayout(_layout(page))
                begun = writer.newPage() if painter.isActive() else painter.begin(writer)
                if not begun:
                    raise OutputError(f"A page of {path} could not be made; nothing was written.")
                paint_page(page, painter, _PDF_DPI / _MILLIMETRES_PER_INCH)
            if not painter.isActive():
                raise OutputError(f"There is no plot to draw, so {path} was not written.")
        finally:
            if painter.isActive():
                painter.end()


def _layout(page: Page) -> QPageLayout:
    size = QPageSize(
        QSizeF(page.width_mm, page.height_mm), QPageSize.Unit.Millimeter, "", QPageSize.SizeMatchPolicy.ExactMatch
    )
    return QPageLayout(size, QPageLayout.Orientation.Portrait, QMarginsF(0.0, 0.0, 0.0, 0.0))


@contextmanager
def _saved(path: Path) -> Iterator[QSaveFile]:
    """Open a file that is kept only when all goes well."""
    file = QSaveFile(str(path))
    if not file.open(QSaveFile.OpenModeFlag.WriteOnly):
        raise OutputError(f"{path} cannot be written ({file.errorString()}); choose another place with -o.")
    try:
        yield file
    except BaseException:
        file.cancelWriting()
        raise
    if not file.commit():
        raise OutputError(f"{path} could not be finished ({file.errorString()}); a file of that name is as it was.")
