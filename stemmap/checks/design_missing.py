"""No radius, no circles or no basal area factor."""

from collections.abc import Iterator

import numpy as np

from stemmap.survey.batches import Batch
from stemmap.survey.plot_status import PlotStatus, plot_status
from stemmap.survey.registry import Case, check


@check("design-missing", family="import", severity="warning", of_survey=True)
def design_missing(case: Case) -> Iterator[Batch]:
    """The sampling design lacks a figure without which nothing can be said per hectare.

    What: a fixed circle without radius, concentric circles without circles, or an angle count without factor; or
    figures of one kind of design beside the name of another.
    Why: neither in or out nor stems per hectare can be known.
    What to do: give the radius in the plots table, in the settings or with --radius; the circles in the settings.
    """
    design, measured = case.survey.settings.design, case.measured
    for given, kind, word in (
        (bool(design.circles), "concentric", "circles"),
        (design.basal_area_factor is not None, "angle_count", "basal_area_factor"),
    ):
        if given and design.kind != kind:
            message = f'The settings give {word}, which the kind "{design.kind}" does not use; was "{kind}" meant?'
            yield case.about_files(1, message, about=np.array([word], object))
    if design.kind == "fixed":
        status = plot_status(case.survey)
        wanted = (status == PlotStatus.MEASURED) | (case.survey.visits.stem_count > 0)
        rows = np.flatnonzero(np.isnan(measured.radius_m) & wanted)
        if len(rows) and len(rows) == np.count_nonzero(wanted):
            yield case.about_files(
                1,
                "No plot radius was given: set it under Settings in the window, with --radius, or as radius_m in the "
                "settings file.",
                field="radius_m",
            )
        else:
            yield case.about_visits(rows, "Plot {plot} has no radius; nothing is said per hectare.", field="radius_m")
    elif design.kind == "concentric" and not design.circles:
        yield case.about_files(1, "The design is concentric, but no circles are given in the settings.")
    elif design.kind == "angle_count" and design.basal_area_factor is None:
        yield case.about_files(1, "The design is an angle count, but no basal_area_factor is given in the settings.")
