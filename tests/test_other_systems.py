"""Windows and macOS, as far as another system can play them: what exists on one alone, locks, names, line ends.

What no test here can play, whether each call is on each system, `.ci/run` asks the type checker.
"""

import ast
import errno
import os
import sys
from types import SimpleNamespace

import pytest

from paperwork.cli import root
from paperwork.output import OutputError, disk, publish
from tests.few import few_of
from tests.modules import MODULES, name_of, tree_of

ONE_SYSTEM = frozenset(
    ["fcntl", "grp", "msvcrt", "posix", "pty", "pwd", "resource", "syslog", "termios", "tty", "winreg", "winsound"]
)
"""Modules of the standard library that are not on every system (docs.python.org, library index)."""


def imports_of(tree: ast.AST) -> set[str]:
    named = {one.name for node in ast.walk(tree) if isinstance(node, ast.Import) for one in node.names}
    return named | {node.module or "" for node in ast.walk(tree) if isinstance(node, ast.ImportFrom)}


def test_two_rooms_import_what_one_system_alone_has():
    found = {name_of(path): imports_of(tree_of(path)) & ONE_SYSTEM for path in MODULES}
    assert {name: named for name, named in found.items() if named} == {
        "paperwork.output.disk": {"fcntl", "msvcrt"},
        "paperwork.budget": {"resource"},
    }


def test_a_lock_of_windows_is_waited_for_until_it_is_free(monkeypatch, tmp_path):
    tried = []

    def locking(handle, mode, count):
        tried.append((mode, count))
        if len(tried) < 4:
            raise OSError(errno.EDEADLK, "Resource deadlock avoided")

    monkeypatch.setitem(sys.modules, "msvcrt", SimpleNamespace(locking=locking, LK_LOCK=1))
    monkeypatch.setattr(disk, "sys", SimpleNamespace(platform="win32"))
    with disk.lock_folder(tmp_path):
        pass
    assert tried == [(1, 1)] * 4


def test_another_refusal_of_a_lock_of_windows_is_said(monkeypatch, tmp_path):
    def locking(*_):
        raise OSError(errno.EACCES, "Permission denied")

    monkeypatch.setitem(sys.modules, "msvcrt", SimpleNamespace(locking=locking, LK_LOCK=1))
    monkeypatch.setattr(disk, "sys", SimpleNamespace(platform="win32"))
    with pytest.raises(OutputError, match="may not be written"):
        publish(tmp_path, {"index.html": b"x"})


@pytest.mark.parametrize(
    ("one", "other"), (("Caf\u00e9.pdf", "Cafe\u0301.pdf"), ("A.pdf", "a.pdf"), ("\u1e9e.pdf", "ss.pdf"))
)
def test_two_names_that_are_one_on_some_disks_are_refused_before_anything_is_written(one, other, tmp_path):
    with pytest.raises(OutputError, match="are one name on some disks"):
        publish(tmp_path / "out", {one: b"1", other: b"2"})
    assert not (tmp_path / "out").exists()


@pytest.mark.parametrize(
    "name", few_of(("con.pdf", "NUL", "a:b.pdf", "a?.pdf", "end.", "end ", "a\\b.pdf", "COM1.txt", "lpt9"))
)
def test_a_name_that_windows_keeps_or_changes_is_refused(name, tmp_path):
    with pytest.raises(OutputError, match="is not a name for a file"):
        publish(tmp_path / "out", {name: b"1"})


def test_papers_are_whole_where_the_system_has_no_links_and_syncs_no_folders(monkeypatch, tmp_path):
    def refuse(*_, **__):
        raise NotImplementedError

    monkeypatch.setattr(os, "link", refuse)
    monkeypatch.delattr(os, "O_DIRECTORY")
    monkeypatch.setattr(disk, "_NO_FOLLOW", 0)
    for text in (b"old", b"new"):
        publish(tmp_path, {"index.html": text, "rack/a.pdf": text})
        assert (tmp_path / "rack/a.pdf").read_bytes() == text


def test_a_show_with_the_line_ends_and_the_mark_of_windows_is_the_same_show(tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    text = "show: {title: Gala}\nchannels:\n  1: {role: JOS\u00c9, mhz: 486.200}\n  2: {role: TOM, mhz: 486.200}\n"
    said = []
    for data in (text.encode(), b"\xef\xbb\xbf" + text.replace("\n", "\r\n").encode()):
        (tmp_path / "show.yaml").write_bytes(data)
        said.append(root.main(["check", "show.yaml"], standalone_mode=False, obj={"made": ""}).text)
    assert said[0] == said[1] and "486.200" in said[0]
