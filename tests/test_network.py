"""Nothing is fetched from the network, whatever files say."""

import json
import os
import socket
import subprocess
import sys
from contextlib import suppress

import pytest

from stemmap.errors import InputError
from stemmap.reading import read_upload
from stemmap.reading.backgrounds import layers_of
from stemmap.reading.stand import read_stand

RING = [[10, 50], [11, 50], [11, 51], [10, 50]]


@pytest.fixture
def listening():
    """A server that should never be asked."""
    with socket.create_server(("127.0.0.1", 0)) as server:
        server.settimeout(0.02)
        yield server


def asked(server):
    try:
        server.accept()[0].close()
    except TimeoutError:
        return False
    return True


def geojson(**members):
    feature = {"type": "Feature", "properties": {"plot": 1}, "geometry": {"type": "Polygon", "coordinates": [RING]}}
    return json.dumps({"type": "FeatureCollection", **members, "features": [feature]})


CONTENTS = {
    "a layer elsewhere": lambda at: (
        f'<OGRVRTDataSource><OGRVRTLayer name="x"><SrcDataSource>/vsicurl/{at}/x.geojson</SrcDataSource>'
        "</OGRVRTLayer></OGRVRTDataSource>"
    ),
    "a feature service": lambda at: f"<OGRWFSDataSource><URL>{at}/wfs</URL></OGRWFSDataSource>",
    "a linked system": lambda at: geojson(crs={"type": "link", "properties": {"href": f"{at}/crs", "type": "proj4"}}),
    "a system by address": lambda at: geojson(crs={"type": "URL", "properties": {"url": f"{at}/crs"}}),
    "a named system": lambda at: geojson(crs={"type": "name", "properties": {"name": f"{at}/crs"}}),
    "more features elsewhere": lambda at: geojson(
        exceededTransferLimit=True, links=[{"rel": "next", "href": f"{at}/2"}]
    ),
}


@pytest.mark.parametrize("ending", ["gpkg", "json", "vrt"])
@pytest.mark.parametrize("content", CONTENTS)
@pytest.mark.parametrize("read", [read_stand, layers_of, lambda path: read_upload([path])])
def test_no_file_sends_the_program_elsewhere(tmp_path, listening, ending, content, read):
    path = tmp_path / f"layer.{ending}"
    path.write_text(CONTENTS[content](f"http://127.0.0.1:{listening.getsockname()[1]}"))
    with suppress(InputError):
        read(path)
    assert not asked(listening)


@pytest.mark.parametrize(
    "crs", ["http://{at}/crs", "https://{at}/crs", "urn:ogc:def:crs:x:{at}", "/vsicurl/http://{at}"]
)
def test_no_setting_sends_the_program_elsewhere(tmp_path, listening, crs):
    from stemmap.tasks.workup import open_uploads

    at = f"127.0.0.1:{listening.getsockname()[1]}"
    (tmp_path / "stems.csv").write_text("plot,stem,azimuth,distance_m,easting,northing\n1,1,10,5,500000,5600000\n")
    for key in ('[survey]\ncrs = "{}"\n', '[design]\nradius_m = 8\nstand = "{}"\n'):
        (tmp_path / "settings.toml").write_text(key.format(crs.format(at=at)))
        with pytest.raises(InputError):
            open_uploads([tmp_path / "stems.csv"])
    assert not asked(listening)


#: Runs the command line with every address and every connection refused.
ALONE = """
import sys

def refuse(event, arguments):
    if event in ("socket.connect", "socket.getaddrinfo", "socket.gethostbyname", "socket.sendto", "urllib.Request"):
        raise SystemExit(f"network: {event} {arguments}")

sys.addaudithook(refuse)
from stemmap.cli.main import cli
import pyproj.network

assert not pyproj.network.is_network_enabled()
for verb in [line.split("|") for line in sys.argv[1:]]:
    cli.main(verb, standalone_mode=False)
"""


def test_the_command_line_works_without_any_network(tmp_path, checkout_root):
    sample = checkout_root / "sample_data" / "young_stand"
    uploads = [str(sample / name) for name in ("plots.csv", "stems.csv")]
    verbs = [
        ["check", *uploads, "--format", "json", "-o", "findings.json"],
        ["summary", *uploads, "-o", "summary.txt"],
        ["export", *uploads, "-o", "stems.gpkg"],
        ["add", "survey.gpkg", *uploads, "--who", "Ida"],
        ["journal", "survey.gpkg"],
        ["sheets", "survey.gpkg", "-o", "sheets.pdf"],
    ]
    run = subprocess.run(
        [sys.executable, "-c", ALONE, *map("|".join, verbs)],
        check=False,
        cwd=tmp_path,
        capture_output=True,
        text=True,
        env={**os.environ, "PYTHONPATH": str(checkout_root), "PROJ_NETWORK": "ON", "QT_QPA_PLATFORM": "offscreen"},
    )
    assert run.returncode == 0, run.stderr
    assert (tmp_path / "sheets.pdf").stat().st_size > 0
