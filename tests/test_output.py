"""A set of files becomes a folder's contents as one step: killed, refused, raced or attacked at any point."""

import errno
import json
import os
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path

import pytest

from paperwork.output import OutputError, disk, publish

OLD = {"index.html": b"old index", "rack/chart.pdf": b"old chart", "rack/same.pdf": b"same", "gone/x/a.pdf": b"a"}
NEW = {"index.html": b"new index", "rack/chart.pdf": b"new chart", "rack/same.pdf": b"same", "labels/b.pdf": b"b"}
FIRST: dict[str, bytes] = {}
MINE = {"notes.txt": b"mine", "rack/photo.jpg": b"mine too"}


@pytest.fixture(autouse=True)
def waits(monkeypatch: pytest.MonkeyPatch) -> list[int]:
    """Counts the waits for the disk in place of waiting: they matter to a loss of power, which no test here is."""
    handles: list[int] = []
    monkeypatch.setattr(os, "fsync", handles.append)
    return handles


class Killed(BaseException):
    """Stands for the end of the process: no handler of ours sees it."""


def _stop_at(number: int, error: Callable[[], BaseException]) -> Callable[[str], None]:
    """A step that raises the error when it is called for the given time."""
    calls = iter(range(1_000_000))

    def step(_: str) -> None:
        if next(calls) == number:
            raise error()

    return step


def _stop_before(name: str) -> Callable[[str], None]:
    """A step that kills the run before the named one."""

    def step(step_name: str) -> None:
        if step_name == name:
            raise Killed

    return step


def _files(folder: Path) -> dict[str, bytes]:
    """What stands in the folder, without what is ours alone."""
    return {
        path.relative_to(folder).as_posix(): path.read_bytes()
        for path in sorted(folder.rglob("*"))
        if path.is_file() and not path.relative_to(folder).as_posix().startswith(".paperwork-")
    }


def _hidden(folder: Path) -> list[str]:
    return sorted(path.name for path in folder.iterdir() if path.name.startswith(".paperwork-"))


def _prepare(folder: Path, files: dict[str, bytes]) -> None:
    """A folder with an earlier set, and files of somebody else between its files."""
    if files:
        publish(folder, files)
    for path, data in MINE.items():
        (folder / path).parent.mkdir(parents=True, exist_ok=True)
        (folder / path).write_bytes(data)


def _assert_whole(folder: Path, files: dict[str, bytes]) -> None:
    assert _files(folder) == {**files, **MINE}
    assert _hidden(folder) == [".paperwork-lock", ".paperwork-manifest.json"]
    listed = json.loads((folder / ".paperwork-manifest.json").read_text())["files"]
    assert sorted(listed) == sorted(files)
    empty = [path for path in folder.rglob("*") if path.is_dir() and not any(path.iterdir())]
    assert empty == []


def _refuse(folder: Path, files: dict[str, bytes]) -> OutputError:
    """The refusal, after which nothing has changed."""
    before = {path: (path.lstat().st_mtime_ns, path.lstat().st_ino) for path in sorted(folder.rglob("*"))}
    with pytest.raises(OutputError) as caught:
        publish(folder, files)
    after = {path: (path.lstat().st_mtime_ns, path.lstat().st_ino) for path in sorted(folder.rglob("*"))}
    lock = folder / ".paperwork-lock"
    assert {**before, lock: None} == {**after, lock: None}
    assert caught.value.text
    assert caught.value.fix
    return caught.value


def test_set_replaces_the_set_before_and_nothing_else(tmp_path: Path) -> None:
    _prepare(tmp_path, OLD)
    report = publish(tmp_path, NEW)
    _assert_whole(tmp_path, NEW)
    assert report.written == ("labels/b.pdf", "rack/chart.pdf", "index.html")
    assert report.removed == ("gone/x/a.pdf",)
    assert report.unchanged == ("rack/same.pdf",)
    assert (report.left, report.earlier) == ((), "")


def test_unchanged_files_are_not_written_again(tmp_path: Path) -> None:
    publish(tmp_path, OLD)
    before = {path: (path.stat().st_mtime_ns, path.stat().st_ino) for path in tmp_path.rglob("*")}
    steps: list[str] = []
    report = publish(tmp_path, OLD, step=steps.append)
    assert steps == []
    assert report.unchanged == tuple(sorted(OLD))
    assert before == {path: (path.stat().st_mtime_ns, path.stat().st_ino) for path in tmp_path.rglob("*")}


