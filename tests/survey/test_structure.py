"""Spatial structure of plots and surveys."""

import json
from io import StringIO
from pathlib import Path

import numpy as np
import pytest

from stemmap.core.distances import g_function
from stemmap.core.neighbours import clark_evans
from stemmap.core.second_order import pair_correlation, pooled_k
from stemmap.core.windows import Disc
from stemmap.survey.curves import against_chance, distances
from stemmap.survey.settings import Settings
from stemmap.survey.structure import Structure, SurveyStructure, structure
from stemmap.tasks.workup import open_uploads
from stemmap.writing.structure import write_structure


def made_survey(folder: Path, patterns: list[np.ndarray], *, kinds: list[list[str]] | None = None) -> Path:
    """An upload of one pattern a plot, in discs of 10 m."""
    folder.mkdir(exist_ok=True)
    lines = ["plot,easting,northing,crs,tree,azimuth,distance_m,dbh_cm,species"]
    for plot, xy in enumerate(patterns):
        azimuth = np.degrees(np.arctan2(xy[:, 0], xy[:, 1])) % 360.0
        for stem, (angle, distance) in enumerate(zip(azimuth, np.hypot(*xy.T), strict=True)):
            kind = kinds[plot][stem] if kinds else "beech"
            place = f"{plot + 1},500000,5500000,EPSG:25832,{stem + 1}"
            lines.append(f"{place},{angle:.6f},{distance:.6f},{20 + stem % 7},{kind}")
    path = folder / "stems.csv"
    path.write_text("\n".join(lines) + "\n", "utf-8")
    return path


def told(path: Path, *, by_species: bool = False, seed: int = 1) -> SurveyStructure:
    settings = Settings().having("design.radius_m", 10.0)
    return structure(open_uploads([path], settings=settings).summary, by_species=by_species, simulations=99, seed=seed)


def lattice(step: float) -> np.ndarray:
    x = np.arange(-12, 13) * step + 0.7
    grid = np.stack(np.meshgrid(x, x), axis=-1).reshape(-1, 2)
    inside: np.ndarray = grid[np.hypot(*grid.T) < 9.5]
    return inside


def test_distances_in_words_leave_out_what_lies_between() -> None:
    r = np.arange(1.0, 7.0)
    assert distances(r, np.array([1, 0, 1, 1, 0, 1], dtype=bool)) == "1, 3–4, 6"


def random(seed: int, count: int) -> np.ndarray:
    return Disc((0.0, 0.0), 9.99).random(count, np.random.default_rng(seed))


def as_text(made: SurveyStructure, form: str) -> str:
    stream = StringIO()
    write_structure(stream, made, form)
    return stream.getvalue()


def test_a_lattice_is_regular_and_a_group_is_clumped(tmp_path: Path) -> None:
    group = random(2, 12) * 0.2 + 3.0
    made = told(made_survey(tmp_path, [lattice(3.0), np.vstack([group, random(3, 8)])]))
    assert made.plots[0].curves["l_minus_r"].sentence.startswith("Regular")
    assert made.plots[1].curves["l_minus_r"].sentence.startswith("Clumped")


def test_indices_of_a_plot_are_those_of_core(tmp_path: Path) -> None:
    xy = random(4, 25)
    index = told(made_survey(tmp_path, [xy])).plots[0].indices["clark_evans"]
    for form in ("none", "donnelly", "cdf"):
        expected = clark_evans(xy, Disc((0.0, 0.0), 10.0), correction=form)
        assert index[form]["r"] == pytest.approx(expected.r, abs=1e-4)
        if form != "cdf":
            assert index[form]["p"] == pytest.approx(expected.p, abs=1e-3)


def test_one_plot_pooled_says_what_the_plot_says(tmp_path: Path) -> None:
    made = told(made_survey(tmp_path, [random(5, 20)]))
    assert made.pooled.sentences() == made.plots[0].sentences()


def test_too_few_stems_say_so_and_nothing_else(tmp_path: Path) -> None:
    made = told(made_survey(tmp_path, [random(5, 7)]))
    plot = made.plots[0].json()
    assert (plot["n"], plot["reason"], plot["indices"], plot["curves"]) == (7, "too few stems", None, None)
    assert made.pooled.reason


def test_random_plots_are_rarely_said_to_have_a_pattern(tmp_path: Path) -> None:
    made = told(made_survey(tmp_path, [random(100 + plot, 20) for plot in range(200)]))
    curves = [plot.curves["l_minus_r"] for plot in made.plots]
    # 200 plots: five in a hundred is 10; more than 18 has a probability below 0.5 %.
    assert sum(not curve.sentence.startswith("Neither") for curve in curves) <= 18


def test_species_apart_are_said_to_be_so_where_the_places_are_random(tmp_path: Path) -> None:
    patterns = [random(300 + plot, 30) for plot in range(4)]
    kinds = [["oak" if x > 0.0 else "ash" for x in xy[:, 0]] for xy in patterns]
    made = told(made_survey(tmp_path, patterns, kinds=kinds), by_species=True).pooled
    assert set(made.species) == {"oak", "ash", "ash × oak"}
    assert made.species["ash × oak"].sentence.startswith("ash and oak keep apart: fewer")
    assert "stands in groups" in made.species["oak"].sentence
    assert made.indices["mingling"]["sentence"].endswith("species keep to themselves.")


def test_the_same_seed_gives_the_same_text_and_another_seed_another(tmp_path: Path) -> None:
    path = made_survey(tmp_path, [random(6, 15), random(7, 12)])
    for form in ("json", "csv", "table"):
        assert as_text(told(path), form) == as_text(told(path), form)
    assert as_text(told(path), "json") != as_text(told(path, seed=2), "json")


