"""A worked-up survey as layers for a GIS: plots as circles, their centres, stems as decided, findings."""

from __future__ import annotations

import json
from collections.abc import Mapping
from dataclasses import replace
from functools import cache
from types import MappingProxyType
from typing import Any

import numpy as np
from numpy.typing import NDArray

from stemmap.store.geopackage import ReferenceSystem
from stemmap.store.layer_rows import Layer
from stemmap.store.layers import Layers
from stemmap.survey.finding import Finding, filled
from stemmap.survey.kept import newest_upload
from stemmap.survey.place import coordinate_system, project_points
from stemmap.survey.records import Records
from stemmap.tasks.export import exported_columns
from stemmap.tasks.workup import Workup

Floats = NDArray[np.float64]

#: Corners of a drawn circle; with them its area is 0.5 % too small.
_CORNERS = 36

#: Number in the file of a coordinate system that EPSG does not list.
_OWN_SYSTEM = 100_001


def layers_of(workup: Workup) -> Layers:
    """The layers of a survey as decided."""
    columns, used = exported_columns(workup)
    easting, northing = columns.pop("easting"), columns.pop("northing")
    east, north, ring_x, ring_y = _circles(workup, used)
    plots = _plot_columns(workup)
    findings = _findings_layer(workup, (easting, northing), (east, north))
    by_name = {
        "plots": Layer.of_columns(plots, ring_x, ring_y),
        "plot_centres": Layer.of_columns(plots, east, north),
        "stems": Layer.of_columns(columns, easting, northing),
        "findings": findings,
    }
    decisions = workup.survey.decisions
    return Layers(
        by_name,
        None if used is None else _system(used),
        decided=decisions.standing,
        at_entry=decisions.entries[-1].entry if decisions.entries else 0,
    )


def _circles(workup: Workup, crs: str | None) -> tuple[Floats, Floats, Floats, Floats]:
    """Centres of shape (visits,) and rings of shape (visits, corners)."""
    measured, count = workup.measured, len(workup.survey.visits)
    if crs is None:
        nowhere = np.full((count, _CORNERS + 1), np.nan)
        return nowhere[:, 0], nowhere[:, 0], nowhere, nowhere
    radius = np.column_stack([np.zeros(count), np.repeat(measured.radius_m[:, None], _CORNERS, axis=1)])
    azimuth = np.append(0.0, np.arange(_CORNERS) * (-360.0 / _CORNERS) % 360.0)
    x, y = project_points(
        measured.centres,
        crs,
        np.repeat(np.arange(count), _CORNERS + 1),
        np.tile(azimuth, count),
        radius.ravel(),
    )
    x, y = x.reshape(count, -1), y.reshape(count, -1)
    corners = [*range(1, _CORNERS + 1), 1]
    return x[:, 0], y[:, 0], x[:, corners], y[:, corners]


def _plot_columns(workup: Workup) -> dict[str, NDArray[Any]]:
    visits, summary, findings = workup.survey.visits, workup.summary, workup.findings
    return {
        "plot": visits.plot,
        "visit": visits.visit,
        "date": visits.date,
        "radius_m": workup.measured.radius_m,
        "stems": summary.stems,
        "stems_in": summary.inside,
        "stems_borderline": summary.borderline,
        "stems_per_ha": summary.stems_per_ha,
        "basal_area_m2_per_ha": summary.basal_area_m2_per_ha,
        "errors": findings.count_by_visit("error"),
        "warnings": findings.count_by_visit("warning"),
        "notes": findings.count_by_visit("note"),
    }


def _findings_layer(workup: Workup, stems: tuple[Floats, Floats], centres: tuple[Floats, Floats]) -> Layer:
    """Findings where their stem or plot centre is."""
    survey = workup.survey
    findings = replace(workup.findings, telling=filled)  # a window may tell them in another language
    records, standing = survey.stems.records, survey.decisions.standing
    stem, visit = findings.order.stem, findings.order.visit

    @cache
    def newest(visit_row: int) -> int | None:
        return newest_upload(survey, visit_row) if visit_row >= 0 else None

    def rows(places: slice) -> dict[str, list[Any]]:
        told = findings.told(places)
        decided = [standing.get(finding.id) for finding in told]
        of_stem = [finding.stem_row for finding in told]
        return {
            **{name: [getattr(finding, name) or None for finding in told] for name in _FINDING_TEXTS},
            "proposals": [_proposals(finding, records) for finding in told],
            "source": [int(records.source[row]) if row >= 0 else None for row in of_stem],
            "line": [int(records.line[row]) if row >= 0 else None for row in of_stem],
            "upload": [newest(finding.visit_row) for finding in told],
            "stems_per_ha": [finding.effect["stems_per_ha"] for finding in told],
            "basal_area_m2_per_ha": [finding.effect["basal_area_m2_per_ha"] for finding in told],
            "open": [1] * len(told),
            "decision": [None if entry is None else entry.decision for entry in decided],
        }

    def placed(own: Floats, of_plot: Floats) -> Floats:
        return np.where(stem >= 0, np.append(own, np.nan)[stem], np.append(of_plot, np.nan)[visit])

    return Layer(_FINDING_TYPES, rows, placed(stems[0], centres[0]), placed(stems[1], centres[1]))


_FINDING_TEXTS = ("id", "plot", "visit", "stem", "check", "severity", "family", "field", "message")
_FINDING_TYPES: Mapping[str, str] = MappingProxyType(
    dict.fromkeys((*_FINDING_TEXTS, "proposals"), "TEXT")
    | dict.fromkeys(("source", "line", "upload"), "INTEGER")
    | dict.fromkeys(("stems_per_ha", "basal_area_m2_per_ha"), "DOUBLE")
    | {"open": "BOOLEAN", "decision": "TEXT"}
)


def _proposals(finding: Finding, records: Records) -> str | None:
    """Proposals as JSON, the most probable first; those for the stems of a whole plot name the record."""
    if not (finding.proposals or finding.meant):
        return None
    of_finding = sorted(finding.proposals, key=lambda each: -(each["probability"] or 0.0))
    if finding.brought is not None:
        source, line = finding.brought
        of_finding = [{"source": source, "line": line, **each} for each in of_finding]
    of_stems = [
        {
            "source": int(records.source[each.row]),
            "line": int(records.line[each.row]),
            "field": name,
            "value": value,
            "probability": each.probability,
        }
        for each in finding.meant
        for name, value in each.values.items()
    ]
    return json.dumps(of_finding + of_stems, ensure_ascii=False, allow_nan=False)


def _system(text: str) -> ReferenceSystem:
    """A coordinate system as a GeoPackage lists it."""
    from pyproj.enums import WktVersion
    from pyproj.exceptions import CRSError

    crs = coordinate_system(text)
    authority = crs.to_authority()
    try:
        definition = crs.to_wkt(WktVersion.WKT1_GDAL)
    except CRSError:
        definition = crs.to_wkt()
    if authority is not None and authority[0] == "EPSG" and authority[1].isdecimal():
        return ReferenceSystem(crs.name, int(authority[1]), "EPSG", int(authority[1]), definition)
    return ReferenceSystem(crs.name, _OWN_SYSTEM, "NONE", _OWN_SYSTEM, definition)
