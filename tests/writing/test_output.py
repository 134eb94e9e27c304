"""Results appear whole or not at all, under names that every system accepts."""

import os
import stat
import threading

import pytest

from stemmap.errors import OutputError
from stemmap.writing.output import safe_name, text_output, whole_file

posix = pytest.mark.skipif(os.name != "posix", reason="rights and devices of POSIX systems")


@pytest.fixture
def umask():
    before = os.umask(0o022)
    yield
    os.umask(before)


# Whole files


def test_text_goes_to_its_file_as_utf_8_without_changed_line_ends(tmp_path):
    path = tmp_path / "out.csv"
    with text_output(path) as stream:
        stream.write("Höhe\r\nä\n")
    assert path.read_bytes() == "Höhe\r\nä\n".encode()
    assert [entry.name for entry in tmp_path.iterdir()] == ["out.csv"]


def test_text_without_a_path_goes_to_standard_output(capsys):
    with text_output(None) as stream:
        stream.write("spruce\n")
    assert capsys.readouterr().out == "spruce\n"


def test_what_no_utf_8_can_hold_is_escaped(tmp_path):
    """A file name may hold bytes that are no text; they arrive here as lone surrogates."""
    with text_output(tmp_path / "out.json") as stream:
        stream.write('"\udcff"')
    assert (tmp_path / "out.json").read_text("utf-8") == '"\\udcff"'


@pytest.mark.parametrize("fault", [ValueError, KeyboardInterrupt])
def test_nothing_is_left_behind_when_the_work_fails(tmp_path, fault):
    path = tmp_path / "out.csv"
    path.write_text("before")

    def fail():
        with text_output(path) as stream:
            stream.write("half")
            raise fault

    with pytest.raises(fault):
        fail()
    assert path.read_text() == "before"
    assert [entry.name for entry in tmp_path.iterdir()] == ["out.csv"]


def test_fault_of_the_system_is_told_with_the_file(tmp_path):
    path = tmp_path / "out.csv"

    def fail():
        with whole_file(path):
            raise OSError(28, "No space left on device")

    with pytest.raises(OutputError, match=r"out\.csv cannot be written: No space left on device"):
        fail()
    assert list(tmp_path.iterdir()) == []


def fails(path):
    with text_output(path) as stream:
        stream.write("x")


def test_folder_that_is_not_there_is_told(tmp_path):
    with pytest.raises(OutputError, match="cannot be written"):
        fails(tmp_path / "none" / "out.csv")


def test_folder_is_never_replaced(tmp_path):
    (tmp_path / "out.csv").mkdir()
    with pytest.raises(OutputError, match="Choose another name"):
        fails(tmp_path / "out.csv")
    assert [entry.name for entry in tmp_path.iterdir()] == ["out.csv"]


@posix
def test_file_has_the_rights_of_a_new_file(tmp_path, umask):
    with text_output(tmp_path / "out.csv") as stream:
        stream.write("x")
    assert stat.S_IMODE((tmp_path / "out.csv").stat().st_mode) == 0o644


@posix
def test_file_that_a_library_makes_anew_has_the_same_rights(tmp_path, umask):
    with whole_file(tmp_path / "out.gpkg") as partial:
        partial.unlink()
        partial.write_text("x")
        partial.chmod(0o600)
    assert stat.S_IMODE((tmp_path / "out.gpkg").stat().st_mode) == 0o644


@posix
def test_link_stays_a_link(tmp_path):
    real = tmp_path / "real.csv"
    real.write_text("before")
    link = tmp_path / "link.csv"
    link.symlink_to(real)
    with text_output(link) as stream:
        stream.write("after")
    assert link.is_symlink()
    assert real.read_text() == "after"


@posix
def test_pipe_takes_what_is_written_and_stays(tmp_path):
    pipe = tmp_path / "pipe"
    os.mkfifo(pipe)
    got = []
    reader = threading.Thread(target=lambda: got.append(pipe.read_text()))
    reader.start()
    with text_output(pipe) as stream:
        stream.write("spruce")
    reader.join(timeout=10)
    assert got == ["spruce"]
    assert pipe.is_fifo()


@posix
def test_device_is_never_replaced(tmp_path):
    pipe = tmp_path / "pipe.gpkg"
    os.mkfifo(pipe)

    def write():
        with whole_file(pipe):
            pass

    with pytest.raises(OutputError, match="no file that could be replaced"):
        write()
    assert pipe.is_fifo()


def test_partial_file_keeps_the_ending(tmp_path):
    with whole_file(tmp_path / "out.gpkg") as partial:
        assert partial.suffix == ".gpkg"
        assert partial.parent == tmp_path.resolve()
        assert partial.stat().st_size == 0


# Names


@pytest.mark.parametrize(
    ("text", "name"),
    [
        ("plot 7", "plot_7"),
        ("A-1.2", "A-1.2"),
        ("Höhenweg", "Höhenweg"),
        ("e\u0301", "é"),
        ("", "unnamed"),
        ("   ", "unnamed"),
        ("...", "unnamed"),
        ("🌲", "unnamed"),
        ("🌲 7", "7"),
        ("../../etc/passwd", "etc_passwd"),
        ("..\\..\\boot", "boot"),
        ("/abs", "abs"),
        ("C:\\x", "C_x"),
        ("a\x00b\nc", "a_b_c"),
        ('<>:"|?*', "unnamed"),
        ("trailing.", "trailing"),
        ("trailing ", "trailing"),
        ("CON", "_CON"),
        ("con", "_con"),
        ("nul.txt", "_nul.txt"),
        ("COM1", "_COM1"),
        ("lpt9.csv", "_lpt9.csv"),
        ("COM¹", "_COM¹"),
        ("CONSOLE", "CONSOLE"),
        (".hidden", "hidden"),
    ],
)
def test_name_is_safe(text, name):
    assert safe_name(text) == name


@pytest.mark.parametrize("text", ["x" * 300, "森" * 300, "x" * 79 + "." + "y" * 20, "." * 300])
def test_long_name_is_cut_and_still_safe(text):
    name = safe_name(text)
    assert 0 < len(name) <= 80
    assert len(f"{name}_12.svg".encode()) <= 255
    assert not name.endswith((".", " "))
