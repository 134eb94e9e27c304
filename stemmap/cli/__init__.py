"""The command line."""

from stemmap.cli.main import main

__all__ = ["main"]
