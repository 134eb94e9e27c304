"""The estimates of the whole survey in the summary panel, and panels behind others that leave their work undone."""

import re

import pytest
from PySide6.QtWidgets import QFileDialog

from stemmap.desktop.session import WHOLE_SURVEY
from stemmap.desktop.wording import worded


def texts(opened):
    return [label.text() for label in opened.panels.summary_panel.estimates.labels]


def test_whole_survey_tells_means_error_and_change(qtbot, opened):
    opened.session.select_visit(WHOLE_SURVEY)
    opened.panels.bring_forward("summary")
    qtbot.waitUntil(lambda: len(texts(opened)) > 8, timeout=30_000)

    told = "\n".join(texts(opened))
    for part in ("The survey at visit 2026", "standard error", "One further plot would take it to", "no change"):
        assert part in told


def test_estimates_are_told_in_german_with_german_numbers(qtbot, opened, german):
    opened.session.select_visit(WHOLE_SURVEY)
    opened.panels.bring_forward("summary")
    qtbot.waitUntil(lambda: len(texts(opened)) > 8, timeout=30_000)

    told = "\n".join(texts(opened))
    assert "Eine weitere Probefläche brächte ihn auf etwa" in told
    assert re.search(r"\d,\d", told)
    assert not re.search(r"\d\.\d", told)
    assert "standard" not in told.replace("Standard", "")


def test_panel_behind_another_tab_leaves_the_comparison_undone(qtbot, opened):
    panels = opened.panels
    panels.bring_forward("findings")
    qtbot.wait(50)
    panels.structure_panel.told = None
    opened.session.select_visit(2)
    opened.session.select_visit(3)
    qtbot.wait(100)
    assert not opened.jobs.runs("structure")

    panels.bring_forward("structure")
    qtbot.waitUntil(lambda: panels.structure_panel.told is not None, timeout=30_000)
    assert panels.structure_panel.told.visit == 3


def test_report_is_written_in_the_language_of_the_window(qtbot, german, opened, tmp_path, monkeypatch):
    path = tmp_path / "Bericht.html"
    monkeypatch.setattr(QFileDialog, "getSaveFileName", lambda *_: (str(path), "HTML (*.html)"))
    opened.actions_by_name["report"].trigger()
    qtbot.waitUntil(lambda: path.exists() and not opened.outputs.busy, timeout=60_000)

    text = path.read_text("utf-8")
    assert '<html lang="de">' in text
    told = re.sub(r"<(svg|style|pre).*?</\1>", "", text, flags=re.DOTALL)
    for part in ("Die Inventur je Hektar", "Woraus der Fehler besteht", "Räumliche Struktur", "Methoden"):
        assert part in told
    sentences = re.findall(r"<(?:p|figcaption)>([^<]+)</", told)
    assert [one for one in sentences if re.search(r"\b(the|of|stems|than|is)\b", one)] == []
    assert [one for one in sentences if re.search(r"\d\.\d", one)] == []


@pytest.mark.parametrize(
    ("english", "told"),
    [
        ("p = 0.012, 14 stems", "p = 0,012, 14 Stämme"),
        (
            "Clumped: more neighbours than by chance within a radius of 1, 2.5–3 m; p < 0.001, 14 stems.",
            "Geklumpt: mehr Nachbarn als bei Zufall im Umkreis von 1; 2,5–3 m; p < 0,001, 14 Stämme.",
        ),
        ("Curtis's relative density is 6.1.", "Die relative Dichte nach Curtis ist 6,1."),
    ],
)
def test_numbers_in_sentences_carry_the_decimal_mark(german, english, told):
    assert worded(english) == told


def test_quoted_values_stay_as_they_were_typed(german):
    told = worded("[design] radius_m is '12.5 m', but must be a number.")
    assert "'12.5 m'" in told
