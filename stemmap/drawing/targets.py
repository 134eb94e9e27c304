"""Files of drawings: PNG, SVG and PDF, each from the same pages and the same painter.

A file is written beside its name and takes its place only when it is complete.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Final

from PySide6.QtCore import QBuffer, QByteArray, QIODevice, QMarginsF, QRect, QSaveFile, QSize, QSizeF, QTemporaryFile
from PySide6.QtGui import QColor, QImage, QImageWriter, QPageLayout, QPageSize, QPainter, QPdfWriter
from PySide6.QtSvg import QSvgGenerator

from stemmap.drawing.outline import outline_update
from stemmap.drawing.page import Page
from stemmap.drawing.painter import paint_page
from stemmap.errors import OutputError

_MILLIMETRES_PER_INCH: Final = 25.4
_PDF_DPI: Final = 1200
#: Units of an SVG per millimetre, fine enough for font sizes in whole units.
_SVG_UNITS: Final = 100
_COPIED_AT_ONCE: Final = 1 << 20


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
    with _saved(path) as file:
        if not _paint_svg(page, file):
            raise OutputError(f"The drawing for {path} could not be made; nothing was written.")


def svg_of(page: Page) -> bytes:
    """Page as SVG, for the clipboard."""
    buffer = QBuffer()
    buffer.open(QIODevice.OpenModeFlag.WriteOnly)
    _paint_svg(page, buffer)
    return bytes(buffer.data().data())


def _paint_svg(page: Page, file: QIODevice) -> bool:
    width, height = round(page.width_mm * _SVG_UNITS), round(page.height_mm * _SVG_UNITS)
    generator = QSvgGenerator()
    generator.setOutputDevice(file)
    generator.setResolution(round(_SVG_UNITS * _MILLIMETRES_PER_INCH))
    generator.setSize(QSize(width, height))
    generator.setViewBox(QRect(0, 0, width, height))
    generator.setTitle(page.title)
    painter = QPainter()
    if not painter.begin(generator):
        return False
    painter.fillRect(QRect(0, 0, width, height), QColor(page.colour))
    paint_page(page, painter, _SVG_UNITS)
    return painter.end()


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
    with _saved(path) as file, _beside(path) as draft:
        bookmarks = _paint_pdf(pages, draft, path, title)
        update = outline_update(draft, bookmarks) if bookmarks else b""
        draft.seek(0)
        while part := draft.read(_COPIED_AT_ONCE).data():
            file.write(part)
        file.write(update)


def _paint_pdf(pages: Iterable[Page], file: QIODevice, path: Path, title: str) -> list[tuple[str, int]]:
    """Paint pages as PDF; the bookmarks, each with the place of its page."""
    painter = QPainter()
    writer = QPdfWriter(file)
    writer.setResolution(_PDF_DPI)
    writer.setTitle(title)
    writer.setCreator("stemmap")
    bookmarks = []
    try:
        for number, page in enumerate(pages):
            writer.setPageLayout(_layout(page))
            begun = writer.newPage() if painter.isActive() else painter.begin(writer)
            if not begun:
                raise OutputError(f"A page of {path} could not be made; nothing was written.")
            if page.bookmark:
                bookmarks.append((page.bookmark, number))
            paint_page(page, painter, _PDF_DPI / _MILLIMETRES_PER_INCH)
        if not painter.isActive():
            raise OutputError(f"There is no plot to draw, so {path} was not written.")
    finally:
        if painter.isActive():
            painter.end()
    return bookmarks


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


@contextmanager
def _beside(path: Path) -> Iterator[QTemporaryFile]:
    """Open a file in the same folder that vanishes in the end."""
    file = QTemporaryFile(str(path.parent / ".XXXXXX.pdf"))
    if not file.open():
        raise OutputError(f"{path} cannot be written ({file.errorString()}); choose another place with -o.")
    try:
        yield file
    finally:
        file.close()
        file.remove()