def test_a_plot_does_not_change_the_result_of_another(tmp_path: Path) -> None:
    alone = told(made_survey(tmp_path / "a", [random(6, 15)])).plots[0]
    beside = told(made_survey(tmp_path / "b", [random(6, 15), random(7, 30)])).plots[0]
    assert alone.json() == beside.json()


def test_json_has_a_reason_beside_each_null(tmp_path: Path) -> None:
    made: Structure = told(made_survey(tmp_path, [random(6, 15)])).plots[0]
    plot = json.loads(as_text(told(tmp_path / "stems.csv"), "json"))["plots"][0]
    assert plot["indices"]["clark_evans"]["cdf"]["p"] is None
    assert plot["reasons"]["clark_evans.cdf.p"]
    assert plot["curves"]["l_minus_r"]["n"] == made.stems == 15


def test_more_stems_than_can_be_compared_are_told_of_without_a_test_and_not_pooled(tmp_path: Path) -> None:
    made = told(made_survey(tmp_path, [random(5, 601), random(6, 20)]))
    plot = made.plots[0]
    assert plot.curves["l_minus_r"].sentence.startswith("Not compared with chance: more than 600 stems")
    assert plot.curves["l_minus_r"].low is None
    assert plot.reasons["l_minus_r.p"].startswith("more than 600 stems")
    assert plot.reasons["mark_correlation"].startswith("more than 600 stems")
    assert plot.indices["clark_evans"]["p_simulated"] is None
    assert "p = " in plot.indices["clark_evans"]["sentence"]
    assert made.pooled.stems == 20


def test_of_thousands_of_stems_on_one_plot_nothing_is_told(tmp_path: Path) -> None:
    made = told(made_survey(tmp_path, [random(5, 5001)]))
    assert made.plots[0].reason == "more than 5000 stems on one plot"
    assert not made.plots[0].curves


def test_plots_with_few_stems_are_pooled_though_nothing_is_told_of_them_alone(tmp_path: Path) -> None:
    made = told(made_survey(tmp_path, [random(20 + plot, 2 + plot % 5) for plot in range(12)]))
    assert {plot.reason for plot in made.plots} == {"too few stems"}
    assert made.pooled.stems == sum(2 + plot % 5 for plot in range(12))
    assert made.pooled.plots == 12


def test_pooled_values_are_those_of_core_over_the_plots(tmp_path: Path) -> None:
    patterns, disc = [random(8, 15), random(9, 15), random(10, 30)], Disc((0.0, 0.0), 10.0)
    curves = told(made_survey(tmp_path, patterns)).pooled.curves
    r, n = curves["g"].r, np.array([15, 15, 30])
    k = pooled_k([(xy, disc) for xy in patterns], r)
    g = np.array([pair_correlation(xy, disc, r) for xy in patterns])
    # The upload rounds places to a micrometre.
    np.testing.assert_allclose(curves["l_minus_r"].value, np.sqrt(k / np.pi) - r, atol=1e-4)
    np.testing.assert_allclose(curves["g"].value, (n * (n - 1)) @ g / (n * (n - 1)).sum(), atol=1e-4)


def test_g_of_a_plot_is_tested_and_the_distribution_of_nearest_distances_is_that_of_core(tmp_path: Path) -> None:
    xy = random(11, 40)
    curves = told(made_survey(tmp_path, [xy])).plots[0].curves
    assert curves["g"].p is not None
    expected = g_function(xy, Disc((0.0, 0.0), 10.0), curves["nearest"].r, correction="hanisch")
    np.testing.assert_allclose(curves["nearest"].value, expected, atol=1e-4)


def test_thick_stems_in_a_corner_are_said_to_stand_in_groups_and_apart_from_the_thin(tmp_path: Path) -> None:
    patterns = [np.array(sorted(random(400 + plot, 28).tolist())) for plot in range(4)]
    path = made_survey(tmp_path, patterns)
    lines = path.read_text("utf-8").splitlines()
    # From west to east ever thicker.
    lines[1:] = [
        ",".join([*line.split(",")[:-2], str(10 + place % 28), "beech"]) for place, line in enumerate(lines[1:])
    ]
    path.write_text("\n".join(lines) + "\n", "utf-8")
    settings = Settings().having("design.radius_m", 10.0)
    made = structure(open_uploads([path], settings=settings).summary, by_size=True, simulations=99).pooled
    assert set(made.sizes) == {"thick", "thin", "thick × thin"}
    assert made.sizes["thick"].sentence.startswith("The thick half of the stems stands in groups")
    assert made.sizes["thick × thin"].sentence.startswith("Thick and thin stems keep apart")
    assert made.curves["mark_variogram"].sentence.startswith("Stems")
    assert "are more alike in dbh than by chance" in made.curves["mark_variogram"].sentence
    assert made.json()["sizes"]["thick"]["n"] == 56


def test_a_handful_of_stems_tells_of_no_pattern():
    r = np.arange(1.0, 5.0)
    curves = np.vstack([np.full(4, 9.0), np.random.default_rng(1).normal(0.0, 1.0, (99, 4))])

    def told(stems):
        return against_chance(
            r,
            curves,
            stems=stems,
            plots=1,
            above=lambda at: f"above at {at}",
            below=lambda at: f"below at {at}",
            neither="no",
        ).sentence

    assert told(8).startswith("above at 1–4; p = 0.010, 8 stems")
    assert told(7) == "Too few stems to tell of a pattern; p = 0.010, 7 stems."
