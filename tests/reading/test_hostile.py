"""Files that are broken, or made to break a program: each is answered by a sentence, soon and in little memory."""

from __future__ import annotations

import json
import os
import struct
import time
import tracemalloc
import zipfile
from collections.abc import Iterator
from pathlib import Path

import numpy as np
import pytest

from stemmap.errors import InputError
from stemmap.reading import read_upload
from stemmap.survey.records import Upload

_HEADINGS = "plot,stem,azimuth,distance_m,dbh_cm\n"
_GOOD = _HEADINGS + "P1,1,12,4.35,31.2\n"
_PNG = b"\x89PNG\r\n\x1a\n" + os.urandom(5000)


@pytest.fixture(autouse=True)
def _soon() -> Iterator[None]:
    began = time.process_time()
    yield
    assert time.process_time() - began < 10.0


def _write(path: Path, content: str | bytes) -> Path:
    path.write_bytes(content if isinstance(content, bytes) else content.encode())
    return path


def _refused(path: Path) -> str:
    """The sentence with which a file is refused: one, without line breaks, with the file's name."""
    with pytest.raises(InputError) as fault:
        read_upload([path])
    sentence = str(fault.value)
    assert path.name in sentence
    assert "\n" not in sentence
    assert len(sentence) < 600
    return sentence


def _slugs(upload: Upload) -> list[str]:
    return [remark.check for remark in upload.remarks]


@pytest.mark.parametrize(
    ("name", "content", "words"),
    [
        ("empty.csv", b"", "is empty"),
        ("blank.csv", b"\n\n  \n", "is empty"),
        ("mark.csv", b"\xef\xbb\xbf", "is empty"),
        ("head.csv", _HEADINGS, "no records"),
        ("head.txt", _HEADINGS.strip(), "no records"),
        ("nul.csv", _GOOD.encode() + b"P1,2,\x00\x00\x00,3,4\n", "NUL bytes (first in line 3)"),
        ("picture.csv", _PNG, "a picture (PNG)"),
        ("letter.csv", b"%PDF-1.7\n", "a PDF"),
        ("old.xlsx", b"\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1" + bytes(600), "old Excel"),
        ("noise.csv", bytes(np.random.default_rng(1).integers(1, 32, 5000, dtype=np.uint8)), "no text file"),
        ("fake.xlsx", _GOOD, "is called a workbook, but is none"),
        ("fake.gpkg", _GOOD, "is called a GeoPackage, but is none"),
        ("fake2.xlsx", b"PK\x03\x04" + os.urandom(500), "no XLSX workbook"),
        ("fake2.gpkg", b"SQLite format 3\x00" + os.urandom(500), "no GeoPackage"),
        ("cut.geojson", '{"type": "FeatureCollection", "features": [\n{"type": "Feature", "prop', "in line 2"),
        ("wide.csv", ",".join(f"c{n}" for n in range(50_000)) + "\n" + "1," * 49_999 + "1\n", "50,000 columns"),
        ("cell.csv", _GOOD + "P1,2,12,4," + "9" * 2_000_000 + "\n", "in line 3"),
        ("quoted.csv", _GOOD + 'P1,2,12,4,"' + "9\n" * 1_000_000 + '"\n', "in line 3"),
        ("line.csv", "x" * 3_000_000, "first line far too long"),
        ("prose.txt", "Dear crew,\nplease measure again.\n", "no heading"),
    ],
)
def test_unusable_file_is_refused_with_a_sentence(tmp_path: Path, name: str, content: str | bytes, words: str):
    assert words in _refused(_write(tmp_path / name, content))


def test_random_bytes_are_refused(tmp_path: Path):
    for seed in range(20):
        _refused(_write(tmp_path / f"{seed}.csv", np.random.default_rng(seed).bytes(3000)))


def test_fifo_and_device_are_refused(tmp_path: Path):
    os.mkfifo(tmp_path / "pipe.csv")
    assert "no ordinary file" in _refused(tmp_path / "pipe.csv")
    (tmp_path / "zero.csv").symlink_to("/dev/zero")
    assert "no ordinary file" in _refused(tmp_path / "zero.csv")


def test_broken_link_and_loop_are_refused(tmp_path: Path):
    (tmp_path / "gone.csv").symlink_to(tmp_path / "nowhere")
    _refused(tmp_path / "gone.csv")
    (tmp_path / "loop.csv").symlink_to(tmp_path / "loop.csv")
    _refused(tmp_path / "loop.csv")


def test_link_is_followed(tmp_path: Path):
    _write(tmp_path / "s.csv", _GOOD)
    (tmp_path / "link.csv").symlink_to(tmp_path / "s.csv")
    assert len(read_upload([tmp_path / "link.csv"]).stems) == 1


