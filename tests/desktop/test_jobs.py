"""Work off the GUI thread."""

from threading import Event, current_thread

import pytest
from PySide6.QtCore import QObject, QThread
from shiboken6 import delete

from stemmap.desktop.jobs import Jobs
from stemmap.errors import Cancelled, InputError


@pytest.fixture
def jobs(qapp):
    made = Jobs()
    yield made
    made.close()


def test_work_runs_on_another_thread_and_its_result_on_this_one(jobs, qtbot):
    threads = []

    def apply(there):
        threads.extend([there, current_thread()])

    jobs.start("survey", lambda progress: current_thread(), apply=apply)
    qtbot.waitUntil(lambda: len(threads) == 2)
    assert threads[0] is not threads[1]
    assert QThread.currentThread() is jobs.thread()


def test_only_the_newest_of_a_channel_is_applied(jobs, qtbot):
    gate, applied = Event(), []

    def slow(progress):
        gate.wait(10)
        return "old"

    jobs.start("survey", slow, apply=applied.append)
    jobs.start("survey", lambda progress: "new", apply=applied.append)
    gate.set()
    qtbot.waitUntil(lambda: applied == ["new"])
    qtbot.wait(50)
    assert applied == ["new"]


def test_result_for_a_window_that_was_closed_is_thrown_away(jobs, qtbot):
    gate, applied = Event(), []

    class Window(QObject):
        def apply(self, result):
            applied.append(result)

    window = Window()
    jobs.start("list", lambda progress: gate.wait(10), apply=window.apply)
    delete(window)
    gate.set()
    qtbot.waitUntil(lambda: not jobs.runs("list"))
    assert applied == []


def test_cancel_ends_the_work_at_its_next_step(jobs, qtbot):
    begun, applied, refused = Event(), [], []

    def work(progress):
        begun.set()
        while True:
            progress.step("Counting", 0.5)

    jobs.start("survey", work, apply=applied.append, refused=lambda: refused.append(True))
    begun.wait(10)
    with qtbot.waitSignal(jobs.failed) as failed:
        jobs.cancel()
    assert isinstance(failed.args[0], Cancelled)
    assert (applied, refused) == ([], [True])
    assert not jobs.busy


def test_cancelled_work_that_ended_by_itself_is_not_applied(jobs, qtbot):
    gate, applied = Event(), []
    jobs.start("survey", lambda progress: gate.wait(10), apply=applied.append)
    jobs.cancel()
    with qtbot.waitSignal(jobs.failed) as failed:
        gate.set()
    assert isinstance(failed.args[0], Cancelled)
    assert applied == []


def test_fault_is_told(jobs, qtbot):
    def work(progress):
        raise InputError("The file is empty.")

    with qtbot.waitSignal(jobs.failed) as failed:
        jobs.start("survey", work, apply=print)
    assert str(failed.args[0]) == "The file is empty."


def test_progress_is_told_while_it_lasts(jobs, qtbot):
    gate = Event()

    def work(progress):
        progress.step("Reading stems.csv", 0.25)
        gate.wait(10)

    with qtbot.waitSignal(jobs.progressed) as progressed:
        jobs.start("survey", work, apply=lambda result: None)
    assert progressed.args == ["Reading stems.csv", 0.25]
    with qtbot.waitSignal(jobs.idled):
        gate.set()


def test_quiet_work_is_not_shown(jobs, qtbot):
    done = []
    jobs.start("map", lambda progress: 1, apply=done.append, shown=False)
    assert not jobs.busy
    assert jobs.runs("map")
    qtbot.waitUntil(lambda: done == [1])


def test_closing_waits_for_what_runs(jobs):
    ended = []

    def work(progress):
        while not progress.stop.wait(0.01):
            pass
        ended.append(True)

    jobs.start("survey", work, apply=print)
    jobs.close()
    assert ended in ([], [True])  # the work may not even have begun
    assert not jobs.busy


def test_projections_survive_many_runs(jobs, qtbot, sample):
    """PROJ keeps something for each thread; a thread that is new to Python each time would break it."""
    from stemmap.tasks.workup import work_up

    done = []
    for count in range(1, 6):
        jobs.start("survey", lambda progress: work_up(sample.survey, progress), apply=done.append)
        qtbot.waitUntil(lambda count=count: len(done) == count, timeout=30_000)
