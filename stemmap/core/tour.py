"""A short way past all places."""

from __future__ import annotations

import numpy as np
from numpy.typing import ArrayLike, NDArray

Floats = NDArray[np.float64]

#: So many places are ordered at once; memory and time grow with their square.
MOST_TOGETHER = 500


def short_tour(x: ArrayLike, y: ArrayLike, *, start: int = 0) -> NDArray[np.intp]:
    """Order places so that the way past all of them, without return, is short.

    From the start always to the nearest place not yet seen; then pieces of the way are turned round as long as that
    shortens it (2-opt; Croes 1958, Oper. Res. 6: 791-812). The way is good, not the best. More than `MOST_TOGETHER`
    places are taken in blocks along strips to and fro, each begun where the one before it ended.

    Parameters
    ----------
    x, y
        Places in metres, shape (n,), all known.
    start
        Index of the first place.

    Returns
    -------
    Indices in walking order, shape (n,).

    Examples
    --------
    >>> short_tour([0.0, 20.0, 10.0], [0.0, 0.0, 0.0])
    array([0, 2, 1])
    """
    places = np.column_stack([np.asarray(x, dtype=np.float64), np.asarray(y, dtype=np.float64)])
    if not len(places):
        return np.zeros(0, np.intp)
    order = np.array([start], np.intp)
    rest = np.delete(np.arange(len(places)), start)
    for block in _blocks(places, rest):
        joined = np.append(order[-1], block)
        order = np.concatenate([order, joined[_order(places[joined])[1:]]])
    return order


def _blocks(places: Floats, rest: NDArray[np.intp]) -> list[NDArray[np.intp]]:
    """Places that lie together, in the order of a way along strips to and fro."""
    count = -(-len(rest) // MOST_TOGETHER)
    if count < 2:
        return [rest]
    strips = np.array_split(rest[np.argsort(places[rest, 1], kind="stable")], round(np.sqrt(count)))
    along = [
        strip[np.argsort(places[strip, 0] * (1 if number % 2 == 0 else -1), kind="stable")]
        for number, strip in enumerate(strips)
    ]
    return np.array_split(np.concatenate(along), count)


def _order(places: Floats) -> NDArray[np.intp]:
    """A short way from the first place past all others."""
    number = len(places)
    if number < 3:
        return np.arange(number)
    apart = np.hypot(*(places[:, None, :] - places[None, :, :]).transpose(2, 0, 1))
    open_ = np.ones(number, dtype=bool)
    order = np.empty(number, dtype=np.intp)
    order[0] = 0
    for step in range(1, number):
        open_[order[step - 1]] = False
        order[step] = np.argmin(np.where(open_, apart[order[step - 1]], np.inf))
    shorter = True
    while shorter:
        shorter = False
        for first in range(1, number - 1):
            # Turning the piece first..last changes only the steps into it and out of it; at the end there is none out.
            last = np.arange(first + 1, number)
            before, after = order[first - 1], np.append(order[first + 2 :], -1)
            out = np.where(after < 0, 0.0, apart[order[last], after])
            turned = np.where(after < 0, 0.0, apart[order[first], after])
            gain = apart[before, order[first]] + out - apart[before, order[last]] - turned
            best = int(np.argmax(gain))
            if gain[best] > 1e-6:
                order[first : last[best] + 1] = order[first : last[best] + 1][::-1].copy()
                shorter = True
    return order
