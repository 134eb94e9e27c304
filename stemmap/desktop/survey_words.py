"""What a survey tells of its fieldwork, line by line in words, for groups of plot visits side by side."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from functools import partial
from typing import Any, NamedTuple

from PySide6.QtCore import QCoreApplication

from stemmap.desktop.sentences import number
from stemmap.desktop.wording import worded

_tr = QCoreApplication.translate
Told = dict[str, Any]

#: Fewer slips of a kind than this in the whole survey are not worth a line.
_FEWEST_CASES = 0.5
#: Chance from which last digits are called even, and stems at the edge enough.
_EVEN, _ENOUGH = 0.05, 0.01


class Line(NamedTuple):
    """One line: what it is about, what that means, and what each group says."""

    title: str
    meaning: str
    texts: list[str]


def group_texts() -> dict[str, str]:
    """How the groups are called that stand beside the whole survey."""
    return {
        "survey": _tr("survey", "The survey alone"),
        "visit": _tr("survey", "Visit by visit"),
        "crew": _tr("survey", "Crew by crew"),
        "instrument": _tr("survey", "Instrument by instrument"),
        "day": _tr("survey", "Day by day"),
    }


def group_name(told: Told) -> str:
    """What a group is called."""
    if told["by"] == "survey":
        return _tr("survey", "Whole survey")
    return told["name"] or _tr("survey", "not said")


def survey_lines(groups: Sequence[Told]) -> list[Line]:
    """The lines for some groups, the whole survey first."""
    return [*_counts(groups), *_slips(groups), *_rest(groups)]


def _counts(groups: Sequence[Told]) -> Iterator[Line]:
    from stemmap.drawing.legend import family_words

    yield Line(
        _tr("survey", "Plots measured"),
        _tr("survey", "A plot counts once for each of its visits"),
        [number(told["plots"], 0) for told in groups],
    )
    yield Line(
        _tr("survey", "Stems recorded"),
        _tr("survey", "All records, whether in or out, living or dead"),
        [number(told["stems"], 0) for told in groups],
    )
    for family, word in family_words().items():
        if groups[0]["findings"][family]:
            yield Line(
                _tr("survey", "Findings: {kind}").format(kind=word),
                _tr("survey", "Errors, things to look at and notes together"),
                [_per_hundred(told["findings"][family], told["stems"]) for told in groups],
            )


def _slips(groups: Sequence[Told]) -> Iterator[Line]:
    rates = _tr(
        "survey",
        "Recording errors in 1,000 stems as this survey itself tells, those too small to be seen included; in brackets "
        "the range in which the true rate lies with a probability of 95 %",
    )
    for name, title in _record_texts().items():
        yield Line(title, rates, [_known(told, "slips", partial(_rate, name)) for told in groups])
    kinds = groups[0]["slip_kinds"] or {}
    most = sorted(kinds, key=lambda name: -kinds[name]["cases"])
    texts = kind_texts()
    for name in most:
        if kinds[name]["cases"] >= _FEWEST_CASES:
            title = _tr("survey", "Slip: {kind}").format(kind=texts[name])
            told_of_kind = [_known(told, "slip_kinds", partial(_rate, name)) for told in groups]
            yield Line(title, rates, told_of_kind)


def _rest(groups: Sequence[Told]) -> Iterator[Line]:
    yield Line(
        _tr("survey", "Last digits of dbh"),
        _tr("survey", "Rounded or guessed diameters end in some digits more often than in others"),
        [_known(told, "last_digits", _digits) for told in groups],
    )
    yield Line(
        _tr("survey", "Ground hidden from the centre"),
        _tr("survey", "Share of the circles that stems hide"),
        [_known(told, "hidden_share", _percent) for told in groups],
    )
    yield Line(
        _tr("survey", "Stems missed behind others"),
        _tr("survey", "Living stems expected to stand wholly hidden, with the range that holds with 95 %"),
        [_known(told, "missed_stems", _missed) for told in groups],
    )
    yield Line(
        _tr("survey", "Stems in the outermost half metre"),
        _tr("survey", "Too few stems there are a habit, or a circle laid out too small"),
        [_known(told, "outermost_half_metre", _edge) for told in groups],
    )
    for name, title in (
        ("clockwise", _tr("survey", "Plots numbered clockwise")),
        ("counter-clockwise", _tr("survey", "Plots numbered counter-clockwise")),
        ("no order", _tr("survey", "Plots numbered in no order")),
    ):
        yield Line(
            title,
            _tr("survey", "Of the plots with enough stems to tell; each of them once for each visit"),
            [_known(told, "order_of_numbers", partial(_share_of_plots, name)) for told in groups],
        )


def _record_texts() -> dict[str, str]:
    return {
        "azimuth": _tr("survey", "Azimuths mistyped"),
        "distance": _tr("survey", "Distances mistyped"),
        "diameter": _tr("survey", "Diameters mistyped"),
        "entered twice": _tr("survey", "Records entered twice"),
    }


def kind_texts() -> dict[str, str]:
    """What each kind of slip is called."""
    return {
        "transposed": _tr("survey", "two digits exchanged"),
        "neighbouring key": _tr("survey", "the key beside"),
        "digit missing": _tr("survey", "a digit left out"),
        "digit doubled": _tr("survey", "a digit doubled"),
        "digit added": _tr("survey", "a digit too many"),
        "decimal point": _tr("survey", "decimal point lost or moved"),
        "back bearing": _tr("survey", "back bearing"),
        "mirrored": _tr("survey", "azimuth counted the other way round"),
        "quadrant": _tr("survey", "a quarter of the circle off"),
        "gon and degree": _tr("survey", "gon for degrees or the reverse"),
        "other unit": _tr("survey", "another unit"),
        "along the slope": _tr("survey", "slope distance for horizontal or the reverse"),
        "exchanged": _tr("survey", "azimuths of two stems exchanged"),
        "two columns": _tr("survey", "two columns of a record exchanged"),
        "line above": _tr("survey", "the line above repeated"),
        "anything else": _tr("survey", "something else"),
    }


def _known(told: Told, name: str, say: Callable[[Any], str]) -> str:
    """What a part says, or why it cannot be known."""
    part = told[name]
    return worded(told[f"{name}_reason"]) if part is None else say(part)


def _per_hundred(count: int, stems: int) -> str:
    if not stems:
        return number(count, 0)
    return _tr("survey", "{count} ({share} in 100 stems)").format(
        count=number(count, 0), share=number(100.0 * count / stems, 1)
    )


def _rate(slip: str, part: Told) -> str:
    values = [part[slip][f"{name}_per_1000"] for name in ("rate", "low", "high")]
    rate, low, high = (number(value, 0 if value >= 10.0 else 1) for value in values)
    return _tr("survey", "{rate} in 1,000 ({low} to {high})").format(rate=rate, low=low, high=high)


def _percent(share: float) -> str:
    return _tr("survey", "{percent} %").format(percent=number(100.0 * share, 0))


def _digits(part: Told) -> str:
    count = number(part["diameters"], 0)
    if part["p"] >= _EVEN:
        return _tr("survey", "even, of {count} diameters").format(count=count)
    return _tr("survey", "{percent} % of {count} end in {digit}, where 10 % would be even").format(
        percent=number(100.0 * part["share"], 0), count=count, digit=part["most"]
    )


def _missed(part: Told) -> str:
    whole = part["expected"] + part["recorded"]
    return _tr("survey", "about {count} ({low} to {high}), {percent} % of all").format(
        count=number(part["expected"], 0),
        low=number(part["low"], 0),
        high=number(part["high"], 0),
        percent=number(100.0 * part["expected"] / whole if whole else 0.0, 1),
    )


def _edge(part: Told) -> str:
    words = _tr("survey", "{found}, where {expected} were expected").format(
        found=number(part["found"], 0), expected=number(part["expected"], 0)
    )
    return words if part["p"] >= _ENOUGH else _tr("survey", "{words}: too few").format(words=words)


def _share_of_plots(name: str, part: Told) -> str:
    told = sum(count for word, count in part.items() if word != "not told")
    return _tr("survey", "{count} of {plots}").format(count=number(part[name], 0), plots=number(told, 0))
