"""The same plot as PDF, SVG and PNG, read back by other programs and measured."""

import re
from dataclasses import replace
from xml.etree import ElementTree as ET

import numpy as np
import pdfplumber
import pypdfium2
import pytest
from pdfminer.pdftypes import resolve1
from PySide6.QtCore import QBuffer
from PySide6.QtGui import QColor, QImage, QPainter
from scipy import ndimage

from stemmap.drawing.outline import outline_update
from stemmap.drawing.page import picture, stacked
from stemmap.drawing.painter import paint
from stemmap.drawing.palette import PAPER, SPECIES_FILLS
from stemmap.drawing.plot_map import describe_plot
from stemmap.drawing.scene import View
from stemmap.drawing.sheet import SheetStyle, describe_sheet
from stemmap.drawing.targets import image_of, svg_of, write_pdf, write_png, write_svg
from stemmap.errors import OutputError
from stemmap.survey.measured import measure

MILLIMETRES_PER_POINT = 25.4 / 72.0


@pytest.fixture
def stems(scattered):
    return {**scattered(12, radius_m=7.0), "dbh_cm": [20.0 + 4.5 * number for number in range(12)]}


@pytest.fixture
def sheet(plot, stems):
    return described(plot(stems, radius_m=7.98))[0]


def described(survey, **style):
    return describe_sheet(SheetStyle.of(survey, measure(survey), **style), 0)


def circles_of(page):
    """Centre and diameter of every round curve of a PDF page, millimetres."""
    found = []
    for curve in page.curves:
        x0, x1, top, bottom = (curve[name] * MILLIMETRES_PER_POINT for name in ("x0", "x1", "top", "bottom"))
        if abs((x1 - x0) - (bottom - top)) < 0.02:
            found.append(((x0 + x1) / 2.0, (top + bottom) / 2.0, x1 - x0))
    return np.array(found)


def svg_circles(path):
    root = ET.parse(path).getroot()
    return np.array(
        [
            [float(item.get(key)) / 100.0 for key in ("cx", "cy", "r")]
            for item in root.iter("{http://www.w3.org/2000/svg}circle")
        ]
    )


def test_pdf_is_true_to_scale(sheet, stems, tmp_path):
    write_pdf([sheet], tmp_path / "a.pdf")
    with pdfplumber.open(tmp_path / "a.pdf") as pdf:
        page = pdf.pages[0]
        circles = circles_of(page)
        lines = np.array([[line["x0"], line["x1"]] for line in page.lines]) * MILLIMETRES_PER_POINT
        words = page.extract_text()
        size = page.width * MILLIMETRES_PER_POINT, page.height * MILLIMETRES_PER_POINT
    lengths = np.abs(lines[:, 1] - lines[:, 0])

    # Qt rounds pages to whole points.
    assert size == pytest.approx((210.0, 297.0), abs=0.2)
    assert "1:100" in words
    assert np.abs(circles[:, 2] / 2.0 - 79.8).min() < 0.05
    for dbh in stems["dbh_cm"]:
        assert np.abs(circles[:, 2] - dbh / 10.0).min() < 0.05
    assert np.abs(lengths - 100.0).min() < 0.05
    assert np.abs(lengths - 20.0).min() < 0.05  # scale bar of 2 m


def test_stems_of_a_pdf_stand_where_they_were_measured(sheet, stems, tmp_path):
    write_pdf([sheet], tmp_path / "a.pdf")
    with pdfplumber.open(tmp_path / "a.pdf") as pdf:
        circles = circles_of(pdf.pages[0])
    x, y = circles[np.argmin(np.abs(circles[:, 2] / 2.0 - 79.8)), :2]

    for azimuth, distance, dbh in zip(stems["azimuth"], stems["distance_m"], stems["dbh_cm"], strict=True):
        angle = np.radians(azimuth)
        here = np.array([x + 10.0 * distance * np.sin(angle), y - 10.0 * distance * np.cos(angle)])
        near = circles[np.hypot(*(circles[:, :2] - here).T) < 0.05]
        assert np.abs(near[:, 2] - dbh / 10.0).min() < 0.05


def test_text_of_a_pdf_is_text_in_the_shipped_font(sheet, tmp_path):
    write_pdf([sheet], tmp_path / "a.pdf")
    with pdfplumber.open(tmp_path / "a.pdf") as pdf:
        page = pdf.pages[0]
        words = page.extract_text()
        fonts = {char["fontname"] for char in page.chars}

    assert "Plot A" in words
    assert "Safety first" in words
    assert "no legal survey" in words
    assert all("NotoSans" in font for font in fonts)


def test_pages_are_asked_for_one_at_a_time(sheet, tmp_path):
    alive = []

    def pages():
        for number in range(3):
            alive.append(number)
            yield sheet

    write_pdf(pages(), tmp_path / "many.pdf", title="three plots")
    with pdfplumber.open(tmp_path / "many.pdf") as pdf:
        assert len(pdf.pages) == 3
        assert pdf.metadata["Title"] == "three plots"
        assert len({len(page.curves) for page in pdf.pages}) == 1
    assert alive == [0, 1, 2]


