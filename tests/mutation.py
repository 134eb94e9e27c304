"""Uploads, settings, decisions and survey files with random damage, each used or refused by a sentence; also by hand.

What behaves in a way not seen before (another sentence, another finding) is damaged further, so that the runs reach
deeper than single changes would.

Run from the top of a checkout: python -m tests.mutation --seconds 600 --keep FOLDER
"""

import argparse
import io
import json
import random
import re
import shutil
import signal
import sys
import tempfile
import time
import traceback
import warnings
from collections import Counter
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from dataclasses import dataclass, field
from pathlib import Path

from stemmap.cli.survey_files import decide_lines
from stemmap.errors import StemmapError
from stemmap.store.decisions import entries
from stemmap.store.repair import readable, repair
from stemmap.store.survey_file import opened
from stemmap.tasks.remeasured import bring_back
from stemmap.tasks.survey_file import add_uploads
from stemmap.tasks.workup import open_uploads
from tests.mutants import Files, mutated, seeds

#: A run on a small file that takes longer hangs.
MOST_SECONDS = 2.0
#: More memory than this and ten times the input is too much for a small file.
_BASE_BYTES = 100 << 20
_STATUS, _CLEAR = Path("/proc/self/status"), Path("/proc/self/clear_refs")


class _Hangs(BaseException):
    """What is tried does not end; nothing that it catches itself."""


@dataclass
class Trials:
    """Damaged files, tried one after the other.

    Parameters
    ----------
    folder
        Where the files are written.
    seed
        Of the dice.
    kinds
        Which files are damaged; all when none is named.
    """

    folder: Path
    seed: int
    kinds: tuple[str, ...] = ()
    runs: Counter[str] = field(default_factory=Counter)
    slowest: float = 0.0
    largest: int = 0

    def __post_init__(self) -> None:
        self._dice = random.Random(self.seed)
        made = self.folder / "seeds"
        made.mkdir(exist_ok=True)
        self._known = {kind: files for kind, files in seeds(made).items() if not self.kinds or kind in self.kinds}
        self._behaviour: set[str] = set()
        for kind, known in self._known.items():
            for files in known:
                self._behaviour |= self._used(kind, files)

    def try_one(self) -> tuple[Files, str] | None:
        """Damage some files and use them; the files and what went wrong, None when nothing did."""
        kind = self._dice.choice([*self._known])
        files = mutated(kind, self._dice.choice(self._known[kind]), self._dice)
        self.runs[kind] += 1
        started, before = time.process_time(), _fresh_peak()
        behaviour: set[str] = set()
        wrong = None
        try:
            with _alarm():
                behaviour = self._used(kind, files)
        except (Exception, _Hangs):  # every fault that is no sentence is what is looked for
            wrong = traceback.format_exc()
        taken, grown = time.process_time() - started, _peak() - before
        self.slowest, self.largest = max(self.slowest, taken), max(self.largest, grown)
        if not wrong and taken > MOST_SECONDS:
            wrong = f"{taken:.1f} s"
        if not wrong and grown > _BASE_BYTES + 10 * sum(map(len, files.values())):
            wrong = f"{grown >> 20} MiB"
        if wrong:
            return files, wrong
        # What is refused as a whole would be refused again.
        if behaviour - self._behaviour and len(behaviour) > 1 and len(self._known[kind]) < 400:
            self._known[kind].append(files)
        self._behaviour |= behaviour
        return None

    def _used(self, kind: str, files: Files) -> set[str]:
        """Use the files; what came of it, as words without numbers and names."""
        folder = self.folder / "run"
        shutil.rmtree(folder, ignore_errors=True)
        folder.mkdir()
        for name, content in files.items():
            (folder / name).write_bytes(content)
        if kind == "decisions":
            return _decided(folder)
        if kind == "survey":
            return _surveyed(folder)
        if kind == "returned":
            return _brought_back(folder)
        paths = [folder / name for name in files]
        return _added(paths) if self._dice.random() < 0.1 else _worked_up(paths)


def _worked_up(paths: list[Path]) -> set[str]:
    try:
        findings = open_uploads(paths).findings
    except StemmapError as fault:
        return {_template(str(fault))}
    return {f"{each['check']} {each['field']} {each['severity']}" for each in (told.as_json() for told in findings)}


def _added(paths: list[Path]) -> set[str]:
    """Add the upload to a survey file, which says the same of it as the upload itself."""
    survey = paths[0].with_name("made.gpkg")
    try:
        workup = add_uploads(survey, paths, who="Ida").workup
    except StemmapError as fault:
        return {_template(str(fault))}
    assert workup is not None
    assert [each.id for each in open_uploads([survey]).findings] == [each.id for each in workup.findings]
    return {f"added {workup.findings.counts}"}


