"""Files in, a worked-up survey out; the same from Python."""

from __future__ import annotations

import numpy as np
import pytest

import stemmap
from stemmap.assets import sample_data
from stemmap.errors import Cancelled
from stemmap.progress import Progress
from stemmap.tasks.workup import open_uploads, save_settings, work_up

FILES = [sample_data("survey") / name for name in ("plots.csv", "stems.csv")]


def test_settings_beside_the_uploads_are_found_and_said():
    workup = open_uploads(FILES)
    assert workup.survey.settings.design.kind == "concentric"
    assert any("settings.toml" in finding.message for finding in workup.findings.of_visit(-1))


def test_the_python_names_reach_the_same_tasks(tmp_path):
    workup = stemmap.open_uploads([str(path) for path in FILES], radius_m=12.0)
    assert len(workup.findings) == sum(workup.findings.counts.values())
    stemmap.export_stems(workup, str(tmp_path / "stems.csv"))
    assert stemmap.write_sheets(workup, str(tmp_path / "map.svg"), plots=["3"]) == [tmp_path / "map.svg"]
    with pytest.raises(AttributeError, match="no attribute"):
        stemmap.nothing  # noqa: B018 - asking is the test


def test_every_public_name_is_there():
    for name in stemmap.__all__:
        assert callable(getattr(stemmap, name))


def test_changed_settings_work_up_the_same_records_anew():
    before = open_uploads(FILES)
    turned = before.survey.settings.having("measurement.azimuth_unit", "gon")
    after = work_up(before.survey.under(turned))
    known = np.isfinite(before.measured.grid_azimuth_deg)
    assert after.measured.grid_azimuth_deg[known] == pytest.approx(before.measured.grid_azimuth_deg[known] * 0.9)
    assert after.survey.upload is before.survey.upload


def test_saved_settings_give_the_same_survey(tmp_path):
    before = open_uploads(FILES)
    save_settings(before.survey.settings, tmp_path / "own.toml")
    after = open_uploads(FILES, settings=tmp_path / "own.toml")
    assert after.survey.settings == before.survey.settings


def test_a_stop_is_heard():
    progress = Progress()
    progress.stop.set()
    with pytest.raises(Cancelled):
        open_uploads(FILES, progress=progress)
