"""Azimuths and distances carried over from the last visit to the last digit: they were not measured again."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from stemmap.survey.registry import Case

#: That azimuth and distance agree to the last digit is no chance where so many stems of a visit do, more than this
#: share of it; or so many of the survey.
_VISIT, _SURVEY, _SHARE = 4, 20, 0.5


def copied(case: Case) -> NDArray[np.bool_]:
    """Whether a stem carries azimuth and distance of a stem of the plot's last visit to the last digit; (stems,).

    Two honest measurements agree so now and then, more often where whole degrees and tenths of a metre are written;
    they do not for most stems of a visit.
    """
    again, count = case.once(_share)
    usual = (again >= _VISIT) & (again > _SHARE * count)
    found: NDArray[np.bool_] = case.once(_same) & (usual[case.survey.stems.visit_row] | case.once(_everywhere))
    return found


def _same(case: Case) -> NDArray[np.bool_]:
    stems, visits = case.survey.stems, case.survey.visits
    same = np.zeros(len(stems), bool)
    before = visits.previous[stems.visit_row]
    if not all(stems.records.has(name) for name in ("azimuth", "distance_m")):
        return same
    azimuth, distance = (stems.records.columns[name] for name in ("azimuth", "distance_m"))
    asked = np.flatnonzero(azimuth.filled & distance.filled & (before >= 0))
    if not len(asked):
        return same
    earlier = np.zeros(len(visits), bool)
    earlier[before[asked]] = True
    there = np.flatnonzero(azimuth.filled & distance.filled & earlier[stems.visit_row])
    # One number for visit and both texts; stems lie visit by visit, so that sorting and searching go fast.
    place = azimuth.alike() * len(distance.labels) + distance.alike()
    size = len(azimuth.labels) * len(distance.labels)
    wanted, known = before[asked] * size + place[asked], np.sort(stems.visit_row[there] * size + place[there])
    at = np.searchsorted(known, wanted)
    same[asked] = np.append(known, -1)[at] == wanted
    return same


def _share(case: Case) -> tuple[NDArray[np.int64], NDArray[np.int64]]:
    """Stems that agree with the last visit, and stems that have one, by visit."""
    stems, visits = case.survey.stems, len(case.survey.visits)
    has = stems.visit_row[case.survey.visits.previous[stems.visit_row] >= 0]
    return np.bincount(stems.visit_row[case.once(_same)], minlength=visits), np.bincount(has, minlength=visits)


def _everywhere(case: Case) -> bool:
    """Whether places are carried over as a rule of the survey."""
    if case.whole is not None:
        return case.whole.once(_everywhere)
    again, count = case.once(_share)
    return bool(again.sum() >= _SURVEY and again.sum() > _SHARE * count.sum())
