"""The part of the report that tells how well the survey was measured, from what crews measured a second time."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from typing import TYPE_CHECKING, Any

from stemmap.tasks.brought_back import brought_back
from stemmap.tasks.workup import Workup
from stemmap.writing.report import Block, Heading, Paragraph, Table

if TYPE_CHECKING:
    from stemmap.tasks.report import Spoken

_HEADINGS = ("Look", "Field", "Pairs", "Within tolerance", "Bias", "Standard deviation", "Remark")
_MEANING = (
    "Stems were measured a second time. Blind looks, in which the crew did not know the former values, tell how well "
    "the survey was measured; a crew that sees the former values agrees with them too easily. Bias is the mean of "
    "again minus recorded; both crews have a share in bias and standard deviation. In brackets the 95 % intervals."
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
    yield Paragraph(said(f"Tolerances: {told['tolerance']}."))


def _look(look: str, said: Callable[[str], str]) -> str:
    return said("Blind looks" if look == "blind" else "Looks with the former values")


def _row(told: Mapping[str, Any], spoken: Spoken) -> tuple[str, ...]:
    decimals = 3 if told["unit"] == "m" else 2
    share, low, high = (f"{100.0 * told[name]:.0f}" for name in ("within", "within_low", "within_high"))

    def figure(name: str, sign: str = "") -> str:
        values = [told[each] for each in (name, f"{name}_low", f"{name}_high")]
        if not told["unit"] or None in values:
            return "–"
        value, low, high = (f"{each:{sign}.{decimals}f}".replace(".", spoken.mark) for each in values)
        return f"{value} {told['unit']} ({low} … {high})"

    return (
        _look(told["look"], spoken.words),
        spoken.words(told["field"]),
        str(told["pairs"]),
        f"{share} % ({low} … {high} %)",
        figure("bias", "+"),
        figure("spread"),
        spoken.words(told["reason"]) if told["reason"] else "",
    )
