"""Long columns worked on block by block, several side by side: a block stays in its core's cache."""

from __future__ import annotations

import os
from collections.abc import Callable, Sequence
from concurrent.futures import ThreadPoolExecutor
from typing import TypeVar

__all__ = ["blocks", "cores", "side_by_side"]

Part = TypeVar("Part")
Made = TypeVar("Made")

#: Rows of a block: a dozen columns of them fit into a cache.
_ROWS = 32_768


def blocks(rows: int, size: int = _ROWS, *, width: int = 1) -> list[slice]:
    """Consecutive rows in blocks of a size, the last one shorter; at least one.

    Parameters
    ----------
    width
        Values in each row; of wide rows a block holds fewer.

    Examples
    --------
    >>> blocks(5, 2)
    [slice(0, 2, None), slice(2, 4, None), slice(4, 5, None)]
    """
    step = max(size // max(width, 1), 1)
    return [slice(begin, min(begin + step, rows)) for begin in range(0, max(rows, 1), step)]


def cores() -> int:
    """How many things can go on at once: the cores that this process may use."""
    return len(os.sched_getaffinity(0)) if hasattr(os, "sched_getaffinity") else os.cpu_count() or 1


def side_by_side(work: Callable[[Part], Made], parts: Sequence[Part]) -> list[Made]:
    """What the work makes of each part, in their order; on all cores where there are several parts.

    Array operations let other threads run, so that parts of some thousand rows do go on at the same time.
    The work must not change what another part reads.
    """
    at_once = min(cores(), len(parts))
    if at_once < 2:
        return [work(part) for part in parts]
    with ThreadPoolExecutor(at_once, thread_name_prefix="block") as pool:
        return list(pool.map(work, parts))
