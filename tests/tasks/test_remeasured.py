"""Field packets come back: every row is accounted for, nothing changes by itself, and blind checks tell the truth."""

import csv
import json
import shutil

import numpy as np
import pytest
from click.testing import CliRunner

from stemmap.cli.main import cli
from stemmap.drawing.doubts import ghosts_of
from stemmap.drawing.ground import to_grid
from stemmap.errors import InputError
from stemmap.store.decisions import Request, decide, entries, turn
from stemmap.store.survey_file import opened
from stemmap.tasks.packet import make_packet
from stemmap.tasks.packet_plots import Errand
from stemmap.tasks.remeasured import bring_back, foresee
from stemmap.tasks.report import write_report
from stemmap.tasks.survey_file import add_uploads, refresh_layers, repair_survey
from stemmap.tasks.workup import decide_again, open_uploads
from tests.crew import VALUES, Crew, Errors, exchange, true_stems, write_csv_as_typed, write_upload, write_workbook

PLOTS, STEMS = 6, 12


@pytest.fixture(scope="module")
def sent(tmp_path_factory):
    """A survey of six plots, its packet with blind plots, and the truth."""
    folder = tmp_path_factory.mktemp("sent")
    rng = np.random.default_rng(4)
    names, true = true_stems(rng, plots=PLOTS, stems=STEMS)
    recorded = Errors().measured(true, rng)
    recorded[5, 0] = (recorded[5, 0] + 180.0) % 360.0  # a back bearing
    add_uploads(folder / "survey.gpkg", write_upload(folder, names, recorded), who="Ida")
    errand = Errand(tuple(str(plot + 1) for plot in range(PLOTS)), False, None, 0.5, 3)
    made = make_packet(folder / "survey.gpkg", folder / "packet", errand, who="Ida")
    return folder, made.name, dict(zip(names, true, strict=True))


@pytest.fixture
def survey_path(sent, tmp_path):
    return shutil.copy(sent[0] / "survey.gpkg", tmp_path / "survey.gpkg")


@pytest.fixture
def filled(sent):
    folder, _, truth = sent
    return Crew(truth, np.random.default_rng(8)).fill(folder / "packet" / "fill_in.csv")


def muddled(rows):
    """The rows as a crew may leave them, and what must become of each that is no plain comparison, by place."""
    listed = [place for place, row in enumerate(rows) if row["stem"]]
    spare = [place for place, row in enumerate(rows) if not row["stem"]]
    expected = {}
    one, other = listed[1], listed[2]
    assert rows[one]["plot"] == rows[other]["plot"]
    exchange(rows[one], rows[other])
    expected |= dict.fromkeys((one, other), ("measured again", "values exchanged with another row"))
    wrong = listed[7]
    rows[wrong]["plot"] = "99"
    gone = listed[9]
    rows[gone].update(found="no", azimuth="", distance_m="", dbh_cm="")
    expected[gone] = ("not found", "row of the packet")
    left = listed[10]
    rows[left].update(found="", azimuth="", distance_m="", dbh_cm="")
    expected[left] = ("not filled in", "row of the packet")
    expected |= dict.fromkeys(spare, ("empty row for a new stem", None))
    rows[spare[0]].update(found="new", stem="77", azimuth="123.4", distance_m="4.560", dbh_cm="18.20", species="beech")
    expected[spare[0]] = ("new stem", None)
    rows.append(
        dict.fromkeys(rows[0], "") | {"packet": "NOSUCH", "row": "3", "plot": "55", "stem": "1", "found": "yes"}
    )
    expected[len(rows) - 1] = ("fits nothing", None)
    return expected, {wrong}


