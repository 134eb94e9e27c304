"""Several files, sheets and tables as one upload."""

from __future__ import annotations

from pathlib import Path
from threading import Event

import numpy as np
import pytest
from numpy.testing import assert_array_equal

from stemmap.errors import Cancelled, InputError
from stemmap.progress import Progress
from stemmap.reading import read_upload
from stemmap.survey.settings import Settings
from stemmap.survey.survey import assemble

_PLOTS = "plot,easting,northing,stratum\nP1,500000,5600000,A\nP2,500100,5600000,B\n"
_STEMS = "plot,stem,azimuth,distance_m,dbh_cm\nP1,1,12,4.35,31.2\nP2,1,58,7.80,24.6\n"
_ONE = (
    "plot,x,y,slope,tree,azimuth,distance,dbh\n"
    "P1,500000,5600000,12,1,12,4.35,31.2\nP1,500000,5600000,12,2,99,3.00,20\nP2,500100,5600000,0,,,,\n"
)


def _slugs(upload):
    return [remark.check for remark in upload.remarks]


def test_plots_and_stems_in_two_files_in_any_order(read):
    for files in ({"plots.csv": _PLOTS, "stems.csv": _STEMS}, {"stems.csv": _STEMS, "plots.csv": _PLOTS}):
        upload = read(files)
        assert_array_equal(upload.plots.texts("plot"), ["P1", "P2"])
        assert_array_equal(upload.stems.texts("plot"), ["P1", "P2"])
        assert upload.sources == tuple(files)
        assert upload.sources[upload.stems.source[0]] == "stems.csv"
        assert _slugs(upload) == []


def test_one_file_is_split_into_plots_and_stems(read):
    upload = read({"all.csv": _ONE})
    assert_array_equal(upload.plots.texts("plot"), ["P1", "P2"])
    assert_array_equal(upload.plots.numbers("easting"), [500000, 500100])
    assert_array_equal(upload.plots.line, [2, 4])
    assert_array_equal(upload.stems.texts("tree"), ["1", "2"])
    assert not upload.stems.has("easting")


def test_line_with_a_plot_and_no_stem_is_an_empty_plot(read):
    upload = read({"all.csv": _ONE})
    assert _slugs(upload) == ["lines-without-stem"]
    survey = assemble(upload, Settings())
    assert_array_equal(survey.visits.stem_count, [2, 0])


def test_plot_columns_that_differ_from_line_to_line_are_said(read):
    upload = read({"all.csv": _ONE.replace("5600000,12,2", "5600000,13,2")})
    assert_array_equal(upload.plots.numbers("slope_percent"), [12, 0])
    contradiction = upload.remarks[0]
    assert (contradiction.check, contradiction.line) == ("plot-columns-contradict", 3)
    assert "slope_percent" in contradiction.sentence
    assert "P1" in contradiction.sentence


def test_each_visit_has_its_own_plot_line(read):
    text = "plot,visit,crew,tree,azimuth,distance\nP1,2021,A,1,1,2\nP1,2026,B,1,1,2\nP1,2026,B,2,5,6\n"
    upload = read({"all.csv": text})
    assert_array_equal(upload.plots.texts("visit"), ["2021", "2026"])
    assert_array_equal(upload.plots.texts("crew"), ["A", "B"])
    assert _slugs(upload) == []


def test_files_of_one_kind_are_put_one_below_the_other(read):
    upload = read({"a.csv": _STEMS, "b.csv": "plot;stem;azimuth;distance_m;remark\nP2;2;99;3,5;late\n"})
    assert_array_equal(upload.stems.texts("plot"), ["P1", "P2", "P2"])
    assert_array_equal(upload.stems.numbers("distance_m"), [4.35, 7.8, 3.5])
    assert_array_equal(upload.stems.texts("remark"), ["", "", "late"])
    assert_array_equal(upload.stems.source, [0, 0, 1])
    assert_array_equal(upload.stems.columns["dbh_cm"].filled, [True, True, False])
    assert len(set(upload.stems.columns["plot"].labels)) == len(upload.stems.columns["plot"].labels)


def test_same_text_read_differently_in_two_files_keeps_both_readings(read):
    upload = read(
        {
            "a.csv": "plot;easting;northing\nP1;1.234.567;5\nP2;5.559;5\n",
            "b.csv": "plot,easting,northing\nP3,5.559,5\n",
        }
    )
    assert_array_equal(upload.plots.numbers("easting"), [1234567, 5559, 5.559])


def test_plots_of_their_own_speak_before_repeated_plot_columns(read):
    upload = read({"all.csv": _ONE, "plots.csv": "plot,x,y,slope\nP1,1,2,3\n"})
    assert_array_equal(upload.plots.texts("plot"), ["P1", "P1", "P2"])
    assert_array_equal(upload.plots.numbers("slope_percent"), [3, 12, 0])


def test_stations_are_a_table_of_their_own(read):
    upload = read({"stations.csv": "plot,station,azimuth,distance\nP1,B,90,5\n", "stems.csv": _STEMS})
    assert_array_equal(upload.stations.texts("station"), ["B"])
    assert len(upload.stems) == 2


def test_stems_without_a_plot_column_belong_to_a_plot_named_as_the_file(read):
    upload = read({"north 7.csv": "tree,azimuth,distance\n1,2,3\n2,3,4\n"})
    assert_array_equal(upload.stems.texts("plot"), ["north 7", "north 7"])
    assert _slugs(upload) == ["plot-column-missing"]


