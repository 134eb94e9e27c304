"""The table of stems, of one plot or of all: what was typed and what is derived, apart."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import QRect, QSize, Qt, Slot
from PySide6.QtGui import QPainter, QPaintEvent, QPalette
from PySide6.QtWidgets import QCheckBox, QHeaderView, QWidget

from stemmap.desktop.jobs import Jobs
from stemmap.desktop.sentences import stem_sentence
from stemmap.desktop.session import WHOLE_SURVEY, Session
from stemmap.desktop.stem_columns import stem_columns
from stemmap.desktop.table_model import TableModel, group_title
from stemmap.desktop.table_panel import TablePanel

if TYPE_CHECKING:
    from stemmap.tasks.workup import Workup

_LEFT = Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignVCenter
#: Plot and visit: of no use while the stems of one plot are shown.
_PLACE_COLUMNS = 2


class GroupedHeader(QHeaderView):
    """Column headings with a band above them that names the group."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(Qt.Orientation.Horizontal, parent)

    @property
    def _band(self) -> int:
        return self.fontMetrics().height() + 4

    def sizeHint(self) -> QSize:
        """Size that suits the content."""
        size = super().sizeHint()
        return QSize(size.width(), self.fontMetrics().height() + 10 + self._band)

    def paintSection(self, painter: QPainter, rect: QRect, logicalIndex: int) -> None:  # noqa: N803 - Qt's own name
        """Paint one heading below the band."""
        super().paintSection(painter, rect.adjusted(0, self._band, 0, 0), logicalIndex)

    def paintEvent(self, e: QPaintEvent) -> None:
        """Paint the headings and the band above them."""
        super().paintEvent(e)
        model = self.model()
        columns = model.columns if isinstance(model, TableModel) else ()
        painter = QPainter(self.viewport())
        palette, visible = self.palette(), self.viewport().rect()
        for group in ("typed", "derived"):
            places = [place for place in range(len(columns)) if not self.isSectionHidden(place)]
            members = [place for place in places if columns[place].group == group]
            if not members:
                continue
            left = self.sectionViewportPosition(members[0])
            right = self.sectionViewportPosition(members[-1]) + self.sectionSize(members[-1])
            band = QRect(left, 0, right - left, self._band).intersected(visible)
            role = QPalette.ColorRole.AlternateBase if group == "typed" else QPalette.ColorRole.Button
            painter.fillRect(band, palette.color(role))
            painter.setPen(palette.color(QPalette.ColorRole.Mid))
            painter.drawLine(band.bottomLeft(), band.bottomRight())
            painter.drawLine(right - 1, 0, right - 1, self.height())
            painter.setPen(palette.color(QPalette.ColorRole.WindowText))
            painter.drawText(band.adjusted(6, 0, -4, 0), _LEFT, group_title(group))


class StemsTable(TablePanel):
    """Follows and leads the selected stem."""

    def __init__(self, session: Session, jobs: Jobs) -> None:
        super().__init__("stems", jobs, GroupedHeader())
        self._session = session
        self.view.setAccessibleName(self.tr("Stems"))
        self.view.setAccessibleDescription(
            self.tr("What was typed for each stem and what is derived from it; arrow keys choose a stem.")
        )
        self.all_plots = QCheckBox(self.tr("All plots"))
        self.all_plots.setToolTip(self.tr("Show the stems of the whole survey, not of the selected plot alone"))
        self.all_plots.toggled.connect(self._on_visit_selected)
        self.line.insertWidget(1, self.all_plots)
        self.setTabOrder(self.filter, self.all_plots)
        self.setTabOrder(self.all_plots, self.view)
        self.model.tip = self._sentence
        session.replaced.connect(self._on_replaced)
        session.visit_selected.connect(self._on_visit_selected)
        session.stem_selected.connect(self.show_selected)

    def find_stem(self) -> None:
        """Look for a stem in all plots."""
        self.all_plots.setChecked(True)
        self.look_for()

    @property
    def _shows_all(self) -> bool:
        return self.all_plots.isChecked() or self._session.visit == WHOLE_SURVEY

    def _rows(self, workup: Workup) -> slice:
        if self._shows_all:
            return slice(0, len(workup.survey.stems))
        return workup.survey.visits.stems(self._session.visit)

    def _sentence(self, row: int) -> str:
        return "" if self._session.workup is None else stem_sentence(self._session.workup, row)

    def _chosen(self, row: int) -> None:
        self._session.select_stem(row)

    def _selected(self) -> int:
        return self._session.stem

    @Slot()
    def _on_replaced(self) -> None:
        workup = self._session.workup
        if workup is not None:
            self.set_columns(stem_columns(workup), self._rows(workup))
            self._show_place()

    @Slot()
    def _on_visit_selected(self) -> None:
        workup = self._session.workup
        if workup is None:
            return
        rows = self._rows(workup)
        if rows != self.model.rows:
            self.model.renew(rows)
            self._show_place()
            if self._session.stem < 0:
                self.view.scrollToTop()

    def _show_place(self) -> None:
        """Plot and visit are shown with the stems of all plots, unless the user hid them."""
        differing = self.differing()
        for place, column in enumerate(self.model.columns[:_PLACE_COLUMNS]):
            self.view.setColumnHidden(place, not self._shows_all or column.title in differing)
