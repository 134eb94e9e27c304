"""The panel of settings."""

from __future__ import annotations


def test_coordinate_system_stands_among_the_settings_and_opens_the_chooser(opened, settled):
    panel = opened.panels.settings_panel
    before = opened.session.settings.crs
    assert (before or "not said") in panel.system_button.text()
    opened.session.edit("survey.crs", "EPSG:25833")
    settled()
    assert "EPSG:25833" in panel.system_button.text()
    assert panel.system_button.accessibleName() == "Coordinate system: EPSG:25833"
    asked = []
    panel.system_wanted.connect(lambda: asked.append(True))
    panel.system_button.click()
    assert asked
