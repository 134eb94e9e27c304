"""Where nothing can be shown it is said why, and what to do."""

from __future__ import annotations

from PySide6.QtWidgets import QLabel

GOOD = {"stem": ["1", "2"], "azimuth": ["10", "200"], "distance_m": ["3.2", "4.1"], "dbh_cm": ["20.1", "31.2"]}
PLACED = {"easting": ["500000"], "northing": ["5400000"], "radius_m": ["12.62"], "crs": ["EPSG:25832"]}


def told(panel):
    """All that labels of a panel say."""
    return " ".join(label.text() for label in panel.findChildren(QLabel) if label.isVisibleTo(panel))


def test_plot_without_findings_says_so_in_a_sentence(show):
    window = show({**GOOD, "plot": ["1", "1"]}, {"plot": ["1"], **PLACED})
    window.session.select_visit(0)
    panel = window.panels.findings_panel
    assert "nothing on the other plots needs a look" in told(panel)
    assert not panel.list.isVisibleTo(panel)


def test_plot_without_findings_leads_on_to_those_that_have_some(show):
    stems = {name: [*values, "x"] for name, values in GOOD.items()}
    window = show({**stems, "plot": ["1", "1", "2"]}, {"plot": ["1", "2"], "radius_m": ["12", "12"]})
    window.session.select_visit(0)
    assert "N goes on" in told(window.panels.findings_panel)
    window.session.select_visit(1)
    assert "N goes on" not in told(window.panels.findings_panel)
    assert window.panels.findings_panel.list.isVisibleTo(window.panels.findings_panel)


def test_plot_without_stems_says_how_an_empty_plot_is_told(show, settled):
    window = show(
        {**GOOD, "plot": ["1", "1"]},
        {"plot": ["1", "2", "3"], "plot_status": ["measured", "", "empty"], "radius_m": ["9"] * 3},
    )
    for row, asks in ((0, False), (1, True), (2, False)):
        window.session.select_visit(row)
        settled()
        assert ("plot_status" in window.panels.map_panel.notes.text()) == asks, row


def test_plot_without_radius_says_where_to_set_it(show, settled):
    window = show({**GOOD, "plot": ["1", "1"]}, {"plot": ["1"]})
    window.session.select_visit(0)
    settled()
    assert "Set the radius under Settings" in window.panels.map_panel.notes.text()
    window.session.edit("design.radius_m", 12.0)
    settled()
    assert "Set the radius" not in window.panels.map_panel.notes.text()


def test_what_the_summary_does_not_know_has_its_reason(show):
    window = show({**GOOD, "plot": ["1", "1"]}, {"plot": ["1"]})
    window.session.select_visit(0)
    window.panels.bring_forward("summary")
    assert "no plot radius was given" in told(window.panels.summary_panel)


def test_table_in_which_nothing_is_found_says_so(show):
    window = show({**GOOD, "plot": ["1", "1"]}, {"plot": ["1"], **PLACED})
    table = window.panels.stems_table
    table.filter.setText("nowhere")
    assert "as they were typed" in table.view.words
    table.filter.setText("")
    assert not table.view.words
