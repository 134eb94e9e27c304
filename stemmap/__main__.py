"""``python3 -m stemmap``, and the installed command ``stemmap``. Parses on an old Python, like stemmap/checkout.py."""

import sys

from stemmap.checkout import prepare


def open_window(files, **options):
    """Open the window; only here do the two shells meet, and the command line never loads the window's code."""
    from stemmap.desktop import run

    return run(files, **options)


def main():
    """Run the command line and give its exit code; what is installed needs no preparing."""
    from stemmap.cli import main as command_line

    return command_line(open_window)


if __name__ == "__main__":
    prepare("stemmap")
    sys.exit(main())
