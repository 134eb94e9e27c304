"""The verb packet."""

import csv

import pytest

from stemmap.assets import sample_data
from stemmap.cli.main import main


@pytest.fixture
def run(monkeypatch, tmp_path, capsys):
    def run(*arguments: str) -> tuple[int, str, str]:
        monkeypatch.setattr("sys.argv", ["stemmap", *arguments])
        code = main(lambda *_, **__: 0)
        return code, *capsys.readouterr()

    monkeypatch.chdir(tmp_path)
    folder = sample_data("survey")
    files = [str(folder / name) for name in ("plots.csv", "stems.csv", "settings.toml")]
    assert run("add", "wood.gpkg", *files, "--who", "Ida")[0] == 0
    return run


def test_a_packet_is_made_and_told(run, tmp_path):
    code, out, err = run("packet", "wood.gpkg", "--plots", "1, 5", "--blind-share", "0.5", "--seed", "4", "-o", "out")
    assert (code, out) == (0, "")
    assert "plots with former values: 2, blind plots: 1" in err
    with (tmp_path / "out" / "fill_in.csv").open(encoding="utf-8-sig", newline="") as stream:
        looks = {row["plot"]: row["look"] for row in csv.DictReader(stream)}
    assert sorted(looks.values()) == ["blind", "cold", "cold"]
    assert looks["1"] == looks["5"] == "cold"


@pytest.mark.parametrize(
    ("options", "sentence"),
    [
        (["--plots", "1", "--recheck"], "leave --plots out"),
        (["--plots", "1", "--budget-hours", "2"], "belongs to --recheck"),
        (["--plots", "none such"], "no plot none such"),
        (["--blind-share", "2"], "between 0 and 1"),
    ],
)
def test_what_does_not_go_together_is_told(run, tmp_path, options, sentence):
    code, _, err = run("packet", "wood.gpkg", *options, "-o", "out")
    assert code == 2
    assert sentence in err
    assert not (tmp_path / "out").exists()


def test_a_folder_that_cannot_be_made_is_told(run, tmp_path):
    (tmp_path / "out").write_text("a file")
    code, _, err = run("packet", "wood.gpkg", "--plots", "1", "-o", "out")
    assert code == 3
    assert "cannot be made" in err
