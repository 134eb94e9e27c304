"""The values that suspected records most likely mean, each with the probability of all that is as good as the same."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from stemmap.checks.evidence.meanings import ANYTHING, LINE_ABOVE
from stemmap.checks.evidence.posterior import Posterior, posterior
from stemmap.checks.evidence.typed import typed
from stemmap.core.locate import dbh_sd
from stemmap.survey.registry import Case

Floats = NDArray[np.float64]
Integers = NDArray[np.int64]

#: Proposals a finding gives.
MOST = 3
#: Probability below which a value is not worth proposing.
LEAST = 0.02
_NOTHING = 1e-5
#: Values of one quantity this many standard deviations apart mean the same place.
_SAME = 2.0


@dataclass(frozen=True)
class Proposed:
    """The most likely meanings of each suspect, best first; shape (suspects, MOST).

    Parameters
    ----------
    meaning
        Row among the meanings; -1: none.
    probability
        Of all meanings as good as the same, 0 where there is none.
    """

    meaning: Integers
    probability: Floats


def proposed(case: Case) -> Proposed:
    """Pick up to three meanings a suspect; each takes those with it that measuring could not tell from it."""
    found: Posterior = case.once(posterior)
    meant, owner = found.meant, found.meant.owner
    count = len(found.doubted.rows)
    # What is this improbable adds to no proposal.
    certain = (meant.quantity >= 0) & (meant.slip != ANYTHING) & (meant.slip != LINE_ABOVE)
    kept = np.flatnonzero(certain & (found.weight > _NOTHING))
    owner, quantity, value, left = owner[kept], meant.quantity[kept], meant.value[kept], found.weight[kept]
    tolerance = _tolerance(case, found)[kept]
    full = 360.0 / case.once(typed).degrees
    meaning, probability = np.full((count, MOST), -1, np.int64), np.zeros((count, MOST))
    for place in range(MOST):
        order = np.lexsort((-left, owner))
        first = np.append(True, np.diff(owner[order]) != 0)[: len(order)]
        best = np.full(count, -1, np.int64)
        best[owner[order[first]]] = order[first]
        chosen = best[owner]
        apart = np.abs(value - value[chosen])
        apart = np.where(quantity == 0, np.minimum(apart % full, full - apart % full), apart)
        same = (quantity == quantity[chosen]) & (apart <= tolerance)
        taken = np.bincount(owner, np.where(same, left, 0.0), minlength=count)
        good = (taken >= LEAST) & (best >= 0)
        meaning[:, place] = np.where(good, np.append(kept, -1)[best], -1)
        probability[:, place] = np.where(good, taken, 0.0)
        left = np.where(same, 0.0, left)
    return Proposed(meaning, probability)


def _tolerance(case: Case, found: Posterior) -> Floats:
    errors, as_typed, meant = case.survey.settings.errors, case.once(typed), found.meant
    stem = found.doubted.rows[meant.owner]
    azimuth = np.full(len(stem), errors.azimuth_sd_deg / as_typed.degrees)
    distance = (errors.distance_sd_m + errors.distance_sd_percent / 100.0 * meant.distance_m) / as_typed.per_metre[stem]
    diameter = dbh_sd(meant.dbh_cm, errors) / as_typed.per_centimetre
    return _SAME * np.choose(np.maximum(meant.quantity, 0), [azimuth, distance, np.maximum(diameter, 0.1)])