@pytest.mark.skipif(not hasattr(os, "geteuid") or os.geteuid() == 0, reason="root may read every file")
def test_unreadable_file_is_refused(tmp_path: Path):
    path = _write(tmp_path / "s.csv", _GOOD)
    path.chmod(0)
    assert "cannot be read" in _refused(path)


def test_fault_while_opening_is_a_sentence(tmp_path: Path, monkeypatch: pytest.MonkeyPatch):
    path = _write(tmp_path / "s.csv", _GOOD)

    def refuse(*_args, **_kwargs):
        raise PermissionError(13, "Permission denied")

    monkeypatch.setattr(Path, "open", refuse)
    assert "cannot be read: Permission denied" in _refused(path)


def _bomb(path: Path, part: str, content: bytes, times: int) -> Path:
    with zipfile.ZipFile(path, "w", zipfile.ZIP_DEFLATED) as folded:
        folded.writestr("[Content_Types].xml", "<Types/>")
        folded.writestr("xl/workbook.xml", "<workbook/>")
        with folded.open(part, "w", force_zip64=True) as stream:
            for _ in range(times):
                stream.write(content)
    return path


def test_zip_bomb_is_refused_before_it_unfolds(tmp_path: Path):
    bomb = _bomb(tmp_path / "bomb.xlsx", "xl/worksheets/sheet1.xml", bytes(1 << 20), 200)
    assert bomb.stat().st_size < 1 << 20
    tracemalloc.start()
    try:
        assert "would unfold to 210 MB" in _refused(bomb)
        assert tracemalloc.get_traced_memory()[1] < 50 << 20
    finally:
        tracemalloc.stop()


def test_zip_bomb_that_lies_about_its_size_is_refused(tmp_path: Path):
    bomb = _bomb(tmp_path / "bomb.xlsx", "xl/worksheets/sheet1.xml", bytes(1 << 20), 50)
    content = bomb.read_bytes().replace(struct.pack("<I", 50 << 20), struct.pack("<I", 1000))
    assert "damaged" in _refused(_write(bomb, content.replace(struct.pack("<Q", 50 << 20), struct.pack("<Q", 1000))))


def _sheet_of(path: Path, cells: str) -> Path:
    """A workbook with one sheet of raw cells, as a malicious program would write it."""
    main = 'xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main"'
    office = "http://schemas.openxmlformats.org/officeDocument/2006/relationships"
    package = "http://schemas.openxmlformats.org/package/2006"
    kind = "application/vnd.openxmlformats-officedocument.spreadsheetml"
    parts = {
        "[Content_Types].xml": f'<Types xmlns="{package}/content-types"><Default Extension="rels" '
        'ContentType="application/vnd.openxmlformats-package.relationships+xml"/><Override PartName="/xl/workbook.xml" '
        f'ContentType="{kind}.sheet.main+xml"/><Override PartName="/xl/worksheets/sheet1.xml" '
        f'ContentType="{kind}.worksheet+xml"/></Types>',
        "_rels/.rels": f'<Relationships xmlns="{package}/relationships"><Relationship Id="r1" '
        f'Type="{office}/officeDocument" Target="xl/workbook.xml"/></Relationships>',
        "xl/workbook.xml": f'<workbook {main} xmlns:r="{office}"><sheets><sheet name="S" sheetId="1" '
        'r:id="r1"/></sheets></workbook>',
        "xl/_rels/workbook.xml.rels": f'<Relationships xmlns="{package}/relationships"><Relationship Id="r1" '
        f'Type="{office}/worksheet" Target="worksheets/sheet1.xml"/></Relationships>',
        "xl/worksheets/sheet1.xml": f"<worksheet {main}><sheetData>{cells}</sheetData></worksheet>",
    }
    with zipfile.ZipFile(path, "w", zipfile.ZIP_DEFLATED) as folded:
        for name, content in parts.items():
            folded.writestr(name, content)
    return path


def test_lone_cell_far_away_does_not_fill_the_memory(tmp_path: Path):
    near = '<row r="1"><c r="A1"><v>1</v></c></row>'
    far = near + '<row r="1048576"><c r="CV1048576"><v>1</v></c></row>'
    assert "1,048,576 rows of 100 columns" in _refused(_sheet_of(tmp_path / "far.xlsx", far))
    wide = near + '<row r="2"><c r="XFD2"><v>1</v></c></row>'
    assert "16,384 columns" in _refused(_sheet_of(tmp_path / "wide.xlsx", wide))


