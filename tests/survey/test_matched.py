"""Rows that come back from a field packet find their stems."""

from dataclasses import replace

import numpy as np
import pytest

from stemmap.survey.journal import Change, Entry
from stemmap.survey.matched import Means, Outcome, match
from stemmap.survey.records import Upload
from stemmap.survey.returned import PacketRows, Returned, cells, found, row_number
from stemmap.survey.settings import parse_settings
from tests.uploads import records

STEMS = {
    "plot": ["3", "3", "3", "9", "9"],
    "visit": ["2026"] * 5,
    "stem": ["1", "2", "3", "1", "2"],
    "azimuth": ["10", "80", "200", "33", "145"],
    "distance_m": ["3.00", "5.50", "7.10", "2.20", "9.90"],
    "dbh_cm": ["20.0", "31.0", "44.0", "52.0", "12.0"],
}
#: As they stand in the packet: five stems, and two rows for new ones.
LISTED = [(0, "3"), (1, "3"), (2, "3"), (3, "9"), (4, "9"), (-1, "3"), (-1, "9")]


def packet_rows(blind=False):
    rows = [row for row, _ in LISTED]
    return PacketRows(
        packet=np.array(["P1"] * 7, object),
        row=np.arange(1, 8),
        blind=np.full(7, blind),
        plot=np.array([plot for _, plot in LISTED], object),
        visit=np.array(["2026"] * 7, object),
        tree=np.array([""] * 7, object),
        stem=np.array([STEMS["stem"][row] if row >= 0 else "" for row in rows], object),
        source=np.array([1 if row >= 0 else -1 for row in rows]),
        line=np.array([row + 2 if row >= 0 else -1 for row in rows]),
        after_entry=np.zeros(7, np.int64),
    )


def matched(*written, entries=(), settings=None, stems=STEMS, source=1):
    """Match rows written as {heading: text}."""
    headings = ("packet", "row", "plot", "visit", "stem", "found", "azimuth", "distance_m", "dbh_cm", "remark")
    rows = records("remeasured", {name: [str(row.get(name, "")) for row in written] for name in headings}, source=3)
    upload = Upload(
        records("plots", {}),
        records("stems", stems, source=source),
        records("stations", {}),
        returned=Returned(rows, np.zeros(len(rows), np.int64), packet_rows()),
    )
    return match(upload, parse_settings(settings or {}), entries)


def row(number, azimuth="", distance="", dbh="", **rest):
    """A row as printed, filled in."""
    place, plot = LISTED[number - 1]
    stem = STEMS["stem"][place] if place >= 0 else ""
    typed = {"azimuth": azimuth, "distance_m": distance, "dbh_cm": dbh, "found": "yes"}
    return {"packet": "P1", "row": number, "plot": plot, "visit": "2026", "stem": stem} | typed | rest


def test_nothing_returned_is_nothing_matched():
    upload = Upload(records("plots", {}), records("stems", STEMS), records("stations", {}))
    assert match(upload, parse_settings({}), ()) is None


def test_a_row_is_compared_with_the_stem_of_its_packet_row():
    made = matched(row(2, "81.0", "5.55", "31.4"))
    assert made.outcome.tolist() == [Outcome.COMPARED]
    assert made.means.tolist() == [Means.PACKET_ROW]
    assert made.stem.tolist() == [1]
    assert made.recorded.tolist() == [[80.0, 5.5, 31.0]]
    assert made.again.tolist() == [[81.0, 5.55, 31.4]]


def test_values_are_in_degrees_metres_and_centimetres_whatever_the_file_has():
    stems = {name: cells for name, cells in STEMS.items() if name != "dbh_cm"} | {
        "dbh_mm": ["200", "310", "440", "520", "120"]
    }
    settings = {"measurement": {"azimuth_unit": "gon", "length_unit": "foot"}}
    made = matched(row(2, "100", "10", "10"), settings=settings, stems=stems)
    assert made.again[0] == pytest.approx([90.0, 3.048, 25.4])
    assert made.recorded[0] == pytest.approx([72.0, 5.5 * 0.3048, 31.0])


