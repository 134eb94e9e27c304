"""Values, stems and rows that crews brought back from field packets and that do not agree with the records."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Any

import numpy as np
from numpy.typing import NDArray

from stemmap.checks.evidence.again import Again, again
from stemmap.survey.batches import Batch, Proposal
from stemmap.survey.decided import rows_of
from stemmap.survey.finding import LIKELY
from stemmap.survey.matched import Means, Outcome
from stemmap.survey.measured import Status, stem_status
from stemmap.survey.quantities import MEASURED, typed_texts
from stemmap.survey.registry import Case, check
from stemmap.survey.returned import cells
from stemmap.survey.returned import found as found_word
from stemmap.survey.settings import Measurement
from stemmap.units import DBH_CENTIMETRES

Integers = NDArray[np.int64]
Texts = NDArray[np.object_]

_BEYOND = (
    "No. {stem}: the azimuth was measured again as {again:g}{unit}, recorded is {recorded:g}{unit}; the difference of "
    "{difference:+.1f}° is beyond the tolerance of {tolerance:.1f}°.",
    "No. {stem}: the distance was measured again as {again:g}{unit}, recorded is {recorded:g}{unit}; the difference of "
    "{difference:+.2f} m is beyond the tolerance of {tolerance:.2f} m.",
    "No. {stem}: the dbh was measured again as {again:g}{unit}, recorded is {recorded:g}{unit}; the difference of "
    "{difference:+.1f} cm is beyond the tolerance of {tolerance:.1f} cm.",
)
#: The same where neither need be grossly wrong.
_ORDINARY = (
    "No. {stem}: the azimuth was measured again as {again:g}{unit}, recorded is {recorded:g}{unit}; the difference of "
    "{difference:+.1f}° is beyond the tolerance of {tolerance:.1f}°, but ordinary errors of both can make it.",
    "No. {stem}: the distance was measured again as {again:g}{unit}, recorded is {recorded:g}{unit}; the difference of "
    "{difference:+.2f} m is beyond the tolerance of {tolerance:.2f} m, but ordinary errors of both can make it.",
    "No. {stem}: the dbh was measured again as {again:g}{unit}, recorded is {recorded:g}{unit}; the difference of "
    "{difference:+.1f} cm is beyond the tolerance of {tolerance:.1f} cm, but ordinary errors of both can make it.",
)
#: The same where one is so many times the other; of azimuths there is no such.
_SLIPPED = (
    "",
    "No. {stem}: the distance was measured again as {again:g}{unit}, recorded is {recorded:g}{unit}; one is about "
    "{times:g} times the other, as where another unit was meant or the decimal point slipped.",
    "No. {stem}: the dbh was measured again as {again:g}{unit}, recorded is {recorded:g}{unit}; one is about "
    "{times:g} times the other, as where another unit was meant or the decimal point slipped.",
)
_FILLED = (
    "No. {stem}: the azimuth was measured again as {again:g}{unit}; none was recorded that can be used.",
    "No. {stem}: the distance was measured again as {again:g}{unit}; none was recorded that can be used.",
    "No. {stem}: the dbh was measured again as {again:g}{unit}; none was recorded that can be used.",
)
_UNREAD = (
    "No. {stem}: what was written for the azimuth measured again, {again}, is no azimuth.",
    "No. {stem}: what was written for the distance measured again, {again}, is no distance.",
    "No. {stem}: what was written for the dbh measured again, {again}, is no diameter.",
)
_WORDS = {
    "species": "No. {stem}: the species was written again as {again}, recorded is {recorded}.",
    "status": "No. {stem}: the status was written again as {again}, recorded is {recorded}.",
}
#: How likely a word written again is the right one, and a stem that a crew does not find is gone: our assumptions.
_WORD, _GONE, _ADDED = 0.7, 0.8, 0.95


@check("remeasured", family="revisit", severity="warning")
def remeasured(case: Case) -> Iterator[Batch]:
    """What a crew brought back differs from the record.

    What: a value measured again is further from the recorded one than the tolerance allows, a stem was not found, a
    stem was found that is not recorded, or a row came back that stands on a wrong line, names a wrong plot or fits
    nothing.
    Why: a second look is worth as much as what is made of it; none of it changes a record by itself.
    What to do: take the new value where the second measurement is trusted; keep the record where it is not; send the
    crew again where neither is.
    Source: the tolerances of the settings; the probability by Bayes' rule, from how often measurements are wrong.
    """
    found = case.once(again)
    if found is None:
        return
    compared = found.matched.outcome[found.row] == Outcome.COMPARED
    for quantity in range(len(MEASURED)):
        yield from _values(case, found, quantity, compared)
    for field, message in _WORDS.items():
        yield _words(case, found, compared, field=field, message=message)
    yield _status_unknown(case, found, compared)
    yield _not_found(case, found, ~compared)
    yield from _found(case, found, compared)
    yield from _lines(case, found)
    yield from _added(case, found)
    yield _unmatched(case, found)


def _origin(case: Case, found: Again, rows: Integers) -> dict[str, NDArray[Any]]:
    """Where rows that came back stand, as evidence."""
    records = found.rows
    sources = np.array([*case.survey.upload.sources, "?"], dtype=object)
    return {
        "packet": cells(records, "packet")[rows],
        "row": cells(records, "row")[rows],
        "look": np.where(found.matched.blind[rows], "blind", "cold").astype(object),
        "file": sources[records.source[rows]],
        "line": records.line[rows],
    }


def _unsettled(case: Case, found: Again, chosen: NDArray[np.bool_], field: str | None) -> Integers:
    """Those chosen for which nothing else was decided since their row came in."""
    returned = case.survey.upload.returned
    places = np.flatnonzero(chosen)
    decided = [
        (change.source, change.line, entry.entry)
        for entry in case.survey.decisions.standing.values()
        if "/remeasured/" in entry.finding
        for change in entry.changes
        if change.field == field
    ]
    if returned is None or not decided:
        return places
    rows = rows_of(case.survey.stems.records, [(source, line) for source, line, _ in decided])
    latest = dict(zip(rows.tolist(), (entry for _, _, entry in decided), strict=True))
    since = returned.after_entry[found.row[places]]
    open_yet = [latest.get(stem, -1) <= entry for stem, entry in zip(found.stem[places].tolist(), since, strict=True)]
    unsettled: Integers = places[np.array(open_yet, bool)]
    return unsettled


def _values(case: Case, found: Again, quantity: int, compared: NDArray[np.bool_]) -> Iterator[Batch]:
    records, unit = case.survey.stems.records, DBH_CENTIMETRES[case.survey.settings.measurement.length_unit]
    names = MEASURED[quantity]
    # A diameter is proposed in the form in which the record has it.
    held = np.full(len(found.stem), names[0], object)
    for name in names[::-1]:
        held[records.numbers(name)[found.stem] > 0.0] = name
    for name in names:
        per_unit = {"dbh_cm": unit, "dbh_mm": 0.1, "girth_cm": unit / np.pi}.get(name, 1.0)
        typed = found.rows.numbers(name)[found.row]
        new = np.where(np.isnan(typed), np.round(found.again[:, quantity] / per_unit, 6), typed)
        gross = found.probability[:, quantity] >= LIKELY
        slipped = ~np.isnan(found.times[:, quantity])
        for mask, message in (
            (found.beyond[:, quantity] & ~slipped & gross, _BEYOND[quantity]),
            (found.beyond[:, quantity] & ~slipped & ~gross, _ORDINARY[quantity]),
            (found.beyond[:, quantity] & slipped, _SLIPPED[quantity]),
            (found.filled[:, quantity], _FILLED[quantity]),
        ):
            places = _unsettled(case, found, mask & compared & (held == name), name)
            evidence = {
                "recorded": records.numbers(name)[found.stem[places]],
                "again": new[places],
                "unit": np.full(len(places), _unit(name, case.survey.settings.measurement), object),
                "difference": found.difference[places, quantity],
                "tolerance": found.tolerance[places, quantity],
                "times": found.times[places, quantity],
                **_origin(case, found, found.row[places]),
            }
            proposal = Proposal(name, new[places], found.probability[places, quantity])
            stems = found.stem[places]
            yield case.about_stems(
                stems, message, field=name, evidence=evidence, proposals=(proposal,), **case.worth(stems)
            )
    unread = np.flatnonzero(found.matched.not_understood[found.row, quantity] & compared)
    yield case.about_stems(
        found.stem[unread],
        _UNREAD[quantity],
        field=names[0],
        evidence={
            "again": typed_texts(found.rows, quantity)[found.row[unread]],
            **_origin(case, found, found.row[unread]),
        },
        severity="note",
    )


def _unit(name: str, measurement: Measurement) -> str:
    """Unit in which the values of a field were typed, as it stands behind a number."""
    unit = measurement.unit_of(name).partition("_")[0]
    return "°" if unit == "degree" else f" {unit}"


def _words(case: Case, found: Again, compared: NDArray[np.bool_], *, field: str, message: str) -> Batch:
    records, words = case.survey.stems.records, case.survey.settings.status
    new = cells(found.rows, field)[found.row]
    recorded = cells(records, field)[found.stem]
    differs = np.array([one.casefold() != other.casefold() for one, other in zip(new, recorded, strict=True)], bool)
    if field == "status":
        now, _ = stem_status(records.columns.get(field), len(records), words)
        column = found.rows.columns.get(field)
        then, known = stem_status(column, len(found.rows), words)
        differs &= known[found.row] & (then[found.row] != now[found.stem])
    places = _unsettled(case, found, compared & differs & (new != ""), field)
    return case.about_stems(
        found.stem[places],
        message,
        field=field,
        evidence={
            "recorded": np.where(recorded[places] != "", recorded[places], "–"),
            "again": new[places],
            **_origin(case, found, found.row[places]),
        },
        proposals=(Proposal(field, new[places], np.full(len(places), _WORD)),),
        **case.worth(found.stem[places]),
    )


def _status_unknown(case: Case, found: Again, compared: NDArray[np.bool_]) -> Batch:
    said = cells(found.rows, "status")
    _, known = stem_status(found.rows.columns.get("status"), len(found.rows), case.survey.settings.status)
    places = np.flatnonzero(compared & (said != "")[found.row] & ~known[found.row])
    return case.about_stems(
        found.stem[places],
        "No. {stem}: what was written for the status measured again, {again}, is no status that is known.",
        field="status",
        evidence={"again": said[found.row[places]], **_origin(case, found, found.row[places])},
        severity="note",
    )


def _not_found(case: Case, found: Again, gone: NDArray[np.bool_]) -> Batch:
    there = case.measured.status[found.stem] != Status.GONE
    places = _unsettled(case, found, gone & there, "status")
    word = np.full(len(places), case.survey.settings.status.gone[0] if case.survey.settings.status.gone else "", object)
    return case.about_stems(
        found.stem[places],
        "No. {stem} was not found when it was to be measured again.",
        field="status",
        evidence=_origin(case, found, found.row[places]),
        proposals=(Proposal("status", word, np.full(len(places), _GONE)),),
        **case.worth(found.stem[places]),
    )


def _found(case: Case, found: Again, compared: NDArray[np.bool_]) -> Iterator[Batch]:
    """Rows that say something else of finding the stem than what their values say, or nothing that is understood."""
    said = cells(found.rows, "found")[found.row]
    word = np.array([found_word(text) for text in said.tolist()], object)
    typed = np.column_stack([typed_texts(found.rows, place) != "" for place in range(len(MEASURED))])[found.row]
    values, odd = typed.any(axis=1), word == "?"
    kinds = (
        (
            values & (word == "no"),
            "No. {stem}: row {row} of packet {packet} says {said} under found, but values stand beside it; it was "
            "compared as found.",
        ),
        (
            values & odd,
            "No. {stem}: row {row} of packet {packet} says {said} under found, which is neither yes, no nor new; "
            "values stand beside it, so it was compared as found.",
        ),
        (
            ~values & odd,
            "No. {stem}: row {row} of packet {packet} says {said} under found, which is neither yes, no nor new, and "
            "no value stands beside it; nothing follows from it.",
        ),
    )
    for chosen, message in kinds:
        places = np.flatnonzero(chosen & compared)
        evidence = {"said": said[places], **_origin(case, found, found.row[places])}
        yield case.about_stems(found.stem[places], message, evidence=evidence, severity="note")


def _lines(case: Case, found: Again) -> Iterator[Batch]:
    """Rows that stand on a wrong line or name a wrong plot."""
    matched = found.matched
    means, differs = matched.means[found.row], matched.plot_differs[found.row]
    asked = np.append(found.asked.plot, "")[matched.asked[found.row]]
    own = np.where(found.asked.stem != "", found.asked.stem, found.asked.tree)
    line_of = np.append(own, "")[matched.asked[found.row]]
    kinds: tuple[tuple[NDArray[np.bool_], str, Mapping[str, Texts]], ...] = (
        (
            means == Means.EXCHANGED,
            "No. {stem}: row {row} of packet {packet} fits this stem far better than No. {listed}, on whose line it "
            "stands, and was compared so; either the lines or the numbers of the stems were exchanged.",
            {"listed": line_of},
        ),
        (
            differs & (means != Means.OTHER_PLOT),
            "No. {stem}: row {row} of packet {packet} names plot {named}, but was printed for plot {listed} and was "
            "compared there.",
            {"listed": asked, "named": cells(found.rows, "plot")[found.row]},
        ),
        (
            means == Means.OTHER_PLOT,
            "No. {stem}: row {row} of packet {packet} was printed for plot {listed}, but names this plot and fits this "
            "stem far better; it was compared here.",
            {"listed": asked},
        ),
    )
    for chosen, message, told in kinds:
        places = np.flatnonzero(chosen)
        evidence = {name: values[places] for name, values in told.items()}
        evidence |= _origin(case, found, found.row[places])
        yield case.about_stems(found.stem[places], message, evidence=evidence, severity="note")


def _added(case: Case, found: Again) -> Iterator[Batch]:
    """Stems that a crew found and nobody recorded, each with the values by which it would be a stem."""
    survey, records, matched = case.survey, found.rows, found.matched
    rows = np.flatnonzero(np.isin(matched.outcome, (Outcome.NEW, Outcome.REPEATED)))
    places = [(int(records.source[row]), int(records.line[row])) for row in rows]
    taken = rows_of(survey.stems.records, places) >= 0
    plot = cells(records, "plot")[rows].tolist()
    said = list(zip(matched.asked[rows].tolist(), plot, map(str, matched.again[rows].tolist()), strict=True))
    # What was written again alike says nothing new of a stem that was taken over.
    known = {each for each, is_stem in zip(said, taken, strict=True) if is_stem}
    rows = rows[(matched.outcome[rows] == Outcome.NEW) & ~taken & np.array([each not in known for each in said], bool)]
    if not len(rows):
        return
    own = {name: cells(records, name)[rows] for name in ("plot", "visit", "tree", "stem")}
    asked = matched.asked[rows]
    meant = {
        name: np.where(asked >= 0, np.append(getattr(found.asked, name), "")[asked], own[name])
        for name in ("plot", "visit")
    }
    visit = np.array(
        [survey.visit_row(plot, visit or None) for plot, visit in zip(meant["plot"], meant["visit"], strict=True)],
        np.int64,
    )
    here = np.flatnonzero(visit >= 0)
    proposals = [Proposal(name, _where_new(meant[name], own[name])[here], np.full(len(here), _ADDED)) for name in meant]
    fields = [name for names in MEASURED for name in names if records.has(name)]
    proposals += [Proposal(name, records.numbers(name)[rows[here]], np.full(len(here), _ADDED)) for name in fields]
    number = np.where(own["stem"] != "", own["stem"], own["tree"])[here]
    origin = _origin(case, found, rows[here])
    listed = [
        f"{found.asked.packet[place]}.{found.asked.row[place]}" if place >= 0 else f"{source}.{line}"
        for place, source, line in zip(asked[here], records.source[rows[here]], records.line[rows[here]], strict=True)
    ]
    names = np.array(listed, object)
    values = dict(zip(("azimuth_deg", "distance_m", "dbh_cm"), matched.again[rows[here]].T, strict=True))
    for numbered, message in (
        (
            True,
            "Plot {plot}: a crew found a stem that is not recorded, No. {number}: azimuth {azimuth_deg:.1f}°, "
            "distance {distance_m:.2f} m, dbh {dbh_cm:.1f} cm.",
        ),
        (
            False,
            "Plot {plot}: a crew found a stem that is not recorded and gave it no number: azimuth "
            "{azimuth_deg:.1f}°, distance {distance_m:.2f} m, dbh {dbh_cm:.1f} cm.",
        ),
    ):
        some = np.flatnonzero((number != "") == numbered)
        batch = case.about_visits(
            visit[here],
            message,
            evidence={"number": number, **values, **origin},
            proposals=tuple(proposals),
            about=names,
            brought=np.column_stack([records.source[rows[here]], records.line[rows[here]]]).astype(np.int64),
        )
        yield batch.take(some)


def _where_new(texts: Texts, before: Texts) -> Texts:
    """The texts that are others than before, None where they are the same."""
    new = texts.copy()
    new[texts == before] = None
    return new


def _unmatched(case: Case, found: Again) -> Batch:
    rows = np.flatnonzero(found.matched.outcome == Outcome.UNMATCHED)
    number = np.where(cells(found.rows, "stem") != "", cells(found.rows, "stem"), cells(found.rows, "tree"))[rows]
    return case.about_files(
        len(rows),
        "{file}, line {line} (plot {named}, No. {number}) fits no row of a packet and no stem; it is kept, and nothing "
        "follows from it.",
        evidence={"named": cells(found.rows, "plot")[rows], "number": number, **_origin(case, found, rows)},
        severity="note",
    )
