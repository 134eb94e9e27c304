"""The records of an upload that differ from what the survey file has, one by one, beside the window."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from PySide6.QtCore import QCoreApplication, Qt
from PySide6.QtWidgets import QDialog, QVBoxLayout, QWidget

from stemmap.desktop.columns import TableColumn, text_column
from stemmap.desktop.jobs import Jobs
from stemmap.desktop.sentences import field_words
from stemmap.desktop.table_panel import TablePanel

if TYPE_CHECKING:
    from stemmap.survey.difference import Differing

_tr = QCoreApplication.translate


class _DifferenceTable(TablePanel):
    """Rows that stand for nothing in the survey that is open."""

    def _chosen(self, row: int) -> None:
        """Nothing is led by a row."""

    def _selected(self) -> int:
        return -1


class DifferenceWindow(QDialog):
    """A table that is filtered and copied like the others."""

    def __init__(self, parent: QWidget, jobs: Jobs, records: Sequence[Differing]) -> None:
        super().__init__(parent)
        self.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        self.setWindowTitle(self.tr("Records that differ"))
        self.resize(760, 420)
        self.table = _DifferenceTable("difference", jobs)
        self.table.view.setAccessibleName(self.windowTitle())
        self.table.set_columns(difference_columns(records), slice(0, len(records)))
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.addWidget(self.table)


def difference_columns(records: Sequence[Differing]) -> tuple[TableColumn, ...]:
    """Columns for records that differ."""
    kinds = {
        "new": _tr("difference_window", "new in the upload"),
        "gone": _tr("difference_window", "no more in the upload"),
        "changed": _tr("difference_window", "changed"),
    }
    cells = {
        _tr("difference_window", "what"): [kinds[each.kind] for each in records],
        _tr("difference_window", "plot"): [each.plot for each in records],
        _tr("difference_window", "visit"): [each.visit for each in records],
        _tr("difference_window", "stem"): [each.stem for each in records],
        _tr("difference_window", "field"): [field_words(each.field) for each in records],
        _tr("difference_window", "survey file"): [each.old for each in records],
        _tr("difference_window", "upload"): [each.new for each in records],
    }
    return tuple(text_column(title, title, texts) for title, texts in cells.items())