def _decided(folder: Path) -> set[str]:
    """Decide line by line; every line is answered and exactly the acknowledged entries are stored."""
    survey, answers = folder / "survey.gpkg", io.StringIO()
    lines = io.TextIOWrapper(io.BytesIO((folder / "lines").read_bytes()), "utf-8", "surrogateescape", newline="\n")
    with opened(survey, write=True) as survey_file:
        before = len(entries(survey_file))
        decide_lines(survey_file, lines, answers, "Ida")
        after = entries(survey_file)
    told = [line.split(" ") for line in answers.getvalue().splitlines()]
    assert [int(words[1]) for words in told if words[0] == "ok"] == [each.entry for each in after[before:]]
    assert {words[0] for words in told} <= {"ok", "error"}
    return {_template(" ".join(words)) for words in told}


def _brought_back(folder: Path) -> set[str]:
    """Take a filled-in table in; every row of it is accounted for."""
    try:
        made = bring_back(folder / "survey.gpkg", [folder / "fill_in.csv"], who="Ida")
    except StemmapError as fault:
        return {_template(str(fault))}
    rows = list(made.rows())
    assert len(rows) == made.new_rows
    json.dumps([rows, made.counts(), made.quality(), list(made.proposals())], allow_nan=False)
    return {f"{each['outcome']} {each['known_by']}" for each in rows} | {"taken in"}


def _surveyed(folder: Path) -> set[str]:
    """Open a damaged survey file, read its journal, decide in it, repair it."""
    survey = folder / "survey.gpkg"
    behaviour = _worked_up([survey])
    with suppress(StemmapError), readable(survey, lambda _: None) as survey_file:
        behaviour.add(f"{len(entries(survey_file))} entries")
    with suppress(StemmapError), opened(survey, write=True) as survey_file:
        finding = "0/-/8/outside-circle/distance_m"
        decide_lines(survey_file, [f"{finding} keep once more\n", f"{finding} value=3\n"], io.StringIO(), "Ida")
    try:
        saved = repair(survey, folder / "repaired.gpkg")
        behaviour.add(f"saved {saved.entries} {bool(saved.missing)}")
        behaviour |= _worked_up([folder / "repaired.gpkg"])
    except StemmapError as fault:
        behaviour.add(_template(str(fault)))
    return behaviour


def _template(sentence: str) -> str:
    """A sentence without what it quotes and counts."""
    return re.sub(r"'[^']*'|\"[^\"]*\"|\d+", "…", sentence)[:160]


@contextmanager
def _alarm() -> Iterator[None]:
    """Interrupt what does not end by itself, and show where it was."""

    def ring(*_: object) -> None:
        raise _Hangs

    before = signal.signal(signal.SIGALRM, ring)
    signal.setitimer(signal.ITIMER_REAL, 60)
    try:
        yield
    finally:
        signal.setitimer(signal.ITIMER_REAL, 0)
        signal.signal(signal.SIGALRM, before)


def _fresh_peak() -> int:
    """Memory in use now, in bytes, from which on the most is counted; 0 where the system does not tell."""
    with suppress(OSError):
        _CLEAR.write_text("5")
    return _peak()


def _peak() -> int:
    try:
        text = _STATUS.read_text()
    except OSError:
        return 0
    return int(re.search(r"VmHWM:\s+(\d+)", text)[1]) << 10


def main() -> None:
    """Damage as long as asked, and print each kind of failure the first time."""
    asked = argparse.ArgumentParser()
    asked.add_argument("--seconds", type=float, default=600)
    asked.add_argument("--runs", type=int, default=1_000_000)
    asked.add_argument("--seed", type=int, default=1)
    asked.add_argument("--kinds", nargs="*", default=[])
    asked.add_argument("--keep", type=Path, help="where the files that show a failure are put")
    options = asked.parse_args()
    warnings.simplefilter("error")
    failures: Counter[str] = Counter()
    with tempfile.TemporaryDirectory() as name:
        trials = Trials(Path(name), options.seed, tuple(options.kinds))
        started = time.monotonic()
        while time.monotonic() - started < options.seconds and trials.runs.total() < options.runs:
            failure = trials.try_one()
            if failure:
                files, wrong = failure
                kind = _template(" ".join(wrong.strip().splitlines()[-4:]))
                failures[kind] += 1
                if failures[kind] == 1:
                    print(wrong, flush=True)  # noqa: T201 - the result of the script
                    if options.keep:
                        folder = options.keep / f"{options.seed}-{trials.runs.total()}"
                        folder.mkdir(parents=True, exist_ok=True)
                        for each, content in files.items():
                            (folder / each).write_bytes(content)
            if trials.runs.total() % 1000 == 0:
                print(_told(trials, failures, started), flush=True)  # noqa: T201 - the result of the script
        print(_told(trials, failures, started))  # noqa: T201 - the result of the script
    sys.exit(bool(failures))


def _told(trials: Trials, failures: Counter[str], started: float) -> str:
    rate = trials.runs.total() / (time.monotonic() - started)
    return (
        f"{trials.runs.total()} runs {dict(trials.runs)}, {rate:.1f} a second, {failures.total()} failures "
        f"{dict(failures)}, slowest {trials.slowest:.1f} s, largest {trials.largest >> 20} MiB"
    )


if __name__ == "__main__":
    main()
