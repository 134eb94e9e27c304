"""Azimuths, distances and diameters that were probably meant otherwise, and records entered twice."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

import numpy as np
from numpy.typing import NDArray

from stemmap.checks.evidence.meanings import OTHER_COLUMN, TWO_COLUMNS
from stemmap.checks.evidence.posterior import Posterior, posterior
from stemmap.checks.evidence.proposals import LEAST, MOST, Proposed, proposed
from stemmap.checks.evidence.reasons import Reasons, reasons
from stemmap.checks.evidence.typed import typed
from stemmap.survey.batches import Batch, Proposal, Severity
from stemmap.survey.fields import STRUCK
from stemmap.survey.registry import Case, check

#: From these probabilities that the record is wrong it is told as a note, a warning, an error.
_TOLD, _LIKELY, _SURE = 0.2, 0.5, 0.95


@check("mistyped", family="typing", severity="warning")
def mistyped(case: Case) -> Iterator[Batch]:
    """A record was probably mistyped, and what was probably meant.

    What: an azimuth, a distance or a dbh that other evidence speaks against, or a record entered twice. The
    probability that it is wrong, and of each proposal, follows from how numbers get mistyped (two digits exchanged,
    a key beside, a digit lost, a point lost, back bearing, gon for degrees, azimuths of two stems exchanged) and
    from the order of numbering, free ground, the limit of the plot, usual diameters and the last visit.
    Why: a stem in the wrong place or with a wrong dbh moves the plot by its whole weight.
    What to do: look the value up; take the proposal where the field book agrees. Nothing is changed by itself.
    Source: Bayes' rule over all meanings, with rates learnt from the survey (expectation and maximisation).
    """
    found: Posterior = case.once(posterior)
    if not len(found.doubted.rows):
        return
    best: Proposed = case.once(proposed)
    why: Reasons = case.once(reasons)
    wrong = 1.0 - found.right
    severities: tuple[tuple[Severity, NDArray[np.bool_]], ...] = (
        ("note", (wrong >= _TOLD) & (wrong <= _LIKELY)),
        ("warning", (wrong > _LIKELY) & (wrong <= _SURE)),
        ("error", wrong > _SURE),
    )
    for severity, chosen in severities:
        some = np.flatnonzero(chosen)
        kinds, first, kind = np.unique(why.code[some], axis=0, return_index=True, return_inverse=True)
        for number in range(len(kinds)):
            rows = some[kind.ravel() == number]
            yield _batch(case, found, best, why, rows=rows, example=int(some[first[number]]), severity=severity)


def _left_out(proposal: Proposal, rows: NDArray[np.bool_], least: NDArray[np.float64]) -> Proposal:
    """The proposal without those rows where it is less likely than the best."""
    return replace(proposal, values=np.where(rows & (proposal.probability < least), np.nan, proposal.values))


def _batch(
    case: Case,
    found: Posterior,
    best: Proposed,
    why: Reasons,
    *,
    rows: NDArray[np.int64],
    example: int,
    severity: Severity,
) -> Batch:
    """Findings that are told in the same words."""
    stems = found.doubted.rows[rows]
    quantity = int(why.quantity[example])
    columns = case.once(typed).columns
    proposals = []
    for place in range(MOST):
        meaning = best.meaning[rows, place]
        of = np.where(meaning >= 0, found.meant.quantity[meaning], -1)
        for number, name in enumerate(columns):
            here = of == number
            if name is not None and here.any():
                value = np.where(here, found.meant.value[meaning], np.nan)
                proposals.append(Proposal(name, value, best.probability[rows, place]))
    meaning = best.meaning[rows, 0]
    for number, other in enumerate(OTHER_COLUMN):
        # Two columns that were exchanged are two values of one proposal.
        both = (meaning >= 0) & (found.meant.slip[meaning] == TWO_COLUMNS) & (found.meant.quantity[meaning] == number)
        name = columns[other]
        if name is not None and both.any():
            value = np.where(both, case.once(typed).numbers[number, stems], np.nan)
            proposals = [_left_out(each, both, best.probability[rows, 0]) for each in proposals]
            proposals.append(Proposal(name, value, best.probability[rows, 0]))
    twice = found.twice[rows] >= LEAST
    if twice.any():
        struck = np.array([STRUCK if each else None for each in twice.tolist()], object)
        proposals.append(Proposal("status", struck, np.where(twice, found.twice[rows], np.nan)))
    evidence = {name: values[rows] for name, values in why.evidence.items()}
    evidence["probability_wrong"] = 1.0 - found.right[rows]
    return case.about_stems(
        stems,
        why.sentence(example),
        field=columns[quantity] if quantity >= 0 else None,
        evidence=evidence,
        proposals=tuple(proposals),
        severity=severity,
        **case.worth(stems),
    )
