"""Survey files of every version of their tables, kept as the stemmap of that time wrote them, open with all they hold.

kept/version_1.gpkg: the upload of test_survey_file.py added by Ida, then four decisions by `stemmap decide`: `correct`
of 620 to 6.2, `keep` of a finding on another stem, `undo`, `redo`.
kept/version_2.gpkg: the same, then a field packet of plot A1 by Ida, and two of its rows filled in and taken in by Udo.
"""

import shutil
import sqlite3
from concurrent.futures import ThreadPoolExecutor
from contextlib import closing
from pathlib import Path

import pytest

from stemmap.store.decisions import entries
from stemmap.store.repair import repair
from stemmap.store.schema import SCHEMA
from stemmap.store.survey_file import opened
from stemmap.tasks.stored import load_path

from .test_survey_file import STEMS
from .validity import faults

KEPT = sorted((Path(__file__).parent / "kept").glob("version_*.gpkg"))


@pytest.fixture(params=KEPT, ids=lambda path: path.stem)
def kept(request, tmp_path):
    return Path(shutil.copy(request.param, tmp_path / "survey.gpkg"))


def test_a_file_of_every_version_keeps_what_was_typed_and_decided(kept):
    with opened(kept, write=True) as survey_file:
        made = entries(survey_file)
    assert [(each.entry, each.who, each.decision) for each in made] == [
        (1, "Ida", "correct"),
        (2, "Ida", "keep"),
        (3, "Ida", "undo"),
        (4, "Ida", "redo"),
    ]
    assert (made[0].old, made[0].new, made[0].why) == ("620", "6.2", "6,20 was meant")
    survey = load_path(kept)
    typed = [line.split(";")[4] for line in STEMS.splitlines()[1:]]
    assert survey.upload.stems.texts("distance_m").tolist() == typed
    assert survey.stems.numbers("distance_m")[3] == 6.2


def version_in(path):
    with closing(sqlite3.connect(path)) as connection:
        return connection.execute("SELECT schema_version FROM survey_file").fetchone()[0]


def contents(path):
    with closing(sqlite3.connect(path)) as connection:
        return list(connection.iterdump())


def test_a_file_of_every_version_is_valid_when_it_is_brought_up_to_date(kept):
    before, version = contents(kept), version_in(kept)
    with opened(kept, write=True):
        pass
    assert version_in(kept) == SCHEMA
    assert faults(kept) == []
    if version < SCHEMA:
        copy = kept.with_name(f"survey.version-{version}.gpkg")
        assert contents(copy) == before
    else:
        assert list(kept.parent.iterdir()) == [kept]


def test_a_file_of_every_version_is_read_without_being_changed(kept):
    before = kept.read_bytes()
    with opened(kept) as survey_file:
        assert survey_file.connection.execute("SELECT COUNT(*) FROM packet_rows").fetchone()[0] >= 0
        assert len(entries(survey_file)) == 4
        with pytest.raises(sqlite3.OperationalError):
            survey_file.connection.execute("DELETE FROM journal")
    assert list(kept.parent.iterdir()) == [kept]
    assert kept.read_bytes() == before


def test_two_that_bring_a_file_up_to_date_at_once_both_can_use_it(kept):
    def use(_):
        with opened(kept, write=True) as survey_file:
            return len(entries(survey_file))

    with ThreadPoolExecutor(4) as pool:
        assert list(pool.map(use, range(4))) == [4] * 4
    assert faults(kept) == []


def test_a_repaired_file_of_every_version_has_the_tables_of_today(kept, tmp_path):
    repair(kept, tmp_path / "repaired.gpkg")
    with opened(tmp_path / "repaired.gpkg", write=True) as survey_file:
        assert len(entries(survey_file)) == 4
    assert version_in(tmp_path / "repaired.gpkg") == SCHEMA
    assert faults(tmp_path / "repaired.gpkg") == []


def test_a_file_of_version_2_keeps_the_field_packet_and_what_came_back(tmp_path):
    path = Path(shutil.copy(KEPT[0].with_name("version_2.gpkg"), tmp_path / "survey.gpkg"))
    upload = load_path(path).upload
    assert upload.returned.asked.row.tolist() == list(range(1, 15))
    assert set(upload.returned.asked.plot) == {"A1"}
    came = upload.returned.rows
    assert came.texts("distance_m").tolist()[:2] == ["3,42", ""]
    assert came.texts("remark").tolist()[:2] == ["", "only a stump"]
    with closing(sqlite3.connect(path)) as connection:
        [(name, who)] = connection.execute("SELECT name, who FROM packets").fetchall()
        former = connection.execute("SELECT former FROM packet_rows WHERE row = 4").fetchone()[0]
    assert (len(name), who) == (6, "Ida")
    assert '"distance_m": "6.2"' in former
