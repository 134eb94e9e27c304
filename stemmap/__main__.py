"""``python3 -m stemmap``, and the installed command ``stemmap``. Parses on an old Python, like stemmap/checkout.py."""

import sys

from stemmap.checkout import prepare

TYPE_CHECKING = False
if TYPE_CHECKING:  # the types stand in comments
    from collections.abc import Sequence  # noqa: F401
    from pathlib import Path  # noqa: F401
    from typing import Any  # noqa: F401


def open_window(files, **options):
    # type: (Sequence[Path], Any) -> int
    """Open the window; only here do the two shells meet, and the command line never loads the window's code."""
    from stemmap.desktop import run

    return run(files, **options)


def main():
    # type: () -> int
    """Run the command line and give its exit code; what is installed needs no preparing."""
    from stemmap.cli import main as command_line

    return command_line(open_window)


if __name__ == "__main__":
    prepare("stemmap")
    sys.exit(main())
