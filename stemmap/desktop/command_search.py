"""Find any action by typing, and the overview of all keys: both are the table of actions, read aloud."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from PySide6.QtCore import QEvent, QObject, Qt, Slot
from PySide6.QtGui import QAction, QKeyEvent, QKeySequence
from PySide6.QtWidgets import (
    QDialog,
    QHeaderView,
    QLineEdit,
    QMenu,
    QMenuBar,
    QTreeWidget,
    QTreeWidgetItem,
    QVBoxLayout,
    QWidget,
)


def actions_of(bar: QMenuBar) -> list[tuple[str, QAction]]:
    """All actions of the menus and the menu each stands in, in order."""
    return [found for top in bar.actions() if isinstance(top.menu(), QMenu) for found in _below(top.menu(), plain(top))]


def _below(menu: QObject | None, path: str) -> Iterable[tuple[str, QAction]]:
    if not isinstance(menu, QMenu):
        return
    for action in menu.actions():
        if action.menu() is not None:
            yield from _below(action.menu(), f"{path} › {plain(action)}")
        elif not action.isSeparator() and (action.isEnabled() or action.objectName()):  # no word that a list is empty
            yield path, action


def plain(action: QAction) -> str:
    """Text of an action without its mnemonic."""
    return action.text().replace("&&", "\0").replace("&", "").replace("\0", "&")


def keys_of(action: QAction) -> str:
    """Keys of an action as they are named on this system."""
    return ", ".join(key.toString(QKeySequence.SequenceFormat.NativeText) for key in action.shortcuts())


class CommandSearch(QDialog):
    """A line to type in above all that the window can do, with the keys for it; Enter does what is marked.

    Parameters
    ----------
    window
        The window, above whose upper edge the list stands.
    bar
        Its menus.
    """

    def __init__(self, window: QWidget, bar: QMenuBar) -> None:
        super().__init__(window)
        self.setObjectName("command-search")
        self.setWindowTitle(self.tr("All commands and their keys"))
        self.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        self.setModal(False)
        self._actions = actions_of(bar)
        self.line = QLineEdit()
        self.line.setPlaceholderText(self.tr("Type what you want to do"))
        self.line.setAccessibleName(self.tr("Find a command"))
        self.line.setClearButtonEnabled(True)
        self.list = QTreeWidget()
        self.list.setAccessibleName(self.tr("Commands"))
        self.list.setHeaderLabels([self.tr("Command"), self.tr("Keys"), self.tr("Menu")])
        self.list.setRootIsDecorated(False)
        self.list.setUniformRowHeights(True)
        self.list.header().setSectionResizeMode(0, QHeaderView.ResizeMode.Stretch)
        self.list.header().setStretchLastSection(False)
        for column in (1, 2):
            self.list.header().setSectionResizeMode(column, QHeaderView.ResizeMode.ResizeToContents)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(8, 8, 8, 8)
        layout.addWidget(self.line)
        layout.addWidget(self.list, 1)
        self.resize(min(window.width() - 80, 760), min(window.height() - 120, 560))
        self.line.textChanged.connect(self._on_typed)
        self.line.installEventFilter(self)
        self.list.itemActivated.connect(self._on_chosen)
        self._on_typed("")
        self.line.setFocus()

    @Slot(str)
    def _on_typed(self, text: str) -> None:
        """Show what holds all words, what begins with them first."""
        self.list.clear()
        words = text.casefold().split()
        found = [
            (menu, action)
            for menu, action in self._actions
            if all(word in f"{plain(action)} {action.statusTip()} {menu}".casefold() for word in words)
        ]
        found.sort(key=lambda one: not (words and plain(one[1]).casefold().startswith(words[0])))
        for menu, action in found:
            item = QTreeWidgetItem([plain(action), keys_of(action), menu])
            item.setToolTip(0, action.statusTip())
            item.setData(0, Qt.ItemDataRole.UserRole, action)
            item.setDisabled(not action.isEnabled())
            self.list.addTopLevelItem(item)
            if action.isEnabled() and self.list.currentItem() is None:
                self.list.setCurrentItem(item)

    @property
    def shown(self) -> Sequence[str]:
        """Texts of the commands shown."""
        items = [self.list.topLevelItem(place) for place in range(self.list.topLevelItemCount())]
        return [item.text(0) for item in items if item is not None]

    @Slot(QTreeWidgetItem)
    def _on_chosen(self, item: QTreeWidgetItem | None) -> None:
        action = None if item is None else item.data(0, Qt.ItemDataRole.UserRole)
        if isinstance(action, QAction) and action.isEnabled():
            self.close()
            action.trigger()

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        """The arrow keys move in the list while the line keeps the focus; Enter does what is marked."""
        if watched is self.line and event.type() == QEvent.Type.KeyPress and isinstance(event, QKeyEvent):
            if event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter):
                self._on_chosen(self.list.currentItem())
                return True
            if event.key() in (Qt.Key.Key_Up, Qt.Key.Key_Down, Qt.Key.Key_PageUp, Qt.Key.Key_PageDown):
                self.list.event(event)
                return True
        return super().eventFilter(watched, event)