@pytest.mark.parametrize("kind", ["csv", "xlsx"])
def test_every_row_of_a_muddled_table_is_accounted_for(survey_path, filled, tmp_path, kind):
    lost = filled.pop(next(place for place, row in enumerate(filled) if row["stem"]))
    expected, wrong = muddled(filled)
    path = tmp_path / f"back.{kind}"
    {"csv": write_csv_as_typed, "xlsx": write_workbook}[kind](path, filled)
    made = bring_back(survey_path, [path], who="Ida")
    rows, counts = list(made.rows()), made.counts()
    assert len(rows) == len(filled) == counts["rows"] == sum(counts["outcomes"].values())
    assert counts["not_come_back"] == {lost["packet"]: 1}
    for place, row in enumerate(rows):
        assert (row["outcome"], row["known_by"]) == expected.get(place, ("measured again", "row of the packet")), place
        assert row["names_other_plot"] == (place in wrong)
        assert row["line"] == place + 2
        assert row["azimuth_deg"]["again"] == (float(filled[place]["azimuth"]) if filled[place]["azimuth"] else None)
        comma = filled[place]["azimuth"].replace(".", ",") if kind == "csv" else filled[place]["azimuth"]
        assert (row["azimuth_deg"]["typed"] or "") == pytest.approx(comma) or kind == "xlsx"


@pytest.mark.parametrize("kind", ["csv", "xlsx"])
def test_the_tally_counts_every_row_once_and_is_foreseen_without_storing_anything(survey_path, filled, tmp_path, kind):
    expected, _ = muddled(filled)
    listed = [row for row in filled if row["stem"]]
    listed[20].update(azimuth="", distance_m="", dbh_cm="")  # found, and nothing measured
    filled.append(listed[30] | {"dbh_cm": "55.5"})  # written again further down
    path = tmp_path / f"back.{kind}"
    {"csv": write_csv_as_typed, "xlsx": write_workbook}[kind](path, filled)
    before = survey_path.read_bytes()
    foreseen = foresee(survey_path, [path])
    assert survey_path.read_bytes() == before
    made = bring_back(survey_path, [path], who="Ida")
    tally = made.tally()
    assert foreseen.tally() == tally
    assert list(foreseen.rows()) == list(made.rows())
    parts = ("within", "beyond", "added", "bare", "not_found", "new", "unmatched", "repeated", "blank")
    assert tally.rows == len(filled) == sum(getattr(tally, part) for part in parts)
    assert (tally.bare, tally.not_found, tally.new, tally.unmatched, tally.repeated) == (1, 1, 1, 1, 1)
    spare = sum(outcome == ("empty row for a new stem", None) for outcome in expected.values())
    assert (tally.blank, tally.other_plot, tally.exchanged) == (spare + 1, 1, 2)
    assert set(tally.plots) == {*map(str, range(1, PLOTS + 1)), "99", "55"}
    assert foresee(survey_path, [path]).known_files == (path.name,)


def test_a_value_where_none_was_recorded_is_counted_as_added(tmp_path):
    rng = np.random.default_rng(5)
    names, true = true_stems(rng, plots=2, stems=6)
    recorded = Errors().measured(true, rng)
    recorded[3, 2] = np.nan
    add_uploads(tmp_path / "survey.gpkg", write_upload(tmp_path, names, recorded), who="Ida")
    make_packet(tmp_path / "survey.gpkg", tmp_path / "packet", Errand(("1", "2"), False, None, 0.0, 3), who="Ida")
    rows = Crew(dict(zip(names, true, strict=True)), np.random.default_rng(8)).fill(tmp_path / "packet" / "fill_in.csv")
    write_csv_as_typed(tmp_path / "back.csv", rows)
    assert foresee(tmp_path / "survey.gpkg", [tmp_path / "back.csv"]).tally().added == 1


def test_a_file_that_is_there_already_changes_nothing(survey_path, filled, tmp_path):
    write_csv_as_typed(tmp_path / "back.csv", filled)
    bring_back(survey_path, [tmp_path / "back.csv"], who="Ida")
    before = survey_path.read_bytes()
    again = bring_back(survey_path, [tmp_path / "back.csv"], who="Ida")
    assert survey_path.read_bytes() == before
    assert again.new_rows == 0
    assert again.sentence("survey.gpkg") == ("back.csv: every row is in survey.gpkg already; nothing of it was added.")


def test_the_records_themselves_are_not_taken_for_measured_again(survey_path, sent):
    uploads = [path for path in sent[0].iterdir() if path.suffix == ".csv"]
    before = open_uploads([survey_path]).findings.counts
    for path in uploads:
        with pytest.raises(InputError, match=f"{path.name}: the records themselves, not measured again"):
            bring_back(survey_path, [path], who="Ida", take="likely")
    assert uploads
    assert open_uploads([survey_path]).findings.counts == before


