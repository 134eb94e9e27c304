"""Plots to draw, made in memory."""

from __future__ import annotations

import numpy as np
import pytest
from PySide6.QtWidgets import QApplication

from stemmap.drawing.application import application
from stemmap.survey.finding import Finding
from tests.uploads import survey

SPECIES = ("spruce", "beech", "pine", "oak", "birch")


@pytest.fixture(scope="session", autouse=True)
def qt():
    return application(lambda: QApplication, offscreen=True)


@pytest.fixture
def plot():
    """Makes a survey of one plot: plot(stems, radius_m=..., plots={...}, **sections of the settings)."""

    def make(stems=None, *, radius_m=12.62, plots=None, **settings):
        design = {"kind": "fixed", **({"radius_m": radius_m} if radius_m else {}), **settings.pop("design", {})}
        columns = {"plot": ["A"] * len(stems["azimuth"]), **stems} if stems else {}
        return survey(columns, {"plot": ["A"], **(plots or {})}, settings={"design": design, **settings})

    return make


@pytest.fixture
def scattered():
    """Makes the columns of n stems spread evenly over a disc."""

    def make(count, *, radius_m=12.62, seed=1):
        rng = np.random.default_rng(seed)
        return {
            "stem": list(range(1, count + 1)),
            "azimuth": rng.integers(0, 360, count).tolist(),
            "distance_m": np.maximum(radius_m * np.sqrt(rng.random(count)), 0.3).round(2).tolist(),
            "dbh_cm": np.clip(rng.lognormal(3.0, 0.4, count), 7.0, 90.0).round(1).tolist(),
            "species": rng.choice(SPECIES, count).tolist(),
        }

    return make


@pytest.fixture
def finding():
    """Makes a finding on a stem row: finding(3, "typing", "error", azimuth=120.0)."""

    def make(stem_row, family="typing", severity="warning", **proposed):
        proposals = [{"field": name, "value": value, "probability": 0.9} for name, value in proposed.items()]
        return Finding(
            f"{stem_row}/{family}",
            "A",
            None,
            None,
            "some-check",
            severity,
            family,
            None,
            "",
            {},
            proposals,
            {},
            0,
            stem_row,
        )

    return make
