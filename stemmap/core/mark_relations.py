"""How the marks of stems, such as dbh or species, go with their distance: mark correlation and mark variogram.

All stems must share one inclusion rule. Edge weights are those of `stemmap.core.second_order`.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from typing import Literal

import numpy as np
from numpy.typing import ArrayLike

from stemmap.core.pairs import Floats, Kernel, Rows, inside_points, radii_of, ratio, weighted_pairs
from stemmap.core.windows import Window


def mark_correlation(
    xy: ArrayLike,
    marks: ArrayLike,
    window: Window,
    r: ArrayLike,
    *,
    correction: Literal["isotropic", "translation"] = "isotropic",
    halfwidth: float = 1.0,
) -> Floats:
    """Stoyan's mark correlation: mean product of two marks r apart over the squared mean mark; 1 without relation.

    Parameters
    ----------
    marks
        For example dbh, shape (n,).
    halfwidth
        Of the Epanechnikov kernel, m.

    Returns
    -------
    Shape (k,); NaN where no pair is near r.

    Raises
    ------
    InputError
        As in `stemmap.core.second_order.k_function`.
    """
    mark = np.asarray(marks, dtype=np.float64)
    squared_mean = float(mark.mean()) ** 2 if len(mark) else math.nan
    return (
        _mark_mean(xy, window, r, lambda i, j: mark[i] * mark[j], correction=correction, halfwidth=halfwidth)
        / squared_mean
    )


def mark_variogram(
    xy: ArrayLike,
    marks: ArrayLike,
    window: Window,
    r: ArrayLike,
    *,
    correction: Literal["isotropic", "translation"] = "isotropic",
    halfwidth: float = 1.0,
) -> Floats:
    """Mark variogram: half the mean squared difference of two marks at distance r, in squared units of the mark.

    Parameters, results and errors as in `mark_correlation`.
    """
    mark = np.asarray(marks, dtype=np.float64)
    return _mark_mean(
        xy, window, r, lambda i, j: 0.5 * (mark[i] - mark[j]) ** 2, correction=correction, halfwidth=halfwidth
    )


def kind_correlation(
    xy: ArrayLike,
    kinds: ArrayLike,
    window: Window,
    r: ArrayLike,
    *,
    correction: Literal["isotropic", "translation"] = "isotropic",
    halfwidth: float = 1.0,
) -> Floats:
    """Chance that two stems at distance r are of one kind over that of any two: 1 without relation, below 1 mixed.

    Mark correlation with the test function 1(kind = kind), over Σ (n_kind / n)².

    Parameters
    ----------
    kinds
        Species or size class of each stem, shape (n,).
    halfwidth
        Of the Epanechnikov kernel, m.

    Returns
    -------
    Shape (k,); NaN where no pair is near r.

    Raises
    ------
    InputError
        As in `stemmap.core.second_order.k_function`.
    """
    _, kind, counts = np.unique(np.asarray(kinds), return_inverse=True, return_counts=True)
    alike = float(np.sum((counts / len(kind)) ** 2)) if len(kind) else math.nan
    return (
        _mark_mean(
            xy,
            window,
            r,
            lambda i, j: (kind[i] == kind[j]).astype(np.float64),
            correction=correction,
            halfwidth=halfwidth,
        )
        / alike
    )


def _mark_mean(
    xy: ArrayLike,
    window: Window,
    r: ArrayLike,
    function: Callable[[Rows, Rows], Floats],
    *,
    correction: Literal["isotropic", "translation"],
    halfwidth: float,
) -> Floats:
    """Mean of a function of two marks over the pairs near each r, weighed by kernel and edge."""
    points, radii = inside_points(xy, window), radii_of(r)
    if len(points) < 2:
        return np.full(radii.shape, np.nan)
    pairs = weighted_pairs(points, window, float(radii.max(initial=0.0)) + halfwidth, correction=correction)
    kernel = Kernel(pairs.distance, halfwidth, radii)
    below = kernel.sums(pairs.weight)
    above = kernel.sums(pairs.weight * function(pairs.one, pairs.other))
    return ratio(above, below)