def test_index_is_the_last_file_in_place(tmp_path: Path) -> None:
    steps: list[str] = []
    publish(tmp_path, {"index.html": b"i", "zebra.pdf": b"z"}, step=steps.append)
    assert [step for step in steps if step.startswith("commit")] == ["commit zebra.pdf", "commit index.html"]


def test_same_set_gives_the_same_manifest(tmp_path: Path) -> None:
    for name, files in (("a", NEW), ("b", dict(reversed(NEW.items())))):
        publish(tmp_path / name, files)
    manifests = [(tmp_path / name / ".paperwork-manifest.json").read_bytes() for name in "ab"]
    assert manifests[0] == manifests[1]


def test_every_staged_file_is_on_the_disk_before_the_journal(tmp_path: Path, waits: list[int]) -> None:
    counts: dict[str, int] = {}
    publish(tmp_path, NEW, step=lambda name: counts.setdefault(name, len(waits)))
    assert counts["write the journal"] >= len(NEW)
    assert counts["commit index.html"] > counts["write the journal"]
    assert counts["tidy"] > counts["write the manifest"] > counts["commit index.html"]


def test_missing_parents_are_made(tmp_path: Path) -> None:
    publish(tmp_path / "a" / "b", NEW)
    assert _files(tmp_path / "a" / "b") == NEW


def test_former_file_that_was_altered_stays_and_is_told(tmp_path: Path) -> None:
    publish(tmp_path, OLD)
    (tmp_path / "gone/x/a.pdf").write_bytes(b"with my notes")
    assert publish(tmp_path, NEW).left == ("gone/x/a.pdf",)
    assert _files(tmp_path) == {**NEW, "gone/x/a.pdf": b"with my notes"}
    assert publish(tmp_path, NEW).left == ()


def test_former_file_that_is_gone_is_no_trouble(tmp_path: Path) -> None:
    publish(tmp_path, OLD)
    (tmp_path / "gone/x/a.pdf").unlink()
    (tmp_path / "rack/chart.pdf").unlink()
    publish(tmp_path, NEW)
    assert _files(tmp_path) == NEW


def test_foreign_file_in_the_way_is_refused_by_name(tmp_path: Path) -> None:
    _prepare(tmp_path, OLD)
    (tmp_path / "labels").mkdir()
    (tmp_path / "labels/b.pdf").write_bytes(b"b")
    error = _refuse(tmp_path, NEW)
    assert error.text == f"{tmp_path}/labels/b.pdf was not made by this program, so it is not replaced"
    assert error.fix == "move it away, or choose another folder with -o"


def test_altered_file_of_ours_counts_as_not_ours(tmp_path: Path) -> None:
    _prepare(tmp_path, OLD)
    (tmp_path / "rack/chart.pdf").write_bytes(b"marked by hand")
    assert "chart.pdf was altered since it was made" in _refuse(tmp_path, NEW).text


@pytest.mark.parametrize(
    ("make", "words"),
    [
        (lambda at: (at / "labels/b.pdf").mkdir(parents=True), "labels/b.pdf is a folder where a file is needed"),
        (lambda at: (at / "labels").write_bytes(b""), "labels is a file where a folder is needed"),
        (lambda at: (at / "labels").symlink_to(at.parent), "labels is a link, which is never followed"),
        (lambda at: (at / "index.html").symlink_to(at / "x"), "index.html is a link where a file is needed"),
        (lambda at: os.mkfifo(at / "index.html"), "index.html is a device where a file is needed"),
        (lambda at: (at / ".paperwork-lock").symlink_to(at / "x"), "could not be written"),
        (lambda at: (at / ".paperwork-manifest.json").write_text("{"), "manifest.json is damaged"),
        (lambda at: (at / ".paperwork-manifest.json").symlink_to(at / "x"), "manifest.json is damaged"),
        (lambda at: (at / ".paperwork-manifest.json").write_text("[" * 100_000), "manifest.json is damaged"),
        (lambda at: (at / ".paperwork-journal.json").write_text("[]"), "journal.json is damaged"),
    ],
)
def test_odd_thing_in_the_way_is_refused(tmp_path: Path, make: Callable[[Path], object], words: str) -> None:
    folder = tmp_path / "out"
    folder.mkdir()
    make(folder)
    assert words in _refuse(folder, NEW).text
    assert not (folder / "x").exists()


