"""Are plots that a stand edge cuts estimated without bias? Straight edges, a corner, a bent edge; four corrections.

Plot centres are sampled evenly over the stand (for part plots over the stand and as far outside as a plot reaches)
and the mean of what the plots say is held against the number of stems.
Run: python -m tests.benchmarks.bias_edge [plots]
"""

from __future__ import annotations

import sys

import numpy as np
import shapely

from stemmap.core import edge

#: Stands, metres: straight edges meeting at right angles and far apart; a bent edge with a bay, a spur and a sharp tip.
STANDS = {
    "straight": shapely.box(0.0, 0.0, 80.0, 60.0),
    "bent": shapely.Polygon([(0, 0), (90, -8), (80, 30), (52, 22), (46, 40), (60, 66), (20, 58), (24, 34), (-12, 52)]),
}
RADII = (7.98, 12.62)
METHODS = ("area weight", "mirage", "walkthrough", "walkthrough, completed", "part plot", "none")


def simulate(stand: shapely.Polygon, *, plots: int, stems: int = 60, seed: int = 1) -> dict[str, tuple[float, float]]:
    """Bias and its standard error, % of the number of stems, by method; stems crowd along the edge.

    Parameters
    ----------
    stand
        The ground.
    plots
        Number of plot centres on the ground.
    stems
        Number of stems, half of them within 6 m of the edge, half of them of the smaller circle.
    """
    rng = np.random.default_rng(seed)
    tree = _points(stand, stems // 2, rng)
    rim = shapely.difference(stand, shapely.buffer(stand, -6.0))
    tree = np.concatenate([tree, _points(rim, stems - len(tree), rng)])
    radius = np.resize(RADII, stems)
    wide = shapely.buffer(stand, RADII[-1])
    everywhere = _points(wide, int(plots * wide.area / stand.area), rng)
    within = shapely.contains_xy(stand, *everywhere.T)
    found = np.hypot(*(everywhere[:, None, :] - tree).transpose(2, 0, 1)) <= radius
    plot, stem = np.nonzero(found)
    ground = np.array([shapely.transform(stand, lambda xy, c=c: xy - c) for c in everywhere])
    border = edge.boundary(ground)
    seen, limit = tree[stem] - everywhere[plot], radius[stem]
    circle = np.pi * limit**2
    mirrored = edge.mirage(border, seen, limit, plot=plot, reach=np.full(len(everywhere), RADII[-1]))
    walked = edge.walkthrough(border, seen, plot=plot)
    covered = edge.walkthrough_share(np.full(stems, stand), tree, radius, plot=np.arange(stems))
    weights = {
        "area weight": edge.area_weight(border, seen, limit, plot=plot),
        "mirage": mirrored.times,
        "walkthrough": walked,
        "walkthrough, completed": walked / covered[stem],
        "none": np.ones(len(stem)),
    }
    results = {}
    for method, weight in weights.items():
        said = np.bincount(plot, weights=weight * stand.area / circle, minlength=len(everywhere))[within]
        results[method] = _percent(said, stems)
    total = np.zeros(len(everywhere))
    for size in RADII:
        mine = limit == size
        part = edge.share_inside(border, np.zeros((len(everywhere), 2)), np.full(len(everywhere), size),
                                 plot=np.arange(len(everywhere)))  # fmt: skip
        count = np.bincount(plot[mine], minlength=len(everywhere))
        number = np.count_nonzero(radius == size)
        # Linearised: stems of this circle per plot over the mean share, less what the ratio explains.
        density = count.sum() / part.sum()
        total += (count - density * part) / part.mean() * stand.area / (np.pi * size**2)
        total += density * stand.area / (np.pi * size**2) - number
    results["part plot"] = _percent(total + stems, stems)
    return results


def _percent(said: np.ndarray, truth: int) -> tuple[float, float]:
    return 100.0 * (said.mean() / truth - 1.0), 100.0 * said.std(ddof=1) / np.sqrt(len(said)) / truth


def _points(ground: shapely.Geometry, count: int, rng: np.random.Generator) -> np.ndarray:
    x0, y0, x1, y1 = ground.bounds
    points = np.zeros((0, 2))
    while len(points) < count:
        more = rng.uniform((x0, y0), (x1, y1), (4 * count + 20, 2))
        points = np.concatenate([points, more[shapely.contains_xy(ground, *more.T)]])
    return points[:count]


if __name__ == "__main__":
    number = int(sys.argv[1]) if len(sys.argv) > 1 else 200_000
    for name, stand in STANDS.items():
        results = simulate(stand, plots=number)
        for method in METHODS:
            bias, error = results[method]
            print(f"{name:10} {method:24} bias {bias:+7.2f} %  (standard error {error:.2f})")
