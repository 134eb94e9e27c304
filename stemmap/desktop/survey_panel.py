"""What the survey as a whole tells of its fieldwork, and beside it each visit, crew, instrument or day."""

from __future__ import annotations

from PySide6.QtCore import Qt, Slot
from PySide6.QtGui import QGuiApplication, QKeySequence, QShortcut, QShowEvent
from PySide6.QtWidgets import (
    QAbstractItemView,
    QComboBox,
    QHBoxLayout,
    QLabel,
    QPushButton,
    QTableWidget,
    QTableWidgetItem,
    QVBoxLayout,
    QWidget,
)

from stemmap.desktop.quality_words import gross_sentences, quality_lines, quality_names
from stemmap.desktop.raised import in_sight
from stemmap.desktop.session import Session
from stemmap.desktop.survey_words import Line, group_name, group_texts, survey_lines

#: More groups than this are never useful side by side; the command line writes all.
_MOST_GROUPS = 100
#: Width of the titles of lines and of a column, in letters; what is longer stands in the tool tip.
_WIDEST_TITLE, _WIDEST_COLUMN = 40, 40
#: Chosen in place of a group: how well the survey was measured.
_AGAIN = "again"


class SurveyPanel(QWidget):
    """Shows the lines of the survey, and puts them into the clipboard."""

    def __init__(self, session: Session, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._session = session
        self._shown: object = None
        self._names: list[str] = []
        self._lines: list[Line] = []
        self.by = QComboBox()
        self.by.setSizeAdjustPolicy(QComboBox.SizeAdjustPolicy.AdjustToContents)
        self.by.setAccessibleName(self.tr("Groups beside the whole survey"))
        self.by.setToolTip(self.by.accessibleName())
        self.by.activated.connect(self._show_groups)
        self.copy_button = QPushButton(self.tr("Copy"))
        self.copy_button.setToolTip(self.tr("Put all lines into the clipboard, as a spreadsheet takes them"))
        self.copy_button.clicked.connect(self.copy)
        self.remark = QLabel()
        self.remark.setWordWrap(True)
        self.table = QTableWidget()
        self.table.setAccessibleName(self.tr("What the survey tells of its fieldwork"))
        self.table.setEditTriggers(QAbstractItemView.EditTrigger.NoEditTriggers)
        self.table.setTabKeyNavigation(False)
        self.table.setShowGrid(False)
        self.table.setAlternatingRowColors(True)
        self.table.setVerticalScrollMode(QAbstractItemView.ScrollMode.ScrollPerPixel)
        self.table.setHorizontalScrollMode(QAbstractItemView.ScrollMode.ScrollPerPixel)
        self.table.verticalHeader().setMaximumWidth(_WIDEST_TITLE * self.fontMetrics().averageCharWidth())
        self.table.verticalHeader().setTextElideMode(Qt.TextElideMode.ElideRight)
        self.table.verticalHeader().setMinimumSectionSize(self.fontMetrics().height() + 6)
        self.table.verticalHeader().setDefaultSectionSize(self.fontMetrics().height() + 8)
        self.table.verticalHeader().setDefaultAlignment(Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignVCenter)
        self.table.horizontalHeader().setDefaultAlignment(Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignVCenter)
        copying = QShortcut(QKeySequence(QKeySequence.StandardKey.Copy), self.table)
        copying.setContext(Qt.ShortcutContext.WidgetWithChildrenShortcut)
        copying.activated.connect(self.copy)
        above = QHBoxLayout()
        above.setContentsMargins(8, 6, 8, 4)
        above.setSpacing(8)
        above.addWidget(self.by)
        above.addWidget(self.copy_button)
        above.addWidget(self.remark, 1)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(0)
        layout.addLayout(above)
        layout.addWidget(self.table, 1)
        session.replaced.connect(self._on_replaced)

    @Slot()
    def _on_replaced(self) -> None:
        if in_sight(self):
            self.come_into_sight()

    def showEvent(self, event: QShowEvent) -> None:
        """Fill the table with what came while nobody could see it."""
        super().showEvent(event)
        self.come_into_sight()

    @Slot()
    def come_into_sight(self) -> None:
        """Fill the table with what came while nobody could see it."""
        workup = self._session.workup
        if workup is None or workup.fieldwork is self._shown:
            return
        self._shown = workup.fieldwork
        chosen = self.by.currentData()
        given = list(dict.fromkeys(told["by"] for told in workup.fieldwork))
        self.by.clear()
        for name, word in group_texts().items():
            if name in given:
                self.by.addItem(word, name)
        if workup.survey.upload.returned is not None:
            self.by.addItem(self.tr("Measured a second time"), _AGAIN)
            given.append(_AGAIN)
        # Two crews or visits are worth comparing at once; days only when asked for.
        first = next((name for name in (chosen, "crew", "visit") if name in given), "survey")
        self.by.setCurrentIndex(self.by.findData(first))
        self._show_groups()

    @Slot()
    def _show_groups(self) -> None:
        workup, by = self._session.workup, self.by.currentData()
        if workup is None:
            return
        of_kind = [told for told in workup.fieldwork if told["by"] == by and by != "survey"]
        self.remark.setText(
            self.tr("The first {n} of {all} are shown.").format(n=_MOST_GROUPS, all=len(of_kind))
            if len(of_kind) > _MOST_GROUPS
            else ""
        )
        groups = [workup.fieldwork[0], *of_kind[:_MOST_GROUPS]]
        if by == _AGAIN:
            from stemmap.tasks.brought_back import brought_back

            told = brought_back(workup).quality()
            self._names, self._lines = quality_names(), [*quality_lines(told)]
            self.remark.setText(gross_sentences(told))
        else:
            self._names, self._lines = [group_name(told) for told in groups], survey_lines(groups)
        table = self.table
        table.setColumnCount(len(self._names))
        table.setRowCount(len(self._lines))
        table.setHorizontalHeaderLabels(self._names)
        for row, line in enumerate(self._lines):
            title = QTableWidgetItem(line.title)
            title.setToolTip(line.meaning)
            table.setVerticalHeaderItem(row, title)
            for column, (name, text) in enumerate(zip(self._names, line.texts, strict=True)):
                item = QTableWidgetItem(text)
                item.setToolTip(f"{line.title}, {name}: {text}\n{line.meaning}")
                table.setItem(row, column, item)
        table.resizeColumnsToContents()
        widest = _WIDEST_COLUMN * self.fontMetrics().averageCharWidth()
        for column in range(len(self._names)):
            table.setColumnWidth(column, min(table.columnWidth(column) + 12, widest))

    def as_text(self) -> str:
        """All lines with the names of the groups, tabs between the cells."""
        rows = [["", *self._names], *([line.title, *line.texts] for line in self._lines)]
        return "".join("\t".join(" ".join(cell.split()) for cell in row) + "\n" for row in rows)

    @Slot()
    def copy(self) -> None:
        """Put all lines into the clipboard."""
        QGuiApplication.clipboard().setText(self.as_text())
