"""A survey whose truth is known, and a crew by script that fills in field packets the way crews do."""

from __future__ import annotations

import csv
from collections.abc import Mapping
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

import numpy as np

VALUES = ("azimuth", "distance_m", "dbh_cm")
DECIMALS = {"azimuth": 1, "distance_m": 3, "dbh_cm": 2}
SETTINGS = """[design]
radius_m = 12.0
[errors]
azimuth_sd_deg = 0.7
distance_sd_m = 0.04
dbh_sd_mm = 2.0
"""


@dataclass(frozen=True)
class Errors:
    """Bias and standard deviation of a crew's measurements: degrees, metres, centimetres."""

    bias: tuple[float, float, float] = (0.0, 0.0, 0.0)
    sd: tuple[float, float, float] = (0.7, 0.04, 0.2)

    def measured(self, true: np.ndarray, rng: np.random.Generator) -> np.ndarray:
        """What the crew reads, shape (n, 3)."""
        read = true + self.bias + rng.normal(0.0, 1.0, true.shape) * self.sd
        read[:, 0] %= 360.0
        return read


def true_stems(rng: np.random.Generator, *, plots: int, stems: int) -> tuple[list[tuple[str, str]], np.ndarray]:
    """Plot and number of each stem, and true azimuth, distance and dbh; shape (n, 3)."""
    names = [(str(plot + 1), str(stem + 1)) for plot in range(plots) for stem in range(stems)]
    azimuth = np.sort(rng.uniform(0.0, 360.0, (plots, stems)), axis=1).ravel()
    distance = 12.0 * np.sqrt(rng.uniform(0.01, 0.95, plots * stems))
    dbh = rng.uniform(10.0, 60.0, plots * stems)
    return names, np.column_stack([azimuth, distance, dbh])


def write_upload(folder: Path, names: list[tuple[str, str]], recorded: np.ndarray) -> list[Path]:
    """Plots, stems and settings of a survey as uploaded."""
    plots = list(dict.fromkeys(plot for plot, _ in names))
    centres = [f"{plot},{10.5 + 0.002 * place:.4f},50.1" for place, plot in enumerate(plots)]
    lines = [
        ",".join(
            [plot, "2026", stem, *(f"{value:.{DECIMALS[name]}f}" for name, value in zip(VALUES, row, strict=True))]
        )
        for (plot, stem), row in zip(names, recorded.tolist(), strict=True)
    ]
    texts = {
        "plots.csv": ["plot,lon,lat", *centres],
        "stems.csv": ["plot,visit,stem,azimuth,distance_m,dbh_cm", *lines],
        "settings.toml": [SETTINGS],
    }
    for name, content in texts.items():
        (folder / name).write_text("\n".join(content) + "\n", "utf-8")
    return [folder / name for name in texts]


@dataclass
class Crew:
    """Fills in the table of a packet.

    Parameters
    ----------
    truth
        True values by plot and stem number.
    errors
        How it measures.
    """

    truth: Mapping[tuple[str, str], np.ndarray]
    rng: np.random.Generator
    errors: Errors = field(default_factory=Errors)

    def fill(self, table: Path) -> list[dict[str, str]]:
        """Rows of the table with every stem found and measured, with decimal points."""
        with table.open(encoding="utf-8-sig", newline="") as stream:
            rows = list(csv.DictReader(stream))
        for row in rows:
            true = self.truth.get((row["plot"], row["stem"]))
            if row["stem"] and true is not None:
                self.write(row, true)
        return rows

    def write(self, row: dict[str, str], true: Any) -> None:
        """Measure a stem and write it into a row."""
        read = self.errors.measured(np.asarray(true, np.float64)[None], self.rng)[0]
        row["found"] = row["found"] or "yes"
        row.update({name: f"{value:.{DECIMALS[name]}f}" for name, value in zip(VALUES, read, strict=True)})


def exchange(one: dict[str, str], other: dict[str, str]) -> None:
    """Write the values of each of two rows into the other."""
    for name in VALUES:
        one[name], other[name] = other[name], one[name]


def write_csv_as_typed(path: Path, rows: list[dict[str, str]]) -> None:
    """The table as an office program of many countries saves it: semicolons and decimal commas."""
    with path.open("w", encoding="utf-8", newline="") as stream:
        writer = csv.DictWriter(stream, rows[0].keys(), delimiter=";")
        writer.writeheader()
        writer.writerows(
            {name: text.replace(".", ",") if name in VALUES else text for name, text in row.items()} for row in rows
        )


def write_workbook(path: Path, rows: list[dict[str, str]]) -> None:
    """The table as a workbook, numbers as numbers."""
    import xlsxwriter

    with xlsxwriter.Workbook(str(path)) as workbook:
        sheet = workbook.add_worksheet("Fill in")
        sheet.write_row(0, 0, list(rows[0]))
        for place, row in enumerate(rows, start=1):
            for column, (name, text) in enumerate(row.items()):
                if text and (name in VALUES or name == "row"):
                    sheet.write_number(place, column, float(text))
                elif text:
                    sheet.write_string(place, column, text)