def test_the_same_rows_in_another_file_are_counted_once(survey_path, filled, tmp_path):
    write_csv_as_typed(tmp_path / "back.csv", filled)
    write_workbook(tmp_path / "back.xlsx", filled)
    first = bring_back(survey_path, [tmp_path / "back.csv"], who="Ida")
    both = bring_back(survey_path, [tmp_path / "back.xlsx"], who="Ida")
    assert both.counts()["outcomes"]["written again later"] == first.counts()["outcomes"]["measured again"]
    assert both.quality() == first.quality()
    assert [each["finding"] for each in both.proposals()] == [each["finding"] for each in first.proposals()]


def test_a_difference_is_a_finding_that_is_decided_like_any_other(survey_path, filled, sent, tmp_path):
    write_csv_as_typed(tmp_path / "back.csv", filled)
    made = bring_back(survey_path, [tmp_path / "back.csv"], who="Ida")
    (told,) = [each for each in made.proposals() if each["finding"] == "1/2026/6/remeasured/azimuth"]
    assert told["probability"] > 0.6
    with opened(survey_path, write=True) as survey_file:
        entry = decide(survey_file, Request(told["finding"], "correct", "measured twice", "Ida"))
    typed = next(row["azimuth"] for row in filled if (row["plot"], row["stem"]) == ("1", "6"))
    assert float(entry.new) == float(typed)
    after = open_uploads([survey_path])
    assert after.survey.stems.numbers("azimuth")[5] == float(typed)
    assert not [each for each in after.findings if each.id == told["finding"]]
    with opened(survey_path, write=True) as survey_file:
        turn(survey_file, "undo", who="Ida")
    assert [each for each in open_uploads([survey_path]).findings if each.id == told["finding"]]


def test_a_record_kept_or_given_another_value_is_not_asked_about_again(survey_path, filled, tmp_path):
    write_csv_as_typed(tmp_path / "back.csv", filled)
    bring_back(survey_path, [tmp_path / "back.csv"], who="Ida")
    for decision in ("keep", "value=17.5"):
        with opened(survey_path, write=True) as survey_file:
            decide(survey_file, Request("1/2026/6/remeasured/azimuth", decision, "", "Ida"))
        found = [each.id for each in open_uploads([survey_path]).findings if each.check == "remeasured"]
        assert "1/2026/6/remeasured/azimuth" not in found
        refresh_layers(survey_path)
        with opened(survey_path, write=True) as survey_file:
            turn(survey_file, "undo", who="Ida")
        refresh_layers(survey_path)


def test_a_new_stem_is_one_of_the_survey_when_it_is_decided_so(survey_path, filled, tmp_path):
    muddled(filled)
    write_csv_as_typed(tmp_path / "back.csv", filled)
    made = bring_back(survey_path, [tmp_path / "back.csv"], who="Ida")
    (new,) = [each for each in made.findings() if each.brought]
    before = open_uploads([survey_path])
    with opened(survey_path, write=True) as survey_file:
        decide(survey_file, Request(new.id, "correct", "", "Ida"))
    after = open_uploads([survey_path])
    assert len(after.survey.stems) == len(before.survey.stems) + 1
    row = next(place for place in range(len(after.survey.stems)) if after.survey.stems.label(place) == "77")
    assert after.survey.visits.plot[after.survey.stems.visit_row[row]] == new.plot
    assert after.survey.stems.numbers("distance_m")[row] == 4.56
    assert not [each for each in after.findings if each.id == new.id]
    assert {each.id for each in before.findings if each.check == "remeasured"} - {new.id} <= {
        each.id for each in after.findings
    }
    refresh_layers(survey_path)
    with opened(survey_path, write=True) as survey_file:
        turn(survey_file, "undo", who="Ida")
    undone = open_uploads([survey_path])
    assert [each.as_json() for each in undone.findings] == [each.as_json() for each in before.findings]


