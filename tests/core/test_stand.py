"""Per-hectare values and indices of density against worked and published numbers."""

import math

import numpy as np
import pytest

from stemmap.core.stand import (
    dbh_classes,
    reineke,
    reineke_summed,
    relative_density,
    stand_values,
    stand_values_by_group,
    sum_by_plot,
)
from stemmap.errors import InputError

# Per-hectare values


def test_five_stems_on_500_square_metres():
    values = stand_values([20, 25, 30, 35, 40], np.full(5, 20.0), [0, 5])

    # Computed.
    assert values.stems_per_ha[0] == 100.0
    assert values.basal_area[0] == pytest.approx(7.461283, abs=1e-6)
    assert values.qmd[0] == pytest.approx(30.82207, abs=1e-5)


def test_nested_circles_give_each_stem_the_factor_of_its_own():
    # Computed: 50/ha below 36 cm, 20/ha from there on; a stem outside its circle does not count.
    dbh = [14, 20, 30, 40, 55, 38, 30]
    values = stand_values(
        dbh, [50, 50, 50, 20, 20, 20, 50], [0, 7], counted=[True, True, True, True, True, True, False]
    )

    assert values.stems[0] == 6
    assert values.stems_per_ha[0] == 210.0
    assert values.basal_area[0] == pytest.approx(15.407941, abs=1e-6)


def test_empty_plots_are_zeros_wherever_they_stand():
    values = stand_values([10.0, 20.0, 30.0], [10.0, 10.0, 10.0], [0, 0, 2, 2, 2, 3, 3])

    assert values.stems.tolist() == [0, 2, 0, 0, 1, 0]
    assert values.stems_per_ha.tolist() == [0.0, 20.0, 0.0, 0.0, 10.0, 0.0]
    assert values.basal_area[[0, 2, 3, 5]].tolist() == [0.0] * 4
    assert np.isnan(values.qmd[[0, 2, 3, 5]]).all()


def test_survey_of_empty_plots_only_is_all_zeros():
    assert sum_by_plot([], [0, 0, 0]).tolist() == [0.0, 0.0]
    assert stand_values([], [], [0, 0]).basal_area.tolist() == [0.0]
    assert stand_values([], [], [0]).basal_area.shape == (0,)


def test_missing_dbh_leaves_stems_known_and_basal_area_unknown():
    values = stand_values([20.0, np.nan, 30.0], [20.0, 20.0, 20.0], [0, 2, 3])

    assert values.stems_per_ha.tolist() == [40.0, 20.0]
    assert values.without_dbh.tolist() == [1, 0]
    assert np.isnan(values.basal_area).tolist() == [True, False]
    assert np.isnan(values.qmd).tolist() == [True, False]
    assert values.basal_area_measured[0] == pytest.approx(20 * math.pi / 4 * 0.2**2)


def test_missing_dbh_of_a_stem_that_does_not_count_is_no_matter():
    values = stand_values([20.0, np.nan], [20.0, np.nan], [0, 2], counted=[True, False])

    assert values.without_dbh.tolist() == [0]
    assert values.stems_per_ha.tolist() == [20.0]
    assert values.qmd[0] == pytest.approx(20.0)


def test_unknown_expansion_factor_makes_the_plot_unknown():
    values = stand_values([20.0, 30.0], [np.nan, 20.0], [0, 1, 2])

    assert np.isnan(values.stems_per_ha).tolist() == [True, False]
    assert np.isnan(values.basal_area).tolist() == [True, False]


def test_angle_count_gives_each_stem_the_basal_area_factor():
    dbh = np.array([12.0, 33.0, 51.0])

    assert stand_values(dbh, 4.0 / (math.pi / 4e4 * dbh**2), [0, 3]).basal_area[0] == pytest.approx(12.0)


def test_groups_of_a_plot_sum_to_the_plot():
    rng = np.random.default_rng(2)
    offsets = np.array([0, 30, 30, 50])
    dbh, factor, species = rng.uniform(7, 60, 50), rng.choice([20.0, 50.0], 50), rng.integers(-1, 4, 50)
    counted = rng.random(50) < 0.8

    whole = stand_values(dbh, factor, offsets, counted=counted)
    parts = stand_values_by_group(dbh, factor, offsets, species, counted=counted)
    first = stand_values(dbh, factor, offsets, counted=counted & (species == 2))

    for name in ("stems", "stems_per_ha", "basal_area"):
        summed = np.bincount(parts.plot, weights=getattr(parts.values, name), minlength=3)
        np.testing.assert_allclose(summed, getattr(whole, name))
    row = np.flatnonzero((parts.plot == 0) & (parts.group == 2))
    assert parts.values.qmd[row] == pytest.approx(first.qmd[0])
    assert 1 not in parts.plot
    assert np.unique(np.column_stack([parts.plot, parts.group]), axis=0).shape[0] == len(parts.plot)


