"""All texts go through Qt's translation, and German is complete."""

from __future__ import annotations

import ast
import importlib.util
import json
import re
import shutil
import subprocess
from collections import Counter
from pathlib import Path
from xml.etree import ElementTree

import pytest
from PySide6.QtCore import QSettings
from PySide6.QtWidgets import QMenu

from stemmap.assets import resource, sample_data
from stemmap.desktop import languages
from stemmap.desktop.faults import sentence_of
from stemmap.desktop.session import prepare
from stemmap.desktop.wording import worded
from stemmap.errors import InputError
from stemmap.tasks.workup import open_uploads

TRANSLATIONS = resource("translations/stemmap_de.ts")
#: Words that a German sentence of the sample survey does not have.
ENGLISH = re.compile(r"\b(the|of|is|are|not|since|from|for|grew|shrank|larger|smaller|counted|out)\b")
PACKAGE = Path(languages.__file__).parents[1]
WINDOW_FILES = sorted([*PACKAGE.glob("desktop/*.py"), *PACKAGE.glob("drawing/*.py")])


@pytest.fixture(scope="module")
def update():
    """The script that brings the translations up to date."""
    path = resource("translations/update.py")
    spec = importlib.util.spec_from_file_location("update", path)
    module = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)
    return module


def calls(path):
    """Calls of a file that translate, with the class they stand in."""

    def walk(node, inside):
        for child in ast.iter_child_nodes(node):
            within = child.name if isinstance(child, ast.ClassDef) else inside
            if isinstance(child, ast.Call) and re.search(r"(\btr|\b_tr|QCoreApplication\.translate)$", called(child)):
                yield child, within
            yield from walk(child, within)

    yield from walk(ast.parse(path.read_text("utf-8")), "")


def called(call):
    return ast.unparse(call.func)


def messages(path=TRANSLATIONS):
    """Context, source, translation and state of each text."""
    return [
        (
            context.findtext("name"),
            made.findtext("source"),
            made.findtext("translation"),
            made.find("translation").attrib,
        )
        for context in ElementTree.parse(path).getroot().iter("context")
        for made in context.iter("message")
    ]


def test_translated_texts_are_plain_literals():
    """Qt looks a text up as it stands in the code; one put together first is never found."""
    wrong = [
        f"{path.name}:{call.lineno}"
        for path in WINDOW_FILES
        if path.name != "wording.py"  # it looks up what others wrote
        for call, _ in calls(path)
        for text in call.args[: 1 if called(call).endswith(".tr") else 2]
        if not (isinstance(text, ast.Constant) and isinstance(text.value, str))
    ]
    assert wrong == []


def test_the_context_of_every_text_is_known_to_the_collecting_tool():
    """It takes the class around the call for the context, at run time the object's own class counts."""
    trees = [ast.parse(path.read_text("utf-8")) for path in WINDOW_FILES]
    classes = [node for tree in trees for node in ast.walk(tree) if isinstance(node, ast.ClassDef)]
    bases = {ast.unparse(base) for node in classes for base in node.bases}
    wrong = []
    for path in WINDOW_FILES:
        for call, inside in calls(path):
            own = called(call) == "self.tr" and inside and inside not in bases
            if not own and called(call).endswith("tr") and called(call) != "_tr":
                wrong.append(f"{path.name}:{call.lineno} {called(call)} in {inside or 'no class'}")
    assert wrong == []


def test_every_text_of_the_code_is_collected(update, tmp_path):
    if update.tool("pyside6-lupdate") is None:
        pytest.skip("pyside6-lupdate is not installed")
    anew = tmp_path / TRANSLATIONS.name
    shutil.copy(TRANSLATIONS, anew)
    update.collect(anew)
    kept, found = ({(context, source) for context, source, *_ in messages(path)} for path in (TRANSLATIONS, anew))
    assert (sorted(found - kept), sorted(kept - found)) == ([], []), "run resources/translations/update.py"


def test_every_sentence_of_the_lower_floors_is_collected(update):
    kept = json.loads(resource("translations/sentences.json").read_text("utf-8"))
    assert kept == update.sentences(), "run resources/translations/update.py"


def test_german_is_complete():
    assert [source for _, source, text, state in messages() if state.get("type") == "unfinished" or not text] == []


def test_no_text_counts_with_percent_n():
    """The collecting tool does not see that Qt is asked for plurals here, so they would stay English."""
    assert [source for context, source, *_ in messages() if context != "work" and "%n" in source] == []


