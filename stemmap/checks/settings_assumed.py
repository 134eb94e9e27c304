"""Settings that nobody said."""

from collections.abc import Iterator

import numpy as np

from stemmap.survey.batches import Batch
from stemmap.survey.registry import Case, check
from stemmap.survey.settings import assumed


@check("settings-assumed", family="import", severity="note", of_survey=True)
def settings_assumed(case: Case) -> Iterator[Batch]:
    """Units, north, design or errors were not said and had to be assumed.

    What: the settings file and the options leave these keys open; the values named hold instead.
    Why: an assumption can turn or stretch every plot without any single record looking wrong.
    What to do: confirm them once in the settings; then this note goes away.
    """
    values = assumed(case.survey.settings)
    if case.measured.crs is not None and not case.survey.settings.crs:
        values["survey.crs"] = case.measured.crs
    if values:
        listed = ", ".join(f"{key.split('.')[1]} = {value}" for key, value in values.items())
        yield case.about_files(
            1,
            "Not said, so assumed: {assumed}. Confirm them in the settings.",
            evidence={"assumed": np.array([listed], dtype=object)},
        )
