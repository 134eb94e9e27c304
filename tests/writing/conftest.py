"""A small survey to be written in every form."""

import pytest

from tests.uploads import survey

#: Two plots with places, one without; what is typed tries the writers.
STEMS = {
    "plot": ["1", "1", "1", "2", "=3"],
    "visit": ["2026", "2026", "2026", "2026", ""],
    "stem": ["1", "2", "", "7~2", "=cmd|x"],
    "tree": ["", "", "4", "", ""],
    "date": ["2026-05-01", "", "2026-05-02", "2026-05-01", ""],
    "azimuth": ["90", "180.5", "", "45", "10"],
    "distance_m": ["10", "9.98", "5", "x", "20"],
    "dbh_cm": ["31.25", "", "0.1", "40", "-5"],
    "species": ["Fichte", "Eiche, alt", "Fichté 🌲", "<b>ash & oak</b>", "=1+1"],
    "remark": ["", 'a "b"', "@home", "", "+1"],
    "fid": ["a", "b", "c", "d", "e"],
    "GEOM": ["", "x", "", "", ""],
    "geometry": ["g1", "g2", "g3", "g4", "g5"],
    "inside": ["yes", "no", "", "", ""],
    "Ø Stock": ["ä", "", "ß", "森", ""],
}
PLOTS = {"plot": ["1", "2", "=3"], "lon": ["9.0", "9.1", ""], "lat": ["47.0", "47.0", ""]}


@pytest.fixture
def written():
    """The survey, measured in a circle of 10 m."""
    return survey(STEMS, PLOTS, settings={"design": {"radius_m": 10}})