def test_papers_of_one_file_may_differ(plot, stems, tmp_path):
    survey = plot(stems)
    write_pdf((described(survey, paper=paper)[0] for paper in ("A4", "A3")), tmp_path / "two.pdf")

    with pdfplumber.open(tmp_path / "two.pdf") as pdf:
        widths = [page.width * MILLIMETRES_PER_POINT for page in pdf.pages]
    assert widths == pytest.approx([210.0, 297.0], abs=0.2)


def test_svg_has_the_same_circles_as_the_pdf(sheet, tmp_path):
    write_pdf([sheet], tmp_path / "a.pdf")
    write_svg(sheet, tmp_path / "a.svg")
    with pdfplumber.open(tmp_path / "a.pdf") as pdf:
        curves = circles_of(pdf.pages[0])
    circles = svg_circles(tmp_path / "a.svg")

    assert len(circles) == len(curves)
    np.testing.assert_allclose(np.sort(2.0 * circles[:, 2]), np.sort(curves[:, 2]), atol=0.02)
    assert ET.parse(tmp_path / "a.svg").getroot().get("width") == "210mm"


def test_fonts_of_a_pdf_are_embedded(sheet, tmp_path):
    write_pdf([sheet], tmp_path / "a.pdf")
    with pdfplumber.open(tmp_path / "a.pdf") as pdf:
        fonts = [resolve1(font) for font in resolve1(pdf.pages[0].page_obj.resources["Font"]).values()]
        descendants = [resolve1(each) for font in fonts for each in resolve1(font.get("DescendantFonts", []))]
        descriptors = [resolve1(font["FontDescriptor"]) for font in [*fonts, *descendants] if "FontDescriptor" in font]

    assert descriptors
    assert all("FontFile2" in descriptor for descriptor in descriptors)