def test_no_stems_give_no_groups():
    assert stand_values_by_group([], [], [0, 0], []).plot.shape == (0,)


def test_dbh_on_a_limit_belongs_to_the_class_above():
    classes = dbh_classes([9.9, 10.0, 14.99, 15.0, np.nan, 0.3], [20.0] * 6, [0, 5, 6])

    assert classes.edges.tolist() == [0.0, 5.0, 10.0, 15.0, 20.0]
    assert classes.stems_per_ha.tolist() == [[0.0, 20.0, 40.0, 20.0], [20.0, 0.0, 0.0, 0.0]]
    assert classes.without_dbh.tolist() == [1, 0]


def test_class_limits_hold_in_spite_of_decimal_fractions():
    assert dbh_classes([0.3], [1.0], [0, 1], width=0.1).stems_per_ha.tolist() == [[0.0, 0.0, 0.0, 1.0]]


def test_classes_of_no_stems_are_one_empty_class():
    assert dbh_classes([], [], [0, 0]).stems_per_ha.tolist() == [[0.0]]


@pytest.mark.parametrize("width", [0.0, -5.0, np.nan, np.inf])
def test_class_without_a_width_is_refused(width):
    with pytest.raises(InputError, match="positive width"):
        dbh_classes([10.0], [1.0], [0, 1], width=width)


# Density


@pytest.mark.parametrize(
    ("stems", "qmd", "reference", "index"),
    [
        # Larsen, D. R., Natural Resource Biometrics, "Stand Density Index" (larsendr.github.io/sdi.html): 494.1/ha of
        # 31 cm give 680.2 (printed cut off; 680.287); 200 per acre of 12.3 inches at 10 inches give 278.8.
        (494.1, 31.0, 25.4, 680.287),
        (200.0, 12.3, 10.0, 278.82),
        # Computed, with the reference of 25 cm that is used in parts of Europe.
        (1200.0, 15.0, 25.0, 528.58),
        (400.0, 35.0, 25.0, 686.43),
    ],
)
def test_published_stand_density_index(stems, qmd, reference, index):
    assert float(reineke(stems, qmd, reference_cm=reference)) == pytest.approx(index, abs=5e-3)


def test_stands_on_reinekes_line_of_full_density_have_one_index():
    # Reineke (1933): log N = 4.605 - 1.605 log D in trees per acre and inches, which is an index of 1,000.
    inches = np.array([4.0, 10.0, 16.0, 25.0])

    assert reineke(10.0 ** (4.605 - 1.605 * np.log10(inches)), inches, reference_cm=10.0) == pytest.approx(1000.0)


def test_summed_density_index_of_stems_alike_is_that_of_their_mean():
    assert reineke_summed([31.0] * 4, [20.0] * 4, [0, 4, 4]) == pytest.approx([float(reineke(80.0, 31.0)), 0.0])


def test_summed_density_index_of_uneven_stems_is_smaller_than_that_of_their_mean():
    # Long and Daniel (1990): the two part where diameters spread.
    dbh, factor = [10.0, 20.0, 60.0], [20.0] * 3
    values = stand_values(dbh, factor, [0, 3])

    assert reineke_summed(dbh, factor, [0, 3])[0] < 0.95 * reineke(values.stems_per_ha, values.qmd)[0]


def test_summed_density_index_needs_every_dbh_that_counts():
    assert np.isnan(reineke_summed([10.0, np.nan], [20.0, 20.0], [0, 2])[0])
    assert np.isfinite(reineke_summed([10.0, np.nan], [20.0, 20.0], [0, 2], counted=[True, False])[0])


def test_relative_density_is_basal_area_over_the_root_of_the_diameter():
    # Curtis (1982), the formula itself: 50 m²/ha of 25 cm.
    assert float(relative_density(50.0, 25.0)) == 10.0
