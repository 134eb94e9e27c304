"""Which plots and stems go into a field packet, which of them are blind, and in which order they are walked."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from math import ceil

import numpy as np
from numpy.typing import NDArray

from stemmap.core.tour import short_tour
from stemmap.errors import InputError
from stemmap.survey.decided import rows_of
from stemmap.survey.matched import match
from stemmap.survey.measured import Status
from stemmap.survey.packet import Asked, Look, PacketRow
from stemmap.survey.settings import Recheck
from stemmap.survey.survey import Survey
from stemmap.survey.withheld import by_number
from stemmap.tasks.recheck import BLIND_SHARE, recheck_list
from stemmap.tasks.sheets import chosen_visits
from stemmap.tasks.workup import Workup
from stemmap.units import FULL_CIRCLE, METRES

#: Empty rows at the end of each plot, for stems that have no record.
EMPTY_ROWS = 5

_DEGREES_TO_METRES = 111_320.0


@dataclass(frozen=True)
class Errand:
    """Which plots a packet is for.

    Parameters
    ----------
    plots
        Names; None: all with stems.
    recheck
        Whether those of the re-check list are wanted instead, with the stems that it asks for.
    budget_hours
        Crew time for the re-check list; None: no limit.
    blind_share
        Blind plots for each other one, from 0 to 1, rounded up; None: `BLIND_SHARE` with the re-check list, else none.
    seed
        Of drawing them.
    """

    plots: Sequence[str] | None = None
    recheck: bool = False
    budget_hours: float | None = None
    blind_share: float | None = None
    seed: int = 1

    @property
    def asked(self) -> Asked:
        """What is asked for, in one word."""
        return "recheck" if self.recheck else "all" if self.plots is None else "plots"

    @property
    def share(self) -> float:
        """Blind plots for each other one."""
        return (BLIND_SHARE if self.recheck else 0.0) if self.blind_share is None else self.blind_share


@dataclass(frozen=True)
class PacketPlots:
    """The visits of a packet.

    Parameters
    ----------
    order
        Their rows as they are walked.
    blind
        Those that are measured without knowing what was recorded.
    stems
        By visit the rows of the stems to measure again: in the order of their records, on a blind plot in the order of
        their numbers, since the other one would tell about their azimuths.
    again
        What a re-check list asks for, by cold visit, as `RecheckList.by_visit` gives it; empty without such a list.
    """

    order: list[int]
    blind: frozenset[int]
    stems: dict[int, list[int]]
    again: dict[int, list[int]]

    def searched(self, row: int) -> bool:
        """Whether stems are looked for that others hide from the centre."""
        return any(stem < 0 for stem in self.again.get(row, ()))

    def hours(self, rules: Recheck) -> tuple[float, float]:
        """Crew time on the plots that show their former values, and on the blind ones, with the way to each."""
        minutes = {True: 0.0, False: 0.0}
        for row in self.order:
            minutes[row in self.blind] += (
                rules.minutes_to_plot
                + rules.minutes_to_set_up
                + rules.minutes_per_stem * len(self.stems[row])
                + rules.minutes_to_search * self.searched(row)
            )
        return minutes[False] / 60.0, minutes[True] / 60.0


def plots_of_packet(workup: Workup, errand: Errand) -> PacketPlots:
    """Choose plots, draw the blind ones, and order all so that the way from the first one asked for is short.

    On a plot of the re-check list the stems that it asks for are measured again, and those that were decided to be; on
    others all that were neither cut nor gone; on a blind plot all, since that would tell their status. Blind plots are
    drawn from those not asked for; where too few are left, the rest of them from the others.

    Raises
    ------
    InputError
        When a plot is not there, the share is no share, or no plot is left.
    """
    if not 0.0 <= errand.share <= 1.0:
        raise InputError(f"The share of blind plots is {errand.share:g}, but must lie between 0 and 1.")
    survey = workup.survey
    standing = np.isin(workup.measured.status, (Status.LIVING, Status.DEAD))
    with_stems = [row for row in chosen_visits(workup) if survey.visits.stem_count[row]]
    asked: dict[int, list[int]] = {}
    if errand.recheck:
        listed = recheck_list(workup, budget_hours=errand.budget_hours, blind_share=0.0, seed=errand.seed)
        asked = _decided(survey)
        for visit, listed_stems in listed.by_visit.items():
            asked[visit] = sorted({*asked.get(visit, ()), *listed_stems})
        wanted = list(asked)
    else:
        wanted = with_stems if errand.plots is None else list(dict.fromkeys(chosen_visits(workup, errand.plots)))
    if not wanted:
        raise InputError("No plot is left to send a crew to.")
    rng = np.random.default_rng(errand.seed)
    number = ceil(errand.share * len(wanted) - 1e-9)
    others = np.setdiff1d(with_stems, wanted).astype(np.int64)
    blind = rng.choice(others, min(number, len(others)), replace=False).tolist()
    blind += rng.choice(np.array(wanted), number - len(blind), replace=False).tolist()
    again = {row: stems for row, stems in asked.items() if row not in blind}
    stems = {row: by_number(survey, row) for row in blind}
    stems |= {row: [stem for stem in listed if stem >= 0] for row, listed in again.items()}
    for row in wanted:
        if row not in stems:
            rows = survey.visits.stems(row)
            stems[row] = (rows.start + np.flatnonzero(standing[rows])).tolist()
    return PacketPlots(_walked(workup, list(dict.fromkeys([*wanted, *blind]))), frozenset(blind), stems, again)


def _decided(survey: Survey) -> dict[int, list[int]]:
    """Stems of last visits that a decision sends the crew to and that did not come back since, by visit."""
    stems = survey.stems
    back = _back(survey)
    asked: dict[int, list[int]] = {}
    for entry in survey.decisions.standing.values():
        if entry.decision != "recheck":
            continue
        if entry.source is None or entry.line is None:
            visit = survey.visit_row(entry.plot or "", entry.visit or "")
            rows = np.arange(len(stems))[survey.visits.stems(visit)] if visit >= 0 else np.zeros(0, np.int64)
        else:
            rows = rows_of(stems.records, [(entry.source, entry.line)])
        for row in rows[rows >= 0].tolist():
            visit = int(stems.visit_row[row])
            record = int(stems.records.source[row]), int(stems.records.line[row])
            if visit not in survey.visits.previous and back.get(record, -1) < entry.entry:
                asked.setdefault(visit, []).append(row)
    return {visit: sorted(set(rows)) for visit, rows in asked.items()}


def _back(survey: Survey) -> dict[tuple[int, int], int]:
    """For each record that came back from the field the last journal entry before it did."""
    returned = survey.upload.returned
    matched = match(survey.upload, survey.settings, survey.decisions.entries)
    if returned is None or matched is None:
        return {}
    rows = np.flatnonzero(matched.stem >= 0)
    records = survey.upload.stems.take(matched.stem[rows])
    back: dict[tuple[int, int], int] = {}
    after = returned.after_entry[rows].tolist()
    for source, line, entry in zip(records.source.tolist(), records.line.tolist(), after, strict=True):
        back[source, line] = max(entry, back.get((source, line), -1))
    return back


def _walked(workup: Workup, rows: list[int]) -> list[int]:
    """Visits in a short order of their centres from the first one; those without a place at the end."""
    centres = workup.measured.centres
    lon, lat = centres.lon[rows], centres.lat[rows]
    placed = np.flatnonzero(np.isfinite(lon) & np.isfinite(lat))
    if not len(placed):
        return rows
    # Good enough for an order: a plane at the middle latitude, and no jump at 180 degrees from the first one.
    east = (lon[placed] - lon[placed[0]] + 180.0) % 360.0 - 180.0
    metres = _DEGREES_TO_METRES * np.cos(np.radians(lat[placed].mean()))
    order = placed[short_tour(metres * east, _DEGREES_TO_METRES * lat[placed])].tolist()
    return [rows[place] for place in order] + [row for place, row in enumerate(rows) if place not in set(order)]


def measured_fields(workup: Workup, plots: PacketPlots) -> dict[str, tuple[float, float]]:
    """Fields to measure again in the file's own units, with the least and greatest usual value."""
    survey = workup.survey
    measurement, instrument = survey.settings.measurement, survey.settings.instrument
    columns = survey.stems.records.columns
    diameters = [name for name in ("dbh_cm", "dbh_mm", "girth_cm") if name in columns and columns[name].filled.any()]
    diameter = (diameters or ["dbh_cm"])[0]
    radius = workup.measured.radius_m[plots.order] / METRES[measurement.length_unit]
    radius = radius[np.isfinite(radius)]
    reach = radius.max() if len(radius) else _greatest(survey.stems.numbers("distance_m"))
    thickest = _greatest(survey.stems.numbers(diameter))
    metric = measurement.length_unit == "metre"
    fields = {
        "azimuth": (0.0, FULL_CIRCLE[measurement.azimuth_unit]),
        "distance_m": (0.0, instrument.max_distance_m or ceil(1.25 * reach) or 100.0),
    }
    if "vertical_angle_deg" in columns and columns["vertical_angle_deg"].filled.any():
        fields["vertical_angle_deg"] = (-60.0, 60.0)
    most = instrument.max_dbh_cm if diameter == "dbh_cm" else None
    fields[diameter] = (0.0, most or ceil(1.25 * thickest) or (150.0 if metric else 60.0))
    return fields


