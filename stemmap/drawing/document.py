"""A document with pictures as PDF, byte for byte the same from the same input."""

from __future__ import annotations

import re
from collections.abc import Mapping
from datetime import date
from typing import Final

from PySide6.QtCore import QBuffer, QByteArray, QHashSeed, QIODevice, QMarginsF, QRectF, Qt, QUrl, QUuid
from PySide6.QtGui import (
    QAbstractTextDocumentLayout,
    QFont,
    QImage,
    QPageLayout,
    QPageSize,
    QPainter,
    QPalette,
    QPdfWriter,
    QTextDocument,
)

from stemmap.drawing.pagination import pages, parts_of
from stemmap.drawing.typeface import family

_DPI: Final = 300
#: Millimetres around the text, of them below it for the number of the page; points of its letters.
_MARGIN, _FOOT, _LETTERS = 18.0, 8.0, 9.0
_STYLE: Final = "td,th{padding:1px 6px 1px 0} th{text-align:left}"
_NUMBER: Final = Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignBottom
_STAMP: Final = re.compile(rb"/(CreationDate|ModDate) ?\(D:[^)]*\)")
#: Without a day: Qt would write that of now.
_DESCRIPTION: Final = (
    b"<?xpacket begin='' id='W5M0MpCehiHzreSzNTczkc9d'?><x:xmpmeta xmlns:x=\"adobe:ns:meta/\"/><?xpacket end='r'?>"
)


def document_pdf(text: str, pictures: Mapping[str, bytes], *, title: str, day: date | None = None) -> bytes:
    """Set HTML with pictures on A4 pages.

    Parameters
    ----------
    text
        HTML whose pictures are images with the names given.
    pictures
        PNG of each by its name.
    title
        Of the document.
    day
        Day that the file carries as that of its making; None: the first day of 2000, so that nothing depends on now.
    """
    # Otherwise the fonts of the file come in another order each time.
    QHashSeed.setDeterministicGlobalSeed()
    document = QTextDocument()
    document.setDefaultStyleSheet("pre{font-family:'" + family() + "'} " + _STYLE)
    for name, picture in pictures.items():
        document.addResource(QTextDocument.ResourceType.ImageResource, QUrl(name), QImage.fromData(picture))
    font = QFont(family())
    font.setPointSizeF(_LETTERS)
    document.setDefaultFont(font)
    document.setHtml(text)
    buffer = QBuffer()
    buffer.open(QIODevice.OpenModeFlag.WriteOnly)
    writer = QPdfWriter(buffer)
    writer.setResolution(_DPI)
    writer.setTitle(title)
    writer.setCreator("stemmap")
    margins = QMarginsF(_MARGIN, _MARGIN, _MARGIN, _MARGIN)
    # Named by what it holds, so that two reports have one name only when they are the same.
    writer.setDocumentId(QUuid.createUuidV5(QUuid(), QByteArray(text.encode())))
    writer.setDocumentXmpMetadata(QByteArray(_DESCRIPTION))
    writer.setPageLayout(
        QPageLayout(
            QPageSize(QPageSize.PageSizeId.A4),
            QPageLayout.Orientation.Portrait,
            margins,
            QPageLayout.Unit.Millimeter,
        )
    )
    _print(document, writer)
    # In this order: the document still knows the writer that it was laid out for.
    del document, writer
    return _unstamped(bytes(buffer.data().data()), day or date(2000, 1, 1))


def _print(document: QTextDocument, writer: QPdfWriter) -> None:
    """Paint a document page by page, so that headings and heads of tables stay with what they head."""
    width, height = float(writer.width()), float(writer.height())
    foot = _FOOT * _DPI / 25.4
    layout = document.documentLayout()
    layout.setPaintDevice(writer)
    document.setDocumentMargin(0.0)
    document.setTextWidth(width)
    asked = QAbstractTextDocumentLayout.PaintContext()
    asked.palette.setColor(QPalette.ColorRole.Text, Qt.GlobalColor.black)
    painter = QPainter(writer)
    painter.setFont(document.defaultFont())
    for number, strips in enumerate(pages(list(parts_of(document)), height - foot), start=1):
        if number > 1:
            writer.newPage()
        down = 0.0
        for top, bottom in strips:
            painter.save()
            painter.translate(0.0, down - top)
            asked.clip = QRectF(0.0, top, width, bottom - top)
            painter.setClipRect(asked.clip)
            layout.draw(painter, asked)
            painter.restore()
            down += bottom - top
        painter.drawText(QRectF(0.0, 0.0, width, height), int(_NUMBER), str(number))
    painter.end()


def _unstamped(made: bytes, day: date) -> bytes:
    """Put a fixed day in place of that of now, of the same length, since the file counts its bytes."""

    def stamp(found: re.Match[bytes]) -> bytes:
        begun = found[0][: found[0].index(b"D:") + 2]
        wanted = day.strftime("%Y%m%d").encode() + b"000000Z"
        return begun + wanted.ljust(len(found[0]) - len(begun) - 1, b" ") + b")"

    return _STAMP.sub(stamp, made)
