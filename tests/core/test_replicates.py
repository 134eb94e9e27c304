"""Many patterns at once say what each says alone."""

import numpy as np
import pytest
import shapely

from stemmap.core.neighbours import nearest, uniform_angle
from stemmap.core.replicates import replicates
from stemmap.core.second_order import k_function, pair_correlation
from stemmap.core.windows import CutDisc, Disc

DISC = Disc((2.0, 1.0), 12.62)
CUT = CutDisc(DISC, shapely.Polygon([(-40, -40), (7, -40), (0, 0), (8, 4), (40, 40), (-40, 40)]))


@pytest.mark.parametrize("window", [DISC, CUT], ids=["disc", "cut disc"])
def test_each_pattern_has_the_values_of_itself_alone(window):
    r, points = np.arange(1, 20) * 0.3, window.random(12 * 30, np.random.default_rng(1)).reshape(12, 30, 2)
    # A stem may stand in the place of another.
    points[0, 1] = points[0, 0]

    made = replicates(points, window, r, halfwidth=0.7)

    for row, xy in enumerate(points):
        np.testing.assert_allclose(made.k[row], k_function(xy, window, r), rtol=1e-12)
        g = pair_correlation(xy, window, r, halfwidth=0.7)
        np.testing.assert_allclose(made.g[row], g, rtol=1e-10, atol=1e-11)
        near = nearest(xy, np.zeros(30, dtype=np.int64), 4).distance
        np.testing.assert_allclose(made.nearest[row], near[:, 0], atol=1e-12)
        certain = near[:, 3] < window.to_edge(xy)
        np.testing.assert_array_equal(np.isfinite(made.angle[row]), certain)
        np.testing.assert_allclose(made.angle[row][certain], uniform_angle(xy)[certain])


def test_how_many_are_looked_at_together_does_not_matter(monkeypatch):
    r, points = np.arange(1, 10) * 0.5, DISC.random(400, np.random.default_rng(2)).reshape(20, 20, 2)
    whole = replicates(points, DISC, r, halfwidth=0.5)
    monkeypatch.setattr("stemmap.core.replicates._TOGETHER", 1300)

    parts = replicates(points, DISC, r, halfwidth=0.5)

    np.testing.assert_array_equal(parts.k, whole.k)
    np.testing.assert_array_equal(parts.angle, whole.angle)
