"""The verbs structure and report."""

import json
from pathlib import Path

from stemmap.assets import sample_data
from stemmap.cli.main import main


def run(monkeypatch, *arguments: str) -> int:
    monkeypatch.setattr("sys.argv", ["stemmap", *arguments])
    return main(lambda *_, **__: 0)


def sample() -> list[str]:
    folder = sample_data("survey")
    return [str(folder / name) for name in ("plots.csv", "stems.csv")] + ["--settings", str(folder / "settings.toml")]


def test_structure_as_json_stands_alone_and_is_the_same_each_time(monkeypatch, capsys) -> None:
    told = []
    for _ in range(2):
        assert (
            run(monkeypatch, "structure", *sample(), "--by", "species", "--simulations", "39", "--format", "json") == 0
        )
        told.append(capsys.readouterr().out)
    assert told[0] == told[1]
    made = json.loads(told[0])
    assert set(made) == {"plots", "pooled", "strata", "large_stems", "simulations", "seed", "caution"}
    assert made["pooled"]["curves"]["l_minus_r"]["sentence"]
    assert made["pooled"]["species"]
    for plot in made["plots"]:
        assert plot["reason"] or plot["indices"]["clark_evans"]["donnelly"]["r"] is not None


def test_too_few_simulations_are_refused(monkeypatch, capsys) -> None:
    assert run(monkeypatch, "structure", *sample(), "--simulations", "5") == 2
    assert "simulations" in capsys.readouterr().err


def test_a_report_is_written_where_asked(monkeypatch, capsys, tmp_path: Path) -> None:
    path = tmp_path / "report.html"
    assert run(monkeypatch, "report", *sample(), "-o", str(path)) == 0
    assert path.read_text("utf-8").startswith("<!doctype html>")
    assert capsys.readouterr().out == ""


def test_a_report_of_another_kind_is_refused(monkeypatch, capsys, tmp_path: Path) -> None:
    assert run(monkeypatch, "report", *sample(), "-o", str(tmp_path / "report.txt")) == 2
    assert ".html or .pdf" in capsys.readouterr().err


def test_large_stems_of_concentric_circles_are_told_of_in_every_format(monkeypatch, capsys) -> None:
    assert run(monkeypatch, "structure", *sample(), "--by", "size", "--simulations", "39", "--format", "json") == 0
    made = json.loads(capsys.readouterr().out)
    assert len(made["large_stems"]["plots"]) == len(made["plots"])
    assert "of 30 cm and more in the outer circle" in made["large_stems"]["pooled"]["inclusion"]
    assert set(made["pooled"]["sizes"]) == {"thick", "thin", "thick × thin"}

    assert run(monkeypatch, "structure", *sample(), "--simulations", "39", "--format", "csv") == 0
    levels = {line.split(",")[0] for line in capsys.readouterr().out.splitlines()}
    assert {"plot", "pooled", "large plot", "large stratum", "large pooled"} <= levels

    assert run(monkeypatch, "structure", *sample(), "--simulations", "39") == 0
    assert "All plots, last visits; living stems of 30 cm and more" in capsys.readouterr().out
