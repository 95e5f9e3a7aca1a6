"""Files added to a folder: never over another, all whole, and a killed run is finished by the next."""

import os

import pytest

from paperwork.output import OutputError, add_files, publish
from paperwork.output import add as room
from paperwork.output.disk import HIDDEN, write_file
from paperwork.output.single import write_new

FILES = {"show.yaml": b"show: {}\n" * 50, "sweeps/a.csv": b"1,2\n", "sweeps/deep/b.csv": b""}


def there(folder) -> dict[str, bytes]:
    paths = (path for path in folder.rglob("*") if path.is_file() and HIDDEN not in str(path))
    return {path.relative_to(folder).as_posix(): path.read_bytes() for path in paths}


def test_all_files_come_into_a_folder_that_is_made_for_them(tmp_path):
    add_files(tmp_path / "new", FILES)
    assert there(tmp_path / "new") == FILES
    assert not [path for path in (tmp_path / "new").iterdir() if path.name.startswith(HIDDEN)]


def test_files_that_are_there_byte_for_byte_are_left_and_others_are_refused(tmp_path):
    add_files(tmp_path, FILES)
    before = (tmp_path / "show.yaml").stat()
    add_files(tmp_path, {**FILES, "more.csv": b"3"})
    assert (tmp_path / "show.yaml").stat() == before and (tmp_path / "more.csv").read_bytes() == b"3"
    (tmp_path / "sweeps" / "a.csv").write_bytes(b"mine")
    with pytest.raises(OutputError, match="is there already"):
        add_files(tmp_path, {**FILES, "last.csv": b"4"})
    assert not (tmp_path / "last.csv").exists() and (tmp_path / "sweeps" / "a.csv").read_bytes() == b"mine"


@pytest.mark.parametrize("path", ("../x", "/x", "a/../../x", "", "a//b", "a\\b", HIDDEN + "x"))
def test_a_path_that_leaves_the_folder_is_refused(tmp_path, path):
    with pytest.raises(OutputError):
        add_files(tmp_path / "out", {path: b"x"})
    assert not (tmp_path / "out").exists()


def die_at(step):
    """Calls after which this process is dead at the step-th of them, as by a power cut."""
    left = [step]

    def dying(call):
        def run(*arguments, **named):
            left[0] -= 1
            if not left[0]:
                os._exit(9)
            return call(*arguments, **named)

        return run

    return dying


@pytest.mark.parametrize("step", range(1, 9))
def test_a_run_killed_at_any_step_leaves_whole_files_and_the_next_finishes(tmp_path, monkeypatch, step):
    """A child process dies at the step-th write, link or folder."""
    if (child := os.fork()) == 0:
        dying = die_at(step)
        room.write_file = dying(room.write_file)
        room.os = type("Dying", (), {"link": staticmethod(dying(os.link)), "path": os.path})
        room.remove_tree = dying(room.remove_tree)
        add_files(tmp_path, FILES)
        os._exit(0)
    os.waitpid(child, 0)
    assert there(tmp_path).items() <= FILES.items()
    add_files(tmp_path, FILES)
    assert there(tmp_path) == FILES and not (tmp_path / room._STAGE).exists()


@pytest.mark.parametrize("step", range(1, 4))
def test_an_archive_killed_at_any_step_is_whole_or_not_there(tmp_path, step):
    from paperwork.output import single

    target, data = tmp_path / "show-C.zip", b"PK" * 4000
    if (child := os.fork()) == 0:
        dying = die_at(step)
        single.write_file, single.keep_file = dying(single.write_file), dying(single.keep_file)
        single.sync_folder = dying(single.sync_folder)
        single.write_new(target, data)
        os._exit(0)
    os.waitpid(child, 0)
    if target.exists():
        assert target.read_bytes() == data
    else:
        single.write_new(target, data)
    assert {path.name for path in tmp_path.iterdir() if not path.name.startswith(HIDDEN)} == {"show-C.zip"}


def test_a_step_that_the_system_refuses_takes_the_others_back(tmp_path, monkeypatch):
    move, calls = room._move, []

    def refuse(source, target):
        calls.append(target)
        if len(calls) == 3:
            raise OSError(28, "No space left on device")
        move(source, target)

    monkeypatch.setattr(room, "_move", refuse)
    (tmp_path / "sweeps").mkdir()
    with pytest.raises(OutputError, match="is full"):
        add_files(tmp_path, FILES)
    assert [path.name for path in tmp_path.rglob("*")] == ["sweeps"]


@pytest.mark.parametrize("error", (OSError(95, "Operation not supported"), NotImplementedError("follow_symlinks")))
def test_a_disk_without_second_names_gets_the_same_whole_files(tmp_path, monkeypatch, error):
    def refuse(*_, **__):
        raise error

    monkeypatch.setattr(os, "link", refuse)
    add_files(tmp_path, FILES)
    assert there(tmp_path) == FILES
    with pytest.raises(OutputError, match="is there already"):
        add_files(tmp_path, {"show.yaml": b"another"})
    assert there(tmp_path) == FILES
    publish(tmp_path / "out", {"index.html": b"old", "chart.pdf": b"old chart"})
    publish(tmp_path / "out", {"index.html": b"new", "chart.pdf": b"new chart"})
    assert there(tmp_path / "out") == {"index.html": b"new", "chart.pdf": b"new chart"}
    write_new(tmp_path / "show.zip", b"PK" * 4000)
    assert (tmp_path / "show.zip").read_bytes() == b"PK" * 4000


def test_a_disk_that_fills_up_keeps_no_half_file(tmp_path, monkeypatch):
    def fill(_handle):
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(os, "fsync", fill)
    with pytest.raises(OSError, match="No space"):
        write_file(tmp_path / "show.yaml", b"half a show")
    assert list(tmp_path.iterdir()) == []


def test_a_folder_that_may_not_be_written_is_said_in_plain_words(tmp_path, monkeypatch):
    def deny(*_):
        raise PermissionError(13, "Permission denied", str(tmp_path))

    monkeypatch.setattr(room, "write_file", deny)
    with pytest.raises(OutputError, match="may not be written"):
        add_files(tmp_path, FILES)
    assert there(tmp_path) == {}
