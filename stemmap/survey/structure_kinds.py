"""From sums over plots to curves of species and sizes, alone and by twos, each with the sentence that it bears out."""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping
from itertools import combinations
from typing import Any

import numpy as np
from numpy.typing import NDArray

from stemmap.survey.curves import Curve, against_chance

Floats = NDArray[np.float64]

#: So many species are told of in pairs, the most frequent ones, and from so many stems of each on.
_MOST_SPECIES, _FEWEST_OF_A_KIND = 5, 8


def species_of(sums: Mapping[Any, Any], r: Floats) -> dict[str, Curve]:
    """L(r) - r of each species, and of the most frequent ones by twos, against random labelling of the stems."""
    kinds = _kinds(sums, "species")
    most = sorted(kinds, key=lambda name: (-sums["stems", "species", name], name))[:_MOST_SPECIES]
    made = {name: _one_species(sums, name, r) for name in kinds}
    for one, other in combinations(sorted(most), 2):
        if ("pairs", "species", one, other) in sums:
            made[f"{one} × {other}"] = _two_species(sums, one, other, r)
    return {name: curve for name, curve in made.items() if curve is not None}


def _one_species(sums: Mapping[Any, Any], name: str, r: Floats) -> Curve | None:
    return _of_kind(
        sums,
        ("species", name),
        r,
        above=lambda at: (
            f"{name} stands in groups among the other stems: more of its own than by chance within a radius of {at} m"
        ),
        below=lambda at: (
            f"{name} is spread among the other stems: fewer of its own than by chance within a radius of {at} m"
        ),
        neither=f"{name} is not shown to be grouped or spread among the other stems",
    )


def _two_species(sums: Mapping[Any, Any], one: str, other: str, r: Floats) -> Curve | None:
    return _of_kind(
        sums,
        ("species", one, other),
        r,
        above=lambda at: (
            f"{one} and {other} stand together: more of the one around the other "
            f"than by chance within a radius of {at} m"
        ),
        below=lambda at: (
            f"{one} and {other} keep apart: fewer of the one around the other than by chance within a radius of {at} m"
        ),
        neither=f"{one} and {other} are not shown to stand together or to keep apart",
    )


def sizes_of(sums: Mapping[Any, Any], r: Floats) -> dict[str, Curve]:
    """The same of thick and thin stems, those above the median dbh of their plot and the others."""
    made = {name: _one_size(sums, name, r) for name in ("thick", "thin")}
    made["thick × thin"] = _of_kind(
        sums,
        ("size", "thick", "thin"),
        r,
        above=lambda at: (
            f"Thick and thin stems stand together: more of the one around the other "
            f"than by chance within a radius of {at} m"
        ),
        below=lambda at: (
            f"Thick and thin stems keep apart: fewer of the one around the other "
            f"than by chance within a radius of {at} m"
        ),
        neither="Thick and thin stems are not shown to stand together or to keep apart",
    )
    return {name: curve for name, curve in made.items() if curve is not None}


def _one_size(sums: Mapping[Any, Any], name: str, r: Floats) -> Curve | None:
    return _of_kind(
        sums,
        ("size", name),
        r,
        above=lambda at: (
            f"The {name} half of the stems stands in groups: more of its own than by chance within a radius of {at} m"
        ),
        below=lambda at: (
            f"The {name} half of the stems is spread: fewer of its own than by chance within a radius of {at} m"
        ),
        neither=f"The {name} half of the stems is not shown to be grouped or spread",
    )


def _kinds(sums: Mapping[Any, Any], what: str) -> list[str]:
    """Names of the kinds of which there are pairs."""
    return sorted(key[2] for key in sums if isinstance(key, tuple) and len(key) == 3 and key[:2] == ("pairs", what))


def _of_kind(
    sums: Mapping[Any, Any],
    key: tuple[str, ...],
    r: Floats,
    *,
    above: Callable[[str], str],
    below: Callable[[str], str],
    neither: str,
) -> Curve | None:
    """L(r) - r of one kind, or of two; None with fewer than eight stems of any."""
    stems = sums.get(("stems", *key), 0)
    if np.min(stems) < _FEWEST_OF_A_KIND:
        return None
    k = np.asarray(sums["within", *key]) / sums["pairs", *key]
    return against_chance(
        r,
        np.sqrt(k / math.pi) - r,
        stems=int(np.sum(stems)),
        plots=int(sums["plots", *key]),
        above=above,
        below=below,
        neither=neither,
    )
