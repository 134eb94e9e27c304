"""A line in which the reason of the next decision is given; without one decisions are stored all the same."""

from __future__ import annotations

from PySide6.QtCore import Qt, Signal, Slot
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QFrame, QHBoxLayout, QLabel, QLineEdit, QPushButton, QWidget


class ReasonLine(QFrame):
    """Holds a reason until a decision is stored with it; hidden when nobody asked for it.

    Signals
    -------
    left
        The reason was given or withdrawn; keys mean decisions again.
    """

    left = Signal()

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setObjectName("reason-line")
        self.setFrameShape(QFrame.Shape.StyledPanel)
        self.setAutoFillBackground(True)
        label, self.reason, leave = QLabel(self.tr("Reason:")), QLineEdit(), QPushButton(self.tr("Without"))
        self.reason.setPlaceholderText(self.tr("Type it, press Enter, then decide"))
        self.reason.setAccessibleName(self.tr("Reason of the next decision"))
        leave.setToolTip(self.tr("Decide without a reason"))
        layout = QHBoxLayout(self)
        layout.setContentsMargins(14, 4, 6, 4)
        layout.addWidget(label)
        layout.addWidget(self.reason, 1)
        layout.addWidget(leave)
        self.reason.returnPressed.connect(self.left)
        leave.clicked.connect(self.withdraw)
        self.hide()

    @property
    def text(self) -> str:
        """The reason given; empty without one."""
        return self.reason.text().strip()

    @Slot()
    def ask(self) -> None:
        """Ask for the reason of the next decision."""
        self.show()
        self.reason.setFocus(Qt.FocusReason.ShortcutFocusReason)
        self.reason.selectAll()

    @Slot()
    def used(self) -> None:
        """The reason stands in the journal; the next decision has none."""
        self.reason.clear()
        self.hide()

    @Slot()
    def withdraw(self) -> None:
        """Decide without a reason."""
        self.used()
        self.left.emit()

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Leave with Esc."""
        if event.key() == Qt.Key.Key_Escape:
            self.withdraw()
        else:
            super().keyPressEvent(event)