def test_manifest_of_an_attacker_removes_nothing_outside(tmp_path: Path) -> None:
    publish(tmp_path / "out", OLD)
    outside = tmp_path / "precious.txt"
    outside.write_bytes(b"a")
    (tmp_path / "linked").mkdir()
    (tmp_path / "linked/a.pdf").write_bytes(b"a")
    digest = "ca978112ca1bbdcafac231b39a23dc4da786eff8147c4e72b9807785afee48bb"  # of b"a", FIPS 180-4
    manifest = tmp_path / "out/.paperwork-manifest.json"
    table = json.loads(manifest.read_text())
    for path in ("../precious.txt", str(outside)):
        manifest.write_text(json.dumps({**table, "files": {path: digest}}))
        assert "is damaged" in _refuse(tmp_path / "out", OLD).text
    (tmp_path / "out/link").symlink_to(tmp_path / "linked")
    manifest.write_text(json.dumps({**table, "files": {**table["files"], "link/a.pdf": digest}}))
    assert publish(tmp_path / "out", OLD).left == ("link/a.pdf",)
    assert (tmp_path / "linked/a.pdf").read_bytes() == outside.read_bytes() == b"a"


@pytest.mark.parametrize(
    "path",
    ["", "/etc/x", "../x", "a/../x", "a//b", "./a", "a/", "a\\b", "C:x", "a\0b", "a\nb", "x.", "x ", "...", " "]
    + [".paperwork-manifest.json", "a/.paperwork-x"],
)
def test_path_that_leaves_the_folder_is_refused(tmp_path: Path, path: str) -> None:
    assert "is not a name for a file" in _refuse(tmp_path, {path: b"x"}).text
    assert list(tmp_path.iterdir()) == []


@pytest.mark.parametrize("pair", [("a.pdf", "A.pdf"), ("rack/a", "Rack/b"), ("a", "a/b"), ("a", "a-b", "a/b")])
def test_paths_that_meet_on_some_disk_are_refused(tmp_path: Path, pair: tuple[str, ...]) -> None:
    _refuse(tmp_path, dict.fromkeys(pair, b""))
    assert list(tmp_path.iterdir()) == []


def test_folder_that_is_a_file_is_refused(tmp_path: Path) -> None:
    (tmp_path / "out").write_bytes(b"x")
    with pytest.raises(OutputError, match="is a file, not a folder"):
        publish(tmp_path / "out", NEW)
    with pytest.raises(OutputError, match="could not be written"):
        publish(tmp_path / "out" / "deeper", NEW)


@pytest.mark.parametrize("before", [FIRST, OLD], ids=["first", "again"])
def test_run_killed_at_any_step_is_finished_or_undone_by_the_next(tmp_path: Path, before: dict[str, bytes]) -> None:
    for number in range(100):
        folder = tmp_path / str(number)
        _prepare(folder, before)
        try:
            publish(folder, NEW, step=_stop_at(number, Killed))
            break
        except Killed:
            pass
        files = _files(folder)
        assert {path: files[path] for path in MINE} == MINE
        assert all(files.get(path) in (before.get(path), NEW.get(path)) for path in {**before, **NEW})
        third = {"index.html": b"third", "rack/chart.pdf": b"third chart"}
        publish(folder, third)
        _assert_whole(folder, third)
    assert number > 10


def test_run_killed_twice_is_still_put_right(tmp_path: Path) -> None:
    first = 0
    for first in range(100):
        for second in range(first % 3, 100, 3):
            folder = tmp_path / f"{first}-{second}"
            _prepare(folder, OLD)
            try:
                publish(folder, NEW, step=_stop_at(first, Killed))
                return
            except Killed:
                pass
            try:
                publish(folder, NEW, step=_stop_at(second, Killed))
                break
            except Killed:
                publish(folder, NEW)
                _assert_whole(folder, NEW)


def test_next_run_says_that_it_finished_the_one_before(tmp_path: Path) -> None:
    _prepare(tmp_path, OLD)
    with pytest.raises(Killed):
        publish(tmp_path, NEW, step=_stop_before("commit index.html"))
    assert (tmp_path / "index.html").read_bytes() == b"old index"
    assert (tmp_path / "rack/chart.pdf").read_bytes() == b"new chart"
    assert publish(tmp_path, NEW).earlier == "finished"


