"""Which stems make a pattern, and on which ground."""

from dataclasses import replace

import numpy as np
import pytest
import shapely

from stemmap.survey.measured import measure
from stemmap.survey.structure import structure
from stemmap.survey.summary import Summary, summarise
from stemmap.survey.survey import StandGround
from tests.uploads import survey

CRS = "EPSG:32633"
CIRCLES = [{"radius_m": 7.98, "min_dbh_cm": 12}, {"radius_m": 12.62, "min_dbh_cm": 36}]


def concentric(count: int = 300, *, ground: object = None, **design: object) -> tuple[Summary, np.ndarray, np.ndarray]:
    """One plot of stems of all sizes at random on a square, recorded where their circle reaches."""
    rng = np.random.default_rng(3)
    xy, dbh = rng.uniform(-12.62, 12.62, (count, 2)), rng.uniform(5.0, 60.0, count).round(1)
    stems = {
        "plot": ["a"] * count,
        "azimuth": np.degrees(np.arctan2(xy[:, 0], xy[:, 1])) % 360.0,
        "distance_m": np.hypot(xy[:, 0], xy[:, 1]),
        "dbh_cm": dbh,
    }
    plots = {"plot": ["a"], "easting": [400100.0], "northing": [5400050.0]}
    said = {"kind": "concentric", "circles": CIRCLES, **design}
    made = survey(stems, plots, settings={"survey": {"crs": CRS}, "design": said})
    if ground is not None:
        made = replace(made, ground=StandGround("stand.gpkg", CRS, ground))
    return summarise(made, measure(made)), xy, dbh


def test_large_stems_are_all_those_of_the_outer_circle_and_the_others_all_of_the_inner_one():
    made, xy, dbh = concentric()
    distance = np.hypot(xy[:, 0], xy[:, 1])

    assert made.pattern.rows.tolist() == np.flatnonzero((distance <= 7.98) & (dbh >= 12)).tolist()
    assert made.large is not None
    assert made.large.rows.tolist() == np.flatnonzero((distance <= 12.62) & (dbh >= 36)).tolist()
    assert made.pattern.words(0) == "living stems of the inner circle within 7.98 m, one position a tree"
    assert made.large.words(0) == (
        "living stems of 36 cm and more in the outer circle within 12.62 m, one position a tree"
    )


def test_large_stems_have_a_structure_of_their_own():
    made, _, _ = concentric()
    told = structure(made, simulations=39)

    assert told.large is not None
    assert told.large.plots[0].stems == len(made.large.rows)
    assert told.large.plots[0].curves["l_minus_r"].r[-1] == pytest.approx(6.25)
    assert told.plots[0].curves["l_minus_r"].r[-1] == pytest.approx(3.75)
    assert "living stems of 36 cm and more" in told.rest_json()["large_stems"]["pooled"]["inclusion"]


def test_other_designs_have_no_large_stems():
    made, _, _ = concentric(kind="fixed", circles=[], radius_m=12.62)

    assert made.large is None
    assert structure(made, simulations=39).rest_json()["large_stems"] is None


def test_a_stand_edge_may_cut_the_outer_circle_alone():
    stand = shapely.box(400090.0, 5399000.0, 401000.0, 5401000.0)
    made, xy, dbh = concentric(ground=stand, stand="stand.gpkg")

    assert made.pattern.area_m2[0] == pytest.approx(np.pi * 7.98**2)
    assert made.large is not None
    assert made.large.area_m2[0] < 0.95 * np.pi * 12.62**2
    assert made.large.words(0).endswith("within 12.62 m and inside the stand, one position a tree")
    inside = (np.hypot(xy[:, 0], xy[:, 1]) <= 12.62) & (dbh >= 36) & (xy[:, 0] > -10.0)
    assert abs(len(made.large.rows) - int(inside.sum())) <= 1
