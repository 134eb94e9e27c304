"""A bar that says that an earlier moment of the survey is shown, as long as it is, and leads back to now."""

from __future__ import annotations

from PySide6.QtCore import QCoreApplication, Slot
from PySide6.QtWidgets import QWidget

from stemmap.desktop.decision_words import when
from stemmap.desktop.following import Following
from stemmap.desktop.message_bar import Answer, MessageBar

_tr = QCoreApplication.translate


class PastBar(MessageBar):
    """Follows which moment is shown."""

    def __init__(self, following: Following, parent: QWidget | None = None) -> None:
        super().__init__(parent, dismissible=False)
        self._following = following
        following.turned.connect(self._on_turned)

    @Slot()
    def _on_turned(self) -> None:
        """Say when an earlier moment is shown, at which nothing can be decided."""
        followed = self._following
        if followed.as_of is None:
            self.hide()
            return
        words = _tr("past_bar", "Before the first decision. Only to look at: nothing can be decided here.")
        if followed.as_of:
            entry = followed.journal[followed.as_of - 1]
            words = _tr(
                "past_bar", "As it was after entry {entry}, {when}. Only to look at: nothing can be decided here."
            ).format(entry=entry.entry, when=when(entry.time))
        self.tell(words, (Answer(_tr("past_bar", "&Back to now"), lambda: followed.look(None)),))
