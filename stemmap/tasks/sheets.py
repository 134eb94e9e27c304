"""Plot maps at true scale as PDF, PNG or SVG."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

from stemmap.errors import InputError
from stemmap.progress import Progress
from stemmap.tasks.workup import Workup
from stemmap.writing.output import safe_name


def chosen_visits(workup: Workup, plots: Sequence[str] | None) -> list[int]:
    """The last visit of each plot, of the plots named or of all.

    Raises
    ------
    InputError
        When a plot is not there.
    """
    visits = workup.survey.visits
    last = {str(plot): row for row, plot in enumerate(visits.plot)}
    if plots is None:
        return sorted(last.values())
    missing = [plot for plot in plots if plot not in last]
    if missing:
        raise InputError(f"There is no plot {', '.join(missing)}; there are {', '.join(list(last)[:10])} ...")
    return [last[plot] for plot in plots]


def numbered_names(stem: str, names: Sequence[str]) -> list[str]:
    """File names for data names that stay distinct on every system."""
    made: dict[str, int] = {}
    result = []
    for name in names:
        base = safe_name(f"{stem}_{name}" if stem else name)
        again = made[base.casefold()] = made.get(base.casefold(), 0) + 1
        result.append(base if again == 1 else f"{base}_{again}")
    return result
