"""Fields are declared once and whole."""

from stemmap.survey.fields import FIELDS, fields_of


def test_every_field_says_what_it_means():
    for field in FIELDS.values():
        assert field.meaning, field.name
        assert field.tables, field.name


def test_units_stand_at_numbers_only():
    assert {field.name for field in FIELDS.values() if field.unit and field.kind != "number"} == set()
    assert {field.name for field in FIELDS.values() if not field.unit and field.kind == "number"} == set()


def test_stems_and_plots_share_the_names_that_join_them():
    shared = {field.name for field in fields_of("plots")} & {field.name for field in fields_of("stems")}
    assert shared == {"plot", "visit", "date"}


def test_fields_of_a_table_keep_the_canonical_order():
    names = list(FIELDS)
    stems = [field.name for field in fields_of("stems")]
    assert stems == sorted(stems, key=names.index)
    assert stems[0] == "plot"
