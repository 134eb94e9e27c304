"""One file per check. Each function is entered into the registry by its decorator and yields batches of findings."""

from functools import cache
from importlib import import_module
from pkgutil import iter_modules


@cache
def load() -> None:
    """Enter all checks of this package into the registry."""
    for module in iter_modules(__path__, f"{__name__}."):
        import_module(module.name)
