"""A stem that was decided to stand elsewhere keeps a faint trace of where it was typed."""

import numpy as np
import pytest

from stemmap.drawing.as_typed import places_as_typed
from stemmap.drawing.legend import describe_legend
from stemmap.drawing.palette import LIGHT
from stemmap.drawing.plot_map import describe_plot
from stemmap.drawing.scene import Discs, Texts
from stemmap.survey.decided import Decisions
from stemmap.survey.journal import Change, Entry
from stemmap.survey.survey import assemble
from stemmap.tasks.workup import work_up
from tests.uploads import survey

STEMS = {"plot": [1] * 3, "stem": [1, 2, 3], "azimuth": [10, 100, 300], "distance_m": [4, 5, 6], "dbh_cm": [30] * 3}


def decided(field, new):
    typed = survey(STEMS, {"plot": [1]}, settings={"design": {"radius_m": 12.62}})
    records = typed.stems.records
    change = Change(int(records.source[1]), int(records.line[1]), field, None, new)
    told = ("2026-11-25T12:00:00.000Z", "Ida", "x", "1", None, "2", "value", field, None, new, "")
    entry = Entry(1, *told, changes=(change,))
    return work_up(assemble(typed.upload, typed.settings, Decisions((entry,))))


def dotted(scene):
    return [one for one in scene.shapes if isinstance(one, Discs) and one.stroke and one.stroke.dash_mm == (0.35, 0.55)]


@pytest.mark.parametrize(("field", "new"), [("azimuth", "200"), ("distance_m", "9.5")])
def test_the_place_as_typed_stays_on_the_map_and_in_its_legend(field, new):
    made = decided(field, new)
    scene = describe_plot(made.survey, made.measured, 0, millimetres_per_metre=10.0)
    (trace,) = dotted(scene)
    place = 5.0 * np.array([np.sin(np.radians(100)), np.cos(np.radians(100))])
    np.testing.assert_allclose(trace.centre[0], place, atol=1e-9)
    assert not np.allclose(scene.stems.place[1], place, atol=0.5)
    legend = describe_legend(made.survey, made.measured, 0, theme=LIGHT, width_mm=60.0)
    words = [text for one in legend.shapes if isinstance(one, Texts) for text in one.texts]
    assert "as typed, before it was decided" in words


def test_another_dbh_leaves_no_trace():
    made = decided("dbh_cm", "44")
    assert places_as_typed(made.survey, made.measured, 0, turn_deg=0.0) == {}
    assert dotted(describe_plot(made.survey, made.measured, 0, millimetres_per_metre=10.0)) == []
