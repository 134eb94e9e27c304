"""Chooses the coordinate system of results among all that the PROJ database knows, by name, code and area of use."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from PySide6.QtCore import QCoreApplication, Qt, Signal, Slot
from PySide6.QtWidgets import QCheckBox, QDialog, QDialogButtonBox, QLabel, QPushButton, QVBoxLayout, QWidget

from stemmap.desktop.columns import TableColumn, coded_column, given
from stemmap.desktop.jobs import Jobs
from stemmap.desktop.table_panel import TablePanel

if TYPE_CHECKING:
    from collections.abc import Sequence

    import numpy as np
    from numpy.typing import NDArray
    from pyproj.aoi import AreaOfUse

    from stemmap.progress import Progress
    from stemmap.tasks.workup import Workup

_tr = QCoreApplication.translate


@dataclass(frozen=True)
class Systems:
    """Coordinate systems as columns; `bounds` are west, south, east and north in degrees, shape (n, 4)."""

    codes: Sequence[str]
    names: Sequence[str]
    areas: Sequence[str]
    projected: NDArray[np.bool_]
    bounds: NDArray[np.float64]

    def at(self, place: tuple[float, float]) -> Systems:
        """Those whose area of use holds a place, longitude and latitude."""
        import numpy as np

        lon, lat = place
        west, south, east, north = self.bounds.T
        apart = west > east  # it lies on both sides of 180 degrees
        across = np.where(apart, (west <= lon) | (lon <= east), (west <= lon) & (lon <= east))
        rows = np.flatnonzero(across & (south <= lat) & (lat <= north)).tolist()
        return Systems(
            [self.codes[row] for row in rows],
            [self.names[row] for row in rows],
            [self.areas[row] for row in rows],
            self.projected[rows],
            self.bounds[rows],
        )


def known_systems(_progress: Progress | None = None) -> Systems:
    """All projected and geographic systems of the PROJ database that are in force."""
    import numpy as np
    from pyproj.database import query_crs_info
    from pyproj.enums import PJType

    kinds = [PJType.PROJECTED_CRS, PJType.GEOGRAPHIC_2D_CRS]
    used = [(one, one.area_of_use) for one in query_crs_info(auth_name="EPSG", pj_types=kinds) if one.area_of_use]
    areas = list({one.code: (one, area) for one, area in sorted(used, key=lambda pair: _width(pair[1]))}.values())
    return Systems(
        [f"{one.auth_name}:{one.code}" for one, _ in areas],
        [one.name for one, _ in areas],
        [area.name or "" for _, area in areas],
        np.array([one.type == PJType.PROJECTED_CRS for one, _ in areas], bool),
        np.array([area.bounds for _, area in areas], np.float64).reshape(-1, 4),
    )


def _width(area: AreaOfUse) -> float:
    """By it the widest is found of the areas of one system."""
    return (area.east - area.west) % 360.0 * (area.north - area.south)


def system_columns(systems: Systems) -> tuple[TableColumn, ...]:
    """Columns of the table to choose from."""
    import numpy as np

    rows = given(np.arange(len(systems.codes)))
    kinds = [_tr("crs_chooser", "degrees"), _tr("crs_chooser", "projected")]
    return (
        coded_column(
            _tr("crs_chooser", "name"),
            _tr("crs_chooser", "name of the coordinate system"),
            rows,
            given(systems.names),
        ),
        coded_column(
            _tr("crs_chooser", "code"),
            _tr("crs_chooser", "its code in the EPSG dataset"),
            rows,
            given(systems.codes),
        ),
        coded_column(
            _tr("crs_chooser", "kind"),
            _tr("crs_chooser", "longitude and latitude in degrees, or easting and northing"),
            given(systems.projected.astype(np.int64)),
            given(kinds),
            natural=False,
        ),
        coded_column(
            _tr("crs_chooser", "area of use"),
            _tr("crs_chooser", "where it may be used"),
            rows,
            given(systems.areas),
        ),
    )


class SystemsTable(TablePanel):
    """The table of coordinate systems.

    Signals
    -------
    chosen
        Another row is the current one.
    """

    chosen = Signal(str)

    def __init__(self, jobs: Jobs) -> None:
        super().__init__("crs", jobs)
        self.view.setAccessibleName(self.tr("Coordinate systems"))
        self.code = ""

    def show_systems(self, systems: Systems) -> None:
        """Show other systems."""
        self._systems = systems
        self.set_columns(system_columns(systems), slice(0, len(systems.codes)))

    def _chosen(self, row: int) -> None:
        self.code = self._systems.codes[row]
        self.chosen.emit(self.code)

    def _selected(self) -> int:
        return self._systems.codes.index(self.code) if self.code in self._systems.codes else -1


class CrsChooser(QDialog):
    """Asks for a coordinate system; the window stays usable.

    Signals
    -------
    wanted
        Code of the system wanted, empty when the program is to choose.
    """

    wanted = Signal(str)

    def __init__(self, parent: QWidget, jobs: Jobs, workup: Workup) -> None:
        super().__init__(parent)
        self.setObjectName("crs-chooser")
        self.setWindowTitle(self.tr("Coordinate system of results"))
        self.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        self.setModal(False)
        self._jobs, self._place = jobs, _middle(workup)
        self._all: Systems | None = None
        now = QLabel()
        now.setWordWrap(True)
        named = workup.measured.crs or self.tr("none")
        now.setText(
            self.tr(
                "Now in force: {name}. Results are given in the system chosen here, and plot coordinates that come "
                "without a system of their own are read in it."
            ).format(name=named)
        )
        self.here = QCheckBox(self.tr("Only those for use where the plots are"))
        self.here.setChecked(self._place is not None)
        self.here.setVisible(self._place is not None)
        self.table = SystemsTable(jobs)
        self._area = QLabel()
        self._area.setWordWrap(True)
        buttons = QDialogButtonBox()
        self.use_button = buttons.addButton(self.tr("Use it"), QDialogButtonBox.ButtonRole.AcceptRole)
        self.use_button.setEnabled(False)
        automatic: QPushButton = buttons.addButton(
            self.tr("Let the program choose"), QDialogButtonBox.ButtonRole.ResetRole
        )
        buttons.addButton(QDialogButtonBox.StandardButton.Cancel)
        layout = QVBoxLayout(self)
        for part in (now, self.here, self.table, self._area, buttons):
            layout.addWidget(part, int(part is self.table))
        self.resize(760, 520)
        self.here.toggled.connect(self._on_here)
        self.table.chosen.connect(self._on_chosen)
        self.table.view.doubleClicked.connect(self._on_use)
        buttons.accepted.connect(self._on_use)
        buttons.rejected.connect(self.close)
        automatic.clicked.connect(self._on_automatic)
        self._area.setText(self.tr("Reading the list…"))
        jobs.start("crs", known_systems, apply=self._show, shown=False)
        self.table.filter.setFocus()

    def _show(self, systems: Systems) -> None:
        self._all = systems
        self._area.setText(self.tr("Choose a row; type a name, a code or a region to find it."))
        self._on_here()

    @Slot()
    def _on_here(self) -> None:
        if self._all is not None:
            limited = self.here.isChecked() and self._place is not None
            self.table.show_systems(self._all.at(self._place) if limited and self._place else self._all)

    @Slot(str)
    def _on_chosen(self, code: str) -> None:
        self.use_button.setEnabled(True)
        if self._all is not None:
            row = self._all.codes.index(code)
            west, south, east, north = self._all.bounds[row]
            self._area.setText(
                self.tr("{name} ({code}). For use in: {area} ({west}° to {east}°, {south}° to {north}°).").format(
                    name=self._all.names[row],
                    code=code,
                    area=self._all.areas[row].rstrip("."),
                    west=f"{west:.1f}",
                    east=f"{east:.1f}",
                    south=f"{south:.1f}",
                    north=f"{north:.1f}",
                )
            )

    @Slot()
    def _on_use(self) -> None:
        if self.table.code:
            self.wanted.emit(self.table.code)
            self.close()

    @Slot()
    def _on_automatic(self) -> None:
        self.wanted.emit("")
        self.close()


def _middle(workup: Workup) -> tuple[float, float] | None:
    """Longitude and latitude of the first plot whose place is known."""
    import numpy as np

    centres = workup.measured.centres
    known = np.flatnonzero(np.isfinite(centres.lon) & np.isfinite(centres.lat))
    return (float(centres.lon[known[0]]), float(centres.lat[known[0]])) if len(known) else None
