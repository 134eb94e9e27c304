"""Progress out, stop in: how long work tells where it is and learns that it is no longer wanted."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field
from threading import Event

from stemmap.errors import Cancelled


@dataclass(frozen=True)
class Progress:
    """A line to whoever waits for the work.

    Parameters
    ----------
    report
        Called with a short sentence and the share done in [0, 1] (None: unknown). It must be cheap and thread-safe.
    stop
        Set from any thread to end the work at its next step.
    """

    report: Callable[[str, float | None], None] = lambda _sentence, _share: None
    stop: Event = field(default_factory=Event)

    def step(self, sentence: str, share: float | None = None) -> None:
        """Report a step.

        Raises
        ------
        Cancelled
            When the work is no longer wanted.
        """
        if self.stop.is_set():
            raise Cancelled("Stopped on request; nothing was changed.")
        self.report(sentence, share)
