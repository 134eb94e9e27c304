"""Uploads with random damage are worked up or refused by a sentence, and never take long."""

import time

from tests.mutation import work_up_mutated

RUNS, MOST_SECONDS = 3_000, 40


def test_a_damaged_upload_is_worked_up_or_refused(tmp_path):
    started = time.monotonic()
    work_up_mutated(tmp_path, 0)  # imports take their time
    failures = []
    for seed in range(RUNS):
        failures += [f"seed {seed}: {each}" for each in [work_up_mutated(tmp_path, seed)] if each]
        if time.monotonic() - started > MOST_SECONDS:
            break
    assert not failures
