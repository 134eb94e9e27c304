"""Which plots are compared with chance together, and their sums, worked out on all cores."""

from __future__ import annotations

import zlib
from collections import deque
from collections.abc import Iterator
from concurrent.futures import Future, ThreadPoolExecutor
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from stemmap.core.blocks import cores
from stemmap.core.neighbours import FEWEST_STEMS
from stemmap.progress import Progress
from stemmap.survey.patterns import Patterns
from stemmap.survey.structure_sums import Batch, Sums, batch_sums
from stemmap.survey.summary import Summary

Floats = NDArray[np.float64]
Rows = NDArray[np.int64]

#: Distances are half the radius at most, in steps of this, m.
STEP_M = 0.25
#: More stems than this on one plot are not compared with chance: it would take minutes, and no sample plot has them.
MOST_STEMS = 600
#: Of more stems than this on one plot nothing is told, for it could not be stopped for long.
MOST_TOLD = 5_000
#: So many places of simulated stems are made together.
_TOGETHER = 200_000


@dataclass(frozen=True)
class Asked:
    """What is to be told, and of which visits."""

    summary: Summary
    wanted: Rows
    simulations: int
    seed: int
    by_species: bool
    by_size: bool
    progress: Progress

    def rng(self, row: int) -> np.random.Generator:
        """Random numbers of one visit, the same whatever other visits there are."""
        visits = self.summary.survey.visits
        return np.random.default_rng([self.seed, zlib.crc32(f"{visits.plot[row]}\0{visits.visit[row]}".encode())])


@dataclass(frozen=True)
class PatternStems:
    """The stems of patterns that have a place: rows first[i] to first[i + 1] of `rows` are those of visit i."""

    rows: Rows
    first: Rows

    @property
    def count(self) -> Rows:
        """Stems by visit."""
        return np.diff(self.first)


def stems_of(summary: Summary, pattern: Patterns) -> PatternStems:
    """The stems of patterns that have a place."""
    placed = np.isfinite(summary.measured.x_m[pattern.rows] + summary.measured.y_m[pattern.rows])
    first = np.searchsorted(pattern.visit[placed], np.arange(len(pattern.reason) + 1))
    return PatternStems(pattern.rows[placed], first)


def distances_of(pattern: Patterns, count: Rows) -> Floats:
    """Distances of all curves, m: up to half the smallest radius, beyond which a circle says little."""
    radius = pattern.radius_m[(count >= FEWEST_STEMS) & (pattern.reason == "")]
    smallest = float(radius.min()) if len(radius) else STEP_M
    return np.asarray(np.arange(1, max(2, int(0.5 * smallest / STEP_M + 1e-9) + 1)) * STEP_M, dtype=np.float64)


def all_sums(asked: Asked, pattern: Patterns, stems: PatternStems, r: Floats) -> Iterator[tuple[list[int], list[Sums]]]:
    """Visits with two stems or more and not too many, and their sums.

    Raises
    ------
    Cancelled
        When `asked.progress` says so.
    """
    batches = _batches(asked, pattern, stems.count)
    plots, done = sum(map(len, batches)), 0
    at_once = min(cores(), len(batches))
    waiting: deque[tuple[list[int], Future[list[Sums]]]] = deque()
    with ThreadPoolExecutor(max(at_once, 1)) as pool:
        try:
            for members in [*batches, *[np.zeros(0, np.int64)] * at_once]:
                asked.progress.step("Comparing with chance", done / plots)
                if len(members):
                    waiting.append((members.tolist(), pool.submit(_sums, asked, pattern, stems, r, members)))
                if len(waiting) > at_once or (waiting and not len(members)):
                    rows, made = waiting.popleft()
                    yield rows, made.result()
                    done += len(rows)
        finally:
            pool.shutdown(cancel_futures=True)


def _batches(asked: Asked, pattern: Patterns, count: Rows) -> list[Rows]:
    """Visits with equally many stems on the same ground."""
    told = (pattern.reason == "") & (count >= 2) & (count <= MOST_TOLD)
    chosen = asked.wanted[told[asked.wanted]]
    if not len(chosen):
        return []
    cut = np.array([pattern.outline[row] is not None for row in chosen.tolist()], dtype=bool)
    # Each cut circle is a ground of its own.
    ground = np.where(cut, np.arange(len(chosen)) + 1, 0)
    order = np.lexsort((count[chosen], pattern.radius_m[chosen], ground))
    key = np.stack([ground[order], pattern.radius_m[chosen][order], count[chosen][order]])
    groups = np.split(chosen[order], np.flatnonzero((np.diff(key) != 0.0).any(axis=0)) + 1)
    batches = []
    for group in groups:
        step = max(1, _TOGETHER // (int(count[group[0]]) * (asked.simulations + 1)))
        batches += [group[begin : begin + step] for begin in range(0, len(group), step)]
    return batches


def _sums(asked: Asked, pattern: Patterns, stems: PatternStems, r: Floats, members: Rows) -> list[Sums]:
    """Sums of visits with equally many stems on the same ground."""
    summary, measured = asked.summary, asked.summary.measured
    n = int(stems.count[members[0]])
    own = stems.rows[stems.first[members][:, None] + np.arange(n)]
    xy = np.stack([measured.x_m[own], measured.y_m[own]], axis=-1)
    # A record on the very edge may lie outside by its rounding.
    reach = pattern.radius_m[members][:, None] / np.maximum(np.hypot(xy[..., 0], xy[..., 1]), 1e-12)
    xy *= np.minimum(1.0, reach)[..., None]
    return batch_sums(
        Batch(pattern.window(int(members[0])), xy, summary.species_code[own], measured.dbh_cm[own]),
        r,
        [asked.rng(row) for row in members.tolist()],
        simulations=asked.simulations if n <= MOST_STEMS else 0,
        species_names=[str(name) for name in summary.species_names] if asked.by_species else None,
        by_size=asked.by_size,
    )
