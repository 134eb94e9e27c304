"""A line in which another value than the proposed ones is given, with a reason."""

from __future__ import annotations

from PySide6.QtCore import Qt, Signal, Slot
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QFrame, QHBoxLayout, QLabel, QLineEdit, QPushButton, QWidget

from stemmap.survey.fields import typed_number


class ValueLine(QFrame):
    """Value and reason of one decision; hidden when nobody asked for it.

    Signals
    -------
    given
        The decision as `stemmap decide` takes it, and the reason.
    """

    given = Signal(str, str)

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setObjectName("value-line")
        self.setFrameShape(QFrame.Shape.StyledPanel)
        self.setAutoFillBackground(True)
        self._label, self.value, self.reason = QLabel(), QLineEdit(), QLineEdit()
        self._asked, self._number = "", True
        self.value.setMaximumWidth(140)
        self.value.setAccessibleName(self.tr("Value that holds"))
        self.reason.setPlaceholderText(self.tr("Reason, if there is one to say"))
        self.reason.setAccessibleName(self.tr("Reason"))
        store, leave = QPushButton(self.tr("Store")), QPushButton(self.tr("Leave it"))
        layout = QHBoxLayout(self)
        layout.setContentsMargins(14, 4, 6, 4)
        layout.addWidget(self._label)
        layout.addWidget(self.value)
        layout.addWidget(self.reason, 1)
        layout.addWidget(store)
        layout.addWidget(leave)
        for line in (self.value, self.reason):
            line.returnPressed.connect(self._on_store)
        store.clicked.connect(self._on_store)
        leave.clicked.connect(self.hide)
        self.hide()

    def ask(self, stem: str, field: str, *, number: bool) -> None:
        """Ask for a value of a field of a stem, a number or a word."""
        self._asked, self._number = self.tr("No. {stem}, {field}:").format(stem=stem, field=field), number
        self._label.setText(self._asked)
        self.value.clear()
        self.reason.clear()
        self.show()
        self.value.setFocus(Qt.FocusReason.ShortcutFocusReason)

    @Slot()
    def _on_store(self) -> None:
        value = self.value.text().strip()
        if value and self._number and typed_number(value) is None:
            # What was typed stays, to be mended.
            self._label.setText(self.tr("{value} is no number.").format(value=value) + " " + self._asked)
            self.value.setFocus()
            self.value.selectAll()
        elif value:
            self.hide()
            self.given.emit(f"value={value}", self.reason.text())

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Leave with Esc."""
        if event.key() == Qt.Key.Key_Escape:
            self.hide()
        else:
            super().keyPressEvent(event)
