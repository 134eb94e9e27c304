"""The sample uploads are what their README and their truth say, and can be made again."""

from __future__ import annotations

import csv
import math
import subprocess
import sys
import tomllib
from collections import defaultdict
from pathlib import Path

import numpy as np
import pytest

SAMPLE = Path(__file__).parents[1] / "sample_data"
KINDS = {
    "digits-transposed", "neighbouring-key", "digit-dropped", "digit-doubled", "digit-added",
    "decimal-point-lost", "back-bearing", "mirrored-reading", "quadrant", "gon-for-degrees", "plot-in-gon",
    "azimuths-exchanged", "fields-exchanged", "line-above-repeated", "record-twice", "slope-distance",
    "mm-for-cm", "girth-for-diameter", "dbh-missing", "distance-missing", "declination-forgotten",
    "centre-moved", "outside-circle", "circle-not-reached", "borderline", "class-limit",
}
NO_ERRORS = {"borderline", "class-limit"}


def rows_of(name: str, *, delimiter: str = ",", encoding: str = "utf-8") -> list[dict[str, str]]:
    with (SAMPLE / name).open(encoding=encoding, newline="") as file:
        return list(csv.DictReader(file, delimiter=delimiter))


@pytest.fixture(scope="module")
def plots() -> list[dict[str, str]]:
    return rows_of("survey/plots.csv")


@pytest.fixture(scope="module")
def stems() -> list[dict[str, str]]:
    return rows_of("survey/stems.csv")


@pytest.fixture(scope="module")
def truth() -> list[dict[str, str]]:
    return rows_of("survey/truth.csv")


def limits(stems: list[dict[str, str]]) -> np.ndarray:
    dbh = np.array([float(row["dbh_cm"]) for row in stems])
    return np.select([dbh >= 30, dbh >= 7], [13.0, 9.0], 0.0)


def positions(stems: list[dict[str, str]]) -> dict[str, complex]:
    """Metres east (real) and north (imaginary) of the centre, by stem number."""
    return {row["stem"]: float(row["distance_m"]) * np.exp(1j * math.radians(90 - float(row["azimuth"])))
            for row in stems if row["azimuth"] and row["distance_m"]}


def both_visits(stems: list[dict[str, str]], plot: str) -> tuple[np.ndarray, np.ndarray]:
    first, second = (positions([row for row in stems if row["plot"] == plot and row["visit"] == visit])
                     for visit in ("2021", "2026"))
    shared = sorted(first.keys() & second.keys())
    return np.array([first[stem] for stem in shared]), np.array([second[stem] for stem in shared])


def test_script_writes_the_same_bytes_again(tmp_path):
    subprocess.run([sys.executable, str(SAMPLE / "make_sample.py"), "--output", str(tmp_path)], check=True,
                   capture_output=True)
    made, kept = ({path.relative_to(folder).as_posix(): path.read_bytes()
                   for suffix in ("csv", "toml") for path in folder.glob(f"*/*.{suffix}")}
                  for folder in (tmp_path, SAMPLE))
    assert len(made) == 11
    assert made == kept


def test_survey_has_24_plots_in_two_strata_on_two_visits(plots):
    assert len({row["plot"] for row in plots}) == 24
    assert {row["stratum"] for row in plots} == {"plateau", "slope"}
    for visit in ("2021", "2026"):
        assert len([row for row in plots if row["visit"] == visit]) == 24


def test_one_plot_is_empty_and_every_other_one_has_stems_on_both_visits(plots, stems):
    empty = {row["plot"] for row in plots if row["plot_status"] == "empty"}
    recorded = {(row["plot"], row["visit"]) for row in stems}
    assert empty == {"12"}
    assert recorded == {(row["plot"], row["visit"]) for row in plots if row["plot"] not in empty}


def test_five_species_and_three_states_occur(stems):
    assert {row["species"] for row in stems} == {"beech", "spruce", "fir", "sycamore", "oak"}
    assert {row["status"] for row in stems} == {"living", "dead", "cut"}


def test_stand_density_is_that_of_a_forest(stems):
    first = [row for row in stems if row["visit"] == "2021" and row["status"] == "living"]
    per_ha = (1e4 / (math.pi * limits(first) ** 2)).sum() / 24
    assert 300 < per_ha < 900


def test_concentric_and_fixed_designs_both_occur():
    kinds = {folder: tomllib.loads((SAMPLE / folder / "settings.toml").read_text("utf-8"))["design"]["kind"]
             for folder in ("survey", "young_stand")}
    assert kinds == {"survey": "concentric", "young_stand": "fixed"}


