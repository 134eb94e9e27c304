"""Whether a panel is in sight: a dock behind another tab counts as visible for Qt, which only moves it aside."""

from __future__ import annotations

from collections.abc import Callable

from PySide6.QtWidgets import QDockWidget, QWidget

_RAISED = "raised"


def in_sight(panel: QWidget) -> bool:
    """Whether a panel can be seen: in its own window, or in a dock that no other tab covers."""
    dock = panel.parentWidget()
    return panel.isVisible() and not (isinstance(dock, QDockWidget) and dock.property(_RAISED) is False)


def when_raised(dock: QDockWidget, then: Callable[[], None]) -> None:
    """Have something done whenever a dock comes to the front."""

    def changed(visible: bool) -> None:  # noqa: FBT001 - as the signal gives it
        dock.setProperty(_RAISED, visible)
        if visible:
            then()

    dock.visibilityChanged.connect(changed)
