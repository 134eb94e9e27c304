"""Which column is which field, and which table a sheet is."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Literal

from stemmap.errors import InputError
from stemmap.reading import remarks
from stemmap.reading.headings import Meaning, fold, in_unit, meaning_of, nearest
from stemmap.reading.sheet import Sheet
from stemmap.reading.text import SURPLUS
from stemmap.survey.fields import FIELDS, fields_of
from stemmap.survey.records import Remark

Kind = Literal["plots", "stems", "stations", "stems with plots"]

#: So many unplaced columns are named; the rest is counted.
_NAMED_COLUMNS = 12
_OF_PLOTS = frozenset(item.name for item in fields_of("plots"))
_OF_STEMS = frozenset(item.name for item in fields_of("stems"))
_ONLY_PLOTS = _OF_PLOTS - _OF_STEMS
#: Fields that a table of plots never has, whatever else stands in it.
_PROOF_OF_STEMS = frozenset(
    {
        *("tree", "stem", "azimuth", "distance_m", "dbh_cm", "dbh_mm", "girth_cm", "dbh_cross_cm", "dbh_cross_mm"),
        *("species", "upper_diameter_cm", "upper_height_m", "measurement_height_m", "vertical_angle_deg"),
    }
)
_OF_STATIONS = frozenset({"plot", "station", "azimuth", "distance_m"})


@dataclass(frozen=True)
class Placement:
    """What the columns of a sheet are.

    Parameters
    ----------
    kind
        The table the sheet is.
    fields
        Canonical field of each column, None for a column that is kept without being interpreted.
    units
        Unit named by the heading of each column, empty when it names none.
    remarks
        What was decided.
    """

    kind: Kind
    fields: tuple[str | None, ...]
    units: tuple[str, ...]
    remarks: tuple[Remark, ...]


@dataclass
class _Placing:
    """Fields handed out so far."""

    sheet: Sheet
    meanings: list[Meaning | None]
    fields: list[str | None]
    said: list[Remark] = field(default_factory=list)

    def heading(self, place: int) -> str:
        return self.sheet.headings[place]

    def give(self, place: int, name: str) -> None:
        self.fields[place] = name


def check_columns(columns: Mapping[str, str]) -> None:
    """Refuse a mapping that names a field there is not.

    Raises
    ------
    InputError
        With the nearest fields.
    """
    for name in columns:
        if name not in FIELDS:
            near = nearest(name)
            hint = f"; near it: {', '.join(near)}" if near else ""
            raise InputError(f"There is no field {name!r} to map a heading to{hint}. The handbook lists all fields.")


def place_columns(sheet: Sheet, columns: Mapping[str, str]) -> Placement | None:
    """Decide what the columns of a sheet are.

    Parameters
    ----------
    sheet
        The sheet.
    columns
        Canonical field to the heading that was asked for.

    Returns
    -------
    Placement | None
        None when no heading is known.
    """
    meanings = [_with_unit(meaning_of(name), unit) for name, unit in _headings_and_units(sheet)]
    placing = _Placing(sheet, meanings, [None] * len(meanings))
    _place_asked(placing, columns)
    if not any(placing.fields) and not any(meanings):
        return None
    kind = _kind(placing)
    if kind is None:
        return None
    _place_known(placing, kind)
    if kind == "stems" and any(name in _ONLY_PLOTS for name in placing.fields):
        kind = "stems with plots"
    _tell_unplaced(placing, kind)
    units = tuple(meaning.unit if meaning else "" for meaning in meanings)
    return Placement(kind, tuple(placing.fields), units, tuple(placing.said))


def _headings_and_units(sheet: Sheet) -> list[tuple[str, str]]:
    units = (*sheet.units, *[""] * (len(sheet.headings) - len(sheet.units)))
    return list(zip(sheet.headings, units, strict=True))


def _with_unit(meaning: Meaning | None, unit: str) -> Meaning | None:
    """A meaning in the unit of the line below the headings, unless the heading itself names one."""
    if meaning is None or meaning.unit or not unit:
        return meaning
    return Meaning(tuple(in_unit(name, unit) for name in meaning.fields), unit)


def _place_asked(placing: _Placing, columns: Mapping[str, str]) -> None:
    """Columns that a mapping names, by their exact heading first."""
    for name, asked in columns.items():
        wanted = asked.strip()
        same = [place for place, text in enumerate(placing.sheet.headings) if text == wanted]
        same = same or [
            place for place, text in enumerate(placing.sheet.headings) if text and fold(text) == fold(wanted)
        ]
        free = [place for place in same if placing.fields[place] is None]
        if free:
            placing.give(free[0], name)


def _kind(placing: _Placing) -> Kind | None:
    """Which table a sheet is, from what its headings can mean."""
    asked = {name for name in placing.fields if name}
    possible = [
        set(meaning.fields)
        for meaning, name in zip(placing.meanings, placing.fields, strict=True)
        if meaning and name is None
    ]
    sure = asked | {name for names in possible if len(names) == 1 for name in names}
    if "station" in sure and {"azimuth", "distance_m"} <= sure and not (sure & _PROOF_OF_STEMS) - _OF_STATIONS:
        return "stations"
    if asked & _PROOF_OF_STEMS or any(names <= _PROOF_OF_STEMS for names in possible):
        return "stems"
    if asked & _ONLY_PLOTS or any(names & _OF_PLOTS for names in possible) or asked & _OF_PLOTS:
        return "plots"
    return "stems" if any(names & _OF_STEMS for names in possible) or asked else None


def _place_known(placing: _Placing, kind: Kind) -> None:
    """Known headings, those with one meaning first, then those that can mean several things."""
    allowed = {"plots": _OF_PLOTS, "stations": _OF_STATIONS}.get(kind, _OF_STEMS | _OF_PLOTS)
    open_places = [
        place
        for place, meaning in enumerate(placing.meanings)
        if meaning and placing.fields[place] is None and set(meaning.fields) & allowed
    ]
    for most in (1, 99):
        for place in list(open_places):
            taken = {name for name in placing.fields if name}
            possible = _in_order(placing.meanings[place], allowed, kind)
            free = [name for name in possible if name not in taken]
            if len(possible) > most:
                continue
            open_places.remove(place)
            if not free:
                _tell_twice(placing, place, possible[0])
                continue
            placing.give(place, free[0])
            alike = [name for name in free if _rank(name, kind) == _rank(free[0], kind)]
            if len(alike) > 1:
                _tell_ambiguous(placing, place, alike)


def _in_order(meaning: Meaning | None, allowed: frozenset[str], kind: Kind) -> list[str]:
    """The fields of a meaning that the table can have, those that suit the table best first."""
    fields = [] if meaning is None else [name for name in meaning.fields if name in allowed]
    return sorted(fields, key=lambda name: _rank(name, kind))


def _rank(name: str, kind: Kind) -> int:
    """How well a field suits a table: among stems those of stems come first, those of plots only last."""
    return 0 if kind == "plots" or name in _PROOF_OF_STEMS else 2 if name in _ONLY_PLOTS else 1


def _tell_twice(placing: _Placing, place: int, name: str) -> None:
    first = placing.heading(placing.fields.index(name))
    sentence = (
        f"Columns {first!r} and {placing.heading(place)!r} (column {place + 1}) both claim the field {name}; the "
        f"first was taken, the other is kept beside it. Say which one is meant under Columns of the upload in the "
        f"window, or with --map {name}=HEADING."
    )
    placing.said.append(Remark(remarks.COLUMN_TWICE, sentence, placing.sheet.source, column=placing.heading(place)))


def _tell_ambiguous(placing: _Placing, place: int, names: list[str]) -> None:
    heading = placing.heading(place)
    sentence = (
        f"The heading {heading!r} was taken as {names[0]}; it could also be {' or '.join(names[1:])}. "
        f"If so, say it under Columns of the upload in the window, or with --map {names[1]}={heading}."
    )
    placing.said.append(Remark(remarks.HEADING_AMBIGUOUS, sentence, placing.sheet.source, column=heading))


def _tell_unplaced(placing: _Placing, kind: Kind) -> None:
    """Name the columns that are no field, each with the nearest known headings."""
    twice = {remark.column for remark in placing.said if remark.check == remarks.COLUMN_TWICE}
    unplaced = [place for place, name in enumerate(placing.fields) if name is None]
    unplaced = [
        place for place in unplaced if placing.heading(place) not in twice and placing.heading(place) != SURPLUS
    ]
    source = placing.sheet.source
    elsewhere: list[str] = []
    unknown: list[str] = []
    unnamed: list[int] = []
    for place in unplaced:
        heading = placing.heading(place)
        if heading:
            (elsewhere if placing.meanings[place] else unknown).append(heading)
        elif placing.sheet.columns[place].filled.any():
            unnamed.append(place + 1)
    if unnamed:
        places = _listed([str(place) for place in unnamed])
        sentence = (
            f"Column {places} has no heading; its cells are kept, but not interpreted."
            if len(unnamed) == 1
            else f"Columns {places} have no heading; their cells are kept, but not interpreted."
        )
        placing.said.append(Remark(remarks.COLUMN_UNNAMED, sentence, source, column=f"column {unnamed[0]}"))
    for headings, alike in ((elsewhere, False), (unknown, True)):
        if headings:
            sentence = _unplaced_sentence(headings, kind, alike=alike)
            placing.said.append(Remark(remarks.COLUMN_NOT_PLACED, sentence, source, column=headings[0][:200]))


def _unplaced_sentence(headings: list[str], kind: Kind, *, alike: bool) -> str:
    """One sentence for all headings that are left for one reason; if `alike`, with known headings near the first."""
    named = _listed([remarks.quoted(heading) for heading in headings])
    near = [nearest(heading, count=2 if len(headings) == 1 else 1) for heading in headings[:6] if alike]
    known = ", ".join(dict.fromkeys(name for names in near for name in names))
    if len(headings) == 1:
        reason = f"is not known; near it: {known}" if known else "is not known"
        return (
            f"The heading {named} {reason if alike else f'is not a field of a table of {kind}'}. The column is kept, "
            "but not interpreted; if it is a field, say which one under Columns of the upload in the window, or with "
            "--map FIELD=HEADING."
        )
    reason = f"are not known; near them: {known}" if known else "are not known"
    return (
        f"The headings {named} {reason if alike else f'are no fields of a table of {kind}'}. Their columns are kept, "
        "but not interpreted; if one is a field, say which one under Columns of the upload in the window, or with "
        "--map FIELD=HEADING."
    )


def _listed(names: list[str]) -> str:
    """The first of many names; the rest is counted."""
    named = ", ".join(names[:_NAMED_COLUMNS])
    return f"{named} and {len(names) - _NAMED_COLUMNS:,} more" if len(names) > _NAMED_COLUMNS else named


def unknown_sentence(sheet: Sheet) -> str:
    """One sentence for a sheet without any known heading."""
    shown = [heading for heading in sheet.headings if heading][:12]
    near = [name for heading in shown[:6] for name in nearest(heading, count=1)]
    hint = f"; near them: {', '.join(dict.fromkeys(near))}" if near else ""
    listed = ", ".join(remarks.quoted(heading) for heading in shown) or "none"
    return (
        f"{sheet.source} has no heading of plots or stems; found {listed}{hint}. Say what the columns are: "
        "under Columns of the upload in the window, or for example with --map azimuth=HEADING."
    )
