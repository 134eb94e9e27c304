"""What reading can have to say, declared once: the import findings about files, lines, columns and headings."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from itertools import islice

import numpy as np
from numpy.typing import NDArray

from stemmap.survey.findings import Severity
from stemmap.survey.registry import declare

#: Places named in one remark before the rest is only counted.
NAMED = 10


def _declare(slug: str, severity: Severity, title: str, what: str, why: str, todo: str) -> str:
    explanation = f"{title}\n\nWhat: {what}\nWhy: {why}\nWhat to do: {todo}\n"
    return declare(slug, family="import", severity=severity, explanation=explanation).slug


FILE_UNUSABLE = _declare(
    "file-unusable",
    "error",
    "A file could not be used.",
    "one of the given files was left out; the others were read.",
    "stems or plots that stand in it are missing from every map and every sum.",
    "mend or replace the file as the sentence says and open the upload again.",
)
FILE_TWICE = _declare(
    "file-twice",
    "note",
    "A file was given twice.",
    "the same file was named more than once and read once.",
    "reading it again would double its stems.",
    "nothing, unless another file was meant.",
)
SHEET_IGNORED = _declare(
    "sheet-ignored",
    "note",
    "A sheet or layer was not read.",
    "it is hidden, empty or has no headings of plots, stems or stations.",
    "workbooks often hold code lists and notes beside the records.",
    "if it does hold records, give its headings with --map field=heading.",
)
COLUMN_NOT_PLACED = _declare(
    "column-not-placed",
    "note",
    "A column was not recognised.",
    "its heading is no known word for a field; its cells are kept and exported, but not interpreted.",
    "a misspelt heading would otherwise silently take a whole column out of the reckoning.",
    "if it is one of the fields, say so with --map field=heading or in the settings under [columns].",
)
COLUMN_TWICE = _declare(
    "column-twice",
    "warning",
    "Two columns claim the same field.",
    "the first one was taken, the other is kept beside it without being interpreted.",
    "only one of them can be the measurement that counts.",
    "check which one is meant and say so with --map field=heading.",
)
COLUMN_UNNAMED = _declare(
    "column-unnamed",
    "warning",
    "A column with values has no heading.",
    "its cells are kept under its number, but not interpreted.",
    "a heading may have been deleted, or cells may have slipped to the right.",
    "give the column a heading, or remove the cells.",
)
HEADING_AMBIGUOUS = _declare(
    "heading-ambiguous",
    "note",
    "A heading can mean two things.",
    "one meaning was assumed.",
    "short headings such as d stand for different things in different crews' files.",
    "check the assumption; if it is wrong, say what is meant with --map field=heading.",
)
HEADING_MISSING = _declare(
    "mapped-heading-missing",
    "warning",
    "A heading that was asked for is in none of the files.",
    "the mapping names a heading that no file has; that field was looked for under its usual names.",
    "a saved mapping may belong to another form of the records.",
    "correct --map or [columns] in the settings.",
)
HEADINGS_LATE = _declare(
    "lines-before-headings",
    "note",
    "Lines before the headings were skipped.",
    "a title, empty lines or group names stood above the line of headings.",
    "they hold no record.",
    "nothing, unless the line of headings was mistaken.",
)
SECOND_HEADING_LINE = _declare(
    "second-heading-line",
    "note",
    "A second line of headings was skipped.",
    "the line below the headings holds units or headings again; units are used as if they stood in the headings.",
    "it holds no record.",
    "nothing, unless the line was a record.",
)
HEADINGS_REPEATED = _declare(
    "headings-repeated",
    "note",
    "The headings stand again among the records.",
    "such lines were skipped.",
    "they remain when files are pasted one below the other.",
    "nothing.",
)
LINES_RAGGED = _declare(
    "lines-ragged",
    "warning",
    "Lines have too few or too many cells.",
    "missing cells are taken as empty; surplus cells are kept beside the record without being interpreted.",
    "a delimiter typed inside a cell, such as an unquoted decimal comma, moves all later cells of its line.",
    "look at the named lines in the file and mend them.",
)
QUOTE_UNCLOSED = _declare(
    "quote-unclosed",
    "error",
    "A quotation mark was opened and not closed.",
    "every line was read by itself, so that no line disappeared inside a cell.",
    "a lone quotation mark, for instance for inches, would otherwise swallow the lines that follow it.",
    "look at the named line in the file and remove the mark.",
)
ENCODING_ASSUMED = _declare(
    "encoding-assumed",
    "note",
    "The character set was assumed.",
    "the file does not say how its letters are stored; the Western European set (Windows 1252) was taken.",
    "accented letters in names come out wrong when the assumption is wrong; numbers are not affected.",
    "look at the quoted text; if it is wrong, save the file again as UTF-8.",
)
DECIMAL_AMBIGUOUS = _declare(
    "decimal-mark-ambiguous",
    "warning",
    "A comma or point may be a decimal mark or a thousands mark.",
    "nothing else in the column settles it, so one reading was assumed.",
    "1,234 is one and a bit or more than a thousand.",
    "check the quoted cell against the forest; if it was read wrongly, save the file with another decimal mark.",
)
DECIMALS_MIXED = _declare(
    "decimal-marks-mixed",
    "note",
    "Decimal points and decimal commas stand in one column.",
    "each cell was read on its own; both marks were understood as decimal marks.",
    "records of several crews or devices are often put together.",
    "nothing, if the quoted cells are read rightly.",
)
THOUSANDS_MARK = _declare(
    "thousands-mark",
    "note",
    "Thousands are marked in a column.",
    "points, commas or spaces between groups of three digits were read as thousands marks.",
    "other cells of the column can be read in no other way.",
    "nothing, if the quoted cell is read rightly.",
)
UNIT_IN_CELLS = _declare(
    "unit-in-cells",
    "note",
    "Units stand in the cells of a column.",
    "a unit behind a number was understood and left out of the number.",
    "a unit that differs from the settings would change every value.",
    "nothing, if the unit is the one in the settings.",
)
DATE_ORDER = _declare(
    "date-order-assumed",
    "warning",
    "Day and month of a date may be exchanged.",
    "nothing in the column shows whether the day or the month comes first; the day was taken first.",
    "03/04 is in March or in April.",
    "write dates as 2024-04-03, or tell the office what the device writes.",
)
DATE_SERIAL = _declare(
    "date-serial",
    "note",
    "Dates stand as day numbers of a spreadsheet.",
    "numbers such as 45413 were read as days counted from 1900.",
    "spreadsheets store dates so, and lose the date format when cells are copied.",
    "check one of the dates.",
)
DATE_IS_YEAR = _declare(
    "date-holds-years",
    "note",
    "A column of dates holds years only.",
    "it was taken as the name of the visit.",
    "a year is not a day, but it tells visits apart.",
    "nothing; give full dates if the time between visits matters.",
)
PLOT_COLUMN_MISSING = _declare(
    "plot-column-missing",
    "warning",
    "Stems name no plot.",
    "the file or sheet has no column for the plot; its name was taken as the name of the one plot.",
    "some crews keep one file for each plot.",
    "if the file holds several plots, add a column that names them.",
)
PLOT_CONTRADICTION = _declare(
    "plot-columns-contradict",
    "warning",
    "Values of one plot differ from line to line.",
    "columns that describe the plot are repeated on every stem, but not alike; the first line of each plot holds.",
    "a plot has one centre, one slope and one radius.",
    "look at the named plots and make their lines alike.",
)
PLOT_KEPT_EMPTY = _declare(
    "lines-without-stem",
    "note",
    "Lines name a plot but no stem.",
    "they were taken as plots that were visited and hold no stem.",
    "an empty plot is a valid zero and counts in every mean.",
    "nothing, unless stems are missing there.",
)
GEOMETRY_AND_COLUMNS = _declare(
    "geometry-beside-columns",
    "note",
    "A layer has both points and columns of coordinates.",
    "the columns were used; the points are kept beside the records.",
    "only one of them can say where a plot or stem stands.",
    "remove the columns if the points are the better source.",
)
FORMULA_ERRORS = _declare(
    "formula-errors",
    "warning",
    "A sheet shows formula errors.",
    "cells that show an error such as a division by zero were taken as empty.",
    "a formula that fails hides a value that was typed somewhere.",
    "mend the formulas in the workbook, or paste their values.",
)
SETTINGS_FOUND = _declare(
    "settings-found",
    "note",
    "Settings were taken from a file beside the upload.",
    "the only settings file in the folder was used, because none was named.",
    "units and design decide about every result.",
    "name another file with --settings if this is not the one.",
)
SETTINGS_UNDECIDED = _declare(
    "settings-undecided",
    "warning",
    "Settings files lie beside the upload, but none was used.",
    "there are several, or the only one cannot be read; the defaults hold.",
    "guessing between units would be worse than saying so.",
    "name the right one with --settings.",
)


def some(items: Iterable[object], *, count: int) -> str:
    """The first few of many things, and how many more there are."""
    named = ", ".join(str(item) for item in islice(items, NAMED))
    return named if count <= NAMED else f"{named} and {count - NAMED:,} more"


def some_lines(lines: NDArray[np.integer] | Sequence[int]) -> str:
    """The first few of many lines in words."""
    word = "line" if len(lines) == 1 else "lines"
    return f"{word} {some((int(line) for line in lines[:NAMED]), count=len(lines))}"


def quoted(text: str) -> str:
    """A cell's text in quotation marks, shortened so that a sentence stays a sentence."""
    return repr(text if len(text) <= 40 else text[:37] + "...")
