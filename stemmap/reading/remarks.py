"""What reading can have to say, declared once: the import findings about files, lines, columns and headings."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from itertools import islice

import numpy as np
from numpy.typing import NDArray

from stemmap.survey.batches import Severity
from stemmap.survey.registry import declare

#: Places named in one remark before the rest is only counted.
NAMED = 10


def _declare(slug: str, severity: Severity, title: str, *, what: str, why: str, todo: str) -> str:
    explanation = f"{title}\n\nWhat: {what}\nWhy: {why}\nWhat to do: {todo}\n"
    return declare(slug, family="import", severity=severity, explanation=explanation).slug


FILE_UNUSABLE = _declare(
    "file-unusable",
    "error",
    "A file could not be used.",
    what="one of the given files was left out; the others were read.",
    why="stems or plots that stand in it are missing from every map and every sum.",
    todo="mend or replace the file as the sentence says and open the upload again.",
)
SURVEY_FILE_DAMAGED = _declare(
    "survey-file-damaged",
    "error",
    "A survey file is damaged.",
    what="the survey file is not as it was written; what can be read from it was read.",
    why="the last decision or more may be missing, and nothing can be written into it.",
    todo="keep it, save what can be read into a new file with stemmap repair, and look for what damaged it.",
)
RECORDS_EDITED = _declare(
    "records-edited",
    "error",
    "Another program changed records in the survey file.",
    what="records that were uploaded stand otherwise in the survey file, or are gone; no decision says so.",
    why="what was typed in the forest is no longer what is computed with.",
    todo="add the upload again with stemmap add --replace, and change values by decisions only.",
)
LAYER_EDITED = _declare(
    "layer-edited",
    "warning",
    "Another program changed a layer of the survey file.",
    what="a layer of plots, stems or findings is not as it was made; the survey is put together without it.",
    why="what was entered there, perhaps in a GIS, changes no stem and no result.",
    todo="enter what was meant as decisions; the changed layer is kept beside the new one when layers are made anew.",
)
HEADINGS_UNKNOWN = _declare(
    "headings-unknown",
    "error",
    "No heading of a file is known.",
    what="one of the given files holds a table, but none of its headings is a known word; the others were read.",
    why="stems or plots that stand in it are missing from every map and every sum.",
    todo="say what its columns are: Columns of the upload, --map field=heading, or [columns] in the settings.",
)
FILE_TWICE = _declare(
    "file-twice",
    "note",
    "A file was given twice.",
    what="the same file was named more than once and read once.",
    why="reading it again would double its stems.",
    todo="nothing, unless another file was meant.",
)
SHEET_IGNORED = _declare(
    "sheet-ignored",
    "note",
    "A sheet or layer was not read.",
    what="it is hidden, empty or has no headings of plots, stems or stations.",
    why="workbooks often hold code lists and notes beside the records.",
    todo="if it does hold records, say what its headings mean: Columns of the upload, or --map field=heading.",
)
COLUMN_NOT_PLACED = _declare(
    "column-not-placed",
    "note",
    "A column was not recognised.",
    what="its heading is no known word for a field; its cells are kept and exported, but not interpreted.",
    why="a misspelt heading would otherwise silently take a whole column out of the reckoning.",
    todo="if it is a field, say so: Columns of the upload, --map field=heading, or [columns] in the settings.",
)
COLUMN_TWICE = _declare(
    "column-twice",
    "warning",
    "Two columns claim the same field.",
    what="the first one was taken, the other is kept beside it without being interpreted.",
    why="only one of them can be the measurement that counts.",
    todo="check which one is meant and say so: Columns of the upload, or --map field=heading.",
)
COLUMN_UNNAMED = _declare(
    "column-unnamed",
    "warning",
    "A column with values has no heading.",
    what="its cells are kept under its number, but not interpreted.",
    why="a heading may have been deleted, or cells may have slipped to the right.",
    todo="give the column a heading, or remove the cells.",
)
HEADING_AMBIGUOUS = _declare(
    "heading-ambiguous",
    "note",
    "A heading can mean two things.",
    what="one meaning was assumed.",
    why="short headings such as d stand for different things in different crews' files.",
    todo="check the assumption; if it is wrong, say so: Columns of the upload, or --map field=heading.",
)
HEADING_MISSING = _declare(
    "mapped-heading-missing",
    "warning",
    "A heading that was asked for is in none of the files.",
    what="the mapping names a heading that no file has; that field was looked for under its usual names.",
    why="a saved mapping may belong to another form of the records.",
    todo="correct it under Columns of the upload, in --map, or under [columns] in the settings.",
)
HEADINGS_LATE = _declare(
    "lines-before-headings",
    "note",
    "Lines before the headings were skipped.",
    what="a title, empty lines or group names stood above the line of headings.",
    why="they hold no record.",
    todo="nothing, unless the line of headings was mistaken.",
)
SECOND_HEADING_LINE = _declare(
    "second-heading-line",
    "note",
    "A second line of headings was skipped.",
    what="the line below the headings holds units or headings again; units are used as if they stood in the headings.",
    why="it holds no record.",
    todo="nothing, unless the line was a record.",
)
TOTALS_SKIPPED = _declare(
    "totals-skipped",
    "note",
    "A line holds totals.",
    what="a line begins with a word such as sum or mean and is mostly empty; it was left out as no record.",
    why="as a record it would be a plot or stem that is in no forest.",
    todo="if a plot is really called so, fill in its line, or call it otherwise.",
)
HEADINGS_REPEATED = _declare(
    "headings-repeated",
    "note",
    "The headings stand again among the records.",
    what="such lines were skipped.",
    why="they remain when files are pasted one below the other.",
    todo="nothing.",
)
LINES_RAGGED = _declare(
    "lines-ragged",
    "warning",
    "Lines have too few or too many cells.",
    what="missing cells are taken as empty; surplus cells are kept beside the record without being interpreted.",
    why="a delimiter typed inside a cell, such as an unquoted decimal comma, moves all later cells of its line.",
    todo="look at the named lines in the file and mend them.",
)
QUOTE_UNCLOSED = _declare(
    "quote-unclosed",
    "error",
    "A quotation mark was opened and not closed.",
    what="every line was read by itself, so that no line disappeared inside a cell.",
    why="a lone quotation mark, for instance for inches, would otherwise swallow the lines that follow it.",
    todo="look at the named line in the file and remove the mark.",
)
ENCODING_ASSUMED = _declare(
    "encoding-assumed",
    "note",
    "The character set was assumed.",
    what="the file does not say how its letters are stored; the Western European set (Windows 1252) was taken.",
    why="accented letters in names come out wrong when the assumption is wrong; numbers are not affected.",
    todo="look at the quoted text; if it is wrong, save the file again as UTF-8.",
)
DECIMAL_AMBIGUOUS = _declare(
    "decimal-mark-ambiguous",
    "warning",
    "A comma or point may be a decimal mark or a thousands mark.",
    what="nothing else in the column settles it, so one reading was assumed.",
    why="1,234 is one and a bit or more than a thousand.",
    todo="check the quoted cell against the forest; if it was read wrongly, save the file with another decimal mark.",
)
DECIMALS_MIXED = _declare(
    "decimal-marks-mixed",
    "note",
    "Decimal points and decimal commas stand in one column.",
    what="each cell was read on its own; both marks were understood as decimal marks.",
    why="records of several crews or devices are often put together.",
    todo="nothing, if the quoted cells are read rightly.",
)
THOUSANDS_MARK = _declare(
    "thousands-mark",
    "note",
    "Thousands are marked in a column.",
    what="points, commas or spaces between groups of three digits were read as thousands marks.",
    why="other cells of the column can be read in no other way.",
    todo="nothing, if the quoted cell is read rightly.",
)
UNIT_IN_CELLS = _declare(
    "unit-in-cells",
    "note",
    "Units stand in the cells of a column.",
    what="a unit behind a number was understood and left out of the number.",
    why="a unit that differs from the settings would change every value.",
    todo="nothing, if the unit is the one in the settings.",
)
DATE_ORDER = _declare(
    "date-order-assumed",
    "warning",
    "Day and month of a date may be exchanged.",
    what="nothing in the column shows whether the day or the month comes first; the day was taken first.",
    why="03/04 is in March or in April.",
    todo="write dates as 2024-04-03, or tell the office what the device writes.",
)
DATE_SERIAL = _declare(
    "date-serial",
    "note",
    "Dates stand as day numbers of a spreadsheet.",
    what="numbers such as 45413 were read as days counted from 1900.",
    why="spreadsheets store dates so, and lose the date format when cells are copied.",
    todo="check one of the dates.",
)
DATE_IS_YEAR = _declare(
    "date-holds-years",
    "note",
    "A column of dates holds years only.",
    what="it was taken as the name of the visit.",
    why="a year is not a day, but it tells visits apart.",
    todo="nothing; give full dates if the time between visits matters.",
)
PLOT_COLUMN_MISSING = _declare(
    "plot-column-missing",
    "warning",
    "Stems name no plot.",
    what="the file or sheet has no column for the plot; its name was taken as the name of the one plot.",
    why="some crews keep one file for each plot.",
    todo="if the file holds several plots, add a column that names them.",
)
PLOT_CONTRADICTION = _declare(
    "plot-columns-contradict",
    "warning",
    "Values of one plot differ from line to line.",
    what="columns that describe the plot are repeated on every stem, but not alike; the first line of each plot holds.",
    why="a plot has one centre, one slope and one radius.",
    todo="look at the named plots and make their lines alike.",
)
PLOT_KEPT_EMPTY = _declare(
    "lines-without-stem",
    "note",
    "Lines name a plot but no stem.",
    what="they were taken as plots that were visited and hold no stem.",
    why="an empty plot is a valid zero and counts in every mean.",
    todo="nothing, unless stems are missing there.",
)
GEOMETRY_AND_COLUMNS = _declare(
    "geometry-beside-columns",
    "note",
    "A layer has both points and columns of coordinates.",
    what="the columns were used; the points are kept beside the records.",
    why="only one of them can say where a plot or stem stands.",
    todo="remove the columns if the points are the better source.",
)
GEOMETRY_MISSING = _declare(
    "geometry-missing",
    "warning",
    "Records of a layer have no point.",
    what="the layer has points, but some records have none, or a line or area instead.",
    why="a plot without a point cannot be placed on the map of the country.",
    todo="add the points in the GIS, or give the coordinates in columns.",
)
FORMULA_ERRORS = _declare(
    "formula-errors",
    "warning",
    "A sheet shows formula errors.",
    what="cells that show an error such as a division by zero were taken as empty.",
    why="a formula that fails hides a value that was typed somewhere.",
    todo="mend the formulas in the workbook, or paste their values.",
)
SETTINGS_FOUND = _declare(
    "settings-found",
    "note",
    "Settings were taken from a file beside the upload.",
    what="the only settings file in the folder was used, because none was named.",
    why="units and design decide about every result.",
    todo="if this is not the one, open the right one together with the upload, or name it with --settings.",
)
SETTINGS_UNDECIDED = _declare(
    "settings-undecided",
    "warning",
    "Settings files lie beside the upload, but none was used.",
    what="there are several, or the only one cannot be read; the defaults hold.",
    why="guessing between units would be worse than saying so.",
    todo="open the right one together with the upload, or name it with --settings.",
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
