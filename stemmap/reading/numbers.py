"""Numbers as people type them: decimal points and commas, thousands marks, units behind them."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass, field
from types import MappingProxyType

import numpy as np
from numpy.typing import NDArray

from stemmap.reading.headings import unit_of
from stemmap.survey.fields import LARGEST

#: Fields whose values may reach the thousands, so that a lone mark before three digits may mark thousands.
_LARGE = frozenset({"easting", "northing", "elevation_m", "dbh_mm", "dbh_cross_mm"})
#: Units that may follow a number without changing it, by the unit of the field.
_OWN_UNITS: Mapping[str, frozenset[str]] = MappingProxyType(
    {
        "m": frozenset({"m", "ft"}),
        "cm": frozenset({"cm", "in"}),
        "mm": frozenset({"mm"}),
        "degree": frozenset({"degree"}),
        "azimuth unit": frozenset({"degree", "gon", "mil"}),
        "%": frozenset({"%"}),
        "CRS unit": frozenset({"m", "ft"}),
    }
)
_SPACE = "[ \u00a0\u2007\u2009\u202f]"
_SPACES = re.compile(_SPACE)
_POINT = re.compile(r"[+-]?(\d+(\.\d*)?|\.\d+)([eE][+-]?\d{1,3})?")
_COMMA = re.compile(r"[+-]?(\d+,\d*|,\d+)([eE][+-]?\d{1,3})?")
#: One mark before exactly three digits: 1,234 is one and a bit, or more than a thousand.
_LONE = re.compile(r"[+-]?[1-9]\d{0,2}[.,]\d{3}")
_REPEATED = re.compile(r"[+-]?\d{1,3}(?:\.\d{3}){2,}|[+-]?\d{1,3}(?:,\d{3}){2,}")
_POINT_LAST = re.compile(r"[+-]?\d{1,3}(,\d{3})+\.\d+")
_COMMA_LAST = re.compile(r"[+-]?\d{1,3}(\.\d{3})+,\d+")
_SPACED = re.compile(rf"[+-]?\d{{1,3}}({_SPACE}\d{{3}})+([.,]\d+)?")
_BEFORE_UNIT = re.compile(r"(.*[\d.,])\s*([^\d\s.,+-][^\d]*)", re.DOTALL)
#: Nobody measures less than this but zero, in any unit.
_SMALLEST = 1e-9


@dataclass(frozen=True)
class NumbersRead:
    """What was read from the distinct texts of a column, with an example of each thing that had to be decided.

    Parameters
    ----------
    values
        Number for each text, NaN where it is none; shape (k,).
    unit, with_unit
        The unit that stood behind numbers, and such a number; empty when none did.
    points, commas
        A number with a decimal point, and one with a decimal comma.
    thousands
        A number with a thousands mark.
    ambiguous
        A number whose mark nothing settles.
    assumed_thousands
        What that mark was taken for.
    """

    values: NDArray[np.float64]
    unit: str = ""
    with_unit: str = ""
    points: str = ""
    commas: str = ""
    thousands: str = ""
    ambiguous: str = ""
    assumed_thousands: bool = False


@dataclass
class Scan:
    """Texts of a column looked at one by one, before the numbers such as 1,234 are decided.

    Parameters
    ----------
    labels
        The texts, shape (k,).
    values
        Numbers read so far.
    lone
        Numbers with one mark before three digits, by place.
    decimal, thousands
        An example for each mark that can only be a decimal mark, or only a thousands mark.
    """

    labels: NDArray[np.object_]
    values: NDArray[np.float64]
    lone: dict[int, str] = field(default_factory=dict)
    decimal: dict[str, str] = field(default_factory=dict)
    thousands: dict[str, str] = field(default_factory=dict)
    spaced: str = ""
    unit: str = ""
    with_unit: str = ""


def plain_numbers(labels: NDArray[np.object_]) -> NDArray[np.float64] | None:
    """Numbers when every text is a plain number with at most a decimal point; None otherwise."""
    joined = "".join(labels.tolist())
    if not joined.isascii() or "_" in joined:
        return None
    try:
        values = np.fromiter(map(float, labels.tolist()), np.float64, len(labels))
    except ValueError:
        return None
    return _measurable(values) if np.isfinite(values).all() else None


def _measurable(values: NDArray[np.float64]) -> NDArray[np.float64]:
    """Numbers that can come from an instrument or a map; larger and smaller ones are NaN, and are reported as typed."""
    size = np.abs(values)
    return np.where((size <= LARGEST) & ((size >= _SMALLEST) | (size == 0.0)), values, np.nan)


def scan_numbers(labels: NDArray[np.object_], *, own_unit: str) -> Scan:
    """Look at the texts of a column one by one.

    Parameters
    ----------
    labels
        The texts, shape (k,).
    own_unit
        Unit of the field, as in the table of fields; it may stand behind a number.
    """
    scan = Scan(labels, np.full(len(labels), np.nan))
    own_units = _OWN_UNITS.get(own_unit, frozenset())
    for place, label in enumerate(labels.tolist()):
        text = _without_unit(label, scan, own_units)
        if _LONE.fullmatch(text):
            scan.lone[place] = text
        else:
            scan.values[place] = _one(text, label, scan)
    return scan


def _without_unit(label: str, scan: Scan, own_units: frozenset[str]) -> str:
    """The text without a unit of the field behind it; a second kind of unit stays and makes it no number."""
    text = label.strip().replace("\u2212", "-")
    if not text or text[-1].isdigit():
        return text
    match = _BEFORE_UNIT.fullmatch(text)
    unit = unit_of(match[2]) if match else None
    if match is None or not unit or unit not in own_units or scan.unit not in ("", unit):
        return text
    scan.unit, scan.with_unit = unit, scan.with_unit or label
    return match[1].rstrip()


def _one(text: str, label: str, scan: Scan) -> float:
    """One number whose marks explain themselves; NaN when it is none."""
    if _POINT.fullmatch(text):
        if "." in text:
            scan.decimal.setdefault(".", label)
    elif _COMMA.fullmatch(text):
        scan.decimal.setdefault(",", label)
        text = text.replace(",", ".")
    elif _POINT_LAST.fullmatch(text):
        scan.decimal.setdefault(".", label)
        scan.thousands.setdefault(",", label)
        text = text.replace(",", "")
    elif _COMMA_LAST.fullmatch(text):
        scan.decimal.setdefault(",", label)
        scan.thousands.setdefault(".", label)
        text = text.replace(".", "").replace(",", ".")
    elif _REPEATED.fullmatch(text):
        scan.thousands.setdefault("." if "." in text else ",", label)
        text = text.replace(".", "").replace(",", "")
    elif _SPACED.fullmatch(text):
        scan.spaced = scan.spaced or label
        text = _SPACES.sub("", text).replace(",", ".")
    else:
        return np.nan
    value = float(text)
    return value if np.isfinite(value) else np.nan


def decide(scan: Scan, *, name: str, separator: str | None, marks: frozenset[str]) -> NumbersRead:
    """Numbers of a column, those such as 1,234 decided by what the column and the file show.

    Parameters
    ----------
    scan
        The column.
    name
        Its canonical field.
    separator
        What separates the cells of the file; None where cells need none.
    marks
        Decimal marks used somewhere in the file.
    """
    decimal, thousands = dict(scan.decimal), dict(scan.thousands)
    values, ambiguous, assumed = scan.values.copy(), "", False
    for mark in (".", ","):
        places = [place for place, text in scan.lone.items() if mark in text]
        if not places:
            continue
        as_thousands, settled = _is_thousands(mark, scan, large=name in _LARGE, separator=separator, marks=marks)
        example = str(scan.labels[places[0]])
        if not settled and not ambiguous:
            ambiguous, assumed = example, as_thousands
        for place in places:
            values[place] = float(scan.lone[place].replace(mark, "" if as_thousands else "."))
        (thousands if as_thousands else decimal).setdefault(mark, example)
    return NumbersRead(
        _measurable(values),
        unit=scan.unit,
        with_unit=scan.with_unit,
        points=decimal.get(".", ""),
        commas=decimal.get(",", ""),
        thousands=next(iter(thousands.values()), scan.spaced),
        ambiguous=ambiguous,
        assumed_thousands=assumed,
    )


def _is_thousands(
    mark: str, scan: Scan, *, large: bool, separator: str | None, marks: frozenset[str]
) -> tuple[bool, bool]:
    """Whether a lone mark before three digits marks thousands, and whether that is settled.

    The column speaks first. It cannot settle anything when both marks are decimal marks somewhere in the file.
    """
    other = "," if mark == "." else "."
    as_decimal, as_thousands = mark in scan.decimal, mark in scan.thousands
    if as_thousands:
        return not as_decimal, not as_decimal
    if as_decimal:
        return False, other not in marks
    if other not in marks:
        # Without any sign to the contrary a point is a decimal point; a comma is one where commas part no cells.
        return (False, True) if mark == "." else (large and separator not in (";", "\t"), False)
    return large, False