def _greatest(values: NDArray[np.float64]) -> float:
    """The greatest of the usual values: of all but the highest hundredth, which may be typing errors."""
    known = values[np.isfinite(values)]
    return float(np.quantile(known, 0.99)) if len(known) else 0.0


def packet_rows(survey: Survey, plots: PacketPlots, measured: Sequence[str]) -> Iterator[PacketRow]:
    """Rows plot by plot, each plot with empty ones at its end."""
    stems, visits = survey.stems, survey.visits
    texts = {name: stems.texts(name) for name in ("tree", "stem", *measured, "species", "status")}
    tree, stem = texts["tree"].tolist(), texts["stem"].tolist()
    uploads = survey.upload.upload_of_source
    number = 0
    for visit_row in plots.order:
        look: Look = "blind" if visit_row in plots.blind else "cold"
        plot, visit = str(visits.plot[visit_row]), str(visits.visit[visit_row]) or None
        for row in plots.stems[visit_row]:
            number += 1
            source = int(stems.records.source[row])
            former = {name: texts[name][row] for name in (*measured, "species", "status") if texts[name][row]}
            yield PacketRow(
                number, look, plot, visit, tree[row] or None, stem[row] or None,
                source, int(stems.records.line[row]), uploads[source], former,
            )  # fmt: skip
        for _ in range(EMPTY_ROWS):
            number += 1
            yield PacketRow(number, look, plot, visit, None, None, None, None, None, {})


def words_of(survey: Survey) -> tuple[list[str], list[str]]:
    """Species and statuses to choose from: those typed, of the statuses also one word for each kind."""
    typed = {
        name: sorted({text.strip() for text in set(survey.stems.texts(name).tolist())} - {""})
        for name in ("species", "status")
    }
    known = survey.settings.status
    kinds = [words[0] for words in (known.living, known.dead, known.cut, known.gone) if words]
    folded = {word.casefold() for word in typed["status"]}
    statuses = typed["status"] or kinds
    return typed["species"], statuses + [word for word in kinds if typed["status"] and word.casefold() not in folded]
