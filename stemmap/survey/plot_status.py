"""What became of a plot on a visit: measured, empty, non-forest or not reached."""

from __future__ import annotations

from enum import IntEnum
from types import MappingProxyType

import numpy as np
from numpy.typing import NDArray

from stemmap.survey.survey import Survey


class PlotStatus(IntEnum):
    """Status of a plot on a visit."""

    UNKNOWN = 0
    MEASURED = 1
    EMPTY = 2
    NON_FOREST = 3
    NOT_REACHED = 4


#: Words for the status as typed, compared without regard to case, hyphens and underscores. Common practice.
_WORDS = MappingProxyType(
    {
        "measured": PlotStatus.MEASURED,
        "done": PlotStatus.MEASURED,
        "gemessen": PlotStatus.MEASURED,
        "mesuré": PlotStatus.MEASURED,
        "empty": PlotStatus.EMPTY,
        "no stems": PlotStatus.EMPTY,
        "leer": PlotStatus.EMPTY,
        "vide": PlotStatus.EMPTY,
        "non forest": PlotStatus.NON_FOREST,
        "nonforest": PlotStatus.NON_FOREST,
        "nichtwald": PlotStatus.NON_FOREST,
        "non forêt": PlotStatus.NON_FOREST,
        "not reached": PlotStatus.NOT_REACHED,
        "not accessible": PlotStatus.NOT_REACHED,
        "nicht erreicht": PlotStatus.NOT_REACHED,
        "inaccessible": PlotStatus.NOT_REACHED,
    }
)


def plot_status(survey: Survey) -> NDArray[np.int8]:
    """`PlotStatus` of each visit; a visit with stems and no status was measured. Shape (visits,)."""
    words, place = survey.visits.words("plot_status")
    codes = [_WORDS.get(" ".join(word.casefold().replace("-", " ").replace("_", " ").split()), 0) for word in words]
    status = np.array(codes, np.int8)[place]
    silent = (status == PlotStatus.UNKNOWN) & (survey.visits.stem_count > 0)
    return np.where(silent, np.int8(PlotStatus.MEASURED), status)
