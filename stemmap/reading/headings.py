"""Headings as people write them, and the fields they stand for."""

from __future__ import annotations

import re
import tomllib
import unicodedata
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from difflib import get_close_matches
from functools import cache
from importlib.resources import files
from types import MappingProxyType

from stemmap.survey.fields import FIELDS

#: Words for a unit, folded, and the unit they mean. German "Grad" is a degree, English "grad" a gon: it says nothing.
UNITS: Mapping[str, str] = MappingProxyType(
    {
        **dict.fromkeys(("m", "metre", "metres", "meter", "meters", "metros", "metri"), "m"),
        **dict.fromkeys(("dm", "decimetre", "dezimeter"), "dm"),
        **dict.fromkeys(("cm", "centimetre", "centimeter", "zentimeter"), "cm"),
        **dict.fromkeys(("mm", "millimetre", "millimeter"), "mm"),
        **dict.fromkeys(("ft", "foot", "feet", "fuss", "pieds", "pies"), "ft"),
        **dict.fromkeys(("in", "inch", "inches", "zoll", "tum"), "in"),
        **dict.fromkeys(("°", "deg", "degree", "degrees", "altgrad", "degre", "degres", "grados", "grader"), "degree"),
        **dict.fromkeys(("aste", "astetta", "dd"), "degree"),
        **dict.fromkeys(("gon", "gons", "grades", "grade", "neugrad", "gooni", "nygrader"), "gon"),
        **dict.fromkeys(("mil", "mils", "strich", "mil6400", "mil6300", "mil6000"), "mil"),
        **dict.fromkeys(("%", "percent", "pct", "prozent", "pourcent", "porciento", "procent", "prosentti"), "%"),
        "grad": "",
    }
)
_LENGTHS = frozenset({"m", "dm", "cm", "mm", "ft", "in"})
_ANGLES = frozenset({"degree", "gon", "mil", "%", ""})
#: What a diameter in another unit is called.
_IN_MILLIMETRES: Mapping[str, str] = MappingProxyType({"dbh_cm": "dbh_mm", "dbh_cross_cm": "dbh_cross_mm"})
_BRACKETS = re.compile(r"[(\[{<]([^)\]}>]*)[)\]}>]")


@dataclass(frozen=True)
class Meaning:
    """What a heading may stand for.

    Parameters
    ----------
    fields
        Canonical fields, the likeliest first.
    unit
        The unit the heading names; empty when it names none.
    """

    fields: tuple[str, ...]
    unit: str = ""


def fold(text: str, *, spelt_out: bool = False) -> str:
    """A heading without case, accents, spaces and punctuation.

    Parameters
    ----------
    text
        The heading.
    spelt_out
        Write umlauts and rings as two letters (ae, oe, ue, aa) instead of dropping the dots.
    """
    text = text.casefold()
    if spelt_out:
        for letter, pair in (("ä", "ae"), ("ö", "oe"), ("ü", "ue"), ("å", "aa")):
            text = text.replace(letter, pair)
    return "".join(letter for letter in unicodedata.normalize("NFKD", text) if letter.isalnum())


@cache
def words() -> Mapping[str, Mapping[str, tuple[str, ...]]]:
    """The trade words by language and field, as they stand in headings.toml."""
    table = tomllib.loads(files("stemmap.reading").joinpath("headings.toml").read_text("utf-8"))
    return MappingProxyType(
        {
            language: MappingProxyType({field: tuple(headings) for field, headings in fields.items()})
            for language, fields in table.items()
        }
    )


@cache
def _known() -> Mapping[str, tuple[str, ...]]:
    """Folded heading to the fields it may stand for; canonical names first."""
    known: dict[str, tuple[str, ...]] = {fold(name): (name,) for name in FIELDS}
    for language in words().values():
        for field, headings in language.items():
            for heading in headings:
                for key in {fold(heading), fold(heading, spelt_out=True)}:
                    if field not in known.get(key, ()):
                        known[key] = (*known.get(key, ()), field)
    return MappingProxyType(known)


@cache
def _written() -> Mapping[str, str]:
    """Folded heading to the heading as a person would write it."""
    written = {fold(name): name for name in FIELDS}
    for language in words().values():
        for headings in language.values():
            for heading in headings:
                written.setdefault(fold(heading), heading)
    return MappingProxyType(written)


@cache
def meaning_of(heading: str) -> Meaning | None:
    """What a heading may stand for; None when it is not known.

    Examples
    --------
    >>> meaning_of("Azimut (gon)")
    Meaning(fields=('azimuth',), unit='gon')
    >>> meaning_of("BHD [mm]")
    Meaning(fields=('dbh_mm',), unit='mm')
    """
    if len(heading) > 200:
        return None
    in_brackets = [unit_of(content) for content in _BRACKETS.findall(heading)]
    unit = next((name for name in in_brackets if name), "")
    plain = _BRACKETS.sub(" ", heading).strip()
    if plain.endswith(("°", "%")) and not unit:
        unit, plain = UNITS[plain[-1]], plain[:-1]
    key = fold(plain)
    fields = _known().get(key, ())
    if fields:
        return _in_unit(fields, unit)
    for ending, name in UNITS.items():
        if key.endswith(ending) and (fields := _known().get(key[: -len(ending)], ())):
            fitting = tuple(field for field in fields if _fits(field, name))
            if fitting:
                return _in_unit(fitting, unit or name)
    return None


def unit_of(text: str) -> str | None:
    """The unit a text names; empty when it names one without telling which, None when it names none."""
    text = text.strip().casefold()
    return UNITS.get(text) if text in ("°", "%") else UNITS.get(fold(text))


def in_unit(field: str, unit: str) -> str:
    """The field that holds the same quantity in the given unit, or the field itself."""
    return _IN_MILLIMETRES.get(field, field) if unit == "mm" else field


def likely_fields(heading: str) -> tuple[str, ...]:
    """Fields that a heading may stand for: what it is known to mean, else what looks most alike."""
    meaning = meaning_of(heading)
    known = meaning.fields if meaning else ()
    alike = [field for key in _alike(fold(heading)[:60], 4) for field in _known()[key]]
    return tuple(dict.fromkeys((*known, *alike)))


@cache
def _alike(folded: str, count: int) -> list[str]:
    return get_close_matches(folded, list(_known()), n=count, cutoff=0.7)


def nearest(heading: str, *, count: int = 2) -> tuple[str, ...]:
    """Known headings that look most alike, each with its field: ``Azimut (azimuth)``."""
    named = []
    for key in _alike(fold(heading)[:60], count):
        written, field = _written().get(key, key), _known()[key][0]
        named.append(written if written == field else f"{written} ({field})")
    return tuple(named)


def known_count(cells: Sequence[str], asked: frozenset[str] = frozenset()) -> int:
    """How many cells of a line are known headings, or headings that were asked for (folded)."""
    return sum(bool(cell.strip()) and _is_heading(cell, asked) for cell in cells)


def _is_heading(cell: str, asked: frozenset[str]) -> bool:
    return meaning_of(cell) is not None or (bool(asked) and fold(cell) in asked)


def _in_unit(fields: tuple[str, ...], unit: str) -> Meaning:
    return Meaning(tuple(in_unit(field, unit) for field in fields), unit)


def _fits(field: str, unit: str) -> bool:
    """Whether a unit can belong to a field at all."""
    own = FIELDS[field].unit
    if own in ("m", "cm", "mm", "CRS unit"):
        return unit in _LENGTHS
    return own in ("degree", "azimuth unit", "%") and unit in _ANGLES
