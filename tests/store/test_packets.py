"""Field packets in the survey file: kept once, whole or not at all, and saved from a damaged file."""

import sqlite3
from contextlib import closing

import pytest

from stemmap.store.packets import add_packet
from stemmap.store.pages import PAGE_SIZE
from stemmap.store.repair import repair
from stemmap.store.survey_file import opened
from stemmap.survey.packet import Packet, PacketRow

from .validity import faults

ROWS = tuple(
    PacketRow(number, "cold" if number % 3 else "blind", f"plot {number // 20}", None if number % 2 else "2026", None,
              str(number), 0, number + 1, 1, {"azimuth": f"{number}.5", "species": "Bergahorn ä"})
    if number % 20
    else PacketRow(number, "cold", "plot", "2026", None, None, None, None, None, {})
    for number in range(1, 400)
)  # fmt: skip
PACKET = Packet("plots", 0.25, 7, ROWS)


@pytest.fixture
def path(tmp_path):
    with opened(tmp_path / "survey.gpkg", write=True, create=True) as survey_file, survey_file.writing() as connection:
        add_packet(connection, PACKET, who="Ida")
    return tmp_path / "survey.gpkg"


def rows(path, table):
    with closing(sqlite3.connect(path)) as connection:
        return connection.execute(f"SELECT * FROM {table} ORDER BY id").fetchall()


def test_a_packet_is_kept_with_all_its_rows(path):
    [(number, name, _, who, after, settings, asked, share, seed)] = rows(path, "packets")
    assert (name, who, after, settings, asked, share, seed) == (PACKET.name, "Ida", 0, 0, "plots", 0.25, 7)
    kept = rows(path, "packet_rows")
    assert len(kept) == len(ROWS)
    assert kept[0][1:] == (
        *(number, 1, "cold", "plot 0", None, None, "1", 0, 2, 1),
        '{"azimuth": "1.5", "species": "Bergahorn ä"}',
    )
    assert faults(path) == []


def test_the_same_packet_is_kept_once(path):
    with opened(path, write=True) as survey_file, survey_file.writing() as connection:
        assert add_packet(connection, PACKET, who="Udo") == rows(path, "packets")[0][0]
    assert len(rows(path, "packets")) == 1
    assert len(rows(path, "packet_rows")) == len(ROWS)


def store_and_fail(survey_file, packet):
    with survey_file.writing() as connection:
        add_packet(connection, packet, who="Ida")
        raise RuntimeError


def test_a_packet_that_cannot_be_stored_leaves_nothing(path):
    other = Packet("all", 0.0, 1, ROWS[:5])
    with opened(path, write=True) as survey_file, pytest.raises(RuntimeError):
        store_and_fail(survey_file, other)
    assert len(rows(path, "packets")) == 1


def test_names_are_letters_and_tell_packets_apart():
    names = {Packet("plots", 0.25, seed, ROWS).name for seed in range(200)}
    assert len(names) == 200
    assert all(len(name) == 6 and name.isalpha() and name.isupper() for name in names)


@pytest.mark.parametrize("page", range(0, 60, 7))
def test_of_a_damaged_file_the_rows_on_other_pages_are_saved(path, tmp_path, page):
    """A page of 4,096 bytes holds fewer than 60 of these rows."""
    content = bytearray(path.read_bytes())
    place = page * PAGE_SIZE % len(content)
    content[place : place + PAGE_SIZE] = bytes(PAGE_SIZE)
    (tmp_path / "damaged.gpkg").write_bytes(content)
    repair(tmp_path / "damaged.gpkg", tmp_path / "repaired.gpkg")
    whole, saved = rows(path, "packet_rows"), rows(tmp_path / "repaired.gpkg", "packet_rows")
    assert set(saved) <= set(whole)
    assert len(whole) - len(saved) < 60
    assert faults(tmp_path / "repaired.gpkg") == []
