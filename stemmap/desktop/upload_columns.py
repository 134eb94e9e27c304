"""When and where it is asked what the columns of an upload are."""

from __future__ import annotations

from dataclasses import replace
from types import MappingProxyType
from typing import TYPE_CHECKING

from PySide6.QtCore import QObject

from stemmap.desktop.recent import Recent

if TYPE_CHECKING:
    from stemmap.desktop.columns_page import ColumnsPage
    from stemmap.desktop.session import Opened
    from stemmap.desktop.window import MainWindow
    from stemmap.progress import Progress
    from stemmap.survey.settings import Settings
    from stemmap.tasks.columns import ColumnsAsked


class UploadColumns(QObject):
    """Shows the page of columns in place of the map: when headings are not known, or when it is asked for."""

    def __init__(self, window: MainWindow) -> None:
        super().__init__(window)
        self._window = window
        self._page: ColumnsPage | None = None
        self._shown: Recent | None = None
        self._about: Recent | None = None

    @property
    def page(self) -> ColumnsPage:
        """The page, made when it is first asked for."""
        if self._page is None:
            from stemmap.desktop.columns_page import ColumnsPage

            self._page = ColumnsPage()
            self._page.used.connect(self._on_used)
            self._page.saving_wanted.connect(self._window.outputs.save)
            self._page.left.connect(self._window.show_work)
        return self._page

    def opened(self, opened: Opened) -> None:
        """An upload was opened; ask when it lacks what a map needs and has columns that are not understood."""
        from stemmap.tasks.columns import looks_unmapped

        said = self._about is not None and self._about == self._window.uploads.latest
        self._shown = self._window.uploads.latest
        if not said and looks_unmapped(opened.workup.survey.upload):
            self.ask()

    def ask(self) -> None:
        """Ask about the upload that is shown."""
        self._look(self._shown, self._window.session.settings)

    def ask_again(self) -> None:
        """Ask about the upload that could not be read."""
        self._look(self._window.uploads.latest, None)

    def _look(self, about: Recent | None, now: Settings | None) -> None:
        if about is None:
            return

        def work(progress: Progress) -> ColumnsAsked:
            from stemmap.tasks.columns import look_at_columns

            return look_at_columns(
                about.paths,
                settings=about.settings,
                radius_m=about.radius_m,
                columns=about.columns,
                now=now,
                progress=progress,
            )

        def apply(asked: ColumnsAsked) -> None:
            if about not in (self._window.uploads.latest, self._shown):
                return  # something else was opened meanwhile
            self._about = about
            self._window.show_page(self.page)
            self.page.show_asked(asked)

        self._window.jobs.start("columns", work, apply=apply)

    def _on_used(self, settings: Settings, columns: dict[str, str]) -> None:
        if self._about is not None:
            self._about = replace(self._about, columns=MappingProxyType(columns))
            self._window.uploads.read(self._about, settings)
