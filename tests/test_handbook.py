"""The handbook and the desktop entry say what is so."""

import importlib.util
import re

import pytest

from stemmap.assets import resource
from stemmap.survey.registry import catalogue


@pytest.fixture(scope="module")
def script():
    path = resource("handbook/make_handbook.py")
    spec = importlib.util.spec_from_file_location("make_handbook", path)
    module = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)
    return module


@pytest.fixture(scope="module")
def text():
    return resource("handbook/handbook.html").read_text("utf-8")


def test_handbook_is_what_the_script_makes(script, text):
    assert text == script.handbook(), "run resources/handbook/make_handbook.py"


def test_handbook_explains_every_check(text):
    from stemmap.reading import remarks  # noqa: F401 - declares what reading reports

    assert [slug for slug in catalogue() if f"<code>{slug}</code>" not in text] == []


def test_handbook_names_its_sources(text):
    for author in ("Clark, P. J.", "Donnelly, K. P.", "Baddeley, A.", "Owen, D. B.", "Gadow", "IGRF-14"):
        assert author in text


def test_links_and_pictures_lead_somewhere(text):
    names = set(re.findall(r'<a name="([^"]+)"', text))
    assert set(re.findall(r'href="#([^"]+)"', text)) <= names
    assert re.findall(r'href="(?!#)', text) == []
    for picture in re.findall(r'src="([^"]+)"', text):
        assert (resource("handbook") / picture).exists(), picture


def test_handbook_keeps_its_cautions(text):
    assert "no legal survey" in text
    assert "rules of your own organisation" in text


def test_keys_that_the_texts_name_are_in_force(script, text):
    keys = text.partition('name="keys"')[2].partition('name="files"')[0]
    named = set(re.findall(r"<b>([A-Z][A-Za-z0-9+]*)</b>", text)) - {"Alt", "Ctrl"}
    titles = {part["title"] for kind in ("steps", "window") for part in script.TEXTS[kind]}
    for key in named - titles - {"Ctrl+C"}:
        assert re.search(rf"(?<![\w+]){re.escape(key)}(?![\w+])", keys), key


def test_desktop_entry_is_complete():
    """Keys that the Desktop Entry Specification of freedesktop.org asks for, and a program that takes files."""
    lines = resource("stemmap.desktop").read_text("utf-8").splitlines()
    assert lines[0] == "[Desktop Entry]"
    entries = dict(line.split("=", 1) for line in lines[1:])
    assert entries["Type"] == "Application"
    assert entries["Exec"] == "stemmap view %F"
    assert resource(f"icons/{entries['Icon']}.svg").exists()
    for key in ("Categories", "MimeType", "Keywords", "Keywords[de]"):
        assert entries[key].endswith(";"), key
    assert {"Name", "Comment", "Comment[de]", "GenericName", "Terminal"} <= set(entries)
