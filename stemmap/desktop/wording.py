"""Sentences from the floors below, where all is English, in the language of the window.

The floors below know no Qt. Their sentences are collected from the source into
``resources/translations/sentences.json``, with %1, %2 where values come in, and translated like the window's own texts.
Here a sentence is recognised by its fixed words, and its values go into the translated one, numbers with the decimal
mark of the country; what is quoted, or a name, stays as it was typed.
"""

from __future__ import annotations

import json
import re
from functools import lru_cache
from string import ascii_letters
from typing import Final, NamedTuple

from PySide6.QtCore import QCoreApplication, QLocale

from stemmap.assets import resource
from stemmap.desktop.languages import spoken_language

#: Where the sentences stand among the translations.
CONTEXT: Final = "work"
_PLACE = re.compile(r"%(\d+)")
_BEFORE_NAMES = re.compile(r"\b(columns?|heading|field|plot|file|sheet|layer)s? $", re.IGNORECASE)
#: A value that consists of numbers, such as "12.6" or "1, 2.5–3 %", and a decimal point in it.
_NUMBERS = re.compile(r"[-+±<> ]*\d[\d.,;–\-+ %°]*")
_DECIMAL = re.compile(r"(?<![\d.])(\d+)\.(\d+)(?![\d.])")
_QUOTES = ("'", '"', "“")
#: Ends of sentences, but not of "No. 7", and what joins the halves of one.
_BETWEEN_PARTS = re.compile(r"((?<!No)\.(?: |$)|; |, and )")


class _Known(NamedTuple):
    """A sentence that may come.

    Parameters
    ----------
    source
        The sentence with its places.
    fixed
        The longest of its fixed parts, for a quick look.
    pattern
        What it may look like.
    typed
        Whether a value is a name or quoted as typed, which is never changed; for each place.
    joins
        Whether it only joins others, such as "%1 and %2".
    """

    source: str
    fixed: str
    pattern: re.Pattern[str]
    typed: tuple[bool, ...]
    joins: bool


def worded(sentence: str) -> str:
    """An English sentence in the language of the window; one that is not known stays as it is."""
    return _worded(sentence, spoken_language(), QLocale().decimalPoint())


@lru_cache(maxsize=4096)
def _worded(sentence: str, language: str, mark: str) -> str:
    """Find the translation among those that Qt has in force."""
    if language == "en" and mark == ".":
        return sentence
    return _match(sentence, mark) or _in_parts(sentence, mark)


def _in_parts(sentence: str, mark: str) -> str:
    """A sentence put together from several, part by part; one with no part that is known stays as it is."""
    parts = _BETWEEN_PARTS.split(sentence)
    return "".join(_match(part, mark) or part for part in parts)


def _match(sentence: str, mark: str) -> str | None:
    """The translation of a sentence or of a part of one, None when it is not known."""
    plain = QCoreApplication.translate(CONTEXT, sentence)
    if plain != sentence:
        return plain
    for known in _known():
        if known.fixed not in sentence or not (found := known.pattern.fullmatch(sentence)):
            continue
        values = [
            value if typed else _numbers(value, mark) if not set(value) & _LETTERS else _match(value, mark)
            for value, typed in zip(found.groups(), known.typed, strict=True)
        ]
        if known.joins and None in values:
            continue  # a mere "and" between words that nobody knows
        told = [value or typed for value, typed in zip(values, found.groups(), strict=True)]
        return _filled(QCoreApplication.translate(CONTEXT, known.source), told)
    return None


def _numbers(value: str, mark: str) -> str:
    """Numbers with the decimal mark; several of them are then set apart by semicolons."""
    if mark == "." or not _NUMBERS.fullmatch(value) or not _DECIMAL.search(value):
        return value
    return _DECIMAL.sub(rf"\1{mark}\2", value.replace(", ", "; "))


def _filled(wanted: str, values: list[str]) -> str:
    return _PLACE.sub(lambda place: values[int(place[1]) - 1], wanted)


_LETTERS = frozenset(ascii_letters)


@lru_cache(maxsize=1)
def _known() -> tuple[_Known, ...]:
    """All sentences with places, those with most fixed words first."""
    made = []
    for source in json.loads(resource("translations/sentences.json").read_text("utf-8")):
        fixed = _PLACE.split(source)[::2]
        if len(fixed) > 1:
            pattern = re.compile("(.*?)".join(re.escape(part) for part in fixed), re.DOTALL)
            typed = tuple(bool(_BEFORE_NAMES.search(part)) or part.endswith(_QUOTES) for part in fixed[:-1])
            joins = not re.search("[a-z]{4}", " ".join(fixed))
            made.append((sum(map(len, fixed)), _Known(source, max(fixed, key=len), pattern, typed, joins)))
    return tuple(known for _, known in sorted(made, key=lambda pair: -pair[0]))
