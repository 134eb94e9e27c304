"""Diagrams of the spatial structure as files."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from pathlib import Path

from stemmap.drawing.diagrams import PAPER, Diagram, draw
from stemmap.writing.output import text_output, whole_file
from stemmap.writing.structure import write_diagram_values


def write_diagrams(diagrams: Sequence[Diagram], path: Path, *, mark: str = ".") -> None:
    """Write diagrams as SVG or PNG, or their values as CSV, as the ending of the name says.

    Parameters
    ----------
    mark
        Decimal mark at the axes.

    Raises
    ------
    OutputError
        When the file cannot be written.
    """
    ending = path.suffix.lower()
    if ending == ".csv":
        with text_output(path) as stream:
            write_diagram_values(stream, [(one.name, one.content) for one in diagrams])
        return
    drawn = draw(
        diagrams, "svg" if ending == ".svg" else "png", style=replace(PAPER, mark=mark), columns=min(len(diagrams), 2)
    )
    with whole_file(path) as partial:
        partial.write_bytes(drawn)
