"""Plot sheets at true scale: one PDF of many pages with a contents page, or a PNG or SVG file a plot."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace
from datetime import date
from pathlib import Path
from types import MappingProxyType
from typing import TYPE_CHECKING

from stemmap.errors import InputError, OutputError
from stemmap.progress import Progress
from stemmap.survey.batches import SEVERITIES
from stemmap.tasks.recheck import RecheckList
from stemmap.tasks.workup import Workup
from stemmap.writing.output import distinct_file_names

if TYPE_CHECKING:
    from stemmap.drawing.contents import ContentsLine
    from stemmap.drawing.layers import Layers
    from stemmap.drawing.page import Page
    from stemmap.survey.lost_centre import KnownStems


@dataclass(frozen=True)
class SheetOptions:
    """How sheets are made.

    Parameters
    ----------
    scale
        Denominator, 100 for 1:100; None: the largest of the usual scales that fits each plot.
    paper
        "A4", "A3" or "Letter".
    printed
        Day of printing, for the sheet's head; None: it is not said.
    wording
        Gives the sentence of a finding in the reader's language.
    again
        By row of the visit the rows of the stems that a re-check list asks for, as `RecheckList.by_visit` gives them.
    known
        By row of the visit the stems from which a lost centre is found.
    blind
        Rows of the visits that are measured without knowing what was recorded; the survey must not have it.
    packet
        Name of the field packet to which the sheets belong; empty: none.
    """

    scale: int | None = None
    paper: str = "A4"
    printed: date | None = None
    wording: Callable[[str], str] = str
    again: Mapping[int, Sequence[int]] = field(default_factory=lambda: MappingProxyType({}))
    known: Mapping[int, KnownStems] = field(default_factory=lambda: MappingProxyType({}))
    blind: frozenset[int] = frozenset()
    packet: str = ""


_USUAL = SheetOptions()


def write_sheets(
    workup: Workup,
    path: Path | str,
    *,
    plots: Sequence[str] | None = None,
    scale: int | None = None,
    paper: str = "A4",
    printed: date | None = None,
    doubtful: bool = False,
    every_visit: bool = False,
    recheck: RecheckList | None = None,
    progress: Progress | None = None,
) -> list[Path]:
    """Write the sheets of plots.

    Parameters
    ----------
    path
        Ends in .pdf: one file with the pages of each plot, and at its end the contents. In .png or .svg: one file a
        plot, the plot's name added, unless there is only one plot; further pages stand below the first.
    plots
        Names of the plots wanted, in this order; None: all.
    scale, paper, printed
        As in `SheetOptions`.
    doubtful
        Whether only visits with an error or something to look at are wanted.
    every_visit
        Whether every visit is wanted; else the last one of each plot.
    recheck
        A list whose plots are wanted instead, in its order; their sheets say what is to be measured again.

    Returns
    -------
    The files written.

    Raises
    ------
    InputError
        When a plot, the ending, the paper or the scale cannot be.
    OutputError
        When a file cannot be written, or no plot is left to draw.
    Cancelled
        When `progress` says so.
    """
    again = {} if recheck is None else recheck.by_visit
    rows = (
        list(again) if recheck is not None else chosen_visits(workup, plots, doubtful=doubtful, every_visit=every_visit)
    )
    if not rows:
        which = " with an error or something to look at" if doubtful else ""
        which = which if recheck is None else " on the re-check list"
        raise OutputError(f"There is no plot{which} to draw, so {path} was not written.")
    return write_visits(workup, path, rows, SheetOptions(scale, paper, printed, again=again), progress=progress)


def write_visits(
    workup: Workup,
    path: Path | str,
    rows: Sequence[int],
    options: SheetOptions = _USUAL,
    *,
    progress: Progress | None = None,
) -> list[Path]:
    """Write the sheets of some visits, at least one, as `write_sheets` does.

    Raises
    ------
    InputError, OutputError, Cancelled
        As for `write_sheets`.
    """
    progress, path = progress or Progress(), Path(path)
    form = path.suffix.lower()
    if form not in (".pdf", ".png", ".svg"):
        raise InputError(f"{path.name}: a plot sheet ends in .pdf, .png or .svg.")
    from stemmap.drawing.application import application

    application(offscreen=True)
    from stemmap.drawing import targets
    from stemmap.drawing.page import stacked

    if form == ".pdf":
        pages = document(workup, rows, options, progress=progress)
        targets.write_pdf(pages, path, title=workup.survey.settings.name or path.stem)
        return [path]
    write = targets.write_png if form == ".png" else targets.write_svg
    files = [path]
    if len(rows) > 1:
        visits = workup.survey.visits
        several = len({str(visits.plot[row]) for row in rows}) < len(rows)
        names = distinct_file_names(
            "_".join([path.stem, str(visits.plot[row]), *([str(visits.visit[row])] if several else [])]) for row in rows
        )
        files = [path.with_name(name + path.suffix) for name in names]
    for file, pages_of_plot in zip(files, _sheets(workup, rows, options, progress=progress), strict=True):
        write(stacked(pages_of_plot), file)
    return files


def document(
    workup: Workup, rows: Sequence[int], options: SheetOptions = _USUAL, *, progress: Progress
) -> Iterator[Page]:
    """Pages of the sheets of visits, one after the other as they are asked for, and the contents at the end.

    A single sheet has no contents. Whether all sheets can be made is known before the first is.

    Raises
    ------
    InputError
        When the paper or the scale cannot be.
    Cancelled
        When `progress` says so.
    """
    from stemmap.drawing.contents import describe_contents

    lines: list[ContentsLine] = []
    number, many = 1, len(rows) > 1
    for row, pages in zip(rows, _sheets(workup, rows, options, progress=progress, numbered=many), strict=True):
        lines.append(_contents_line(workup, row, number, blind=row in options.blind))
        number += len(pages)
        yield from pages
    if many:
        name = workup.survey.settings.name
        yield from describe_contents(lines, name=name, paper=options.paper, first_number=number)


def _sheets(
    workup: Workup, rows: Sequence[int], options: SheetOptions, *, progress: Progress, numbered: bool = False
) -> Iterator[tuple[Page, ...]]:
    from stemmap.drawing.sheet import SheetStyle, describe_sheet, sheet_scale

    style = SheetStyle.of(
        workup.survey,
        workup.measured,
        paper=options.paper,
        scale=options.scale,
        printed=options.printed,
        packet=options.packet,
    )
    for row in rows:
        sheet_scale(style, row)
    number = 1
    for place, row in enumerate(rows):
        progress.step(f"Drawing plot {workup.survey.visits.plot[row]}", place / len(rows))
        blind = row in options.blind
        findings = [] if blind else workup.findings.of_visit(row)
        pages = describe_sheet(
            style,
            row,
            findings=[replace(each, message=options.wording(each.message)) for each in findings],
            again=options.again.get(row, ()),
            known=options.known.get(row),
            blind=blind,
            first_number=number if numbered else None,
        )
        number += len(pages)
        yield pages


def plot_picture(workup: Workup, row: int, layers: Layers | None = None) -> Page:
    """Map of one visit alone, with its legend, at the scale it has on A4.

    Parameters
    ----------
    layers
        What is drawn; None: the usual.
    """
    from stemmap.drawing.layers import USUAL
    from stemmap.drawing.sheet import SheetStyle, describe_picture

    style = SheetStyle.of(workup.survey, workup.measured)
    return describe_picture(style, row, findings=workup.findings.of_visit(row), layers=layers or USUAL)


def write_picture(workup: Workup, path: Path, row: int, layers: Layers | None = None) -> None:
    """Write the map of one visit with its legend as .png or .svg.

    Raises
    ------
    InputError
        When the file's ending is another.
    OutputError
        When the file cannot be written.
    """
    from stemmap.drawing import targets

    write = {".png": targets.write_png, ".svg": targets.write_svg}.get(path.suffix.lower())
    if write is None:
        raise InputError(f"{path.name}: a picture of a map ends in .png or .svg.")
    write(plot_picture(workup, row, layers), path)


def stems_as_text(workup: Workup, row: int) -> str:
    """Stems of one visit as typed, with the letters of their findings, as tab-separated text."""
    from stemmap.drawing.stem_list import StemList

    stems = StemList.of(workup.survey, row, findings=workup.findings.of_visit(row), width_mm=1000.0)
    return stems.as_text()


def _contents_line(workup: Workup, row: int, number: int, *, blind: bool) -> ContentsLine:
    from stemmap.drawing.contents import ContentsLine

    visits, findings = workup.survey.visits, workup.findings
    counts = [0, 0, 0]
    for place in () if blind else findings.places_of(row):
        counts[SEVERITIES.index(findings.severity_of(int(findings.order.batch[place])))] += 1
    return ContentsLine(
        plot=str(visits.plot[row]),
        visit=str(visits.visit[row]),
        status=int(workup.summary.status[row]),
        stems=int(visits.stem_count[row]),
        errors=counts[0],
        warnings=counts[1],
        notes=counts[2],
        number=number,
        blind=blind,
    )


def chosen_visits(
    workup: Workup, plots: Sequence[str] | None = None, *, doubtful: bool = False, every_visit: bool = False
) -> list[int]:
    """Visits to draw, of the plots named in their order, or of all.

    Parameters
    ----------
    plots
        Names; None: all.
    doubtful
        Whether only visits with an error or something to look at are wanted.
    every_visit
        Whether every visit is wanted; else the last one of each plot.

    Raises
    ------
    InputError
        When a plot is not there.
    """
    of_plot: dict[str, list[int]] = {}
    for row, plot in enumerate(workup.survey.visits.plot):
        of_plot.setdefault(str(plot), []).append(row)
    names = list(of_plot) if plots is None else plots
    missing = [plot for plot in names if plot not in of_plot]
    if missing:
        raise InputError(f"There is no plot {', '.join(missing)}; there are {', '.join(list(of_plot)[:10])} ...")
    rows = [row for name in names for row in of_plot[name][0 if every_visit else -1 :]]
    if doubtful:
        counts = workup.findings.count_by_visit("error") + workup.findings.count_by_visit("warning")
        rows = [row for row in rows if counts[row]]
    return rows
