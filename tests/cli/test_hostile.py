"""Uploads that nobody should send, through the whole command line: a sentence, exit 0, 1 or 2, and nothing worse."""

from __future__ import annotations

import json
import resource
import subprocess
import sys
import zipfile

import pytest

HEADINGS = "plot,stem,azimuth,distance_m,dbh_cm\n"
GOOD = HEADINGS + "A,1,10,5.00,20.1\nA,2,100,4.20,31.0\n"
MOST_GIB = 2.0


def _bytes(path, content):
    path.write_bytes(content if isinstance(content, bytes) else content.encode("utf-8"))


def _zip_bomb(path):
    with zipfile.ZipFile(path, "w", zipfile.ZIP_DEFLATED) as archive:
        archive.writestr("[Content_Types].xml", "<Types/>")
        archive.writestr("xl/workbook.xml", "<workbook/>")
        with archive.open("xl/worksheets/sheet1.xml", "w", force_zip64=True) as sheet:
            for _ in range(1100):
                sheet.write(b"0" * (1 << 20))


def _link(path):
    path.with_name("real.csv").write_text(GOOD)
    path.symlink_to(path.with_name("real.csv"))


def _million_plots(path):
    with path.open("w") as stream:
        stream.write(HEADINGS)
        rows = ((number, number % 360, number % 12, 20 + number % 30) for number in range(10**6))
        stream.writelines(f"P{plot},1,{azimuth},{distance}.5,{dbh}.0\n" for plot, azimuth, distance, dbh in rows)


FILES = {
    "empty.csv": "",
    "header.csv": HEADINGS,
    "words.csv": HEADINGS + "A,1,ten,five,twenty\nA,2,north,far,thick\n",
    "nul.csv": GOOD + "A,3,\0\0,5,20\n",
    "utf16.csv": GOOD.encode("utf-16"),
    "picture.csv": b"\x89PNG\r\n\x1a\n\x00\x00\x00\rIHDR" + bytes(range(256)) * 20,
    "fake.xlsx": "this is no workbook",
    "fake.gpkg": "this is no geopackage",
    "cut.geojson": '{"type": "FeatureCollection", "features": [{"type": "Feature", "properties": {"plot": "A"',
    "formulas.csv": HEADINGS + '"=HYPERLINK(""x"")",=1+1,10,5,20\n+A,@2,20,6,=A1\n',
    "wide.csv": ",".join(f"c{number}" for number in range(50_000)) + "\n" + ",".join("1" * 50_000) + "\n",
    "cell.csv": GOOD + "A,3,10,5," + "9" * 2_000_000 + "\n",
    "quotes.csv": HEADINGS + 'A,"1,10,5,20\nA,2,20,6,21\n',
    "ragged.csv": HEADINGS + "A,1\nA,2,20,6,21,7,8,9\n\n,,,,\nA\n",
    "bomb.xlsx": _zip_bomb,
    "link.csv": _link,
    "folder.csv": lambda path: path.mkdir(),
    "twice.csv": "plot,plot,stem,azimuth,azimuth,distance_m\nA,B,1,10,20,5\n",
    "two_headings.csv": HEADINGS + ",,gon,m,cm\nA,1,10,5,20\n",
    "million.csv": _million_plots,
    "huge_numbers.csv": HEADINGS + "A,1,1e308,1e308,1e308\nA,2,-1e308,inf,nan\nA,3,1e-320,1e-320,1e-320\n",
    "strange_names.csv": HEADINGS + '"../../etc/passwd",CON,10,5,20\n"🌲\n",\u202e7,20,6,21\n',
}


@pytest.mark.parametrize("name", FILES)
def test_every_upload_is_answered_by_a_sentence(tmp_path, name):
    path = tmp_path / name
    make = FILES[name]
    if callable(make):
        make(path)
    else:
        _bytes(path, make)
    line = [sys.executable, "-m", "stemmap", "check", str(path), "--radius", "10", "--format", "json"]
    before = resource.getrusage(resource.RUSAGE_CHILDREN).ru_maxrss
    with (tmp_path / "out.json").open("wb") as out:
        done = subprocess.run(line, stdout=out, stderr=subprocess.PIPE, text=True, timeout=120, check=False)
    # The peak of all children so far; no earlier one may have passed the bound either.
    peak = max(before, resource.getrusage(resource.RUSAGE_CHILDREN).ru_maxrss) / 2**20

    assert done.returncode in (0, 1, 2), done.stderr
    assert "Traceback" not in done.stderr
    told = (tmp_path / "out.json").read_text(encoding="utf-8")
    if done.returncode == 2:
        assert told == ""
        assert done.stderr.startswith("stemmap: ")
        assert len(done.stderr.splitlines()) == 1
    else:
        assert done.stderr == ""
        report = json.loads(told, parse_constant=pytest.fail)
        assert set(report) == {"findings", "counts"}
    assert peak < MOST_GIB
