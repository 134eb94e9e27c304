"""What became of a plot is read from its words, else from its stems."""

import pytest

from stemmap.survey.plot_status import PlotStatus, plot_status
from tests.uploads import survey


@pytest.mark.parametrize(
    ("typed", "status"),
    [
        ("measured", PlotStatus.MEASURED),
        ("Empty", PlotStatus.EMPTY),
        ("non-forest", PlotStatus.NON_FOREST),
        ("NON_FOREST", PlotStatus.NON_FOREST),
        ("non  forest ", PlotStatus.NON_FOREST),
        ("not-reached", PlotStatus.NOT_REACHED),
        ("nicht erreicht", PlotStatus.NOT_REACHED),
        ("", PlotStatus.UNKNOWN),
        ("lost", PlotStatus.UNKNOWN),
    ],
)
def test_status_is_read_from_its_words(typed, status):
    assert plot_status(survey(plots={"plot": [1], "plot_status": [typed]})).tolist() == [status]


def test_plot_with_stems_and_no_status_was_measured():
    assert plot_status(survey({"plot": [1]})).tolist() == [PlotStatus.MEASURED]


def test_what_is_said_stands_above_the_stems():
    made = survey({"plot": [1]}, {"plot": [1], "plot_status": ["not reached"]})
    assert plot_status(made).tolist() == [PlotStatus.NOT_REACHED]


def test_survey_without_plots_has_no_status():
    assert plot_status(survey()).shape == (0,)