def test_a_stem_taken_over_is_asked_about_again_only_when_it_is_written_otherwise_later(survey_path, filled, tmp_path):
    muddled(filled)
    write_csv_as_typed(tmp_path / "back.csv", filled)
    (new,) = [each for each in bring_back(survey_path, [tmp_path / "back.csv"], who="Ida").findings() if each.brought]
    with opened(survey_path, write=True) as survey_file:
        decide(survey_file, Request(new.id, "correct", "", "Ida"))
    write_workbook(tmp_path / "back.xlsx", filled)
    made = bring_back(survey_path, [tmp_path / "back.xlsx"], who="Ida")
    assert not [each for each in made.findings() if each.brought]
    count = len(made.workup.survey.stems)
    next(row for row in filled if row["stem"] == "77")["distance_m"] = "4.650"
    write_workbook(tmp_path / "mended.xlsx", filled)
    (mended,) = [
        each for each in bring_back(survey_path, [tmp_path / "mended.xlsx"], who="Ida").findings() if each.brought
    ]
    assert mended.id == new.id
    with opened(survey_path, write=True) as survey_file:
        decide(survey_file, Request(mended.id, "correct", "", "Ida"))
    after = open_uploads([survey_path]).survey.stems
    (row,) = [place for place in range(len(after)) if after.label(place) == "77"]
    assert len(after) == count
    assert after.numbers("distance_m")[row] == 4.65


@pytest.mark.parametrize("distance_to", ["axis", "face"])
def test_a_new_stem_is_dashed_on_the_map_where_it_will_stand(survey_path, filled, tmp_path, distance_to):
    muddled(filled)
    write_csv_as_typed(tmp_path / "back.csv", filled)
    (new,) = [each for each in bring_back(survey_path, [tmp_path / "back.csv"], who="Ida").findings() if each.brought]
    settings = open_uploads([survey_path]).survey.settings.having("measurement.distance_to", distance_to)
    before = open_uploads([survey_path], settings=settings)
    turn = float(to_grid(before.survey, before.measured, new.visit_row, 0.0))
    (ghost,) = ghosts_of(before.survey, before.measured, [new], turn_deg=turn, reach_m=20.0)
    with opened(survey_path, write=True) as survey_file:
        decide(survey_file, Request(new.id, "correct", "", "Ida"))
    after = open_uploads([survey_path], settings=settings)
    row = next(place for place in range(len(after.survey.stems)) if after.survey.stems.label(place) == "77")
    assert ghost.place == pytest.approx([after.measured.x_m[row], after.measured.y_m[row]])
    assert ghost.radius_m == pytest.approx(0.091)
    assert ghost.number == "77"


def test_a_stem_not_found_is_gone_when_it_is_decided_so(survey_path, filled, tmp_path):
    muddled(filled)
    write_csv_as_typed(tmp_path / "back.csv", filled)
    made = bring_back(survey_path, [tmp_path / "back.csv"], who="Ida")
    (gone,) = [each for each in made.proposals() if each["field"] == "status"]
    with opened(survey_path, write=True) as survey_file:
        entry = decide(survey_file, Request(gone["finding"], "correct", "", "Ida"))
    assert (entry.field, entry.new) == ("status", "gone")
    after = open_uploads([survey_path])
    assert not [each for each in after.findings if each.id == gone["finding"]]
    assert after.summary.stems.sum() == made.workup.summary.stems.sum() - 1


def test_all_proposals_are_taken_over_together_one_entry_each(survey_path, filled, tmp_path):
    muddled(filled)
    write_csv_as_typed(tmp_path / "back.csv", filled)
    made = bring_back(survey_path, [tmp_path / "back.csv"], who="Ida")
    proposed, confirmed = list(made.proposals()), list(made.confirmed())
    likely = [each for each in proposed if each["probability"] >= 0.5]
    assert len(likely) > 0
    taken = bring_back(survey_path, [], who="Jon", take="likely")
    assert taken.taken == len(likely) + len(confirmed)
    with opened(survey_path) as survey_file:
        journal = entries(survey_file)
    assert [entry.finding for entry in journal] == [each["finding"] for each in likely + confirmed]
    assert [entry.decision for entry in journal] == ["correct"] * len(likely) + ["keep"] * len(confirmed)
    assert {entry.who for entry in journal} == {"Jon"}
    rest = bring_back(survey_path, [], who="Jon", take="all")
    assert rest.taken >= len(proposed) - len(likely)
    assert list(rest.proposals()) == []