def test_every_kind_is_planted_once_on_the_second_visit_of_at_most_nine_plots(truth):
    by_kind = defaultdict(set)
    for row in truth:
        by_kind[row["kind"]].add(row["error"])
    assert by_kind.keys() == KINDS
    assert all(len(errors) == 1 for errors in by_kind.values())
    assert {row["visit"] for row in truth} == {"2026"}
    assert len({row["plot"] for row in truth if row["kind"] not in NO_ERRORS}) == 9


def test_truth_names_what_stands_in_the_file(stems, truth):
    cells = {(row["plot"], row["visit"], row["stem"]): row for row in stems}
    for row in truth:
        if row["stem"] and row["field"] != "record":
            assert cells[row["plot"], row["visit"], row["stem"]][row["field"]] == row["typed"]
            assert (row["typed"] == row["meant"]) == (row["kind"] in NO_ERRORS)


def test_only_the_record_written_twice_is_there_twice(stems, truth):
    numbers = [(row["plot"], row["visit"], row["stem"]) for row in stems]
    twice = {number for number in numbers if numbers.count(number) > 1}
    planted = {(row["plot"], row["visit"], row["stem"]) for row in truth
               if row["kind"] == "record-twice"}
    assert twice == planted


def test_honest_records_lie_in_their_circle(stems, truth):
    planted = {(row["plot"], row["visit"], row["stem"]) for row in truth if row["kind"] not in NO_ERRORS}
    honest = [row for row in stems
              if row["status"] != "cut" and (row["plot"], row["visit"], row["stem"]) not in planted]
    distance = np.array([float(row["distance_m"]) for row in honest])
    assert (distance <= limits(honest)).all()


def test_planted_inclusion_cases_are_what_they_are_called(stems, truth):
    cells = {(row["plot"], row["visit"], row["stem"]): row for row in stems}
    case = {row["kind"]: cells.get((row["plot"], row["visit"], row["stem"])) for row in truth}
    assert float(case["outside-circle"]["distance_m"]) > 13
    assert 9 < float(case["circle-not-reached"]["distance_m"]) < 13
    assert 7 <= float(case["circle-not-reached"]["dbh_cm"]) < 30
    borderline = case["borderline"]
    assert abs(float(borderline["distance_m"]) - limits([borderline])[0]) <= 0.05
    assert abs(float(case["class-limit"]["dbh_cm"]) - 30) <= 0.3


def test_stems_are_numbered_clockwise_from_north_on_the_first_visit(stems):
    by_plot = defaultdict(list)
    for row in stems:
        if row["visit"] == "2021":
            by_plot[row["plot"]].append(float(row["azimuth"]))
    for azimuths in by_plot.values():
        back = -np.diff(azimuths) % 360
        # The compass error lets stems close in azimuth change places, and one at north read 359.
        assert not ((back > 6) & (back < 90)).any()


def test_forgotten_declination_turns_the_plot(stems, truth):
    row = next(row for row in truth if row["kind"] == "declination-forgotten")
    first, second = both_visits(stems, row["plot"])
    # Azimuths turn clockwise, angles of complex numbers the other way round.
    rotation = math.degrees(np.angle((first * second.conj()).sum()))
    assert rotation == pytest.approx(float(row["typed"]), abs=0.7)


def test_moved_centre_shifts_the_plot(stems, truth):
    east, north = (float(row["typed"]) for row in truth if row["kind"] == "centre-moved")
    first, second = both_visits(stems, "21")
    assert abs((first - second).mean() - complex(east, north)) < 0.15


def test_broken_upload_holds_the_ten_faults_where_its_truth_says():
    faults = rows_of("broken/truth.csv")
    assert {row["way"] for row in faults} == {str(way) for way in range(1, 11)}
    for row in faults:
        lines = (SAMPLE / "broken" / row["file"]).read_text("cp1252").splitlines()
        headings, cells = lines[0].split(";"), lines[int(row["line"]) - 1].split(";")
        if row["heading"]:
            assert cells[headings.index(row["heading"])] == row["text"]
        else:
            assert len(cells) != len(headings)


def test_readme_tells_of_every_kind_and_every_folder():
    text = (SAMPLE / "README.md").read_text("utf-8")
    assert all(f"`{kind}`" in text for kind in KINDS)
    assert all(f"`{settings.parent.name}/`" in text for settings in SAMPLE.glob("*/settings.toml"))
