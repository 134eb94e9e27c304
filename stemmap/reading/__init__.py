"""Uploads in: tables and layers of any usual make become records as typed, with a finding for all that is doubtful."""

from stemmap.reading.settings_file import SettingsRead, read_settings
from stemmap.reading.upload import read_upload

__all__ = ["SettingsRead", "read_settings", "read_upload"]