def test_a_doubted_value_that_is_measured_again_alike_can_be_kept(survey_path, filled, tmp_path):
    doubted = next(row for row in filled if (row["plot"], row["stem"]) == ("1", "6"))
    doubted["azimuth"] = open_uploads([survey_path]).survey.stems.texts("azimuth")[5]
    write_csv_as_typed(tmp_path / "back.csv", filled)
    made = bring_back(survey_path, [tmp_path / "back.csv"], who="Ida")
    (told,) = [each for each in made.confirmed() if each["stem"] == "6" and each["plot"] == "1"]
    assert told["finding"] == "1/2026/6/mistyped/azimuth"
    bring_back(survey_path, [], who="Ida", take="likely")
    assert told["finding"] not in {each.id for each in open_uploads([survey_path]).findings}


def test_uploads_are_added_as_before_when_a_crew_added_stems(survey_path, filled, sent, tmp_path):
    muddled(filled)
    write_csv_as_typed(tmp_path / "back.csv", filled)
    bring_back(survey_path, [tmp_path / "back.csv"], who="Ida", take="all")
    uploads = [sent[0] / name for name in ("plots.csv", "stems.csv", "settings.toml")]
    assert add_uploads(survey_path, uploads, who="Ida").upload is None


def test_what_came_back_is_as_it_was_at_an_earlier_entry(survey_path, filled, tmp_path):
    with opened(survey_path, write=True) as survey_file:
        first = next(iter(open_uploads([survey_path]).findings)).id
        decide(survey_file, Request(first, "keep", "", "Ida"))
    write_csv_as_typed(tmp_path / "back.csv", filled)
    bring_back(survey_path, [tmp_path / "back.csv"], who="Ida")
    assert open_uploads([survey_path], as_of="0").survey.upload.returned is None


def test_a_table_without_stems_is_refused(survey_path, tmp_path):
    (tmp_path / "plots.csv").write_text("plot,lon,lat\nA1,10.5,50.1\n", "utf-8")
    with pytest.raises(InputError, match="holds no rows of stems"):
        bring_back(survey_path, [tmp_path / "plots.csv"], who="Ida")


def test_blind_and_cold_looks_are_told_apart(survey_path, filled, tmp_path):
    write_csv_as_typed(tmp_path / "back.csv", filled)
    told = bring_back(survey_path, [tmp_path / "back.csv"], who="Ida").quality()
    pairs = {(each["look"], each["field"]): each["pairs"] for each in told["fields"]}
    blind = sum(row["look"] == "blind" and bool(row["stem"]) for row in filled)
    assert pairs["blind", "dbh"] == blind > 0
    assert pairs["cold", "dbh"] == PLOTS * STEMS - blind
    assert pairs["blind", "species"] == 0
    assert [each["found"] for each in told["stems"]] == [blind, PLOTS * STEMS - blind]


def test_the_command_line_tells_rows_proposals_and_quality(survey_path, filled, tmp_path):
    muddled(filled)
    write_csv_as_typed(tmp_path / "back.csv", filled)
    run = CliRunner().invoke(cli, ["remeasured", str(survey_path), str(tmp_path / "back.csv"), "--who", "Ida"])
    assert run.exit_code == 0, run.output
    for text in ("values exchanged with another row", "it names plot 99", "fits nothing", "blind checks", "bias"):
        assert text in run.stdout
    asked = ["remeasured", str(survey_path), "--format", "json", "-o", str(tmp_path / "told.json")]
    assert CliRunner().invoke(cli, asked).exit_code == 0
    told = json.loads((tmp_path / "told.json").read_text("utf-8"))
    assert set(told) == {"rows", "counts", "proposals", "confirmed", "quality"}
    assert len(told["rows"]) == len(filled)
    listed = CliRunner().invoke(cli, ["remeasured", str(survey_path), "--format", "csv"])
    assert len(listed.stdout.splitlines()) == len(filled) + 1


