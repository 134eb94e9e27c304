"""What the window says is stored survives a kill at any moment; 100 kills: python -m tests.desktop.kills."""

import pytest

from tests.desktop.kills import kill_at_random


@pytest.mark.screen
def test_every_decision_that_the_window_acknowledged_survives_its_kill(screen, tmp_path):
    told = kill_at_random(tmp_path, 3, screen=screen)
    assert told["acknowledged"] > 0
    assert (told["lost"], told["lost_in_copy"], told["invalid"]) == (0, 0, 0)
