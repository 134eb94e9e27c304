"""Some plots of a survey as a survey of their own."""

import numpy as np

from stemmap.assets import sample_data
from stemmap.survey.part import part_of
from stemmap.tasks.workup import open_uploads


def test_part_keeps_all_visits_of_its_plots_and_only_their_texts():
    survey = open_uploads([sample_data("survey") / name for name in ("plots.csv", "stems.csv")]).survey
    part = part_of(survey, np.array([len(survey.visits) - 1]))
    visits = part.survey.visits
    assert set(visits.plot) == {survey.visits.plot[-1]}
    assert list(visits.plot) == list(survey.visits.plot[part.visits])
    assert list(part.survey.stems.texts("azimuth")) == list(survey.stems.texts("azimuth")[part.stems])
    assert len(part.survey.stems.records.columns["azimuth"].labels) <= len(part.stems)
    assert np.array_equal(visits.numbers("radius_m"), survey.visits.numbers("radius_m")[part.visits], equal_nan=True)
