"""What the way a number is written tells: a place too many or too few after the point."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from stemmap.survey.records import Column


@dataclass(frozen=True)
class Spelling:
    """How the numbers of a column are written.

    Parameters
    ----------
    decimals
        Places after the point that the column's numbers have.
    keeps_zeros
        Whether trailing zeros are written.
    places
        Places after the point of each number as typed, shape (stems,); -1 where nothing was typed.
    """

    decimals: int
    keeps_zeros: bool
    places: NDArray[np.int64]

    def odd(self, places: NDArray[np.int64]) -> NDArray[np.bool_]:
        """Whether numbers of so many places are not written as the column's are."""
        fewer = (places < self.decimals) & (places >= 0) & self.keeps_zeros
        return fewer | (places > self.decimals)

    def log_shares(self, wrong: NDArray[np.float64]) -> NDArray[np.float64]:
        """Logarithm of the share of right numbers by places after the point; the last is that of more places yet.

        Parameters
        ----------
        wrong
            Probability that each number is mistyped, shape (stems,).
        """
        size = int(self.places.max(initial=0)) + 1
        typed = self.places >= 0
        right = np.bincount(self.places[typed], 1.0 - wrong[typed], minlength=size) + 0.05
        log_shares: NDArray[np.float64] = np.log(np.append(right, 0.05) / right.sum())
        return log_shares

    def told(self, log_shares: NDArray[np.float64]) -> NDArray[np.float64]:
        """What such shares tell of each number that is not written as the column's are; shape (stems,)."""
        return np.where(self.odd(self.places), log_shares[np.minimum(self.places, len(log_shares) - 1)], 0.0)


def spelling(column: Column) -> Spelling:
    """Learn from a column how its numbers are written."""
    texts = [str(label).strip().replace(",", ".") for label in column.labels]
    places = np.array([*(len(text.partition(".")[2]) for text in texts), -1], np.int64)
    count = np.bincount(column.codes[column.codes >= 0], minlength=len(texts))
    by_places = np.bincount(places[:-1], count, minlength=1)
    total = max(by_places.sum(), 1.0)
    decimals = int(np.flatnonzero(by_places >= 0.05 * total)[-1]) if by_places.any() else 0
    whole = [number for number in range(len(texts)) if places[number] == decimals]
    zeros = sum(count[number] for number in whole if texts[number].endswith("0"))
    keeps = decimals > 0 and zeros >= 0.05 * max(by_places[decimals], 1.0)
    return Spelling(decimals, bool(keeps), places[column.codes])
