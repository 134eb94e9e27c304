"""What was not seen from the plot centres."""

from stemmap.survey.registry import Case
from stemmap.survey.unseen import Unseen, unseen


def hidden(case: Case) -> Unseen:
    """Hidden ground and missed stems of all plots."""
    return unseen(case.survey, case.measured)
