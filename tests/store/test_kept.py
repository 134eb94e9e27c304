"""Survey files of every version of their tables, kept as the stemmap of that time wrote them, open with all they hold.

kept/version_1.gpkg: the upload of test_survey_file.py added by Ida, then four decisions by `stemmap decide`: `correct`
of 620 to 6.2, `keep` of a finding on another stem, `undo`, `redo`.
"""

import shutil
from pathlib import Path

import pytest

from stemmap.store.decisions import entries
from stemmap.store.survey_file import opened
from stemmap.tasks.stored import load_path

from .test_survey_file import STEMS

KEPT = sorted((Path(__file__).parent / "kept").glob("version_*.gpkg"))


@pytest.fixture(params=KEPT, ids=lambda path: path.stem)
def kept(request, tmp_path):
    return Path(shutil.copy(request.param, tmp_path / "survey.gpkg"))


def test_a_file_of_every_version_keeps_what_was_typed_and_decided(kept):
    with opened(kept, write=True) as survey_file:
        made = entries(survey_file)
    assert [(each.entry, each.who, each.decision) for each in made] == [
        (1, "Ida", "correct"),
        (2, "Ida", "keep"),
        (3, "Ida", "undo"),
        (4, "Ida", "redo"),
    ]
    assert (made[0].old, made[0].new, made[0].why) == ("620", "6.2", "6,20 was meant")
    survey = load_path(kept)
    typed = [line.split(";")[4] for line in STEMS.splitlines()[1:]]
    assert survey.upload.stems.texts("distance_m").tolist() == typed
    assert survey.stems.numbers("distance_m")[3] == 6.2
