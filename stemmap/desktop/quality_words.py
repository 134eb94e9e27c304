"""How well a survey was measured, line by line in words: blind looks beside those with the former values."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Any

from PySide6.QtCore import QCoreApplication, QLocale

from stemmap.desktop.sentences import number
from stemmap.desktop.survey_words import Line
from stemmap.desktop.wording import worded
from stemmap.units import DIFFERENCE_DECIMALS

_tr = QCoreApplication.translate
Told = Mapping[str, Any]


def quality_names() -> list[str]:
    """How the two kinds of look are called, in the order of the lines' texts."""
    return [_tr("quality", "Blind"), _tr("quality", "Former values seen")]


def quality_lines(told: Told) -> Iterator[Line]:
    """Lines for how well the survey was measured.

    Parameters
    ----------
    told
        As `BroughtBack.quality` tells it.
    """
    stems = [_of_look(told["stems"], look) for look in ("blind", "cold")]
    yield Line(
        _tr("quality", "Stems found again"),
        _tr("quality", "Of those that were to be measured again; blind: the crew did not know the former values"),
        [
            _tr("quality", "{found} of {asked}").format(found=each["found"], asked=each["asked"]) if each else "–"
            for each in stems
        ],
    )
    yield Line(
        _tr("quality", "Stems added"),
        _tr("quality", "Stems that the second crew found and nobody had recorded"),
        [number(each["added"], 0) if each else "–" for each in stems],
    )
    for name in dict.fromkeys(each["field"] for each in told["fields"]):
        looks = [
            _of_look((each for each in told["fields"] if each["field"] == name), look) for look in ("blind", "cold")
        ]
        yield from _of_field(worded(name), looks, worded(told["tolerance"]))


def gross_sentences(told: Told) -> str:
    """Which differences make most of bias and standard deviation, of all fields; empty where none do."""
    names = dict(zip(("blind", "cold"), quality_names(), strict=True))
    return " ".join(
        _tr("quality", "{look}, {field}: {sentence}").format(
            look=names[each["look"]], field=worded(each["field"]), sentence=worded(each["gross_reason"])
        )
        for each in told["fields"]
        if each["gross_reason"]
    )


def _of_field(field: str, looks: list[Told | None], tolerance: str) -> Iterator[Line]:
    unit = next((each["unit"] for each in looks if each and each["unit"]), None)
    title = _tr("quality", "{field}: within tolerance") if unit else _tr("quality", "{field}: the same")
    interval = _tr("quality", "in brackets the range in which the true value lies with a probability of 95 %")
    yield Line(
        _begun(title.format(field=field)),
        _tr("quality", "Share of the pairs that agree; {interval}. Tolerance: {tolerance}").format(
            interval=interval, tolerance=tolerance
        )
        if unit
        else _tr("quality", "Share of the pairs that agree; {interval}").format(interval=interval),
        [_share(each) for each in looks],
    )
    if unit:
        yield Line(
            _begun(_tr("quality", "{field}: bias").format(field=field)),
            _tr("quality", "Mean of again minus recorded; {interval}").format(interval=interval),
            [_figure(each, "bias") for each in looks],
        )
        yield Line(
            _begun(_tr("quality", "{field}: standard deviation").format(field=field)),
            _tr("quality", "Of the differences, in which both crews have their part; {interval}").format(
                interval=interval
            ),
            [_figure(each, "spread") for each in looks],
        )
        yield Line(
            _begun(_tr("quality", "{field}: median difference").format(field=field)),
            _tr("quality", "Middle of again minus recorded, which a single slip hardly moves; {interval}").format(
                interval=interval
            ),
            [_figure(each, "median") for each in looks],
        )
        yield Line(
            _begun(_tr("quality", "{field}: standard deviation by the median").format(field=field)),
            _tr(
                "quality",
                "1.4826 times the median of the absolute deviations from the median difference (Hampel 1974), which a"
                " single slip hardly moves; {interval}",
            ).format(interval=interval),
            [
                worded(each["robust_reason"]) if each and each["robust_reason"] else _figure(each, "robust_sd")
                for each in looks
            ],
        )
        if any(each and each["gross"] for each in looks):
            yield Line(
                _begun(_tr("quality", "{field}: gross differences").format(field=field)),
                _tr(
                    "quality",
                    "Differences beyond the tolerance that do not belong to the others by the generalized extreme"
                    " studentized deviate (Rosner 1983), at a risk of 0.01; bias and standard deviation hold them",
                ),
                [
                    _tr("quality", "{count} of {pairs}").format(count=len(each["gross"]), pairs=each["pairs"])
                    if each
                    else "–"
                    for each in looks
                ],
            )


def _of_look(told: Any, look: str) -> Told | None:
    return next((each for each in told if each["look"] == look and each.get("pairs", each.get("asked"))), None)


def _begun(title: str) -> str:
    return title[:1].upper() + title[1:]


def _share(told: Told | None) -> str:
    if told is None:
        return worded("nothing was measured twice")
    share, low, high = (number(100.0 * told[name], 0) for name in ("within", "within_low", "within_high"))
    words = _tr("quality", "{share} % of {pairs} ({low} to {high})").format(
        share=share, pairs=number(told["pairs"], 0), low=low, high=high
    )
    return f"{words}; {worded(told['reason'])}" if told["reason"] else words


def _figure(told: Told | None, name: str) -> str:
    if told is None or told[f"{name}_low"] is None:
        return "–"
    decimals = DIFFERENCE_DECIMALS[told["unit"]]
    values = [told[each] for each in (name, f"{name}_low", f"{name}_high")]
    value, low, high = (
        number(each, decimals) if name in ("spread", "robust_sd") else _signed(each, decimals) for each in values
    )
    return _tr("quality", "{value} {unit} ({low} to {high})").format(value=value, unit=told["unit"], low=low, high=high)


def _signed(value: float, decimals: int) -> str:
    text = number(value, decimals)
    return text if value < 0.0 else f"{QLocale().positiveSign()}{text}"
