"""Uploads in: tables and layers of any usual make become records as typed, with a finding for all that is doubtful."""

from stemmap.reading import stated_units  # noqa: F401 - enters its check into the registry
from stemmap.reading.preview import Preview, Understood, preview_upload, understood_as
from stemmap.reading.settings_file import SettingsFound, find_settings, read_settings
from stemmap.reading.upload import read_upload

__all__ = [
    "Preview",
    "SettingsFound",
    "Understood",
    "find_settings",
    "preview_upload",
    "read_settings",
    "read_upload",
    "understood_as",
]
