"""Numbers among the words of maps and sheets."""

import pytest
from PySide6.QtCore import QLocale

from stemmap.drawing.decimals import Decimal


@pytest.fixture
def german():
    before = QLocale()
    QLocale.setDefault(QLocale("de"))
    yield
    QLocale.setDefault(before)


@pytest.mark.usefixtures("german")
def test_a_number_has_the_decimal_mark_of_the_country():
    assert f"{Decimal(12.625):.2f} m, {Decimal(0.5):g}, {Decimal(5_350_000.0):.0f}" == "12,62 m, 0,5, 5350000"
    assert f"{Decimal(-3.5):+.2f}°" == "-3,50°"
