"""The field packet: plot sheets, a table to fill in, the way to the plots, and what a crew must know."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace
from pathlib import Path

import numpy as np

from stemmap.errors import InputError, OutputError
from stemmap.progress import Progress
from stemmap.store.packets import add_packet
from stemmap.store.survey_file import is_survey_file, opened
from stemmap.survey.lost_centre import KnownStems, known_stems
from stemmap.survey.measured import measure
from stemmap.survey.packet import Packet
from stemmap.survey.withheld import without_values
from stemmap.tasks.packet_plots import Errand, PacketPlots, measured_fields, packet_rows, plots_of_packet, words_of
from stemmap.tasks.packet_words import about_packet, hours_sentence
from stemmap.tasks.sheets import SheetOptions, write_visits
from stemmap.tasks.workup import Workup, open_uploads
from stemmap.writing.fill_in import FillInTable, write_fill_in_csv, write_fill_in_workbook
from stemmap.writing.gpx import Waypoint, write_gpx
from stemmap.writing.output import text_output

#: Names of the files in the folder.
SHEETS, TABLE, WORKBOOK, CENTRES, ABOUT = (
    *("plot_sheets.pdf", "fill_in.csv", "fill_in.xlsx", "plot_centres.gpx", "read_me_first.txt"),
)

#: More rows than this are no errand for crews.
MOST_ROWS = 100_000


@dataclass(frozen=True)
class MadePacket:
    """A packet that was written.

    Parameters
    ----------
    name
        Its name, which stands on every row.
    folder
        Where the files are.
    cold, blind
        Number of plots that show their former values, and of those that do not.
    stems
        Number of stems to measure again.
    hours
        Crew time on plots that show their former values, and on blind ones, by the minutes in the settings.
    without_place
        Plots whose centre is on no map.
    """

    name: str
    folder: Path
    cold: int
    blind: int
    stems: int
    hours: tuple[float, float]
    without_place: tuple[str, ...]

    def sentence(self) -> str:
        """What was made, in words."""
        said = (
            f"Field packet {self.name} is in {self.folder}: plots with former values: {self.cold}, blind "
            f"plots: {self.blind}, stems to measure again: {self.stems}. {hours_sentence(*self.hours)}"
        )
        if self.without_place:
            names = ", ".join(self.without_place[:10])
            said += (
                f" No coordinates are known of {len(self.without_place)} plots, so they are not in {CENTRES}: {names}."
            )
        return said


def make_packet(
    survey_path: Path,
    folder: Path,
    errand: Errand,
    *,
    who: str,
    scale: int | None = None,
    paper: str = "A4",
    wording: Callable[[str], str] = str,
    progress: Progress | None = None,
) -> MadePacket:
    """Make a field packet from a survey file, which keeps what was sent out.

    A cold plot comes with the former values of its last visit. A blind plot, drawn by chance beside the others, is
    measured as if nobody had been there: the crew is told the centre, the circle and the numbers that its stems may
    bear, and no value in any file.

    Parameters
    ----------
    scale, paper, wording
        As in `SheetOptions`; in the same words everything else is told to the crew.

    Raises
    ------
    InputError
        When there is no such survey file, plot or share, or no plot is left.
    OutputError
        When the survey file or the folder cannot be written, or a packet lies in the folder already.
    Cancelled
        When `progress` says so; the packet is stored then, and making it again makes the same.
    """
    progress = progress or Progress()
    if not who.strip():
        raise InputError("Nobody is named who makes the packet; say it with --who NAME.")
    if not is_survey_file(survey_path):
        raise InputError(
            f"{survey_path.name} is no survey file, which keeps what is sent out; make one with stemmap add."
        )
    _check_folder(folder)
    workup = open_uploads([survey_path], progress=progress)
    plots = plots_of_packet(workup, errand)
    measured = measured_fields(workup, plots)
    packet = Packet(errand.asked, errand.share, errand.seed, tuple(packet_rows(workup.survey, plots, list(measured))))
    if len(packet.rows) > MOST_ROWS:
        raise InputError(f"The packet would have {len(packet.rows)} rows; name fewer plots, or give --budget-hours.")
    _make_folder(folder)
    progress.step("Storing the packet")
    with opened(survey_path, write=True) as survey_file, survey_file.writing() as connection:
        add_packet(connection, packet, who=who)
    table = FillInTable(packet.name, packet.rows, measured, *words_of(workup.survey))
    said = about_packet(workup, packet, plots, diameter=list(measured)[-1], survey_file=survey_path.name)
    about = list(map(wording, said))
    options = SheetOptions(scale, paper, wording=wording)
    _write_files(workup, plots, folder, table, about=about, options=options, progress=progress)
    placed = np.isfinite(workup.measured.centres.lon)
    return MadePacket(
        name=packet.name,
        folder=folder,
        cold=len(plots.order) - len(plots.blind),
        blind=len(plots.blind),
        stems=sum(row.source is not None for row in packet.rows),
        hours=plots.hours(workup.survey.settings.recheck),
        without_place=tuple(str(workup.survey.visits.plot[row]) for row in plots.order if not placed[row]),
    )


def _check_folder(folder: Path) -> None:
    there = [name for name in (SHEETS, TABLE, WORKBOOK, CENTRES, ABOUT) if (folder / name).exists()]
    if there:
        raise OutputError(f"{folder} holds a packet already ({there[0]}); nothing was written. Name another folder.")


def _make_folder(folder: Path) -> None:
    try:
        folder.mkdir(parents=True, exist_ok=True)
    except OSError as fault:
        raise OutputError(f"{folder} cannot be made: {fault.strerror or fault}. Choose another place.") from fault


def _write_files(
    workup: Workup,
    plots: PacketPlots,
    folder: Path,
    table: FillInTable,
    *,
    about: list[str],
    options: SheetOptions,
    progress: Progress,
) -> None:
    progress.step("Writing the table to fill in")
    write_fill_in_csv(table, folder / TABLE)
    write_fill_in_workbook(table, folder / WORKBOOK, about=about, wording=options.wording)
    name = options.wording(f"Field packet {table.packet}")
    write_gpx(_waypoints(workup, plots, options.wording), folder / CENTRES, name=name, about=about[1])
    with text_output(folder / ABOUT) as stream:
        stream.writelines(f"{sentence}\n" for sentence in about)
    known = {row: found for row in plots.order if row not in plots.blind and (found := _known(workup, row))}
    hidden = without_values(workup.survey, sorted(plots.blind))
    # Findings and summary are those of the whole survey; of blind plots the sheets show neither.
    shown = Workup(hidden, measure(hidden), workup.findings, workup.summary, workup.fieldwork, workup.case)
    write_visits(
        shown,
        folder / SHEETS,
        plots.order,
        replace(options, again=plots.again, known=known, blind=plots.blind, packet=table.packet),
        progress=progress,
    )


def _known(workup: Workup, row: int) -> KnownStems | None:
    doubted = {each.stem_row for each in workup.findings.of_visit(row) if each.severity != "note"}
    return known_stems(workup.survey, workup.measured, row, doubted=doubted)


def _waypoints(workup: Workup, plots: PacketPlots, wording: Callable[[str], str]) -> list[Waypoint]:
    centres, names = workup.measured.centres, workup.survey.visits.plot
    return [
        Waypoint(
            float(centres.lon[row]),
            float(centres.lat[row]),
            str(names[row]),
            wording("Plot centre, blind check." if row in plots.blind else "Plot centre, former values on the sheet."),
        )
        for row in plots.order
        if np.isfinite(centres.lon[row])
    ]
