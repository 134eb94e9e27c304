"""Per-hectare values of plots and indices of density; all plots at once.

Stems are columns sorted by plot; the stems of plot i are the rows offsets[i] to offsets[i + 1] - 1.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike, NDArray

from stemmap.errors import InputError

FloatArray = NDArray[np.float64]
IntArray = NDArray[np.int64]


@dataclass(frozen=True)
class StandValues:
    """Per-hectare values, one a plot (or one a group of stems).

    Attributes
    ----------
    stems
        Number of stems that count.
    stems_per_ha
        Sum of their expansion factors; NaN where one of them is unknown.
    basal_area
        Basal area, m²/ha; NaN where a stem that counts has no dbh.
    basal_area_measured
        The part of it that the stems with a dbh make up, m²/ha: what it is at least.
    qmd
        Quadratic mean diameter, cm; NaN without stems and where a stem that counts has no dbh.
    without_dbh
        Number of stems that count but have no dbh.
    """

    stems: IntArray
    stems_per_ha: FloatArray
    basal_area: FloatArray
    basal_area_measured: FloatArray
    qmd: FloatArray
    without_dbh: IntArray


@dataclass(frozen=True)
class GroupValues:
    """Values of the stems of one group (species) in one plot, for every pair that occurs.

    Attributes
    ----------
    plot, group
        Plot number and group code of each row, sorted.
    values
        The values of each row.
    """

    plot: IntArray
    group: IntArray
    values: StandValues


@dataclass(frozen=True)
class DbhClasses:
    """Stems per hectare by dbh class.

    Attributes
    ----------
    edges
        Class limits, cm, shape (classes + 1,); a stem on a limit belongs to the class above it.
    stems_per_ha
        Shape (plots, classes).
    without_dbh
        Number of stems that count but fall in no class for want of a dbh, one a plot.
    """

    edges: FloatArray
    stems_per_ha: FloatArray
    without_dbh: IntArray


def sum_by_plot(values: ArrayLike, offsets: ArrayLike) -> FloatArray:
    """Sum the values of each plot's stems; an empty plot is zero.

    Parameters
    ----------
    values
        One a stem, shape (n,), sorted by plot.
    offsets
        First row of each plot and the number of stems at the end, shape (plots + 1,).

    Examples
    --------
    >>> sum_by_plot([1.0, 2.0, 4.0], [0, 2, 2, 3])
    array([3., 0., 4.])
    """
    start = np.asarray(offsets, dtype=np.int64)
    total = np.zeros(len(start) - 1)
    filled = np.diff(start) > 0
    if filled.any():
        # reduceat gives a single value, not zero, for an empty piece, so only the filled ones are asked for.
        total[filled] = np.add.reduceat(np.asarray(values, dtype=np.float64), start[:-1][filled])
    return total


def stand_values(
    dbh: ArrayLike, expansion: ArrayLike, offsets: ArrayLike, *, counted: ArrayLike | None = None
) -> StandValues:
    """Compute stems per hectare, basal area and quadratic mean diameter of every plot.

    N = Σ f, G = Σ f π/4 (d/100)², Dq = √(Σ f d² / Σ f), f the expansion factor, d dbh in cm.

    Parameters
    ----------
    dbh
        cm, shape (n,), sorted by plot; NaN: not measured.
    expansion
        Stems per hectare that each stem stands for, shape (n,).
    offsets
        First row of each plot and the number of stems at the end, shape (plots + 1,).
    counted
        Which stems count, shape (n,); all when not given.

    Examples
    --------
    >>> stand_values([20, 25, 30, 35, 40], [20] * 5, [0, 5]).basal_area.round(6)
    array([7.461283])
    """
    diameter = np.asarray(dbh, dtype=np.float64)
    counts = _counts(counted, len(diameter))
    factor = np.where(counts, np.asarray(expansion, dtype=np.float64), 0.0)
    without = counts & np.isnan(diameter)
    per_ha = sum_by_plot(factor, offsets)
    squares = sum_by_plot(np.where(without | ~counts, 0.0, factor * diameter**2), offsets)
    missing = sum_by_plot(without, offsets).astype(np.int64)
    measured = math.pi / 40_000.0 * squares
    mean_square = np.divide(squares, per_ha, out=np.full_like(squares, np.nan), where=per_ha > 0.0)
    return StandValues(
        stems=sum_by_plot(counts, offsets).astype(np.int64),
        stems_per_ha=per_ha,
        basal_area=np.where(missing > 0, np.nan, measured),
        basal_area_measured=measured,
        qmd=np.where(missing > 0, np.nan, np.sqrt(mean_square)),
        without_dbh=missing,
    )


def stand_values_by_group(
    dbh: ArrayLike,
    expansion: ArrayLike,
    offsets: ArrayLike,
    group: ArrayLike,
    *,
    counted: ArrayLike | None = None,
) -> GroupValues:
    """Compute the values of `stand_values` for every group (species) of every plot.

    Only pairs of plot and group that occur among the stems that count get a row, so that forty thousand plots
    and hundreds of species stay small.

    Parameters
    ----------
    dbh, expansion, offsets, counted
        As in `stand_values`.
    group
        Whole number of each stem's group, shape (n,).
    """
    start = np.asarray(offsets, dtype=np.int64)
    plot = np.repeat(np.arange(len(start) - 1), np.diff(start))
    code = np.asarray(group, dtype=np.int64)
    rows = np.flatnonzero(_counts(counted, len(code)))
    rows = rows[np.lexsort((code[rows], plot[rows]))]
    plot, code = plot[rows], code[rows]
    new = np.append(True, (np.diff(plot) != 0) | (np.diff(code) != 0))[: len(rows)]
    first = np.flatnonzero(new)
    return GroupValues(
        plot=plot[first],
        group=code[first],
        values=stand_values(
            np.asarray(dbh, dtype=np.float64)[rows],
            np.asarray(expansion, dtype=np.float64)[rows],
            np.append(first, len(rows)),
        ),
    )


def dbh_classes(
    dbh: ArrayLike,
    expansion: ArrayLike,
    offsets: ArrayLike,
    *,
    width: float = 5.0,
    counted: ArrayLike | None = None,
) -> DbhClasses:
    """Distribute the stems per hectare of every plot over dbh classes of one width, from zero up.

    Parameters
    ----------
    dbh, expansion, offsets, counted
        As in `stand_values`.
    width
        Width of a class, cm.

    Raises
    ------
    InputError
        When the width is not a positive number.
    """
    if not (math.isfinite(width) and width > 0.0):
        raise InputError(f"A dbh class needs a positive width in centimetres, not {width}.")
    start = np.asarray(offsets, dtype=np.int64)
    diameter = np.asarray(dbh, dtype=np.float64)
    counts = _counts(counted, len(diameter))
    known = counts & np.isfinite(diameter)
    plot = np.repeat(np.arange(len(start) - 1), np.diff(start))[known]
    # A billionth of a class keeps 0.3 cm out of the class below 0.3 cm.
    number = np.floor(diameter[known] / width + 1e-9).astype(np.int64)
    classes = int(number.max(initial=0)) + 1
    factor = np.asarray(expansion, dtype=np.float64)[known]
    per_ha = _weighted_count(plot * classes + number, factor, size=(len(start) - 1) * classes)
    return DbhClasses(
        edges=width * np.arange(classes + 1, dtype=np.float64),
        stems_per_ha=per_ha.reshape(-1, classes),
        without_dbh=sum_by_plot(counts & ~known, start).astype(np.int64),
    )


def reineke(stems_per_ha: ArrayLike, qmd: ArrayLike, *, reference_cm: float = 25.4) -> FloatArray:
    """Stand density index: how many stems of the reference diameter would crowd the stand as much, stems/ha.

    SDI = N (Dq / Dr)^1.605. It carries the unit of N, so that figures per acre and per hectare do not compare.

    Parameters
    ----------
    stems_per_ha, qmd
        Stems per hectare and quadratic mean diameter, cm.
    reference_cm
        25.4 cm (10 inches) as published; in parts of Europe 25 cm.

    References
    ----------
    Reineke, L. H. (1933). Perfecting a stand-density index for even-aged forests. J. Agric. Res. 46(7), 627-638.

    Examples
    --------
    >>> float(reineke(494.1, 31.0).round(1))
    680.3
    """
    number, diameter = np.asarray(stems_per_ha, np.float64), np.asarray(qmd, np.float64)
    return np.asarray(number * (diameter / reference_cm) ** 1.605)


def reineke_summed(
    dbh: ArrayLike,
    expansion: ArrayLike,
    offsets: ArrayLike,
    *,
    counted: ArrayLike | None = None,
    reference_cm: float = 25.4,
) -> FloatArray:
    """Stand density index summed stem by stem, for stands that are not even-aged: Σ f (d / Dr)^1.605, stems/ha.

    NaN where a stem that counts has no dbh.

    Parameters
    ----------
    dbh, expansion, offsets, counted
        As in `stand_values`.
    reference_cm
        As in `reineke`.

    References
    ----------
    Long, J. N., Daniel, T. W. (1990). Assessment of growing stock in uneven-aged stands. West. J. Appl. For. 5(3).
    """
    diameter = np.asarray(dbh, dtype=np.float64)
    each = np.asarray(expansion, dtype=np.float64) * (diameter / reference_cm) ** 1.605
    return sum_by_plot(np.where(_counts(counted, len(diameter)), each, 0.0), offsets)


def relative_density(basal_area: ArrayLike, qmd: ArrayLike) -> FloatArray:
    """Relative density G / √Dq, basal area in m²/ha and quadratic mean diameter in cm.

    Parameters
    ----------
    basal_area, qmd
        m²/ha, cm.

    References
    ----------
    Curtis, R. O. (1982). A simple index of stand density for Douglas-fir. Forest Science 28(1), 92-94.

    Examples
    --------
    >>> float(relative_density(50.0, 25.0))
    10.0
    """
    return np.asarray(np.asarray(basal_area, np.float64) / np.sqrt(np.asarray(qmd, np.float64)))


def _counts(counted: ArrayLike | None, stems: int) -> NDArray[np.bool_]:
    """Tell which stems count: all when nothing is said."""
    return np.ones(stems, dtype=np.bool_) if counted is None else np.asarray(counted, dtype=np.bool_)


def _weighted_count(code: IntArray, weights: FloatArray, *, size: int) -> FloatArray:
    """Sum the weights of each code; numpy is annotated as if these were whole numbers."""
    return np.asarray(np.bincount(code, weights=weights, minlength=size), dtype=np.float64)
