"""Findings that were kept as recorded, which stay away until what they speak of changes."""

from __future__ import annotations

from stemmap.survey.decided import rows_of
from stemmap.survey.journal import Entry
from stemmap.survey.survey import Survey


def kept(survey: Survey) -> tuple[frozenset[str], frozenset[int]]:
    """Ids of the findings that were kept as recorded, and the visit rows they may stand at (-1: about files).

    A finding is kept while its record stands as it was typed; one about a whole plot until the plot's visit is
    uploaded again.
    """
    ids, where = set(), set()
    entries = [entry for entry in survey.decisions.standing.values() if entry.decision == "keep"]
    records = [(entry.source, entry.line) for entry in entries if entry.source is not None and entry.line is not None]
    there = dict(zip(records, rows_of(survey.stems.records, records).tolist(), strict=True))
    for entry in entries:
        if entry.source is not None and entry.line is not None:
            row = there.get((entry.source, entry.line), -1)
            visit_row = int(survey.stems.visit_row[row]) if row >= 0 else None
        else:
            visit_row = -1 if entry.plot is None else _unchanged_visit(survey, entry)
        if visit_row is not None:
            ids.add(entry.finding)
            where.add(visit_row)
    return frozenset(ids), frozenset(where)


def _unchanged_visit(survey: Survey, entry: Entry) -> int | None:
    """Visit row of an entry about a whole plot, if no later upload has a record of it."""
    visit_row = survey.visit_row(entry.plot or "", entry.visit or "")
    unchanged = visit_row >= 0 and newest_upload(survey, visit_row) == entry.upload
    return visit_row if unchanged else None


def newest_upload(survey: Survey, visit_row: int) -> int | None:
    """Number of the newest upload that has a record of a visit; None where uploads are not numbered."""
    uploads = survey.upload.upload_of_source
    sources = set(survey.stems.records.source[survey.visits.stems(visit_row)].tolist())
    rows = [int(row) for row in (survey.visits.special[visit_row], survey.visits.general[visit_row]) if row >= 0]
    sources |= set(survey.visits.records.source[rows].tolist())
    return max((uploads[source] for source in sources), default=None) if uploads else None
