"""The About box: version, licences, caution."""

from __future__ import annotations

from PySide6.QtCore import QCoreApplication, Qt
from PySide6.QtWidgets import QMessageBox, QWidget

from stemmap import __version__

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


def show_about(parent: QWidget) -> None:
    """Show the box; the window stays usable."""
    box = QMessageBox(QMessageBox.Icon.NoIcon, _tr("about", "About stemmap"), about_text(), parent=parent)
    box.setObjectName("about")
    box.setTextFormat(Qt.TextFormat.RichText)
    box.setStandardButtons(QMessageBox.StandardButton.Close)
    box.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
    box.setModal(False)
    box.show()
