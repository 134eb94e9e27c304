"""A curve of spatial structure against what chance gives, and the sentence that a forester reads under it."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import Any

import numpy as np
from numpy.typing import NDArray

from stemmap.core.envelopes import global_envelope
from stemmap.core.neighbours import FEWEST_STEMS

Floats = NDArray[np.float64]

#: A departure is told below this p; of chance alone at most so many in a hundred are told, whatever the number of
#: simulations and however many curves are equal.
SIGNIFICANT = 0.05
#: In place of what so few stems seem to show.
TOO_FEW = "Too few stems to tell of a pattern"
#: Smaller ones are told as smaller than this.
_LEAST_P = 0.001
#: Why a pattern is not compared with chance.
TOO_MANY = "more than 600 stems; comparing them with chance would take too long"


@dataclass(frozen=True)
class Curve:
    """A curve with its global envelope.

    Parameters
    ----------
    r, value
        Distances, m, and values, shape (k,).
    chance
        Value that chance gives, shape (k,).
    low, high
        The envelope; None where the curve is not tested.
    p
        Of the whole curve; None where it is not tested.
    stems, plots
        How many stand behind it.
    sentence
        What it says, and no more.
    """

    r: Floats
    value: Floats
    chance: Floats
    low: Floats | None
    high: Floats | None
    p: float | None
    stems: int
    plots: int
    sentence: str

    def json(self) -> dict[str, Any]:
        """The curve as `stemmap structure` writes it."""
        return {
            "r_m": self.r.tolist(),
            "value": _listed(self.value),
            "chance": _listed(self.chance),
            "low": None if self.low is None else _listed(self.low),
            "high": None if self.high is None else _listed(self.high),
            "p": self.p,
            "n": self.stems,
            "plots": self.plots,
            "sentence": self.sentence,
        }


def against_chance(
    r: Floats,
    curves: Floats,
    *,
    chance: Floats | None = None,
    stems: int,
    plots: int,
    above: Callable[[str], str],
    below: Callable[[str], str],
    neither: str,
) -> Curve | None:
    """A curve against simulated ones.

    Parameters
    ----------
    r
        Shape (k,), m.
    curves
        The observed curve first, shape (simulations + 1, k); distances without a value are left out.
    chance
        What chance gives; None: the mean of the simulated curves.
    above, below
        Words for distances where the curve is above or below its envelope.
    neither
        Words where it is inside; p and the number of stems follow all of them.

    Returns
    -------
    None where no distance has a value. Without simulated curves it is not tested.
    """
    if not np.isfinite(curves[0]).any():
        return None
    simulated = len(curves) > 1
    # Simulated curves without any value, such as those of stems that are all too near the edge, say nothing.
    curves = curves[np.isfinite(curves).any(axis=1)]
    known = np.isfinite(curves).all(axis=0)
    if not known.any() or (simulated and len(curves) < 2):
        return None
    if not known.all():
        # Else all curves of a survey share the same distances.
        r, curves, chance = r[known], curves[:, known], None if chance is None else chance[known]
    if not simulated:
        nothing = np.full(len(r), np.nan) if chance is None else chance
        told = f"Not compared with chance: {TOO_MANY}; {counted(stems, plots)}."
        return Curve(r, curves[0].copy(), nothing, None, None, None, stems, plots, told)
    made = global_envelope(curves[0], curves[1:])
    behind = ground(made.p, stems, plots)
    signs = [sign for sign in (1, -1) if (made.leaves == sign).any()]
    # What happens at the shorter distances is told first.
    signs.sort(key=lambda sign: int(np.argmax(made.leaves == sign)))
    parts = [(above if sign > 0 else below)(distances(r, made.leaves == sign)) for sign in signs]
    # A test of a handful of stems holds, yet nobody would believe what it says of a forest.
    shows = made.p < SIGNIFICANT and bool(parts) and stems >= FEWEST_STEMS
    sentences = parts if shows else [neither if stems >= FEWEST_STEMS else TOO_FEW]
    return Curve(
        r=r,
        value=curves[0].copy(),
        chance=curves[1:].mean(axis=0) if chance is None else chance,
        low=made.low,
        high=made.high,
        p=made.p,
        stems=stems,
        plots=plots,
        sentence="; ".join([*sentences, behind]) + ".",
    )


def distances(r: Floats, chosen: NDArray[np.bool_]) -> str:
    """The chosen distances, m, such as "2–4" or "1, 2.5–3"."""
    steps = np.flatnonzero(np.diff(np.concatenate([[False], chosen, [False]]).astype(np.int8)))
    runs = [(r[first], r[last - 1]) for first, last in zip(steps[::2], steps[1::2], strict=True)]
    return ", ".join(f"{first:g}" if first == last else f"{first:g}–{last:g}" for first, last in runs)


def counted(stems: int, plots: int) -> str:
    """The stems behind a value, and their plots where there are several."""
    return f"{stems} stems" if plots == 1 else f"{stems} stems on {plots} plots"


def ground(p: float, stems: int, plots: int = 1) -> str:
    """What a sentence rests on: p, and the stems and plots behind it."""
    return f"{shown_p(p)}, {stems} stems" if plots == 1 else f"{shown_p(p)}, {stems} stems on {plots} plots"


def shown_p(p: float) -> str:
    """P as people read it."""
    if p < _LEAST_P:
        return f"p < {_LEAST_P:g}"
    return f"p = {p:.3f}" if p < 0.1 else f"p = {p:.2f}"


def simulated_p(values: Floats) -> float | None:
    """Two-sided Monte-Carlo p of the first of the values among all; None where it is not known."""
    if len(values) < 2 or not np.isfinite(values).all():
        return None
    above, below = float(np.mean(values >= values[0])), float(np.mean(values <= values[0]))
    return min(1.0, 2.0 * min(above, below))


def _listed(values: Floats) -> list[float | None]:
    return [float(value) if np.isfinite(value) else None for value in values]
