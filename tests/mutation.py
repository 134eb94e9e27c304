"""Uploads, survey files and decisions with random damage: each is worked up or refused by a sentence; also by hand.

Run from the top of a checkout: python -m tests.mutation --seconds 600
"""

import argparse
import random
import tempfile
import time
import traceback
from collections import Counter
from pathlib import Path

from stemmap.errors import StemmapError
from stemmap.tasks.workup import open_uploads

SAMPLE = Path(__file__).parents[1] / "sample_data" / "broken"
#: A run on a small file that takes longer hangs.
MOST_SECONDS = 2.0

_NASTY = (
    *("", " ", "0", "-1", "1e308", "-1e999", "9" * 400, "nan", "inf", "1,5", "1.234,5", "½", "١٢", "−3", "12x", "\x00"),
    *(
        "\x1b[2J",
        "\ud800",
        "\ufeff",
        "\u202e",
        "=1+1",
        '"',
        '""',
        "a\nb",
        "\r",
        ";",
        ",",
        "\t",
        "2026-02-30",
        "0001-01-01",
    ),
    *("99999-01-01", "true", "null", "plot", "ñ" * 300, "1e-320", "0x10", "1_000", "+5", "NaN", "%s", "{}", "../x"),
)


def seeds() -> dict[str, list[bytes]]:
    """Small uploads: stems, and plots where there are some."""
    stems = (SAMPLE / "stems.csv").read_bytes().splitlines(keepends=True)
    plots = (SAMPLE / "plots.csv").read_bytes().splitlines(keepends=True)
    geojson = (
        '{"type":"FeatureCollection","features":['
        + ",".join(
            f'{{"type":"Feature","properties":{{"plot":"A","stem":{n},"azimuth":{n * 40},"distance_m":{n}.5,'
            f'"dbh_cm":20.{n}}},'
            f'"geometry":{{"type":"Point","coordinates":[10.{n},50.1]}}}}'
            for n in range(1, 8)
        )
        + "]}"
    )
    return {"csv": [b"".join(stems[:40]), b"".join(plots[:6])], "geojson": [geojson.encode()]}


def mutated(content: bytes, dice: random.Random) -> bytes:
    """The content with one to six changes."""
    data = bytearray(content)
    for _ in range(dice.choice((1, 1, 1, 2, 3, 6))):
        place = dice.randrange(len(data) + 1)
        kind = dice.randrange(8)
        if kind == 0 and data:
            data[min(place, len(data) - 1)] ^= 1 << dice.randrange(8)
        elif kind == 1:
            data[place : place + dice.choice((1, 2, 20, 500))] = b""
        elif kind == 2:
            data[place:place] = bytes(dice.randrange(256) for _ in range(dice.choice((1, 1, 4, 30))))
        elif kind == 3:
            del data[place:]
        elif kind == 4:
            start = dice.randrange(len(data) + 1)
            data[place:place] = data[start : start + dice.choice((5, 50, 400))]
        else:
            data = _with_cells_changed(data, dice)
    return bytes(data)


def _with_cells_changed(data: bytearray, dice: random.Random) -> bytearray:
    """One cell given another text, or two cells swapped."""
    separator = max((b",", b";", b"\t"), key=data.count)
    lines = [line.split(separator) for line in bytes(data).split(b"\n")]
    one, other = dice.choice(lines), dice.choice(lines)
    first, second = dice.randrange(len(one)), dice.randrange(len(other))
    if dice.random() < 0.6:
        text = dice.choice(_NASTY).encode("utf-8", "surrogatepass")
        for line in lines if dice.random() < 0.1 else [one]:
            if first < len(line):
                line[first] = text
    else:
        one[first], other[second] = other[second], one[first]
    return bytearray(b"\n".join(separator.join(line) for line in lines))


def work_up_mutated(folder: Path, seed: int) -> str | None:
    """Work up one mutated upload; what went wrong, None when nothing did."""
    dice = random.Random(seed)
    ending, contents = dice.choice([*seeds().items()])
    paths = []
    for number, content in enumerate(contents):
        path = folder / f"upload{number}.{ending}"
        path.write_bytes(mutated(content, dice) if number == 0 or dice.random() < 0.5 else content)
        paths.append(path)
    started = time.process_time()
    try:
        workup = open_uploads(paths)
        for finding in workup.findings:
            finding.as_json()
    except StemmapError:
        pass
    except Exception:  # every other fault is what is looked for
        return traceback.format_exc()
    taken = time.process_time() - started
    return f"{taken:.1f} s" if taken > MOST_SECONDS else None


def main() -> None:
    """Mutate as long as asked, and print each kind of failure with the first seed that shows it."""
    asked = argparse.ArgumentParser()
    asked.add_argument("--seconds", type=float, default=600)
    asked.add_argument("--seed", type=int, default=1_000_000)
    options = asked.parse_args()
    failures: Counter[str] = Counter()
    runs = 0
    started = time.monotonic()
    with tempfile.TemporaryDirectory() as folder:
        work_up_mutated(Path(folder), 0)  # imports take their time
        while time.monotonic() - started < options.seconds:
            failure = work_up_mutated(Path(folder), options.seed + runs)
            runs += 1
            if failure:
                kind = failure.strip().splitlines()[-1][:100]
                failures[kind] += 1
                if failures[kind] == 1:
                    print(f"seed {options.seed + runs - 1}: {failure}", flush=True)  # noqa: T201 - the result
    print(runs, "runs,", sum(failures.values()), "failures", dict(failures))  # noqa: T201 - the result of the script


if __name__ == "__main__":
    main()
