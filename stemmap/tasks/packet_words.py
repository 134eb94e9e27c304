"""What a crew reads before it goes out with a field packet."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import groupby

from stemmap.survey.packet import Packet
from stemmap.tasks.packet_plots import PacketPlots
from stemmap.tasks.workup import Workup

_CAUTION = (
    "Safety first: look out for storm-damaged and dead trees, hanging branches, steep or wet ground and "
    "weather; do not work alone, and say where you are and when you will be back; never look into the beam "
    "of a laser nor point it at anybody. The rules of your employer and of the place come before this "
    "packet. Maps and coordinates are no legal survey."
)
_SEARCH = "look from a second point for stems that others hide"
_UNITS = {
    "degree": "degrees",
    "gon": "gon",
    "mil_6400": "mils, 6400 to the circle",
    "mil_6300": "mils, 6300 to the circle",
    "mil_6000": "mils, 6000 to the circle",
}


def about_packet(
    workup: Workup, packet: Packet, chosen: PacketPlots, *, diameter: str, survey_file: str
) -> Iterator[str]:
    """Sentences for the crew: the title, the caution, what to do, then the plots in their order.

    Parameters
    ----------
    chosen
        The plots of the packet.
    diameter
        Field of the thickness that is measured.
    survey_file
        Name of the survey file.
    """
    name = workup.survey.settings.name or survey_file
    measured = sum(row.source is not None for row in packet.rows)
    plots = [(key, list(rows)) for key, rows in groupby(packet.rows, key=lambda row: (row.plot, row.visit, row.look))]
    yield f"Field packet {packet.name} of {name}: plots: {len(plots)}, stems to measure again: {measured}."
    yield _CAUTION
    yield _units(workup, diameter)
    yield (
        "Write into fill_in.xlsx or fill_in.csv, whichever suits you; one of them is enough. Decimal point "
        "or comma, and rows in any order, are all right. Leave packet and row as they are: by them each "
        "row is known again."
    )
    yield (
        "Cold rows show the former values. Measure without leaning on them, then write what you measured, "
        "also when it is the same."
    )
    if any(row.look == "blind" for row in packet.rows):
        yield (
            "Blind rows show no former value, on purpose: they tell how well anybody measures. Measure "
            "every stem of the plot anew; only the numbers that it may bear are told. Do not look the old "
            "values up."
        )
    yield (
        "found: yes when the stem stands or lies there; no when it is not there, and say under remark what "
        "you saw; new for a stem that no row names: write it into an empty row of its plot. An empty row "
        "may stay empty."
    )
    yield (
        "When the mark of a centre is lost: the sheet of a cold plot names three stems around it, with the "
        "direction to the centre and the level distance from the middle of each. Lay them off; where the "
        "three meet is the centre. If they miss each other by more than half a metre, one stem is not the "
        "one that is meant: try another. On a blind plot no stem is told; if you do not find the centre, "
        "write that under remark and go on, do not guess it."
    )
    yield f"What comes back is taken in by: stemmap remeasured {survey_file} fill_in.xlsx"
    yield hours_sentence(*chosen.hours(workup.survey.settings.recheck))
    yield ""
    yield "Plots in the order of plot_centres.gpx, those without coordinates last:"
    for number, ((plot, visit, look), rows) in enumerate(plots, start=1):
        count = sum(row.source is not None for row in rows)
        told = f"{number}. plot {plot}{f', visit {visit}' if visit else ''}: {look}, stems to measure: {count}"
        if chosen.searched(workup.survey.visit_row(plot, visit or "")):
            told = f"{told}; {_SEARCH}"
        yield told


def hours_sentence(cold: float, blind: float) -> str:
    """How long a crew takes for the plots that show their former values and for the blind ones, in words."""
    if not blind:
        return f"By the minutes in the settings a crew takes about {cold:.1f} hours."
    return f"By the minutes in the settings a crew takes about {cold + blind:.1f} hours, {blind:.1f} on blind plots."


def _units(workup: Workup, diameter: str) -> str:
    measurement = workup.survey.settings.measurement
    metric = measurement.length_unit == "metre"
    thick = "mm" if diameter == "dbh_mm" else "cm" if metric else "inches"
    what = "the girth" if diameter == "girth_cm" else "the dbh"
    to = "to the axis of the stem" if measurement.distance_to == "axis" else "to the face of the stem"
    return (
        f"Azimuths in {_UNITS[measurement.azimuth_unit]}, clockwise from {measurement.north} north. "
        f"Distances in {'metres' if metric else 'feet'}, "
        f"{'level' if measurement.distance == 'horizontal' else 'along the slope'}, {to}; "
        f"{what} in {thick} at {measurement.breast_height_m:g} m."
    )