def test_a_value_that_was_not_understood_is_shown_with_its_row(survey_path, filled, tmp_path):
    first, second = [row for row in filled if row["stem"]][:2]
    first["dbh_cm"], second["azimuth"] = "ca 30", "999"
    write_csv_as_typed(tmp_path / "back.csv", filled)
    run = CliRunner().invoke(cli, ["remeasured", str(survey_path), str(tmp_path / "back.csv"), "--who", "Ida"])
    lines = run.stdout.splitlines()
    assert any(line.endswith("ca 30 ?") for line in lines)
    assert any("999 ?" in line for line in lines)


def test_a_stem_that_is_measured_though_it_is_said_not_to_be_found_is_shown(survey_path, filled, tmp_path):
    first, second, third = [row for row in filled if row["stem"]][:3]
    first["found"], second["found"], third["found"] = "no", "perhaps", "WAHR"
    write_csv_as_typed(tmp_path / "back.csv", filled)
    run = CliRunner().invoke(cli, ["remeasured", str(survey_path), str(tmp_path / "back.csv"), "--who", "Ida"])
    told = [line for line in run.stdout.splitlines() if "found says" in line]
    assert ["found says no" in line for line in told] == [True, False]
    assert "found says perhaps" in told[1]


def test_the_table_of_a_packet_is_no_upload(survey_path, filled, tmp_path):
    write_csv_as_typed(tmp_path / "back.csv", filled)
    with pytest.raises(InputError, match="take it in with stemmap remeasured"):
        add_uploads(survey_path, [tmp_path / "back.csv"], who="Ida", replace_known=True)


def test_a_plot_filled_in_in_another_order_is_put_in_order(survey_path, filled, tmp_path):
    plot = [row for row in filled if row["plot"] == "2" and row["stem"]]
    values = [{name: row[name] for name in VALUES} for row in plot]
    for row, other in zip(plot, values[5:] + values[:5], strict=True):
        row.update(other)
    write_csv_as_typed(tmp_path / "back.csv", filled)
    made = bring_back(survey_path, [tmp_path / "back.csv"], who="Ida")
    of = [row["of"]["stem"] for row in made.rows() if row["plot"] == "2" and row["stem"]]
    numbers = [row["stem"] for row in plot]
    assert of == numbers[5:] + numbers[:5]


def test_rows_brought_back_are_saved_from_a_damaged_file_and_taken_for_no_stems(survey_path, filled, tmp_path):
    write_csv_as_typed(tmp_path / "back.csv", filled)
    bring_back(survey_path, [tmp_path / "back.csv"], who="Ida")
    with opened(survey_path) as survey_file:
        page, size = (
            survey_file.connection.execute(asked).fetchone()[0]
            for asked in ("SELECT rootpage FROM sqlite_master WHERE name = 'records_remeasured'", "PRAGMA page_size")
        )
    content = bytearray(survey_path.read_bytes())
    content[(page - 1) * size] ^= 0xFF
    (tmp_path / "damaged.gpkg").write_bytes(content)
    repair_survey(tmp_path / "damaged.gpkg", tmp_path / "repaired.gpkg")
    saved = open_uploads([tmp_path / "repaired.gpkg"]).survey.upload
    assert len(saved.stems) == PLOTS * STEMS
    assert saved.returned is not None
    assert len(saved.returned.rows) == len(filled)


def bring_again(survey_path, folder, name, azimuth):
    """A further packet of plot 1 comes back, in which stem 6 alone is filled in."""
    errand = Errand(("1",), False, None, 0.0, 1)
    make_packet(survey_path, folder / name, errand, who="Ida")
    with (folder / name / "fill_in.csv").open(encoding="utf-8-sig", newline="") as stream:
        rows = [row for row in csv.DictReader(stream) if row["stem"] == "6"]
    rows[0].update(found="yes", azimuth=azimuth)
    write_csv_as_typed(folder / f"{name}.csv", rows)
    bring_back(survey_path, [folder / f"{name}.csv"], who="Ida")


def remeasured_ids(workup):
    return {each.id for each in workup.findings if each.check == "remeasured"}


