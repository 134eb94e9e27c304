"""A folder that is watched for uploads: new files are offered, half-written ones wait, none is taken silently."""

from __future__ import annotations

import json
from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING, Any

from PySide6.QtCore import QFileSystemWatcher, QObject, QSettings, QTimer, Signal, Slot
from PySide6.QtWidgets import QFileDialog

from stemmap.desktop.message_bar import Answer

if TYPE_CHECKING:
    from stemmap.desktop.window import MainWindow
    from stemmap.progress import Progress

_KEY = "survey/watched"
#: So often the folder is looked into although nothing was told: folders of other computers tell nothing. Milliseconds.
_POLL_MS = 15_000
#: A file is written to its end when it is the same after this time, milliseconds.
_STABLE_MS = 2000
_SUFFIXES = frozenset((".csv", ".txt", ".tsv", ".xlsx", ".geojson", ".json", ".gpkg"))
#: So many survey files keep their folder, and each so many files that were declined.
_MOST_KEPT, _MOST_DECLINED = 30, 500


@dataclass(frozen=True)
class Found:
    """A file in the folder: name, bytes, and when it was changed, nanoseconds."""

    name: str
    size: int
    changed_ns: int


@dataclass(frozen=True)
class _Seen:
    """All files that may be uploads, and those to be offered: uploads, and tables of field packets."""

    there: frozenset[Found]
    uploads: Sequence[Found]
    tables: Sequence[Found]


class Watching(QObject):
    """Watches one folder for the survey file that is open.

    Signals
    -------
    told
        A sentence about the folder.
    changed
        A folder is watched, or none.
    """

    told = Signal(str)
    changed = Signal()

    def __init__(self, window: MainWindow) -> None:
        super().__init__(window)
        self._window = window
        self.folder: Path | None = None
        self._survey_path: Path | None = None
        self._before: frozenset[Found] = frozenset()
        self._declined: set[Found] = set()
        self._missing = False
        self._watcher = QFileSystemWatcher(self)
        self._poll = QTimer(self, interval=_POLL_MS)
        self._soon = QTimer(self, singleShot=True, interval=_STABLE_MS)
        self._watcher.directoryChanged.connect(self._soon.start)
        for timer in (self._poll, self._soon):
            timer.timeout.connect(self.look)
        window.deciding.following.turned.connect(self._on_turned)

    @Slot()
    def switch(self) -> None:
        """Watch a folder, which is asked for, or no longer."""
        if self.folder is not None:
            self.told.emit(self.tr("The folder {folder} is no longer watched.").format(folder=self.folder))
            self.watch(None)
            return
        start = "" if self._survey_path is None else str(self._survey_path.absolute().parent)
        name = QFileDialog.getExistingDirectory(self._window, self.tr("Watch a folder for uploads"), start)
        if name:
            self.watch(Path(name))
        self.changed.emit()

    def watch(self, folder: Path | None) -> None:
        """Watch another folder for the survey file that is open; None: none."""
        if self._survey_path is not None:
            self._declined = set()
            _keep(self._survey_path, folder, ())
            self._begin(folder)

    @Slot()
    def _on_turned(self) -> None:
        following = self._window.deciding.following
        if following.path == self._survey_path:
            return
        self._survey_path = following.path
        path = None if following.read_only else following.path
        folder, declined = (None, ()) if path is None else _kept(path)
        self._declined = set(declined)
        self._begin(folder)

    def _begin(self, folder: Path | None) -> None:
        if self._watcher.directories():
            self._watcher.removePaths(self._watcher.directories())
        self.folder, self._before, self._missing = folder, frozenset(), False
        for about in ("folder", "tables"):
            self._window.offer_bar.call_off(about)
        if folder is None:
            self._poll.stop()
            self._soon.stop()
        else:
            if folder.is_dir():
                self._watcher.addPath(str(folder))
            self._poll.start()
            self.look()
        self.changed.emit()

    @Slot()
    def look(self) -> None:
        """Look into the folder, off the GUI thread."""
        folder, survey_path, jobs = self.folder, self._survey_path, self._window.jobs
        if folder is None or survey_path is None or jobs.runs("watch") or jobs.runs("add"):
            return
        before, declined = self._before, frozenset(self._declined)

        def work(_progress: Progress) -> _Seen | None:
            return _look(folder, survey_path, before, declined)

        def apply(seen: _Seen | None) -> None:
            if folder == self.folder and survey_path == self._survey_path:
                self._tell(folder, seen)

        jobs.start("watch", work, apply=apply, shown=False)

    def _tell(self, folder: Path, seen: _Seen | None) -> None:
        if seen is None:
            if not self._missing:
                words = self.tr("The folder {folder} cannot be read just now; it is looked at again.")
                self.told.emit(words.format(folder=folder))
            self._missing = True
            return
        if not self._watcher.directories():
            self._watcher.addPath(str(folder))
        if seen.there - self._before:
            self._soon.start()
        self._missing, self._before = False, seen.there
        words = self.tr("New in the folder {folder}: {names}. Add to {survey}?")
        self._offer("folder", words, folder, seen.uploads, self._window.adding.add)
        words = self.tr("Back from the field, in the folder {folder}: {names}. Take into {survey}?")
        self._offer("tables", words, folder, seen.tables, self._window.remeasurements.bring)

    def _offer(
        self,
        about: str,
        words: str,
        folder: Path,
        fresh: Sequence[Found],
        take: Callable[[Sequence[Path]], object],
    ) -> None:
        """Offer files, or nothing of the kind any more where there are none."""
        if not fresh:
            self._window.offer_bar.call_off(about)
            return
        survey_path, adding = self._survey_path, self._window.adding
        paths = [folder / one.name for one in fresh]
        names = ", ".join(one.name for one in fresh[:4]) + (", …" if len(fresh) > 4 else "")

        def answered(then: Callable[[], object]) -> None:
            """Whatever was answered, the same files are offered no more."""
            self._declined |= set(fresh)
            if survey_path is not None:
                _keep(survey_path, folder, self._declined)
            then()

        choose = Answer(self.tr("&Choose…"), lambda: answered(lambda: adding.choose(folder)))
        uploads = about == "folder"
        self._window.offer_bar.offer(
            about,
            words.format(folder=folder.name, names=names, survey=survey_path.name if survey_path else ""),
            (
                Answer(self.tr("&Add") if uploads else self.tr("&Take in"), lambda: answered(lambda: take(paths))),
                *([choose] if uploads else []),
                Answer(self.tr("&Not these"), lambda: answered(lambda: None)),
            ),
        )