def test_places_for_values_are_the_same_in_german():
    def places(text):
        return Counter(re.findall(r"\{[^}]*\}|%\d", text))

    assert [source for _, source, text, _ in messages() if places(source) != places(text)] == []


def test_ends_and_mnemonics_are_kept_in_german():
    def marks(text):
        return "&" in text, text.endswith("…"), text.endswith("."), text.endswith(" "), text.startswith(" ")

    # In sentences of the lower floors & is a letter like any other.
    wrong = [source for context, source, text, _ in messages() if context != "work" and marks(source) != marks(text)]
    assert wrong == []


def test_what_is_shipped_is_compiled_from_what_is_translated(update, tmp_path):
    lrelease = update.tool("pyside6-lrelease")
    if lrelease is None:
        pytest.skip("pyside6-lrelease is not installed")
    subprocess.run([lrelease, "-silent", TRANSLATIONS, "-qm", tmp_path / "anew.qm"], check=True)
    assert (tmp_path / "anew.qm").read_bytes() == TRANSLATIONS.with_suffix(".qm").read_bytes()


@pytest.mark.parametrize(
    ("wanted", "spoken"),
    [(["de-AT", "en"], "de"), (["fi-FI", "de_DE"], "de"), (["en-GB", "de"], "en"), (["fi"], "en"), ([], "en")],
)
def test_the_first_language_of_the_system_that_is_spoken_holds(wanted, spoken):
    assert languages.system_language(wanted) == spoken


def test_a_language_chosen_is_kept_for_the_next_start(window):
    menu = next(menu for menu in window.findChildren(QMenu) if any("Deutsch" in a.text() for a in menu.actions()))
    action = next(action for action in menu.actions() if action.data() == "de")
    action.trigger()
    assert languages.chosen_language() == "de"
    assert "next start" in window.message_bar.sentence
    QSettings().remove("window/language")
    assert languages.chosen_language() == languages.SYSTEM


def test_the_window_speaks_german(german, window):
    assert [action.text() for action in window.menuBar().actions()][:2] == ["&Datei", "&Ansicht"]


def test_qt_itself_speaks_german(german, qapp):
    assert qapp.translate("QPlatformTheme", "Cancel") == "Abbrechen"


def test_findings_are_told_in_german(german, sample):
    english = {told.id: told.message for told in sample.findings}
    for told in prepare(sample).workup.findings:
        assert told.message != english[told.id], told.message
        assert not ENGLISH.search(told.message), told.message


def test_what_is_said_of_broken_uploads_is_told_in_german(german):
    upload = open_uploads(sorted(sample_data("broken").glob("*.csv")))
    english = {told.id: told.message for told in upload.findings}
    for told in prepare(upload).workup.findings:
        assert told.message != english[told.id], told.message


def test_numbers_in_german_sentences_have_a_decimal_comma(german, sample):
    messages = [told.message for told in prepare(sample).workup.findings if told.check == "borderline"]
    assert messages
    assert all(re.search(r"\d,\d\d m", message) and not re.search(r"\d\.\d", message) for message in messages)


def test_findings_stay_english_in_an_english_window(sample):
    assert prepare(sample).workup is sample


def test_faults_are_told_in_german(german):
    told = sentence_of(InputError("There is no file plots.csv; check its name and folder."))
    assert told == "Es gibt keine Datei plots.csv; Name und Ordner prüfen."


def test_a_sentence_within_a_sentence_is_told_in_german(german):
    told = worded("Line 3, column dbh: decimal points (1.5) and decimal commas (1,5) stand side by side; each cell was "
                  "read by its own mark.")  # fmt: skip
    assert told.startswith("Zeile 3, Spalte dbh: ")
    assert "decimal" not in told


def test_what_is_not_known_stays_as_it_is(german):
    assert worded("Nobody ever wrote this.") == "Nobody ever wrote this."


def doubles(window):
    """Menus in which two entries are called by the same letter."""
    return [
        texts
        for menu in [window.menuBar(), *window.findChildren(QMenu)]
        for texts in [[action.text() for action in menu.actions() if "&" in action.text()]]
        for letters in [[re.search("&(.)", text)[1].casefold() for text in texts]]
        if len(letters) != len(set(letters))
    ]


def test_mnemonics_of_a_menu_differ(opened):
    assert doubles(opened) == []


def test_mnemonics_of_a_german_menu_differ(german, opened):
    assert doubles(opened) == []