def test_a_kept_record_is_asked_about_again_when_a_later_packet_measures_it_otherwise(survey_path, filled, tmp_path):
    write_csv_as_typed(tmp_path / "back.csv", filled)
    bring_back(survey_path, [tmp_path / "back.csv"], who="Ida")
    name = "1/2026/6/remeasured/azimuth"
    azimuth = next(row["azimuth"] for row in filled if (row["plot"], row["stem"]) == ("1", "6"))
    with opened(survey_path, write=True) as survey_file:
        decide(survey_file, Request(name, "keep", "", "Ida"))
    bring_again(survey_path, tmp_path, "alike", azimuth)
    assert name not in remeasured_ids(open_uploads([survey_path]))
    bring_again(survey_path, tmp_path, "otherwise", f"{float(azimuth) + 9.0:.1f}")
    before = open_uploads([survey_path])
    assert name in remeasured_ids(before)
    with opened(survey_path, write=True) as survey_file:
        decide(survey_file, Request(name, "keep", "all the same", "Ida"))
    kept = open_uploads([survey_path])
    assert name not in remeasured_ids(kept)
    assert name not in remeasured_ids(decide_again(before, kept.survey.decisions))
    with opened(survey_path, write=True) as survey_file:
        turn(survey_file, "undo", who="Ida")
    undone = open_uploads([survey_path])
    assert name in remeasured_ids(undone)
    assert name in remeasured_ids(decide_again(kept, undone.survey.decisions))


def test_a_kept_record_that_was_measured_otherwise_since_is_taken_over_with_the_others(survey_path, filled, tmp_path):
    write_csv_as_typed(tmp_path / "back.csv", filled)
    bring_back(survey_path, [tmp_path / "back.csv"], who="Ida")
    name = "1/2026/6/remeasured/azimuth"
    with opened(survey_path, write=True) as survey_file:
        decide(survey_file, Request(name, "keep", "", "Ida"))
    bring_again(survey_path, tmp_path, "otherwise", "299.5")
    bring_back(survey_path, [], who="Jon", take="all")
    with opened(survey_path) as survey_file:
        assert (name, "correct", "299.5") in {(each.finding, each.decision, each.new) for each in entries(survey_file)}


def test_the_report_tells_how_well_the_survey_was_measured(survey_path, filled, tmp_path):
    write_report(open_uploads([survey_path]), tmp_path / "before.html")
    assert "How well the survey was measured" not in (tmp_path / "before.html").read_text("utf-8")
    write_csv_as_typed(tmp_path / "back.csv", filled)
    made = bring_back(survey_path, [tmp_path / "back.csv"], who="Ida")
    write_report(made.workup, tmp_path / "after.html")
    text = (tmp_path / "after.html").read_text("utf-8")
    (told,) = [each for each in made.quality()["fields"] if (each["look"], each["field"]) == ("blind", "distance")]
    for part in (
        "How well the survey was measured",
        f"<td>Blind looks</td><td>distance</td><td>{told['pairs']}</td><td>{100.0 * told['within']:.0f} % (",
        f"<td>{told['bias']:+.3f} m ({told['bias_low']:+.3f} … {told['bias_high']:+.3f})</td>",
        f"<td>{told['spread']:.3f} m ({told['spread_low']:.3f} … {told['spread_high']:.3f})</td>",
        "Tolerances: 1.96 standard deviations",
    ):
        assert part in text


def test_no_probability_is_told_of_a_difference_that_ordinary_errors_make(survey_path, filled, tmp_path):
    recorded = open_uploads([survey_path]).survey.stems
    for row in filled:
        if row["plot"] == "1" and row["stem"] == "3":
            place = next(each for each in range(STEMS) if recorded.label(each) == "3")
            row["azimuth"] = f"{(recorded.numbers('azimuth')[place] + 2.2) % 360.0:.1f}"
    write_csv_as_typed(tmp_path / "back.csv", filled)
    made = bring_back(survey_path, [tmp_path / "back.csv"], who="Ida")
    told = {each.id: each for each in made.findings()}
    small, large = (told[f"1/2026/{stem}/remeasured/azimuth"] for stem in ("3", "6"))
    assert small.message.endswith("beyond the tolerance of 1.9°, but ordinary errors of both can make it.")
    assert large.message.endswith("beyond the tolerance of 1.9°.")
    assert small.told_probability(small.proposals[0]) is None
    assert large.told_probability(large.proposals[0]) > 0.5
    for verb in (["remeasured", str(survey_path)], ["check", str(survey_path), "--format", "table"]):
        output = CliRunner().invoke(cli, verb).stdout
        assert small.message in output
        assert "robability 0.00" not in output