def marks_of(image, per_millimetre, origin):
    """Centre (millimetres right and down of an origin) and diameter of every patch of the first species' colour."""
    pixels = np.frombuffer(image.constBits(), np.uint8).reshape(image.height(), image.bytesPerLine() // 4, 4)
    colour = QColor(SPECIES_FILLS[0])
    wanted = np.array([colour.blue(), colour.green(), colour.red()])
    patches, count = ndimage.label((pixels[:, :, :3] == wanted).all(axis=2))
    each = np.arange(1, count + 1)
    middle = np.array(ndimage.center_of_mass(patches > 0, patches, each))[:, ::-1] + 0.5
    area = ndimage.sum_labels(patches > 0, patches, each)
    found = np.column_stack([middle / per_millimetre - origin, 2.0 * np.sqrt(area / np.pi) / per_millimetre])
    return found[np.argsort(found[:, 2])]


def test_picture_svg_pdf_and_screen_agree_in_geometry(plot, tmp_path):
    stems = {
        "azimuth": [10, 95, 170, 240, 305],
        "distance_m": [2.0, 5.5, 7.98, 4.0, 6.1],
        "dbh_cm": [20.0, 31.5, 44.0, 58.2, 70.0],
        "species": ["beech"] * 5,
    }
    survey = plot(stems, radius_m=7.98)
    measured = measure(survey)
    scene = describe_plot(survey, measured, 0, millimetres_per_metre=10.0, theme=PAPER)
    page = picture(scene, 10.0)
    origin = np.array([page.parts[0].x_mm, page.parts[0].y_mm])
    angle = np.radians(stems["azimuth"])
    distance = 10.0 * np.array(stems["distance_m"])
    truth = np.column_stack([distance * np.sin(angle), -distance * np.cos(angle), np.array(stems["dbh_cm"]) / 10.0])
    outline_mm = 0.18  # half of it covers the fill on each side

    write_pdf([page], tmp_path / "a.pdf")
    with pdfplumber.open(tmp_path / "a.pdf") as pdf:
        curves = circles_of(pdf.pages[0]) - [*origin, 0.0]
    write_svg(page, tmp_path / "a.svg")
    circles = svg_circles(tmp_path / "a.svg") * [1.0, 1.0, 2.0] - [*origin, 0.0]
    for read_back in (curves, circles):
        for row in truth:
            assert np.abs(read_back - row).max(axis=1).min() < 0.1

    write_png(page, tmp_path / "a.png", dpi=508.0)
    image = QImage(str(tmp_path / "a.png")).convertToFormat(QImage.Format.Format_RGB32)
    np.testing.assert_allclose(marks_of(image, 20.0, origin), truth - [0.0, 0.0, outline_mm], atol=0.1)

    # As the window paints it, on a screen of 192 dots per inch.
    per_millimetre = 192.0 / 25.4
    screen = QImage(1600, 1500, QImage.Format.Format_RGB32)
    screen.fill(QColor(PAPER.page))
    view = View.fitting(scene.box, screen.width(), screen.height(), per_millimetre)
    painter = QPainter(screen)
    paint(scene, painter, view)
    painter.end()
    scale = view.per_metre / 10.0
    shown = marks_of(screen, scale, np.array([view.origin_x, view.origin_y]) / scale)
    line = outline_mm * per_millimetre / scale
    np.testing.assert_allclose(shown, truth - [0.0, 0.0, line], atol=0.25)  # a pixel is 0.13 mm of the map
    np.testing.assert_allclose(shown[:, :2], truth[:, :2], atol=0.1)


def test_bookmarks_become_the_outline_of_a_pdf(sheet, tmp_path):
    names = ["Plot A", "Prüfpunkt 7, visit (2)", "林班 \\ 3"]
    pages = [replace(sheet, bookmark=name) for name in ("", names[0], names[1], "", names[2])]
    write_pdf(pages, tmp_path / "a.pdf")
    with pypdfium2.PdfDocument(tmp_path / "a.pdf") as document:
        found = [(entry.get_title(), entry.get_dest().get_index()) for entry in document.get_toc()]
    with pdfplumber.open(tmp_path / "a.pdf") as pdf:
        assert [title for _, title, *_ in pdf.doc.get_outlines()] == names
        assert len(pdf.pages) == 5
        assert pdf.pages[4].extract_text() == pdf.pages[0].extract_text()

    assert found == [(names[0], 1), (names[1], 2), (names[2], 4)]


def test_an_incomplete_pdf_gets_no_outline():
    buffer = QBuffer()
    buffer.setData(b"%PDF-1.4 cut off")
    buffer.open(QBuffer.OpenModeFlag.ReadOnly)

    with pytest.raises(OutputError, match="incomplete"):
        outline_update(buffer, [("Plot A", 0)])


def test_pages_stand_below_each_other_in_one_picture(plot, scattered):
    pages = described(plot(scattered(60)))
    page = stacked(pages)

    assert page.height_mm == pytest.approx(297.0 * len(pages))
    assert len(page.parts) == sum(len(each.parts) for each in pages)
    assert max(part.y_mm for part in page.parts) == pytest.approx(page.height_mm - 10.0)


def test_svg_for_the_clipboard_is_that_of_the_file(sheet, tmp_path):
    write_svg(sheet, tmp_path / "a.svg")

    assert svg_of(sheet) == (tmp_path / "a.svg").read_bytes()


def test_svg_holds_only_plain_shapes(sheet, tmp_path):
    write_svg(sheet, tmp_path / "a.svg")
    kinds = {re.sub("{.*}", "", item.tag) for item in ET.parse(tmp_path / "a.svg").getroot().iter()}

    assert kinds <= {"svg", "title", "desc", "defs", "g", "rect", "circle", "polygon", "polyline", "text"}


def test_png_shows_the_plot_at_its_size(plot, stems, tmp_path):
    survey = plot(stems)
    scene = describe_plot(survey, measure(survey), 0, millimetres_per_metre=5.0, theme=PAPER)
    page = picture(scene, 5.0)
    write_png(page, tmp_path / "a.png", dpi=127.0)
    image = QImage(str(tmp_path / "a.png"))
    colours = {image.pixelColor(x, y).name() for x in range(0, image.width(), 2) for y in range(0, image.height(), 2)}

    # 127 dots per inch are 5 a millimetre.
    assert image.width() == pytest.approx(5.0 * page.width_mm, abs=1.0)
    assert image.dotsPerMeterX() == 5000
    assert {PAPER.inside, PAPER.outside, PAPER.page} <= colours
    assert len(colours) > 20


def test_picture_of_a_scene_leaves_nothing_out(plot, stems):
    survey = plot(stems)
    scene = describe_plot(survey, measure(survey), 0, millimetres_per_metre=5.0, theme=PAPER)
    page = picture(scene, 5.0)
    image = image_of(page, dpi=100.0)
    edge = [image.pixelColor(x, y).name() for x in range(image.width()) for y in (0, image.height() - 1)]

    assert page.width_mm == pytest.approx(page.height_mm)
    assert set(edge) == {PAPER.page}


@pytest.mark.parametrize("write", [write_png, write_svg, lambda page, path: write_pdf([page], path)])
def test_a_place_that_cannot_be_written_is_named(write, sheet, tmp_path):
    path = tmp_path / "missing" / "a.out"

    with pytest.raises(OutputError, match="cannot be written"):
        write(sheet, path)


def test_a_failing_page_leaves_the_old_file_alone(sheet, tmp_path):
    path = tmp_path / "a.pdf"
    path.write_bytes(b"old")

    def pages():
        yield sheet
        raise ZeroDivisionError

    with pytest.raises(ZeroDivisionError):
        write_pdf(pages(), path)
    assert path.read_bytes() == b"old"
    with pytest.raises(OutputError, match="no plot to draw"):
        write_pdf([], path)
    assert path.read_bytes() == b"old"
    assert list(tmp_path.iterdir()) == [path]
