"""A damaged survey file gives back every decision and record that stands outside the damage."""

import random
import sqlite3

import pytest

from stemmap.errors import InputError, OutputError
from stemmap.store.decisions import Request, decide, entries, turn
from stemmap.store.pages import PAGE_SIZE, Pages
from stemmap.store.repair import repair
from stemmap.store.survey_file import opened
from stemmap.tasks.survey_file import add_uploads, repair_survey
from stemmap.tasks.workup import open_uploads

DECISIONS = 150


@pytest.fixture(scope="module")
def whole(tmp_path_factory):
    """A survey file with enough decisions for a tree of pages, some too long for one page."""
    folder = tmp_path_factory.mktemp("whole")
    rows = "".join(
        f"{plot};{stem};{stem * 30};{(3 + stem % 4) * (1 + 2 * (stem // 8))},5{stem};{20 + stem}\n"
        for plot in range(3)
        for stem in range(9)
    )
    (folder / "stems.csv").write_text(f"plot;stem;azimuth;distance_m;dbh_cm;heading of its own\n{rows}", "utf-8")
    path = folder / "survey.gpkg"
    add_uploads(path, [folder / "stems.csv"], who="Ida", radius_m=8.0)
    finding = next(each.id for each in open_uploads([path]).findings if each.plot)
    with opened(path, write=True) as survey_file:
        for number in range(DECISIONS):
            why = "long " * 1200 if number % 50 == 7 else f"reason {number}"
            decide(survey_file, Request(finding, "keep" if number % 3 else "recheck", why, "Ida"))
    return path


def journal_of(path):
    with opened(path) as survey_file:
        return {entry.entry: entry for entry in entries(survey_file)}


def page_of_entries(content):
    """Every page that an entry stands on, by entry."""
    pages = Pages(content)
    return {
        row.rowid: leaf
        for leaf in pages.leaves()
        for row in pages.rows(leaf)
        if row.values and isinstance(row.values[-1], str) and len(row.values[-1]) == 32
    }


def saved_journal(content, folder):
    damaged, repaired = folder / "damaged.gpkg", folder / "repaired.gpkg"
    damaged.write_bytes(content)
    repaired.unlink(missing_ok=True)
    repair(damaged, repaired)
    with sqlite3.connect(repaired) as connection:
        return dict(connection.execute("SELECT entry, why FROM journal WHERE entry > 0")), repaired


def test_what_is_whole_is_saved_whole(whole, tmp_path):
    repaired = tmp_path / "again.gpkg"
    saved = repair_survey(whole, repaired)
    assert (saved.entries, saved.missing) == (DECISIONS, ())
    assert journal_of(repaired) == journal_of(whole)
    mine, theirs = (open_uploads([path]) for path in (repaired, whole))
    assert [each.as_json() for each in mine.findings] == [each.as_json() for each in theirs.findings]
    assert saved.whole
    sentence = saved.sentence("survey.gpkg", "again.gpkg")
    assert sentence.startswith("survey.gpkg is whole, nothing in it is damaged: go on with it. again.gpkg holds the")
    assert "damaged file" not in sentence


def test_a_damaged_layer_alone_is_not_called_whole(whole, tmp_path):
    content = bytearray(whole.read_bytes())
    with sqlite3.connect(whole) as connection:
        (root,) = connection.execute("SELECT rootpage FROM sqlite_master WHERE name = 'gpkg_contents'").fetchone()
    content[(root - 1) * PAGE_SIZE] ^= 0xFF
    (tmp_path / "damaged.gpkg").write_bytes(content)
    saved = repair(tmp_path / "damaged.gpkg", tmp_path / "repaired.gpkg")
    assert (saved.entries, saved.missing, saved.whole) == (DECISIONS, (), False)
    assert "The damaged file was left as it is" in saved.sentence("damaged.gpkg", "repaired.gpkg")