def told_of(made, plot, stem):
    return [each.message for each in made.findings() if (each.plot, each.stem) == (plot, stem)]


@pytest.mark.parametrize("slip", [("dbh_cm", 10.0, "dbh"), ("dbh_cm", 0.1, "dbh"), ("distance_m", 100.0, "distance")])
def test_a_value_in_another_unit_is_told_and_not_taken_over_as_likely(survey_path, filled, tmp_path, slip):
    column, times, word = slip
    row = next(row for row in filled if row["stem"] and row["look"] == "cold" and float(row["dbh_cm"]) > 20.0)
    row[column] = f"{times * float(row[column]):g}"
    write_csv_as_typed(tmp_path / "fill_in.csv", filled)
    made = bring_back(survey_path, [tmp_path / "fill_in.csv"], who="Ida", take="likely")
    (said,) = (each for each in told_of(made, row["plot"], row["stem"]) if word in each)
    assert f"one is about {100 if times == 100.0 else 10} times the other" in said
    (proposal,) = (each for each in made.proposals() if each["message"] == said)
    assert proposal["probability"] < 0.5


@pytest.mark.parametrize(
    "written",
    [
        ("perhaps", True, "says perhaps under found, which is neither yes, no nor new; values stand beside it"),
        ("perhaps", False, "says perhaps under found, which is neither yes, no nor new, and no value"),
        ("no", True, "says no under found, but values stand beside it"),
    ],
)
def test_a_word_under_found_that_does_not_fit_is_told(survey_path, filled, tmp_path, written):
    found, values, told = written
    row = next(row for row in filled if row["stem"])
    row["found"] = found
    if not values:
        row.update(azimuth="", distance_m="", dbh_cm="")
    write_csv_as_typed(tmp_path / "fill_in.csv", filled)
    made = bring_back(survey_path, [tmp_path / "fill_in.csv"], who="Ida")
    assert any(told in each for each in told_of(made, row["plot"], row["stem"]))


def test_a_status_that_is_none_is_told(survey_path, filled, tmp_path):
    row = next(row for row in filled if row["stem"])
    row["status"] = "n.g."
    write_csv_as_typed(tmp_path / "fill_in.csv", filled)
    made = bring_back(survey_path, [tmp_path / "fill_in.csv"], who="Ida")
    assert any("n.g., is no status" in each for each in told_of(made, row["plot"], row["stem"]))


def test_a_workbook_with_other_columns_merged_heads_and_german_dates_is_read(survey_path, filled, tmp_path):
    import xlsxwriter

    listed = [row for row in filled if row["stem"]]
    listed[3]["azimuth"] = "n.g."
    filled.insert(filled.index(listed[4]) + 1, dict(listed[4]))
    headings = ["weather", *list(filled[0])[::-1], "date"]
    with xlsxwriter.Workbook(str(tmp_path / "filled.xlsx")) as workbook:
        sheet = workbook.add_worksheet("Fill in")
        sheet.merge_range(0, 0, 0, len(headings) - 1, "Second look, crew north")
        sheet.write_row(1, 0, headings)
        for place, row in enumerate(filled, start=2):
            cells = row | {"weather": "rain", "date": "25.11.2026" if row["stem"] else ""}
            sheet.write_row(place, 0, [cells[name] for name in headings])
    made = bring_back(survey_path, [tmp_path / "filled.xlsx"], who="Ida")
    outcomes = made.counts()["outcomes"]
    assert made.new_rows == len(filled) == sum(outcomes.values())
    assert outcomes["measured again"] == len(listed)
    assert outcomes["written again later"] == 1
    assert outcomes["fits nothing"] == 0
    assert any("n.g., is no azimuth" in each for each in told_of(made, listed[3]["plot"], listed[3]["stem"]))
    assert made.counts()["not_come_back"] == {}
