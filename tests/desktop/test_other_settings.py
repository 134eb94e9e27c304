"""Under other settings the map moves at once; what the checks say follows when it is ready."""

from threading import Event
from time import sleep

from stemmap.tasks import workup as tasks


def test_other_settings_move_the_map_before_the_findings_are_there(qtbot, opened, settled, monkeypatch):

    go_on, check_again = Event(), tasks.check_again

    def slow(relocated, progress):
        assert go_on.wait(10)
        return check_again(relocated, progress)

    monkeypatch.setattr("stemmap.tasks.workup.check_again", slow)
    session, canvas = opened.session, opened.panels.map_panel.canvas
    before, told = session.opened, list(session.findings)
    session.edit("measurement.azimuth_unit", "gon")
    qtbot.waitUntil(lambda: not session.opened.checked and canvas.shown.request.workup is session.workup)
    first = int(session.workup.survey.visits.first_stem[session.visit])
    was = before.workup.measured.grid_azimuth_deg[first]
    assert session.workup.measured.grid_azimuth_deg[first] != was
    assert canvas.shown.request.findings == ()
    assert session.findings == told
    assert opened.panels.map_panel.work.isVisible()
    assert not opened.actions_by_name["export"].isEnabled()
    go_on.set()
    settled()
    assert session.opened.checked
    assert session.workup.findings is not before.workup.findings
    assert not opened.panels.map_panel.work.isVisible()
    assert opened.actions_by_name["export"].isEnabled()


def test_stopping_while_findings_are_worked_out_goes_back_to_what_was_shown(qtbot, opened, settled, monkeypatch):
    def endless(_relocated, progress):
        while True:
            progress.step("")
            sleep(0.005)

    monkeypatch.setattr("stemmap.tasks.workup.check_again", endless)
    session, before = opened.session, opened.session.opened
    session.edit("measurement.azimuth_unit", "gon")
    qtbot.waitUntil(lambda: not session.opened.checked)
    opened.actions_by_name["stop"].trigger()
    settled()
    assert session.opened is before
    assert session.settings.measurement.azimuth_unit == "degree"
