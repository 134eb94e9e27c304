"""Spatial structure as a table, JSON or CSV."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from typing import Any, TextIO

import numpy as np

from stemmap.survey.curves import Curve
from stemmap.survey.profiles import Profile
from stemmap.survey.structure import CAUTION, Structure, SurveyStructure
from stemmap.writing.tables import write_csv, write_json_list, write_text_table

#: Forms that the structure can be written in.
FORMS = ("table", "json", "csv")
_INDICES = ("uniform_angle", "mingling", "differentiation", "dominance", "competition")
_CURVES = ("l_minus_r", "g", "nearest", "mark_correlation", "mark_variogram")


def write_structure(stream: TextIO, made: SurveyStructure, form: str) -> None:
    """Write the spatial structure of each plot visit, of the strata and pooled, in one of `FORMS`.

    The large stems of concentric circles follow the others.
    """
    if form == "json":
        write_json_list(stream, "plots", (plot.json() for plot in made.plots), made.rest_json())
    elif form == "csv":
        _write_csv(stream, made)
    else:
        _write_table(stream, made)


def write_diagram_values(stream: TextIO, diagrams: Iterable[tuple[str, Curve | Profile]]) -> None:
    """Write what diagrams show as CSV: a row for each distance of a curve and each class of a profile.

    Parameters
    ----------
    diagrams
        Name and content of each.
    """
    headings = ["diagram", "species", "from", "to", "value", "chance", "low", "high", "n"]
    write_csv(stream, headings, (row for name, content in diagrams for row in _value_rows(name, content)))


def _value_rows(name: str, content: Curve | Profile) -> Iterator[list[Any]]:
    if isinstance(content, Profile):
        for species, counts in content.counts.items():
            for lower, upper, count in zip(content.edges[:-1], content.edges[1:], counts, strict=True):
                yield [name, species, lower, upper, count, content.expected, None, None, content.stems]
        return
    missing = np.full(len(content.r), np.nan)
    low = missing if content.low is None else content.low
    high = missing if content.high is None else content.high
    kind, _, species = name.partition(" ")
    for row in zip(content.r, content.r, content.value, content.chance, low, high, strict=True):
        yield [kind, species, *row, content.stems]


def _all(made: SurveyStructure) -> Iterator[tuple[str, Structure]]:
    for prefix, one in (("", made), ("large ", made.large)):
        if one is not None:
            yield from ((f"{prefix}plot", plot) for plot in one.plots)
            yield from ((f"{prefix}stratum", stratum) for stratum in one.strata)
            yield f"{prefix}pooled", one.pooled


def _write_csv(stream: TextIO, made: SurveyStructure) -> None:
    headings = ["level", "plot", "visit", "stratum", "n", "plots", "inclusion", "reason"]
    headings += ["clark_evans_r", "clark_evans_z", "clark_evans_p", "clark_evans_plain_r", "clark_evans_cdf_r"]
    headings += [f"{name}{part}" for name in _INDICES for part in ("", "_chance", "_p", "_n")]
    headings += [f"{name}_p" for name in _CURVES] + ["sentence", "other_sentences"]
    write_csv(stream, headings, (_row(level, one) for level, one in _all(made)))


def _row(level: str, one: Structure) -> list[Any]:
    index = one.indices
    ce = index.get("clark_evans", {})
    donnelly = ce.get("donnelly", {})
    return [
        level,
        *(one.heading.get(name) for name in ("plot", "visit", "stratum")),
        one.stems,
        one.plots,
        one.inclusion,
        one.reason or None,
        *(donnelly.get(name) for name in ("r", "z", "p")),
        *(ce.get(form, {}).get("r") for form in ("none", "cdf")),
        *(index.get(name, {}).get(part) for name in _INDICES for part in ("value", "chance", "p", "n")),
        *(one.curves[name].p if name in one.curves else None for name in _CURVES),
        one.curves["l_minus_r"].sentence if "l_minus_r" in one.curves else None,
        " ".join(one.sentences()[1:]) or None,
    ]


def _write_table(stream: TextIO, made: SurveyStructure) -> None:
    headings = ["plot", "visit", "stems", "Clark-Evans", "angle", "mingling", "dbh diff.", "what L(r) shows"]
    units = ["", "", "", "R (p)", "", "", "", ""]
    write_text_table(stream, headings, (_line(level, one) for level, one in _all(made)), units=units)
    for level, one in _all(made):
        if level.endswith("plot"):
            continue
        title = "All plots" if level.endswith("pooled") else f"Stratum {one.heading['stratum'] or '(none)'}"
        stems = f"; {one.inclusion}" if level.startswith("large") else ""
        stream.write(f"\n{title}, last visits{stems}\n")
        for sentence in one.sentences():
            stream.write(f"  {sentence}\n")
    stream.write(f"\n{made.simulations} simulations, seed {made.seed}. {CAUTION}\n")


def _line(level: str, one: Structure) -> list[str | None]:
    large, _, what = level.rpartition(" ")
    name = {"plot": one.heading.get("plot"), "stratum": one.heading.get("stratum") or "(none)", "pooled": "all"}[what]
    ce = one.indices.get("clark_evans", {}).get("donnelly")
    shown = (one.indices.get(key, {}).get("value") for key in ("uniform_angle", "mingling", "differentiation"))
    return [
        f"{name}, large stems" if large else str(name),
        str(one.heading.get("visit") or ("" if what == "plot" else "last")),
        str(one.stems),
        None if ce is None else f"{ce['r']:.2f} ({ce['p']:.3f})",
        *(None if value is None else f"{value:.2f}" for value in shown),
        one.curves["l_minus_r"].sentence if "l_minus_r" in one.curves else one.reason,
    ]
