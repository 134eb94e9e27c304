"""Numbers as people type them: decimal points and commas, thousands marks, units behind them. Nothing is guessed
without a word about it."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass, field
from types import MappingProxyType

import numpy as np
from numpy.typing import NDArray

from stemmap.reading.headings import unit_of

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
_SPACES = re.compile("[ \u00a0\u2007\u2009\u202f]")
_PLAIN = re.compile(r"[+-]?(\d+(\.\d*)?|\.\d+)([eE][+-]?\d{1,3})?")
_COMMA = re.compile(r"[+-]?(\d+,\d*|,\d+)([eE][+-]?\d{1,3})?")
_LONE = re.compile(r"[+-]?[1-9]\d{0,2}[.,]\d{3}")
_REPEATED = re.compile(r"[+-]?\d{1,3}(?:\.\d{3}){2,}|[+-]?\d{1,3}(?:,\d{3}){2,}")
_POINT_LAST = re.compile(r"[+-]?\d{1,3}(,\d{3})+\.\d+")
_COMMA_LAST = re.compile(r"[+-]?\d{1,3}(\.\d{3})+,\d+")
_SPACED = re.compile("[+-]?\\d{1,3}([ \u00a0\u2007\u2009\u202f]\\d{3})+([.,]\\d+)?")
_BEFORE_UNIT = re.compile(r"(.*[\d.,])\s*([^\d\s.,+-][^\d]*)", re.DOTALL)


@dataclass(frozen=True)
class NumbersRead:
    """What was read from the distinct texts of a column.

    Parameters
    ----------
    values
        Number for each text, NaN where it is none; shape (k,).
    unit
        The unit that stood behind numbers; empty when none did.
    with_unit, points, commas, thousands, ambiguous
        An example each: a number with a unit, with a decimal point, with a decimal comma, with a thousands mark,
        and one whose mark nothing settles; empty when there is none.
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
class _Evidence:
    """What the texts of a column show about its marks; examples by mark."""

    decimal: dict[str, str] = field(default_factory=dict)
    thousands: dict[str, str] = field(default_factory=dict)
    lone: dict[str, list[int]] = field(default_factory=lambda: {".": [], ",": []})


def read_numbers(labels: NDArray[np.object_], *, name: str, own_unit: str, separator: str | None) -> NumbersRead:
    """Numbers of the distinct texts of one column.

    Parameters
    ----------
    labels
        The texts, shape (k,).
    name
        Canonical field.
    own_unit
        Its unit, as in the table of fields.
    separator
        What separates the cells of the file; a file separated by commas writes decimal points.

    Returns
    -------
    NumbersRead
        The numbers, and examples of what had to be decided.
    """
    at_once = _all_plain(labels)
    if at_once is not None:
        return NumbersRead(at_once)
    return _Careful(labels, name, own_unit, separator).read()


def _all_plain(labels: NDArray[np.object_]) -> NDArray[np.float64] | None:
    """Numbers when every text is a plain number with at most a decimal point; None otherwise."""
    joined = "".join(labels.tolist())
    if not joined.isascii() or "_" in joined:
        return None
    try:
        values = np.fromiter(map(float, labels.tolist()), np.float64, len(labels))
    except ValueError:
        return None
    return values if np.isfinite(values).all() else None


class _Careful:
    """Reads texts one by one and weighs their marks against each other."""

    def __init__(self, labels: NDArray[np.object_], name: str, own_unit: str, separator: str | None) -> None:
        self.labels = labels
        self.large = name in _LARGE
        self.own_units = _OWN_UNITS.get(own_unit, frozenset())
        self.separator = separator
        self.values = np.full(len(labels), np.nan)
        self.evidence = _Evidence()
        self.unit = self.with_unit = self.spaced = ""

    def read(self) -> NumbersRead:
        lone: dict[int, str] = {}
        for place, label in enumerate(self.labels.tolist()):
            text = self._without_unit(str(label).strip().replace("\u2212", "-"))
            if _LONE.fullmatch(text):
                lone[place] = text
                self.evidence.lone["." if "." in text else ","].append(place)
            else:
                self.values[place] = self._one(text, label)
        return self._decide(lone)

    def _without_unit(self, text: str) -> str:
        """The text without a unit of the field behind it; a second kind of unit stays and makes it no number."""
        if not text or text[-1].isdigit():
            return text
        match = _BEFORE_UNIT.fullmatch(text)
        unit = unit_of(match[2]) if match else None
        if match is None or not unit or unit not in self.own_units or self.unit not in ("", unit):
            return text
        self.unit, self.with_unit = unit, self.with_unit or text
        return match[1].rstrip()

    def _one(self, text: str, label: str) -> float:
        """One number whose marks explain themselves; NaN when it is none."""
        decimal, thousands = self.evidence.decimal, self.evidence.thousands
        if _PLAIN.fullmatch(text):
            if "." in text:
                decimal.setdefault(".", label)
        elif _COMMA.fullmatch(text):
            decimal.setdefault(",", label)
            text = text.replace(",", ".")
        elif _POINT_LAST.fullmatch(text):
            decimal.setdefault(".", label)
            thousands.setdefault(",", label)
            text = text.replace(",", "")
        elif _COMMA_LAST.fullmatch(text):
            decimal.setdefault(",", label)
            thousands.setdefault(".", label)
            text = text.replace(".", "").replace(",", ".")
        elif _REPEATED.fullmatch(text):
            thousands.setdefault("." if "." in text else ",", label)
            text = text.replace(".", "").replace(",", "")
        elif _SPACED.fullmatch(text):
            self.spaced = self.spaced or label
            text = _SPACES.sub("", text).replace(",", ".")
        else:
            return np.nan
        value = float(text)
        return value if np.isfinite(value) else np.nan

    def _decide(self, lone: Mapping[int, str]) -> NumbersRead:
        """Read numbers such as 1,234, whose mark only the rest of the column can explain."""
        evidence = self.evidence
        ambiguous, assumed_thousands = "", False
        for mark, places in evidence.lone.items():
            if not places:
                continue
            as_thousands, settled = self._is_thousands(mark)
            example = str(self.labels[places[0]])
            if not settled:
                ambiguous, assumed_thousands = ambiguous or example, as_thousands
            for place in places:
                self.values[place] = float(lone[place].replace(mark, "" if as_thousands else "."))
            kind = evidence.thousands if as_thousands else evidence.decimal
            kind.setdefault(mark, example)
        return NumbersRead(
            self.values,
            unit=self.unit,
            with_unit=self.with_unit,
            points=evidence.decimal.get(".", ""),
            commas=evidence.decimal.get(",", ""),
            thousands=next(iter(evidence.thousands.values()), self.spaced),
            ambiguous=ambiguous,
            assumed_thousands=assumed_thousands,
        )

    def _is_thousands(self, mark: str) -> tuple[bool, bool]:
        """Whether a lone mark before three digits marks thousands, and whether the column settles it."""
        other = "," if mark == "." else "."
        as_decimal, as_thousands = mark in self.evidence.decimal, mark in self.evidence.thousands
        if as_decimal != as_thousands:
            return as_thousands, True
        if as_decimal and as_thousands:
            return False, False
        if mark == "." and other not in self.evidence.decimal:
            return False, True
        if mark == "," and self.separator in (";", "\t") and other not in self.evidence.decimal:
            return False, False
        return self.large, False
