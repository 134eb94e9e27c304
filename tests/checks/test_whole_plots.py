"""Plots wrong as a whole, on simulated plots: which way they are wrong is found, and clean plots are left alone.

The plots are random; half of the survey's error of every measurement lies on each visit. Every tenth plot is changed.
"""

import numpy as np
import pytest

from stemmap import checks
from stemmap.survey.measured import measure
from stemmap.survey.registry import Case, run_checks
from tests.uploads import survey

PLOTS, EVERY, RADIUS_M = 150, 10, 10.0
WHOLE = {
    *("plot-rotated", "centre-moved", "plot-unlike-last-visit", "plot-in-another-unit", "plot-mirrored"),
    *("distances-unlike-last-visit", "records-of-another-plot", "plots-rotated-alike", "distances-scaled-alike"),
}


def as_measured(azimuth, distance, dbh):
    return azimuth, distance


def simulated(seed, change=as_measured, *, noise=1.0, every=EVERY):
    """Columns of the stems of two visits; the second one of every tenth plot is changed."""
    rng = np.random.default_rng(seed)
    columns = {name: [] for name in ("plot", "visit", "stem", "azimuth", "distance_m", "dbh_cm")}
    for plot in range(PLOTS):
        count = max(rng.poisson(22), 10)
        angle, radius = np.sort(rng.uniform(0, 360, count)), RADIUS_M * np.sqrt(rng.uniform(0.01, 0.98, count))
        dbh = np.exp(rng.normal(3.2, 0.35, count))
        for visit, grown in (("2021", dbh), ("2026", dbh + rng.normal(1.5, 0.7, count))):
            azimuth = (angle + rng.normal(0, noise, count)) % 360
            distance = radius + rng.normal(0, 0.05 * noise, count)
            if visit == "2026" and plot % every == 0:
                azimuth, distance = change(azimuth, distance, grown)
            for stem in np.flatnonzero(rng.random(count) > 0.04):
                cells = plot, visit, stem + 1, f"{azimuth[stem]:.0f}", f"{max(distance[stem], 0.2):.2f}"
                for name, cell in zip(columns, (*cells, f"{grown[stem] + rng.normal(0, 0.2):.1f}"), strict=True):
                    columns[name].append(f"{cell}")
    return columns


def told(columns, plots=None):
    """Findings about whole plots of 2026, by plot."""
    checks.load()
    made = survey(columns, plots, settings={"design": {"radius_m": RADIUS_M}, "errors": {"dbh_sd_mm": 2}})
    found = [each for each in run_checks(Case(made, measure(made))) if each.check in WHOLE]
    return made, found


CHANGES = {
    "gon for degrees": ("plot-in-another-unit", lambda a, d, b: (a / 0.9, d), 0.98),
    "degrees for gon": ("plot-in-another-unit", lambda a, d, b: (a * 0.9, d), 0.98),
    "the other way round": ("plot-mirrored", lambda a, d, b: ((360 - a) % 360, d), 0.98),
    "back bearings": ("plot-rotated", lambda a, d, b: ((a + 180) % 360, d), 0.98),
    "any turn": ("plot-rotated", lambda a, d, b: ((a + 97) % 360, d), 0.98),
    "a little turned": ("plot-rotated", lambda a, d, b: ((a + 6) % 360, d), 0.98),
    "feet": ("distances-unlike-last-visit", lambda a, d, b: (a, d / 0.3048), 0.98),
    "five percent longer": ("distances-unlike-last-visit", lambda a, d, b: (a, d * 1.05), 0.98),
    "to the face": ("distances-unlike-last-visit", lambda a, d, b: (a, d - b / 200), 0.5),
}