@pytest.mark.parametrize(
    "cells",
    [
        '<row r="1"><c r="A1"><v>1</v></c></row><row r="1"><c r="CV1048576"><v>1</v></c></row>',
        "<row><c r='CV1048576'><v>1</v></c></row><row><c r='A1'><v>1</v></c></row>",
        '<row><c s="0" r="CV1048576"><v>1</v></c></row><row><c s="0" r="A1"><v>1</v></c></row>',
    ],
)
def test_far_cell_cannot_hide(tmp_path: Path, cells: str):
    assert "1,048,576 rows" in _refused(_sheet_of(tmp_path / "far.xlsx", cells))


@pytest.mark.parametrize("place", ['r ="CV1048576"', 'r= "CV1048576"', 'r="CV1&#48;48576"'])
def test_far_cell_in_disguise_is_refused(tmp_path: Path, place: str):
    assert "unusual way" in _refused(_sheet_of(tmp_path / "far.xlsx", f"<row><c {place}><v>1</v></c></row>"))


def test_formulas_are_texts_like_others(tmp_path: Path):
    formula = '=HYPERLINK(""http://example.org"")'
    upload = read_upload([_write(tmp_path / "s.csv", _GOOD + f'"{formula}",=1+1,@SUM(1),-2,+3\n')])
    assert upload.stems.texts("plot")[1] == formula.replace('""', '"')
    assert np.isnan(upload.stems.numbers("azimuth")[1])


def test_text_for_numbers_is_kept_and_counts_as_missing(tmp_path: Path):
    stems = read_upload([_write(tmp_path / "s.csv", _GOOD + "P1,2,zwölf,n/a,1e400\n")]).stems
    assert list(stems.texts("azimuth")) == ["12", "zwölf"]
    assert all(np.isnan(stems.numbers(name)[1]) for name in ("azimuth", "distance_m", "dbh_cm"))


def test_ragged_lines_are_read_and_named(tmp_path: Path):
    lines = "".join("P1,1,12\n" if n % 2 else "P1,1,12,4,31,x,y\n" for n in range(200_000))
    upload = read_upload([_write(tmp_path / "s.csv", _HEADINGS + lines)])
    assert len(upload.stems) == 200_000
    assert _slugs(upload) == ["lines-ragged", "lines-ragged"]
    assert all(len(remark.sentence) < 300 for remark in upload.remarks)


def test_one_endless_line_among_good_ones_is_bounded(tmp_path: Path):
    text = _HEADINGS + "P1,1,12,4,31\n" * 100_000 + "," * 120_000 + "\n"
    assert len(read_upload([_write(tmp_path / "s.csv", text)]).stems) == 100_000


def test_open_quotation_mark_in_a_large_file_loses_no_line(tmp_path: Path):
    text = _HEADINGS + 'P1,"1,12,4,31\n' + "P1,1,12,4,31\n" * 200_000
    upload = read_upload([_write(tmp_path / "s.csv", text)])
    assert len(upload.stems) == 200_001
    assert "quote-unclosed" in _slugs(upload)


def test_a_million_plots_of_one_stem(tmp_path: Path):
    path = tmp_path / "s.csv"
    with path.open("w") as stream:
        stream.write(_HEADINGS)
        stream.writelines(f"P{n},1,{n % 360},{n % 12}.5,{n / 1000}\n" for n in range(1_000_000))
    upload = read_upload([path])
    assert len(upload.stems) == len(upload.stems.columns["plot"].labels) == 1_000_000


def test_wide_headings_over_many_short_lines_do_not_fill_the_memory(tmp_path: Path):
    headings = ",".join(["plot", *(f"c{n}" for n in range(900))])
    assert "1,000,000 rows of 901 columns" in _refused(_write(tmp_path / "s.csv", headings + "\n" + "P\n" * 1_000_000))
    names = {f"c{n}": None for n in range(900)}
    features = [{"properties": {"plot": 1, **names}}, *({"properties": {"plot": n}} for n in range(100_000))]
    collection = json.dumps({"type": "FeatureCollection", "features": features})
    assert "100,001 rows of 901 columns" in _refused(_write(tmp_path / "s.geojson", collection))


def test_a_hundred_thousand_plots_in_one_table(tmp_path: Path):
    text = "".join(f"P{n},{n}.5,{n}.25,1,{n % 360},4,30\n" for n in range(100_000))
    upload = read_upload([_write(tmp_path / "s.csv", "plot,x,y,stem,azimuth,distance_m,dbh\n" + text)])
    assert len(upload.plots) == len(upload.stems) == 100_000


def test_many_doubtful_numbers_are_read_soon(tmp_path: Path):
    text = "".join(f"P1;{n};{n % 360};{n % 50},{n};n/a {n}\n" for n in range(300_000))
    upload = read_upload([_write(tmp_path / "s.csv", _HEADINGS.replace(",", ";") + text)])
    assert np.isfinite(upload.stems.numbers("distance_m")).all()
    assert np.isnan(upload.stems.numbers("dbh_cm")).all()
