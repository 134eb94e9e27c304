"""Rows filled in on each other's lines."""

import numpy as np
import pytest

from stemmap.core.exchange import CAP, exchanged, misfit

SD = [1.5, 0.1, 0.5]
RECORDED = np.array([[10.0, 3.0, 20.0], [80.0, 5.5, 31.0], [200.0, 7.1, 44.0], [355.0, 8.8, 25.0]])


def costs(again):
    return misfit(np.asarray(again)[:, None], RECORDED[None], sd=SD, full_circle_at=0)


def test_misfit_by_hand():
    """0.5 (3/1.5)² + 0.5 (0.2/0.1)² + 0: computed by hand."""
    assert misfit([13.0, 3.2, 20.0], RECORDED[0], sd=SD) == pytest.approx(4.0)


def test_azimuths_go_round_and_a_gross_error_is_capped():
    assert misfit([1.0, 8.8, 25.0], RECORDED[3], sd=[6.0, 1.0, 1.0], full_circle_at=0) == pytest.approx(0.5)
    assert misfit([10.0, 30.0, 20.0], RECORDED[0], sd=SD) == CAP


def test_a_missing_value_costs_the_same_everywhere():
    blank = [np.nan, 3.0, np.nan]
    assert misfit(blank, [1.0, 3.0, 2.0], sd=SD) == misfit(blank, [90.0, 3.0, 9.0], sd=SD)


@pytest.mark.parametrize("order", [[1, 0, 2, 3], [1, 2, 0, 3], [1, 2, 3, 0], [1, 0, 3, 2], [0, 1, 2, 3]])
def test_rows_on_each_others_lines_are_known(order):
    again = RECORDED[order] + [[0.8, -0.05, 0.2]]
    assert exchanged(costs(again), gain=10.0, fits=8.0).tolist() == order


def test_one_gross_error_is_no_exchange():
    again = RECORDED.copy()
    again[1, 0] = 20.0
    again[2, 2] = 62.0
    assert exchanged(costs(again), gain=10.0, fits=8.0).tolist() == [0, 1, 2, 3]


def test_an_exchange_after_which_its_rows_do_not_fit_is_none():
    again = RECORDED[[1, 0, 2, 3]].copy()
    again[0] = [44.0, 9.9, 70.0]
    assert exchanged(costs(again), gain=10.0, fits=6.0).tolist() == [0, 1, 2, 3]


def test_a_gross_error_in_a_plot_written_in_another_order_hides_no_order():
    again = RECORDED[[1, 2, 3, 0]].copy()
    again[2, 2] = 90.0
    assert exchanged(costs(again), gain=10.0, fits=6.0).tolist() == [1, 2, 3, 0]


def test_two_exchanges_are_judged_each_by_itself():
    again = RECORDED[[1, 0, 3, 2]].copy()
    again[3] = [100.0, 1.0, 70.0]
    assert exchanged(costs(again), gain=10.0, fits=6.0).tolist() == [1, 0, 2, 3]


def test_one_row_or_none_stays():
    assert exchanged(np.full((1, 1), 99.0), gain=1.0, fits=1.0).tolist() == [0]
    assert exchanged(np.zeros((0, 0)), gain=1.0, fits=1.0).tolist() == []
