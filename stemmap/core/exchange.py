"""Rows that were filled in on each other's lines: which exchange fits far better than taking them as they stand."""

from __future__ import annotations

import numpy as np
from numpy.typing import ArrayLike, NDArray

Floats = NDArray[np.float64]

#: A value this improbable says no more than that it is another one; half a square of standard deviations.
CAP = 8.0
#: What a value that is missing on one side costs, whatever it is compared with.
_UNKNOWN = 1.0


def misfit(again: ArrayLike, recorded: ArrayLike, *, sd: ArrayLike, full_circle_at: int | None = None) -> Floats:
    """How badly values measured again fit recorded ones: half the sum of squared standardised differences.

    Parameters
    ----------
    again, recorded
        Values by quantity, shape (..., q) that go together; NaN where one is missing.
    sd
        Standard deviations of the differences, the same shape.
    full_circle_at
        Place of the quantity that is an angle in degrees and goes round.

    Returns
    -------
    Shape (...,); each quantity adds no more than `CAP`, so that one gross error does not speak for all.
    """
    difference = np.asarray(again, dtype=np.float64) - np.asarray(recorded, dtype=np.float64)
    if full_circle_at is not None:
        angle = difference[..., full_circle_at]
        difference[..., full_circle_at] = 180.0 - (180.0 - angle) % 360.0
    half_square = 0.5 * np.square(difference / np.asarray(sd, dtype=np.float64))
    costs: Floats = np.where(np.isnan(half_square), _UNKNOWN, np.minimum(half_square, CAP)).sum(axis=-1)
    return costs


def exchanged(cost: ArrayLike, *, gain: float, fits: float) -> NDArray[np.int64]:
    """The line that each row was probably meant for.

    All rows together are laid to the lines at the least cost (Kuhn, 1955, Nav. Res. Log. Q. 2: 83-97). An exchange, of
    two rows or of several in a ring, is taken only when it fits far better and its rows fit then on the whole.

    Parameters
    ----------
    cost
        Misfit of each row on each line, shape (n, n); row i stands on line i.
    gain
        By how much the misfit of the rows of an exchange must fall.
    fits
        Mean misfit of the rows of an exchange up to which they fit.

    Returns
    -------
    Shape (n,); i where row i stays.

    Examples
    --------
    >>> exchanged([[9.0, 0.1], [0.2, 9.0]], gain=5.0, fits=4.0).tolist()
    [1, 0]
    """
    from scipy.optimize import linear_sum_assignment

    costs = np.asarray(cost, dtype=np.float64)
    stays = np.arange(len(costs))
    if len(costs) < 2:
        return stays
    _, line = linear_sum_assignment(costs)
    # The least place among the rows of its ring names the ring; following it doubles the reach with each turn.
    ring, jump = np.minimum(stays, line), line.copy()
    for _ in range(len(costs).bit_length()):
        ring, jump = np.minimum(ring, ring[jump]), jump[jump]
    now, then = costs[stays, stays], costs[stays, line]
    better = np.bincount(ring, now - then, minlength=len(costs)) >= gain
    good = np.bincount(ring, then, minlength=len(costs)) <= fits * np.bincount(ring, minlength=len(costs))
    result: NDArray[np.int64] = np.where((better & good)[ring], line, stays)
    return result