def test_rows_on_each_others_lines_are_compared_with_the_stems_they_fit():
    made = matched(row(1, "80.5", "5.52", "31.2"), row(2, "9.0", "3.02", "20.1"), row(3, "200", "7.1", "44"))
    assert made.stem.tolist() == [1, 0, 2]
    assert made.means.tolist() == [Means.EXCHANGED, Means.EXCHANGED, Means.PACKET_ROW]
    assert made.partner.tolist() == [1, 0, -1]
    assert made.recorded[0].tolist() == [80.0, 5.5, 31.0]


def test_a_wrong_plot_number_does_not_lead_astray():
    made = matched(row(1, "10", "3.0", "20", plot="9"))
    assert made.plot_differs.tolist() == [True]
    assert (made.stem.tolist(), made.means.tolist()) == ([0], [Means.PACKET_ROW])


def test_a_row_of_another_plot_that_fits_there_is_compared_there():
    made = matched(row(1, "33", "2.2", "52", plot="9"))
    assert made.plot_differs.tolist() == [True]
    assert (made.stem.tolist(), made.means.tolist()) == ([3], [Means.OTHER_PLOT])


def test_a_row_without_packet_is_known_by_plot_and_number():
    made = matched(row(4, "33", "2.2", "52", packet="", row=""), row(4, packet="P7", visit=""))
    assert made.asked.tolist() == [-1, -1]
    assert made.stem.tolist() == [3, 3]
    assert made.means.tolist() == [Means.NUMBER, Means.NUMBER]


def test_a_row_that_fits_nothing_stays_so():
    made = matched({"packet": "P7", "row": "1", "plot": "77", "stem": "4", "azimuth": "5", "found": "new"})
    assert made.outcome.tolist() == [Outcome.UNMATCHED]
    assert matched(row(1, "5", packet="", row="", stem="99")).outcome.tolist() == [Outcome.UNMATCHED]


def test_new_gone_and_empty_rows_are_told_apart():
    made = matched(
        row(6, "120", "4.4", "9.1", found="new"),
        row(7, "120", "4.4", "9.1", found=""),
        row(1, found="no"),
        row(2, found=""),
        row(3, found="yes"),
    )
    assert made.outcome.tolist() == [
        Outcome.NEW,
        Outcome.NEW,
        Outcome.NOT_FOUND,
        Outcome.NOT_FILLED_IN,
        Outcome.COMPARED,
    ]
    assert matched(row(6, found="")).outcome.tolist() == [Outcome.SPARE]


def test_values_speak_before_the_word():
    assert matched(row(1, "10", found="no")).outcome.tolist() == [Outcome.COMPARED]


def test_the_last_of_several_fillings_holds():
    made = matched(row(1, "10"), row(1, found=""), row(1, "12"))
    assert made.outcome.tolist() == [Outcome.REPEATED, Outcome.NOT_FILLED_IN, Outcome.COMPARED]


def test_what_is_no_value_is_said():
    made = matched(row(1, "about 10", "3.0", ""))
    assert made.not_understood.tolist() == [[True, False, False]]
    assert np.isnan(made.again[0, [0, 2]]).all()


def test_values_are_compared_with_those_that_held_when_the_packet_was_made():
    plain = Entry(1, "t", "Ida", "f", "3", "2026", "1", "value", "azimuth", "10", "19", "", 1, 2)
    decided = replace(plain, changes=(Change(1, 2, "azimuth", "10", "19"),))
    assert matched(row(1, "10"), entries=(decided,)).recorded[0, 0] == 10.0


def test_a_record_that_was_replaced_is_known_by_its_number():
    made = matched(row(2, "80"), stems={name: cells[::-1] for name, cells in STEMS.items()}, source=4)
    assert made.stem.tolist() == [3]


@pytest.mark.parametrize(("text", "number"), [("7", 7), ("7.0", 7), ("7,0", 7), ("", -1), ("seven", -1), ("7.5", -1)])
def test_row_numbers(text, number):
    assert row_number(text) == number


@pytest.mark.parametrize(("text", "word"), [("Yes", "yes"), ("nein", "no"), ("NEW", "new"), ("", ""), ("perhaps", "?")])
def test_words_of_finding(text, word):
    assert found(text) == word


def test_headings_are_known_whatever_their_case():
    assert cells(records("remeasured", {"Packet": ["a "]}), "packet").tolist() == ["a"]
