"""Every action of the window, declared once and turned into menu entries and shortcuts."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass
from typing import Any, Literal

from PySide6.QtGui import QAction, QKeySequence
from PySide6.QtWidgets import QMenu, QWidget


@dataclass(frozen=True)
class Entry:
    """An action.

    Parameters
    ----------
    name
        Name for ever, used as the object name.
    text
        Menu text with its mnemonic.
    help
        One sentence for tool tip and status bar.
    run
        What it does.
    keys
        Shortcuts; a standard key that the platform leaves empty falls back on the next.
    needs
        When it can be used: always, with a survey open, with its findings at hand, with them and nothing being written,
        with them as they are now, in a survey file that can be added to, during work, or in the round.
    role
        Place in the application menu of systems that have one.
    checkable
        Whether it carries a tick; whoever keeps the state sets it.
    once
        Whether a key that is held down does it only once.
    """

    name: str
    text: str
    help: str
    run: Callable[[], Any]
    keys: Sequence[QKeySequence.StandardKey | str] = ()
    needs: Literal["nothing", "survey", "checked", "output", "now", "file", "work", "round"] = "nothing"
    role: QAction.MenuRole = QAction.MenuRole.NoRole
    checkable: bool = False
    once: bool = False


#: Stands for a line between two groups of a menu.
SEPARATOR = None


def make_action(owner: QWidget, entry: Entry, before: Callable[[], object]) -> QAction:
    """An action of a window, with its shortcuts in force wherever the focus is; `before` is called ahead of it."""

    def run() -> None:
        before()
        entry.run()

    action = QAction(entry.text, owner)
    action.setObjectName(entry.name)
    keys = shortcuts(entry.keys)
    action.setShortcuts(keys)
    shown = f" ({keys[0].toString(QKeySequence.SequenceFormat.NativeText)})" if keys else ""
    action.setToolTip(entry.help + shown)
    action.setStatusTip(entry.help)
    action.setWhatsThis(entry.help)
    action.setMenuRole(entry.role)
    action.setCheckable(entry.checkable)
    action.setAutoRepeat(not entry.once)
    # Qt hands over whether the action is checked, which no entry asks for.
    action.triggered.connect(lambda _checked=False: run())
    owner.addAction(action)
    return action


def shortcuts(keys: Iterable[QKeySequence.StandardKey | str]) -> list[QKeySequence]:
    """Key sequences in order and without doubles; standard keys that this platform leaves empty are passed over."""
    found: list[QKeySequence] = []
    for key in keys:
        bound = QKeySequence.keyBindings(key) if isinstance(key, QKeySequence.StandardKey) else [QKeySequence(key)]
        found += [one for one in bound if not one.isEmpty() and one not in found]
    return found


def fill_menu(menu: QMenu, actions: dict[str, QAction], names: Iterable[str | None]) -> None:
    """Put actions into a menu by name."""
    for name in names:
        if name is None:
            menu.addSeparator()
        else:
            menu.addAction(actions[name])
