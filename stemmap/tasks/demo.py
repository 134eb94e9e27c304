"""The sample survey, worked up: where its files are, and all results as files where there is no display."""

from __future__ import annotations

from pathlib import Path

from stemmap.assets import sample_data
from stemmap.errors import OutputError
from stemmap.progress import Progress
from stemmap.tasks.export import exported_columns
from stemmap.tasks.sheets import write_sheets
from stemmap.tasks.workup import open_uploads
from stemmap.writing.findings import write_findings
from stemmap.writing.output import text_output
from stemmap.writing.summary import write_summary
from stemmap.writing.tables import write_csv_columns


def sample_files() -> tuple[list[Path], Path]:
    """Uploads of the sample survey, and its settings."""
    folder = sample_data("survey")
    return [folder / "plots.csv", folder / "stems.csv"], folder / "settings.toml"


def write_demo(folder: Path, progress: Progress) -> Path:
    """Write a picture and a sheet of each plot, and the tables, into a folder.

    Raises
    ------
    OutputError
        When the folder or a file in it cannot be written.
    """
    files, settings = sample_files()
    workup = open_uploads(files, settings=settings, progress=progress)
    try:
        folder.mkdir(exist_ok=True)
    except OSError as fault:
        raise OutputError(f"The folder {folder} cannot be made: {fault.strerror}. Go where you may write.") from None
    write_sheets(workup, folder / "plot.png", progress=progress)
    write_sheets(workup, folder / "plot_sheets.pdf", progress=progress)
    columns, _ = exported_columns(workup)
    with text_output(folder / "stems.csv") as stream:
        write_csv_columns(stream, columns)
    with text_output(folder / "findings.csv") as stream:
        write_findings(stream, workup.findings, "csv")
    with text_output(folder / "summary.csv") as stream:
        write_summary(stream, workup.summary, "csv")
    return folder
