"""The survey file against pyogrio alone and a bare fully synchronous commit; ratios within one run.

python tests/benchmarks/bench_survey_file.py [plots]
"""

import resource
import sqlite3
import statistics
import sys
import tempfile
import time
from dataclasses import replace
from pathlib import Path

import numpy as np
import pyogrio

from stemmap.store.decisions import Request, decide
from stemmap.store.layers import compare_layers, write_layers
from stemmap.store.survey_file import opened
from stemmap.tasks.gis_layers import layers_of
from stemmap.tasks.stored import load, load_path
from stemmap.tasks.survey_file import add_uploads, refresh_layers
from stemmap.tasks.workup import work_up

LAYERS = ("plots", "plot_centres", "stems", "findings")
STEMS_PER_PLOT = 25


def upload(folder: Path, plots: int) -> list[Path]:
    rng = np.random.default_rng(1)
    count = plots * STEMS_PER_PLOT
    radius = 8 * np.sqrt(rng.random(count))
    rows = zip(
        np.repeat(np.arange(plots), STEMS_PER_PLOT).tolist(),
        (np.arange(count) % STEMS_PER_PLOT + 1).tolist(),
        rng.integers(0, 360, count).tolist(),
        radius.tolist(),
        (7 + 60 * rng.random(count) ** 2).tolist(),
        strict=True,
    )
    stems, places = folder / "stems.csv", folder / "plots.csv"
    with stems.open("w") as stream:
        stream.write("plot,stem,azimuth,distance_m,dbh_cm\n")
        stream.writelines(f"P{plot},{stem},{azimuth},{far:.2f},{dbh:.1f}\n" for plot, stem, azimuth, far, dbh in rows)
    with places.open("w") as stream:
        stream.write("plot,lon,lat\n")
        stream.writelines(f"P{n},{9 + n % 200 / 100},{50 + n // 200 / 100}\n" for n in range(plots))
    return [stems, places]


def seconds(work) -> float:
    started = time.perf_counter()
    work()
    return time.perf_counter() - started


def one_decision(survey: Path, folder: Path) -> tuple[float, float]:
    """Median seconds of a decision and of a bare commit of as many bytes, taken in turn."""
    bare = sqlite3.connect(folder / "bare.db", isolation_level=None)
    bare.execute("PRAGMA synchronous = EXTRA")
    bare.execute("CREATE TABLE t (id INTEGER PRIMARY KEY, text TEXT)")
    mine, theirs = [], []
    with opened(survey, write=True) as survey_file:
        finding = survey_file.connection.execute("SELECT id FROM findings LIMIT 1").fetchone()[0]

        def commit() -> None:
            bare.execute("BEGIN IMMEDIATE")
            bare.execute("INSERT INTO t (text) VALUES (?)", ("x" * 300,))
            bare.execute("COMMIT")

        for _ in range(200):
            mine.append(seconds(lambda: decide(survey_file, Request(finding, "keep", "seen", "Ida"))))
            theirs.append(seconds(commit))
    return statistics.median(mine), statistics.median(theirs)


def change_a_value(survey: Path) -> None:
    with opened(survey, write=True) as survey_file:
        finding = survey_file.connection.execute(
            "SELECT id FROM findings WHERE field = 'distance_m' LIMIT 1"
        ).fetchone()
        decide(survey_file, Request(finding[0], "value=4.5", "read again", "Ida"))


def layers_after_a_changed_value(survey: Path) -> None:
    """Seconds of computing and in all for each step; against layers made anew as a whole.

    The file is locked while it is written; comparing locks it for milliseconds at a time.
    """
    took = {}

    def clocked(step: str, work):
        before = time.process_time(), time.perf_counter()
        made = work()
        took[step] = time.process_time() - before[0], time.perf_counter() - before[1]
        return made

    def write(layers, differences):
        with survey_file.writing() as connection:
            return write_layers(connection, layers, differences)

    with opened(survey, write=True) as survey_file:
        loaded = clocked("reading the file", lambda: load(survey_file))
        workup = clocked("checking the whole", lambda: work_up(loaded))
        layers = clocked("layers", lambda: layers_of(workup))
        differences = clocked("comparing, first time", lambda: compare_layers(survey_file, layers))
        before = clocked("writing what differs", lambda: write(layers, differences))
        clocked("comparing", lambda: compare_layers(survey_file, layers, before))
        anew = replace(compare_layers(survey_file, layers, before), of_layer=dict.fromkeys(LAYERS))
        clocked("writing all anew", lambda: write(layers, anew))
    for step, (computing, waiting) in took.items():
        print(f"  {step}: {computing:.2f} s computing, {waiting:.2f} s in all")
    by_window = sum(took[step][0] for step in ("layers", "comparing", "writing what differs"))
    as_whole = sum(took[step][0] for step in ("reading the file", "checking the whole", "layers", "writing all anew"))
    print(f"layers after a changed value, whole survey checked already: {by_window:.1f} s of computing")
    print(f"worked up again and made anew: {as_whole:.1f} s, ratio {by_window / as_whole:.2f}")


def main() -> None:
    plots = int(sys.argv[1]) if len(sys.argv) > 1 else 40_000
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        files, survey = upload(folder, plots), folder / "survey.gpkg"
        adding = seconds(lambda: add_uploads(survey, files, who="Ida", radius_m=8.0))
        used = resource.getrusage(resource.RUSAGE_SELF)
        print(
            f"{plots} plots, {plots * STEMS_PER_PLOT} stems: added in {adding:.1f} s, {used.ru_utime:.1f} s computing,"
        )
        print(f"{used.ru_maxrss / 2**20:.2f} GiB at most")
        mine, theirs = one_decision(survey, folder)
        print(f"one decision {1000 * mine:.1f} ms, bare commit {1000 * theirs:.1f} ms: ratio {mine / theirs:.2f}")
        print(f"layers after kept findings: {seconds(lambda: refresh_layers(survey)):.2f} s")
        change_a_value(survey)
        layers_after_a_changed_value(survey)
        frames = {}
        reading = seconds(lambda: frames.update({each: pyogrio.read_dataframe(survey, layer=each) for each in LAYERS}))
        opening = seconds(lambda: load_path(survey))
        print(f"opening {opening:.1f} s, pyogrio reads the layers in {reading:.1f} s: ratio {opening / reading:.2f}")
        plain = folder / "plain.gpkg"
        for each, frame in frames.items():
            pyogrio.write_dataframe(frame, plain, layer=each)
        sizes = [path.stat().st_size / 2**20 for path in (survey, plain)]
        print(f"file {sizes[0]:.0f} MiB, pyogrio's {sizes[1]:.0f} MiB: ratio {sizes[0] / sizes[1]:.2f}")


if __name__ == "__main__":
    main()
