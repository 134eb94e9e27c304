"""stemmap: checks, maps and summarises stem records of circular forest sample plots.

The tasks of both shells, from Python::

    import stemmap

    workup = stemmap.open_uploads(["plots.csv", "stems.csv"], radius_m=12.62)
    for finding in workup.findings:
        print(finding.plot, finding.message)
    workup.summary.plot_json(0)
    stemmap.export_stems(workup, "stems.gpkg")
    stemmap.write_sheets(workup, "maps.pdf")
"""

import os

__version__ = "0.1.0"

__all__ = ["export_stems", "open_uploads", "save_settings", "work_up", "write_sheets"]

_HOMES = {
    "export_stems": "stemmap.tasks.export",
    "open_uploads": "stemmap.tasks.workup",
    "save_settings": "stemmap.tasks.workup",
    "work_up": "stemmap.tasks.workup",
    "write_sheets": "stemmap.tasks.sheets",
}


# Places are computed with what is on this machine; PROJ would fetch more where the environment allows it.
os.environ["PROJ_NETWORK"] = "OFF"

TYPE_CHECKING = False
if TYPE_CHECKING:
    from typing import Any  # noqa: F401 - used in a type comment


def __getattr__(name):
    # type: (str) -> Any
    # The libraries behind the tasks are heavy; they are loaded when a task is first asked for.
    # This file is read by old Pythons too, so that they answer with a sentence (see stemmap/checkout.py).
    if name not in _HOMES:
        raise AttributeError("module 'stemmap' has no attribute " + repr(name))
    from importlib import import_module

    return getattr(import_module(_HOMES[name]), name)