@pytest.mark.parametrize("before", [FIRST, OLD], ids=["first", "again"])
@pytest.mark.parametrize("code", [errno.ENOSPC, errno.EACCES, errno.EIO])
def test_refused_step_leaves_the_old_set_or_the_new(tmp_path: Path, before: dict[str, bytes], code: int) -> None:
    words = {errno.ENOSPC: "is full", errno.EACCES: "may not be written", errno.EIO: "could not be written"}
    for number in range(100):
        folder = tmp_path / str(number)
        _prepare(folder, before)
        try:
            publish(folder, NEW, step=_stop_at(number, lambda: OSError(code, os.strerror(code))))
        except OutputError as error:
            assert words[code] in error.text
            assert _files(folder) == {**before, **MINE}
            assert set(_hidden(folder)) <= {".paperwork-lock", ".paperwork-manifest.json"}
            continue
        assert _files(folder) == {**NEW, **MINE}
        break
    publish(folder, NEW)
    _assert_whole(folder, NEW)


def test_set_is_taken_back_with_its_manifest(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    _prepare(tmp_path, OLD)
    manifest = tmp_path / ".paperwork-manifest.json"
    old = manifest.read_bytes()
    sync, refused = disk.sync_folder, []

    def refuse_once(folder: Path) -> None:
        if manifest.read_bytes() != old and not refused:
            refused.append(folder)
            raise OSError(errno.EIO, "refused")
        sync(folder)

    monkeypatch.setattr(disk, "sync_folder", refuse_once)
    with pytest.raises(OutputError):
        publish(tmp_path, NEW)
    assert refused
    _assert_whole(tmp_path, OLD)
    assert manifest.read_bytes() == old


def test_run_killed_while_taking_back_is_taken_back_by_the_next(tmp_path: Path) -> None:
    rehearsal: list[str] = []
    _prepare(tmp_path / "rehearsal", OLD)
    publish(tmp_path / "rehearsal", NEW, step=rehearsal.append)
    refused = rehearsal.index("write the manifest")
    for number in range(refused + 2, refused + 100):
        folder = tmp_path / str(number)
        _prepare(folder, OLD)
        calls = iter(range(1_000))

        def step(_: str, calls: object = calls, number: int = number) -> None:
            call = next(calls)
            if call == refused:
                raise OSError(errno.EIO, "refused")
            if call == number:
                raise Killed

        try:
            publish(folder, NEW, step=step)
        except Killed:
            assert publish(folder, OLD).earlier == "undone"
            _assert_whole(folder, OLD)
            continue
        except OutputError:
            break
    assert number > refused + 4


def test_file_altered_between_death_and_rescue_is_not_touched(tmp_path: Path) -> None:
    _prepare(tmp_path, OLD)
    with pytest.raises(Killed):
        publish(tmp_path, NEW, step=_stop_before("commit rack/chart.pdf"))
    (tmp_path / "rack/chart.pdf").write_bytes(b"marked by hand")
    with pytest.raises(OutputError, match=r"chart\.pdf was .+, so it is not replaced"):
        publish(tmp_path, NEW)
    assert (tmp_path / "rack/chart.pdf").read_bytes() == b"marked by hand"


def _write_script(lines: list[str]) -> list[str]:
    return [sys.executable, "-c", "\n".join(lines)]


def test_process_killed_by_the_system_holds_no_lock(tmp_path: Path) -> None:
    _prepare(tmp_path, OLD)
    script = [
        "import os, signal, sys, pathlib",
        "from paperwork.output import publish",
        "step = lambda name: name.startswith('commit index') and os.kill(os.getpid(), signal.SIGKILL)",
        "publish(pathlib.Path(sys.argv[1]), eval(sys.argv[2]), step=step)",
    ]
    died = subprocess.run([*_write_script(script), str(tmp_path), repr(NEW)], check=False)
    assert died.returncode == -9
    assert publish(tmp_path, NEW).earlier == "finished"
    _assert_whole(tmp_path, NEW)


def test_eight_writers_leave_one_whole_set(tmp_path: Path) -> None:
    script = [
        "import sys, pathlib",
        "from paperwork.output import publish",
        "folder, tag = pathlib.Path(sys.argv[1]), sys.argv[2]",
        "for turn in range(3):",
        "    names = [f'{folder_name}/{n}.pdf' for n in range(4) for folder_name in ('rack', 'labels', 'only' + tag)]",
        "    publish(folder, {name: f'{tag}{turn}'.encode() for name in [*names, 'index.html']})",
    ]
    folder = tmp_path / "out"
    writers = [subprocess.Popen([*_write_script(script), str(folder), tag]) for tag in "abcdefgh"]
    assert [writer.wait() for writer in writers] == [0] * 8
    contents = _files(folder)
    assert len(contents) == 13
    assert len(set(contents.values())) == 1
    tag = contents["index.html"].decode()[0]
    assert {path.split("/")[0] for path in contents} == {"rack", "labels", f"only{tag}", "index.html"}
