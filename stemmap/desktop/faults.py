"""What the user is told when something goes wrong: one sentence, never a traceback; the rest goes to a log file."""

from __future__ import annotations

import sys
from collections.abc import Callable
from pathlib import Path
from types import TracebackType

from PySide6.QtCore import QCoreApplication, QStandardPaths

from stemmap.desktop.wording import worded
from stemmap.errors import StemmapError

_tr = QCoreApplication.translate


def log_path() -> Path:
    """File that keeps what the developers need to know of a fault."""
    place = QStandardPaths.writableLocation(QStandardPaths.StandardLocation.GenericDataLocation)
    return Path(place) / "stemmap" / "stemmap.log"


def sentence_of(fault: BaseException) -> str:
    """Sentence for the user; a fault that stemmap cannot name is written to the log file."""
    if isinstance(fault, StemmapError):
        return worded(str(fault))
    if isinstance(fault, MemoryError):
        return _tr("faults", "There is not enough memory for this; nothing was changed. Open fewer plots at a time.")
    kept = _write_log(fault)
    told = _tr("faults", "Something went wrong inside the program ({kind}). What was open is kept as it was.").format(
        kind=type(fault).__name__
    )
    if kept is None:
        return told
    return f"{told} " + _tr("faults", "Please report it with the file {path}.").format(path=kept)


def install_hook(tell: Callable[[str], None]) -> None:
    """Tell every exception that nobody caught through `tell`."""

    def hook(_kind: type[BaseException], fault: BaseException, trace: TracebackType | None) -> None:
        tell(sentence_of(fault.with_traceback(trace)))

    sys.excepthook = hook


def _write_log(fault: BaseException) -> Path | None:
    """Append a fault to the log file, which starts anew beyond half a megabyte; None when it cannot be written."""
    import traceback
    from datetime import datetime

    path = log_path()
    try:
        path.parent.mkdir(parents=True, exist_ok=True)
        mode = "a" if path.exists() and path.stat().st_size < 500_000 else "w"
        with path.open(mode, encoding="utf-8") as log:
            log.write(f"\n{datetime.now().astimezone().isoformat(timespec='seconds')}\n")
            log.writelines(traceback.format_exception(fault))
    except OSError:
        return None
    return path
