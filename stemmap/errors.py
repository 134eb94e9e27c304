"""The faults that stemmap can name.

StemmapError
├── InputError         an upload, settings file or option cannot be used (exit 2)
│   └── HeadingsUnknown    no heading of a file is known, so it must be said what its columns are (exit 2)
├── OutputError        a result cannot be written where it was asked for (exit 3)
├── EnvironmentFault   the machine lacks something: a library, a display, memory (exit 3)
└── Cancelled          the user stopped the work (exit 3)

Every message is one sentence for a forester: what happened, where, what was kept, what to do.
"""


class StemmapError(Exception):
    """Base of all faults with a sentence meant for the user."""

    exit_code = 3


class InputError(StemmapError):
    """An upload, a settings file or an option cannot be used."""

    exit_code = 2


class HeadingsUnknown(InputError):
    """No heading of a file is known; somebody must say what its columns are."""


class OutputError(StemmapError):
    """A result cannot be written where it was asked for."""


class EnvironmentFault(StemmapError):
    """The machine lacks something the work needs."""


class Cancelled(StemmapError):
    """The user stopped the work."""
