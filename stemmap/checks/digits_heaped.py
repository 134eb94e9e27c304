"""Crews whose diameters end in some digits more often than in others."""

from collections.abc import Iterator

import numpy as np

from stemmap.checks.evidence.digits import last_digits
from stemmap.core.digits import digit_test
from stemmap.survey.batches import Batch
from stemmap.survey.registry import Case, check

_LEVEL = 0.05
#: Digits less unequal than this move nothing, however many there are: 13 % of one digit where 10 % should be.
_EFFECT = 0.1


@check("digits-heaped", family="diameter", severity="note", of_survey=True)
def digits_heaped(case: Case) -> Iterator[Batch]:
    """The last digits of a crew's diameters are not equally frequent.

    What: Pearson's chi-square of the ten last digits of dbh (in tenths of a centimetre or in millimetres), crew by
    crew, over 50 diameters and more; by chance in 5 of 100 surveys, over all crews together (Šidák's limit).
    Diameters in whole centimetres are not tested: their last digits follow the stand.
    Why: rounded or guessed diameters (0 and 5) say that the instrument was not read to its last digit.
    What to do: talk to the crew; take the dbh error of the settings larger for it.
    Source: Pearson 1900 and Šidák 1967, from memory.
    """
    survey = case.survey
    words, crew = survey.visits.words("crew")
    for name, digit in case.once(last_digits).items():
        known = digit >= 0
        place = crew[survey.stems.visit_row[known]] * 10 + digit[known]
        made = digit_test(np.bincount(place, minlength=10 * len(words)).reshape(-1, 10))
        tested = np.isfinite(made.p)
        limit = 1.0 - (1.0 - _LEVEL) ** (1.0 / max(int(tested.sum()), 1))
        rows = np.flatnonzero(tested & (made.p < limit) & (made.effect >= _EFFECT))
        counts = np.bincount(place, minlength=10 * len(words)).reshape(-1, 10)[rows]
        names = np.array([words[row] or "(no name)" for row in rows.tolist()], object)
        most = counts.argmax(axis=1) if len(rows) else rows
        yield case.about_files(
            len(rows),
            "Crew {crew}: {percent:.0f} % of {numbers} diameters end in {digit}; equal digits would give 10 %.",
            field=name,
            evidence={
                "crew": names,
                "digit": most,
                "percent": 100.0 * counts.max(axis=1, initial=0) / np.maximum(made.numbers[rows], 1),
                "numbers": made.numbers[rows],
                "p": made.p[rows],
            },
            about=names,
        )