def test_a_flipped_byte_costs_no_decision_outside_its_page(whole, tmp_path):
    content = whole.read_bytes()
    where = page_of_entries(content)
    why = {number: entry.why for number, entry in journal_of(whole).items()}
    dice = random.Random(5)
    for page in range(1, len(content) // PAGE_SIZE + 1):
        damaged = bytearray(content)
        damaged[(page - 1) * PAGE_SIZE + dice.randrange(PAGE_SIZE)] ^= 1 << dice.randrange(8)
        saved, _ = saved_journal(bytes(damaged), tmp_path)
        lost = {number for number in why if saved.get(number) != why[number]}
        # An entry that is too long for its page reaches into pages of its own, which hold nothing else.
        assert all(where[number] == page or len(why[number]) > PAGE_SIZE for number in lost)
        assert len({number for number in lost if len(why[number]) > PAGE_SIZE}) <= 1


@pytest.mark.parametrize("page", [1, 2, 3])
def test_a_page_of_zeros_costs_no_decision_elsewhere(whole, tmp_path, page):
    content = bytearray(whole.read_bytes())
    content[(page - 1) * PAGE_SIZE : page * PAGE_SIZE] = bytes(PAGE_SIZE)
    assert len(saved_journal(bytes(content), tmp_path)[0]) == DECISIONS


def test_a_file_cut_off_gives_what_stands_in_its_beginning(whole, tmp_path):
    content = whole.read_bytes()
    where = page_of_entries(content)
    cut = sorted(where.values())[DECISIONS // 2]
    saved, _ = saved_journal(content[: cut * PAGE_SIZE], tmp_path)
    short = {number for number, entry in journal_of(whole).items() if len(entry.why) < PAGE_SIZE}
    assert {number for number in short if where[number] <= cut} <= set(saved)
    assert 0 < len(saved) < DECISIONS


def test_a_damaged_journal_is_told_when_it_is_opened(whole, tmp_path):
    content = whole.read_bytes()
    damaged = tmp_path / "survey.gpkg"
    damaged.write_bytes(content.replace(b"reason 11", b"reason 71"))
    with pytest.raises(InputError, match=r"is damaged.*stemmap repair"):
        open_uploads([damaged])


def test_nothing_is_overwritten(whole, tmp_path):
    there = tmp_path / "there.gpkg"
    there.write_bytes(b"mine")
    with pytest.raises(OutputError, match="name another one"):
        repair(whole, there)
    assert there.read_bytes() == b"mine"


def test_a_lost_decision_is_told_and_the_others_hold(whole, tmp_path):
    damaged, repaired = tmp_path / "survey.gpkg", tmp_path / "repaired.gpkg"
    damaged.write_bytes(whole.read_bytes().replace(b"reason 11", b"reason 71", 1))
    saved = repair_survey(damaged, repaired)
    assert (saved.entries, saved.missing) == (DECISIONS - 1, (12,))
    held = journal_of(repaired)
    assert held[12].decision == "lost"
    assert {number: entry for number, entry in held.items() if number != 12} == {
        number: entry for number, entry in journal_of(whole).items() if number != 12
    }
    # The repaired file is worked on like any other.
    with opened(repaired, write=True) as survey_file:
        assert turn(survey_file, "undo", who="Ida").of == DECISIONS
        with pytest.raises(InputError, match="is no decision"):
            turn(survey_file, "undo", 12, who="Ida")
    # The damaged one is not worked up without a decision that was made.
    with pytest.raises(InputError, match="is damaged"):
        open_uploads([damaged])


@pytest.mark.parametrize("name", ["stems.csv", "stems.gpkg"])
def test_what_never_was_a_survey_file_is_not_made_one(tmp_path, name):
    (tmp_path / name).write_text("plot,stem,azimuth,distance_m,dbh_cm\n1,1,40,3.20,22.4\n")
    with pytest.raises(InputError, match="Nothing of a survey file can be read"):
        repair(tmp_path / name, tmp_path / "repaired.gpkg")
    assert [each.name for each in tmp_path.iterdir()] == [name]
