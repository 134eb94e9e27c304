"""The part of the report that tells how well the survey was measured, from what crews measured a second time."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from typing import TYPE_CHECKING, Any

from stemmap.tasks.brought_back import brought_back
from stemmap.tasks.workup import Workup
from stemmap.units import DIFFERENCE_DECIMALS
from stemmap.writing.report import Block, Heading, Paragraph, Table

if TYPE_CHECKING:
    from stemmap.tasks.report import Spoken

_HEADINGS = ("Look", "Field", "Pairs", "Within tolerance", "Bias", "Standard deviation", "Remark")
_MEANING = (
    "Stems were measured a second time. Blind looks, in which the crew did not know the former values, tell how well "
    "the survey was measured; a crew that sees the former values agrees with them too easily. Bias is the mean of "
    "again minus recorded; both crews have a share in bias and standard deviation. In brackets the 95 % intervals."
)
_ROBUST_HEADINGS = ("Look", "Field", "Pairs", "Median difference", "Standard deviation by the median", "Remark")
_ROBUST = (
    "The same by figures that a single slip hardly moves: the median of the differences, and 1.4826 times the median "
    "of their absolute deviations from it, which is the standard deviation where they are normally distributed "
    "(Hampel 1974). Gross is a difference beyond the tolerance that does not belong to the others by the generalized "
    "extreme studentized deviate (Rosner 1983), at a risk of 0.01; no figure leaves it out unless it says so."
)


def quality_blocks(workup: Workup, spoken: Spoken) -> Iterator[Block]:
    """How well the survey was measured, by look and field; nothing where no stem was measured a second time."""
    told, said = brought_back(workup).quality(), spoken.words
    rows = [_row(each, spoken) for each in told["fields"] if each["pairs"]]
    stems = [each for each in told["stems"] if each["asked"]]
    if not rows and not stems:
        return
    yield Heading(said("How well the survey was measured"))
    yield Paragraph(said(_MEANING))
    for each in stems:
        counts = f"{each['found']} of {each['asked']} stems were found, {each['added']} added."
        yield Paragraph(f"{_look(each['look'], said)}: {said(counts)}")
    shown = len(_HEADINGS) if any(row[-1] for row in rows) else len(_HEADINGS) - 1
    yield Table([said(heading) for heading in _HEADINGS[:shown]], [row[:shown] for row in rows])
    for each in told["fields"]:
        if each["gross_reason"]:
            field = said(each["field"])
            yield Paragraph(f"{_look(each['look'], said)}, {field}: {said(each['gross_reason'])}")
    measured = [_robust_row(each, spoken) for each in told["fields"] if each["median"] is not None]
    if measured:
        yield Paragraph(said(_ROBUST))
        shown = len(_ROBUST_HEADINGS) if any(row[-1] for row in measured) else len(_ROBUST_HEADINGS) - 1
        yield Table([said(heading) for heading in _ROBUST_HEADINGS[:shown]], [row[:shown] for row in measured])
    yield Paragraph(said(f"Tolerances: {told['tolerance']}."))


def _look(look: str, said: Callable[[str], str]) -> str:
    return said("Blind looks" if look == "blind" else "Looks with the former values")


def _robust_row(told: Mapping[str, Any], spoken: Spoken) -> tuple[str, ...]:
    figures = _figure(told, "median", spoken, sign="+"), _figure(told, "robust_sd", spoken)
    reason = spoken.words(told["robust_reason"]) if told["robust_reason"] else ""
    return (_look(told["look"], spoken.words), spoken.words(told["field"]), str(told["pairs"]), *figures, reason)


def _figure(told: Mapping[str, Any], name: str, spoken: Spoken, *, sign: str = "") -> str:
    """A figure with its unit and interval, as far as they are known."""
    if not told["unit"] or told[name] is None:
        return "–"
    value, low, high = (
        "–" if each is None else f"{each:{sign}.{DIFFERENCE_DECIMALS[told['unit']]}f}".replace(".", spoken.mark)
        for each in (told[name], told[f"{name}_low"], told[f"{name}_high"])
    )
    return f"{value} {told['unit']}" + (f" ({low} … {high})" if low != "–" else "")


def _row(told: Mapping[str, Any], spoken: Spoken) -> tuple[str, ...]:
    share, low, high = (f"{100.0 * told[name]:.0f}" for name in ("within", "within_low", "within_high"))
    return (
        _look(told["look"], spoken.words),
        spoken.words(told["field"]),
        str(told["pairs"]),
        f"{share} % ({low} … {high} %)",
        _figure(told, "bias", spoken, sign="+"),
        _figure(told, "spread", spoken),
        spoken.words(told["reason"]) if told["reason"] else "",
    )
