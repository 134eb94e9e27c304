"""The About box: version, licences, caution."""

from __future__ import annotations

from PySide6.QtCore import QCoreApplication, Qt
from PySide6.QtWidgets import QDialog, QDialogButtonBox, QHBoxLayout, QLabel, QScrollArea, QVBoxLayout, QWidget

from stemmap import __version__
from stemmap.desktop.icons import program_icon

_tr = QCoreApplication.translate


def about_text() -> str:
    """What the box says, as simple markup."""
    paragraphs = (
        _tr(
            "about",
            "<b>stemmap {version}</b><br>Checks, maps and summarises stem records of circular forest sample plots.",
        ).format(version=__version__),
        _tr(
            "about",
            "The maps and coordinates are no legal survey. Work in the forest is dangerous: wind, slopes, dead trees "
            "and traffic come before any measurement, and local safety rules come before anything printed here.",
        ),
        _tr(
            "about",
            "stemmap is under the MIT licence. It uses Qt and PySide6 (LGPL 3; their libraries may be replaced), "
            "NumPy, SciPy, pandas, GeoPandas, Shapely, pyproj with PROJ and the EPSG dataset, pyogrio with GDAL, "
            "Matplotlib, python-calamine, click and ppigrf, each under its own licence, and the typeface Noto Sans "
            "(SIL Open Font Licence).",
        ),
    )
    return "".join(f"<p>{text}</p>" for text in paragraphs)


class AboutBox(QDialog):
    """The text beside the program's icon; large letters are scrolled."""

    def __init__(self, parent: QWidget) -> None:
        super().__init__(parent)
        self.setObjectName("about")
        self.setWindowTitle(_tr("about", "About stemmap"))
        self._label = QLabel(about_text())
        self._label.setWordWrap(True)
        self._label.setMargin(12)
        self._label.setAlignment(Qt.AlignmentFlag.AlignTop)
        area = QScrollArea()
        area.setWidgetResizable(True)
        area.setFrameShape(QScrollArea.Shape.NoFrame)
        area.setAccessibleName(_tr("about", "About stemmap"))
        area.setWidget(self._label)
        icon = QLabel()
        icon.setPixmap(program_icon().pixmap(64, 64))
        icon.setAlignment(Qt.AlignmentFlag.AlignTop)
        icon.setMargin(12)
        row = QHBoxLayout()
        row.addWidget(icon)
        row.addWidget(area, 1)
        buttons = QDialogButtonBox(QDialogButtonBox.StandardButton.Close)
        buttons.rejected.connect(self.close)
        column = QVBoxLayout(self)
        column.addLayout(row, 1)
        column.addWidget(buttons)
        width = self.fontMetrics().averageCharWidth() * 76
        self.resize(min(width, 1000), min(self._label.heightForWidth(width - 140) + 110, 620))

    def text(self) -> str:
        """What the box says."""
        return self._label.text()


def show_about(parent: QWidget) -> None:
    """Show the box; the window stays usable."""
    box = AboutBox(parent)
    box.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
    box.show()
