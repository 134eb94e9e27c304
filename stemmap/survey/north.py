"""Which north azimuths were counted from, and how far it lies from true north and from the grid of the results."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from stemmap.core import bearings
from stemmap.survey.place import Centres, coordinate_system
from stemmap.survey.survey import Survey

Floats = NDArray[np.float64]


@dataclass(frozen=True)
class North:
    """Degrees between the norths by visit, clockwise positive; shape (visits,).

    Parameters
    ----------
    declination_deg
        Magnetic declination; 0 when azimuths are not magnetic, NaN when it is needed and not known.
    convergence_deg
        From true north to grid north of the results; 0 in a local frame.
    to_true
        Added to an azimuth as typed gives a true azimuth; NaN when the declination is not known.
    to_grid
        Added to an azimuth as typed gives a grid azimuth; an unknown declination counts as zero.
    """

    declination_deg: Floats
    convergence_deg: Floats
    to_true: Floats
    to_grid: Floats


def north(survey: Survey, places: Centres, crs: str | None) -> North:
    """North of every visit.

    Parameters
    ----------
    places
        Plot centres.
    crs
        Coordinate system of the results; None: a local frame.
    """
    none = np.zeros(len(survey.visits))
    located = np.isfinite(places.lon)
    target = none.copy()
    if crs is not None and located.any():
        target[located] = bearings.convergence(places.lon[located], places.lat[located], coordinate_system(crs))
    reference = survey.settings.measurement.north
    if reference == "grid":
        # Grid north is that of the plot's own system where the centre is given in one.
        own = target.copy()
        for text, rows in places.by_system():
            system = coordinate_system(text)
            if system.is_projected and text != crs:
                own[rows] = bearings.convergence(places.lon[rows], places.lat[rows], system)
        return North(none, target, own, own - target)
    declination = _declination(survey, places) if reference == "magnetic" else none
    drawn = np.where(np.isnan(declination), 0.0, declination)
    return North(declination, target, declination, drawn - target)


def _declination(survey: Survey, places: Centres) -> Floats:
    """Declination by visit: the plot's own, else the settings', else computed for place and day."""
    declination = survey.visits.numbers("declination_deg")
    said = survey.settings.measurement.declination_deg
    if said is not None:
        declination = np.where(np.isnan(declination), said, declination)
    rows = np.flatnonzero(np.isnan(declination) & np.isfinite(places.lon) & ~np.isnat(survey.visits.date))
    if len(rows):
        declination[rows] = bearings.declination(
            places.lon[rows],
            places.lat[rows],
            survey.visits.numbers("elevation_m")[rows],
            survey.visits.date[rows],
        )
    return declination
