"""Where the files that come with the program lie: in the checkout's top level, or inside the installed package."""

from pathlib import Path

_PACKAGE = Path(__file__).resolve().parent


def _folder(name: str) -> Path:
    installed = _PACKAGE / name
    return installed if installed.is_dir() else _PACKAGE.parent / name


def resource(name: str) -> Path:
    """Path of a file in ``resources`` (icons, fonts)."""
    return _folder("resources") / name


def sample_data(name: str = "") -> Path:
    """Path of a file or folder in ``sample_data``, the invented survey that the demo uses."""
    return _folder("sample_data") / name
