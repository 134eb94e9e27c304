"""Plots that cannot be placed on the ground."""

from collections.abc import Iterator

import numpy as np

from stemmap.survey.batches import Batch
from stemmap.survey.registry import Case, check


@check("centre-unknown", family="import", severity="note", of_survey=True)
def centre_unknown(case: Case) -> Iterator[Batch]:
    """A plot centre has no coordinates, or they cannot be used.

    What: neither longitude and latitude nor easting and northing with a known coordinate system.
    Why: the plot is drawn around its own centre, but cannot be exported with coordinates.
    What to do: give coordinates, or the coordinate system (crs in the settings or in the plots table).
    """
    places, visits = case.measured.centres, case.survey.visits
    for text in places.unusable:
        yield case.about_files(
            1,
            "The coordinate system {text} is not known; write an EPSG code such as EPSG:25832.",
            field="crs",
            evidence={"text": np.array([text], dtype=object)},
            about=np.array([text], dtype=object),
        )
    given = np.isfinite(visits.numbers("easting")) & np.isfinite(visits.numbers("northing"))
    nowhere = np.isnan(places.lon)
    without = np.flatnonzero(nowhere & given & (places.system < 0))
    plots = len(set(visits.plot[without].tolist()))
    if plots > 1 and not places.unusable:
        yield case.about_files(
            1,
            "The coordinate system of easting and northing is not known, so {plots} plots are drawn around their own "
            "centres: choose it under Settings in the window, or give crs in the settings file.",
            field="crs",
            severity="warning",
            evidence={"plots": np.array([plots])},
        )
    else:
        yield case.about_visits(
            without,
            "Plot {plot} has easting and northing but no known coordinate system; it is drawn around its own centre.",
            field="crs",
            severity="warning",
        )
    outside = np.flatnonzero(nowhere & (places.system >= 0))
    yield case.about_visits(
        outside,
        "Plot {plot}: the coordinates lie outside their coordinate system; it is drawn around its own centre.",
        field="easting",
        severity="error",
    )
    half = np.zeros(len(visits), bool)
    for first, second in (("lon", "lat"), ("easting", "northing")):
        half |= np.isfinite(visits.numbers(first)) ^ np.isfinite(visits.numbers(second))
    off_earth = np.isfinite(visits.numbers("lon")) & np.isfinite(visits.numbers("lat"))
    for chosen, message in (
        (half, "Plot {plot} has one coordinate without the other; it is drawn around its own centre."),
        (off_earth, "Plot {plot}: there is no such longitude and latitude; it is drawn around its own centre."),
    ):
        rows = np.flatnonzero(nowhere & ~given & chosen)
        yield case.about_visits(rows, message, field="lon" if chosen is off_earth else None, severity="warning")
    if not nowhere.all():
        rows = np.flatnonzero(nowhere & ~given & ~half & ~off_earth & visits.described)
        yield case.about_visits(rows, "Plot {plot} has no coordinates; it is drawn around its own centre.")
