"""Plot sheets at true scale: one PDF of many pages, or a PNG or SVG file a plot."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from pathlib import Path
from typing import TYPE_CHECKING

from stemmap.errors import InputError, OutputError
from stemmap.progress import Progress
from stemmap.tasks.workup import Workup
from stemmap.writing.output import distinct_file_names

if TYPE_CHECKING:
    from stemmap.drawing.page import Page


def write_sheets(
    workup: Workup,
    path: Path | str,
    *,
    plots: Sequence[str] | None = None,
    scale: int | None = None,
    paper: str = "A4",
    progress: Progress | None = None,
) -> list[Path]:
    """Write the sheet of each plot's last visit.

    Parameters
    ----------
    path
        Ends in .pdf: one file with a page a plot. In .png or .svg: one file a plot, the plot's name added, unless there
        is only one plot.
    plots
        Names of the plots wanted, in this order; None: all.
    scale
        Denominator, 100 for 1:100; None: the largest of the usual scales that fits.
    paper
        "A4", "A3" or "Letter".

    Returns
    -------
    The files written.

    Raises
    ------
    InputError
        When a plot, the ending, the paper or the scale cannot be.
    OutputError
        When a file cannot be written.
    Cancelled
        When `progress` says so.
    """
    progress, path = progress or Progress(), Path(path)
    form = path.suffix.lower()
    if form not in (".pdf", ".png", ".svg"):
        raise InputError(f"{path.name}: a plot sheet ends in .pdf, .png or .svg.")
    rows = chosen_visits(workup, plots)
    if not rows:
        raise OutputError(f"There is no plot to draw, so {path} was not written.")
    from stemmap.drawing.application import application

    application(offscreen=True)
    from stemmap.drawing import targets

    pages = _pages(workup, rows, scale=scale, paper=paper, progress=progress)
    if form == ".pdf":
        targets.write_pdf(pages, path, title=workup.survey.settings.name or path.stem)
        return [path]
    write = targets.write_png if form == ".png" else targets.write_svg
    files = [path]
    if len(rows) > 1:
        names = distinct_file_names(f"{path.stem}_{workup.survey.visits.plot[row]}" for row in rows)
        files = [path.with_name(name + path.suffix) for name in names]
    for file, page in zip(files, pages, strict=True):
        write(page, file)
    return files


def _pages(
    workup: Workup, rows: Sequence[int], *, scale: int | None, paper: str, progress: Progress
) -> Iterator[Page]:
    from stemmap.drawing.sheet import describe_sheet

    for number, row in enumerate(rows):
        progress.step(f"Drawing plot {workup.survey.visits.plot[row]}", number / len(rows))
        yield describe_sheet(
            workup.survey,
            workup.measured,
            row,
            findings=workup.findings.of_visit(row),
            scale=scale,
            paper=paper,
        )


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
