"""The settings file: named, among the files of the upload, or beside them."""

from __future__ import annotations

from pathlib import Path

import pytest

from stemmap.errors import InputError
from stemmap.reading import find_settings, read_settings
from stemmap.survey.settings import Settings

_GON = '[measurement]\nazimuth_unit = "gon"\n'


def _write(folder: Path, **texts: str) -> list[Path]:
    for name, text in texts.items():
        (folder / f"{name}.toml").write_text(text, "utf-8")
    (folder / "stems.csv").write_text("x")
    return [folder / "stems.csv"]


def test_named_file_is_read(tmp_path: Path):
    _write(tmp_path, mine=_GON, other=_GON)
    assert read_settings(tmp_path / "mine.toml").measurement.azimuth_unit == "gon"


def test_byte_order_mark_does_no_harm(tmp_path: Path):
    _write(tmp_path, mine="\ufeff" + _GON)
    assert read_settings(tmp_path / "mine.toml").measurement.azimuth_unit == "gon"


def test_file_among_the_uploads_is_taken(tmp_path: Path):
    files = _write(tmp_path, mine=_GON, other="[survey]\n")
    assert read_settings(None, [*files, tmp_path / "mine.toml"]).measurement.azimuth_unit == "gon"


def test_only_settings_file_beside_the_uploads_is_taken_and_said(tmp_path: Path):
    files = _write(tmp_path, mine=_GON, project='[tool.other]\nname = "x"\n')
    assert read_settings(None, files).measurement.azimuth_unit == "gon"
    found = find_settings(files)
    assert found.path == tmp_path / "mine.toml"
    assert [remark.check for remark in found.remarks] == ["settings-found"]


def test_several_files_beside_the_uploads_are_said_and_not_used(tmp_path: Path):
    files = _write(tmp_path, mine=_GON, other="[survey]\n")
    assert read_settings(None, files) == Settings()
    assert [remark.check for remark in find_settings(files).remarks] == ["settings-undecided"]


def test_broken_file_beside_the_uploads_is_said_and_not_used(tmp_path: Path):
    files = _write(tmp_path, mine="[measurement\n")
    assert read_settings(None, files) == Settings()
    assert [remark.check for remark in find_settings(files).remarks] == ["settings-undecided"]


def test_no_settings_are_the_defaults(tmp_path: Path):
    assert read_settings(None, _write(tmp_path)) == Settings()
    assert read_settings() == Settings()


def test_wrong_setting_beside_the_uploads_is_an_error_that_names_the_file(tmp_path: Path):
    with pytest.raises(InputError, match=r"mine\.toml: .*azimuth_unit"):
        read_settings(None, _write(tmp_path, mine='[measurement]\nazimuth_unit = "gons"\n'))


def test_broken_named_file_is_an_error_with_the_line(tmp_path: Path):
    _write(tmp_path, mine='[survey]\nname = "x\n')
    with pytest.raises(InputError, match=r"mine\.toml .*line 2"):
        read_settings(tmp_path / "mine.toml")


def test_several_settings_files_among_the_uploads_are_an_error(tmp_path: Path):
    _write(tmp_path, a=_GON, b=_GON)
    with pytest.raises(InputError, match="Several settings files"):
        read_settings(None, [tmp_path / "a.toml", tmp_path / "b.toml"])


def test_missing_folder_binary_and_huge_files_are_errors(tmp_path: Path):
    with pytest.raises(InputError, match="no settings file"):
        read_settings(tmp_path / "none.toml")
    with pytest.raises(InputError, match="is a folder"):
        read_settings(tmp_path)
    (tmp_path / "b.toml").write_bytes(b"\xff\xfe\x00")
    with pytest.raises(InputError, match="UTF-8"):
        read_settings(tmp_path / "b.toml")
    (tmp_path / "c.toml").write_bytes(b"#" * (2 << 20))
    with pytest.raises(InputError, match="too large"):
        read_settings(tmp_path / "c.toml")
    (tmp_path / "d.toml").write_text("a = " + "[" * 100_000)
    with pytest.raises(InputError, match="no valid settings"):
        read_settings(tmp_path / "d.toml")


def test_a_misspelt_section_beside_the_upload_is_not_passed_over_in_silence(tmp_path):
    (tmp_path / "stems.csv").write_text("plot\n1\n", "utf-8")
    (tmp_path / "settings.toml").write_text("[desing]\nradius_m = 8\n", "utf-8")
    found = find_settings([tmp_path / "stems.csv"])
    assert found.path is None
    (remark,) = found.remarks
    assert "[desing]" in remark.sentence
    assert "was not used" in remark.sentence


def test_files_of_other_programs_beside_the_upload_are_no_matter(tmp_path):
    (tmp_path / "stems.csv").write_text("plot\n1\n", "utf-8")
    (tmp_path / "pyproject.toml").write_text("[project]\nname = 'x'\n[tool.ruff]\n", "utf-8")
    found = find_settings([tmp_path / "stems.csv"])
    assert (found.path, found.remarks) == (None, ())


@pytest.mark.parametrize("digits", [400, 5000])
def test_a_number_beyond_all_measure_is_an_error(tmp_path: Path, digits: int):
    _write(tmp_path, mine=f"[design]\nradius_m = {'9' * digits}\n")
    with pytest.raises(InputError, match=r"mine\.toml"):
        read_settings(tmp_path / "mine.toml")