@pytest.mark.parametrize("noise", [1.0, 2.0])
@pytest.mark.parametrize("name", list(CHANGES))
def test_plot_that_is_wrong_as_a_whole_is_found_and_no_other(name, noise):
    slug, change, least = CHANGES[name]
    if name == "to the face" and noise > 1.0:
        least = 0.2
    _, found = told(simulated(17, change, noise=noise))
    wrong = {f"{plot}" for plot in range(0, PLOTS, EVERY)}
    assert np.mean([plot in {each.plot for each in found if each.check == slug} for plot in wrong]) >= least
    assert {each.plot for each in found if each.check == slug} <= wrong
    assert len({each.plot for each in found} - wrong) <= 0.01 * PLOTS


@pytest.mark.parametrize("noise", [1.0, 2.0])
def test_clean_plots_are_left_alone(noise):
    _, found = told(simulated(18, noise=noise))
    assert len(found) <= 0.01 * PLOTS


def test_corrected_map_lies_on_the_last_visit():
    for name in ("gon for degrees", "the other way round", "back bearings", "feet"):
        slug, change, _ = CHANGES[name]
        made, found = told(simulated(19, change))
        finding = next(each for each in found if each.check == slug)
        right = {stem: (azimuth, distance) for stem, azimuth, distance in _places(simulated(19), finding.plot)}
        off = []
        for each in finding.meant:
            typed = {key: made.stems.numbers(key)[each.row] for key in ("azimuth", "distance_m")} | dict(each.values)
            azimuth, distance = right[made.stems.label(each.row)]
            apart = abs((typed["azimuth"] - azimuth + 180) % 360 - 180)
            off.append(apart < 3 and abs(typed["distance_m"] - distance) < 0.15)
        assert len(off) >= 10
        assert all(off), name
        assert len(finding.as_json()["proposals"]) == len(off)


def _places(columns, plot):
    rows = zip(*(columns[name] for name in ("plot", "visit", "stem", "azimuth", "distance_m")), strict=True)
    return [(stem, float(a), float(d)) for at, visit, stem, a, d in rows if (at, visit) == (plot, "2026")]


def test_exchanged_plots_and_records_under_another_number_are_told_apart():
    columns = simulated(20)
    filed = {"10": "11", "11": "10", "30": "40"}
    rows = zip(columns["plot"], columns["visit"], strict=True)
    kept = [(plot, visit) != ("40", "2026") for plot, visit in rows]
    columns = {name: [cell for cell, keep in zip(cells, kept, strict=True) if keep] for name, cells in columns.items()}
    columns["plot"] = [
        filed.get(plot, plot) if visit == "2026" else plot
        for plot, visit in zip(columns["plot"], columns["visit"], strict=True)
    ]
    _, found = told(columns)
    assert {(each.plot, each.evidence["other_plot"], "exchanged" in each.message) for each in found} == {
        ("10", "11", True),
        ("11", "10", True),
        ("40", "30", False),
    }


def test_crew_that_forgot_its_declination_is_told_once():
    columns = simulated(21, lambda a, d, b: ((a + 4) % 360, d), every=3)
    names = [f"{plot}" for plot in range(PLOTS)]
    crews = ["one" if plot % 3 == 0 else "two" for plot in range(PLOTS)]
    _, found = told(columns, {"plot": names, "visit": ["2026"] * PLOTS, "crew": crews})
    loud = [each for each in found if each.severity != "note"]
    assert [(each.check, each.evidence["who"]) for each in loud] == [("plots-rotated-alike", "Crew one")]
    assert loud[0].evidence["rotation_deg"] == pytest.approx(4.0, abs=0.2)
    assert sum(each.check == "plot-rotated" for each in found) >= 0.98 * PLOTS / 3


def test_records_of_a_plot_in_gon_are_not_called_mistyped_one_by_one():
    made = survey(simulated(22, CHANGES["gon for degrees"][1]), settings={"design": {"radius_m": RADIUS_M}})
    loud = [
        each
        for each in run_checks(Case(made, measure(made)))
        if each.family == "typing" and each.severity != "note" and each.visit == "2026"
    ]
    assert len(loud) <= 2
