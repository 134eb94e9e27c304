"""Uploads, settings, decisions and survey files with random damage are used or refused by a sentence, and soon."""

import os
import subprocess
import sys

RUNS, MOST_SECONDS = 3_000, 40


def test_what_is_damaged_is_used_or_refused(checkout_root):
    """As many runs as the machine makes of those within the time; one process for each core."""
    cores = min(os.cpu_count() or 1, 8)
    command = [sys.executable, "-m", "tests.mutation", "--runs", str(RUNS // cores), "--seconds", str(MOST_SECONDS)]
    running = [
        subprocess.Popen(
            [*command, "--seed", str(seed)],
            cwd=checkout_root,
            stdout=subprocess.PIPE,
            stderr=subprocess.STDOUT,
            text=True,
        )
        for seed in range(cores)
    ]
    for each in running:
        told, _ = each.communicate()
        assert each.returncode == 0, told