def test_column_of_years_names_the_visits(read):
    upload = read({"s.csv": "plot,date,tree,azimuth,distance\nP1,2021,1,2,3\nP1,2026,1,2,3\n"})
    assert_array_equal(upload.stems.texts("visit"), ["2021", "2026"])
    assert not upload.stems.has("date")
    assert _slugs(upload) == ["date-holds-years"]


def test_dates_stand_beside_their_texts(read):
    upload = read({"s.csv": "plot,date,tree,azimuth,distance\nP1,03.05.2024,1,2,3\nP1,31.02.2026,1,2,3\n"})
    assert_array_equal(upload.stems.texts("date"), ["03.05.2024", "31.02.2026"])
    assert_array_equal(upload.stems.dates("date"), np.array(["2024-05-03", "NaT"], "M8[D]"))


def test_ambiguous_marks_and_dates_are_said_with_line_column_and_text(read):
    upload = read({"s.csv": "plot;date;tree;azimuth;distance\nP1;;1;2;3\nP1;03/04/2024;1;2;1,234\n"})
    by_slug = {remark.check: remark for remark in upload.remarks}
    ambiguous = by_slug["decimal-mark-ambiguous"]
    assert (ambiguous.line, ambiguous.column, ambiguous.text) == (3, "distance", "1,234")
    order = by_slug["date-order-assumed"]
    assert (order.line, order.column, order.text) == (3, "date", "03/04/2024")


def test_units_of_headings_and_cells_are_handed_on(read):
    upload = read({"s.csv": "plot,tree,Azimut (gon),distance [ft],dbh\nP1,1,12,4,31 cm\n"})
    assert {(unit.field, unit.unit, unit.column) for unit in upload.units} == {
        ("azimuth", "gon", "Azimut (gon)"),
        ("distance_m", "ft", "distance [ft]"),
        ("dbh_cm", "cm", "dbh"),
    }
    assert _slugs(upload) == ["unit-in-cells"]


def test_heading_asked_for_in_vain_is_said(read):
    assert _slugs(read({"s.csv": _STEMS}, height_m="Scheitel")) == ["mapped-heading-missing"]


def test_one_unusable_file_does_not_stop_the_others(read):
    upload = read({"stems.csv": _STEMS, "picture.csv": b"\x89PNG\r\n\x1a\n" + bytes(range(256))})
    assert len(upload.stems) == 2
    assert [(remark.check, remark.file) for remark in upload.remarks] == [("file-unusable", "picture.csv")]


def test_only_unusable_files_are_an_error_that_names_each(read):
    with pytest.raises(InputError, match=r"(?s)a\.csv.*b\.csv"):
        read({"a.csv": b"", "b.csv": b"\x89PNG"})


def test_no_known_heading_is_an_error_with_the_headings_and_the_way_out(read):
    with pytest.raises(InputError, match=r"found 'foo', 'Azimutt'; near them: Azimut \(azimuth\).*--map"):
        read({"a.csv": "foo,Azimutt\n1,2\n"})


def test_no_file_at_all_is_an_error():
    with pytest.raises(InputError, match="No file of records"):
        read_upload([])


def test_missing_file_and_folder_are_named(tmp_path: Path):
    with pytest.raises(InputError, match="There is no file"):
        read_upload([tmp_path / "none.csv"])
    with pytest.raises(InputError, match="is a folder"):
        read_upload([tmp_path])


def test_file_given_twice_is_read_once(tmp_path: Path):
    file, link = tmp_path / "s.csv", tmp_path / "link.csv"
    file.write_text(_STEMS)
    link.symlink_to(file)
    for paths in ([link, file], [file, file, file]):
        upload = read_upload(paths)
        assert len(upload.stems) == 2
        assert _slugs(upload) == ["file-twice"]


def test_files_of_one_name_are_told_by_their_folders(tmp_path: Path):
    paths = [tmp_path / crew / "stems.csv" for crew in ("a", "b")]
    for path in paths:
        path.parent.mkdir()
        path.write_text(_STEMS)
    assert read_upload(paths).sources == tuple(map(str, paths))


def test_settings_among_the_files_are_left_alone(read):
    assert len(read({"s.csv": _STEMS, "settings.toml": "[survey]\n"}).stems) == 2


def test_reading_can_be_stopped(tmp_path: Path):
    file = tmp_path / "s.csv"
    file.write_text(_STEMS)
    stop = Event()
    stop.set()
    with pytest.raises(Cancelled):
        read_upload([file], progress=Progress(stop=stop))


def test_progress_names_the_file(tmp_path: Path):
    file = tmp_path / "s.csv"
    file.write_text(_STEMS)
    told: list[str] = []
    read_upload([file], progress=Progress(report=lambda sentence, _share: told.append(sentence)))
    assert "Reading s.csv" in told


@pytest.mark.parametrize(
    ("line", "skipped"),
    [
        ("Summe,,,,42", True),
        (",Mittelwert,,,21.0", True),
        ("Total,1,10,5,30", False),  # a plot called so
        ("Summit,,,,30", False),
    ],
)
def test_line_of_totals_is_no_record(read, line, skipped):
    upload = read({"s.csv": f"plot,stem,azimuth,distance_m,dbh_cm\n1,1,10,5,21\n1,2,20,6,21\n{line}\n"})
    assert len(upload.stems) == (2 if skipped else 3)
    assert [each.sentence for each in upload.remarks if each.check == "totals-skipped"] == (
        ["Totals stand in line 4; skipped."] if skipped else []
    )