def _look(folder: Path, survey_path: Path, before: frozenset[Found], declined: frozenset[Found]) -> _Seen | None:
    """What is in the folder; None when it cannot be read."""
    from stemmap.store.records import uploads_of
    from stemmap.store.survey_file import is_survey_file, opened
    from stemmap.tasks.remeasured import fill_in_tables
    from stemmap.tasks.survey_file import uploaded_file

    try:
        seen = frozenset(_files(folder))
    except OSError:
        return None
    fresh = [one for one in seen & before if one not in declined]
    if fresh:
        with opened(survey_path) as survey_file:
            known = {(file.sha256, file.size) for _, files in uploads_of(survey_file) for file in files}
        fresh = [
            one
            for one in fresh
            if not is_survey_file(folder / one.name)
            and ((file := uploaded_file(folder / one.name)).sha256, file.size) not in known
        ]
    fresh.sort(key=lambda one: one.name)
    tables = {path.name for path in fill_in_tables([folder / one.name for one in fresh])}
    return _Seen(seen, [one for one in fresh if one.name not in tables], [one for one in fresh if one.name in tables])


def _files(folder: Path) -> Iterable[Found]:
    for path in folder.iterdir():
        if path.suffix.lower() in _SUFFIXES and not path.name.startswith((".", "~")) and path.is_file():
            told = path.stat()
            if told.st_size:
                yield Found(path.name, told.st_size, told.st_mtime_ns)


def _all_kept() -> dict[str, dict[str, Any]]:
    try:
        kept = json.loads(str(QSettings().value(_KEY, "{}", type=str)))
    except ValueError:
        return {}
    return kept if isinstance(kept, dict) else {}


def _kept(survey_path: Path) -> tuple[Path | None, Iterable[Found]]:
    """The folder that is watched for a survey file, and the files in it that are offered no more."""
    try:
        kept = _all_kept()[str(survey_path.absolute())]
        return Path(kept["folder"]), [Found(*one) for one in kept["declined"]]
    except (KeyError, TypeError):
        return None, ()


def _keep(survey_path: Path, folder: Path | None, declined: Iterable[Found]) -> None:
    kept, name = _all_kept(), str(survey_path.absolute())
    kept.pop(name, None)
    if folder is not None:
        files = [[one.name, one.size, one.changed_ns] for one in declined]
        kept[name] = {"folder": str(folder.absolute()), "declined": files[-_MOST_DECLINED:]}
    QSettings().setValue(_KEY, json.dumps(dict([*kept.items()][-_MOST_KEPT:])))
