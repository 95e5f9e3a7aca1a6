"""Several real processes print one show into one folder: one whole result, also if one of them is killed."""

import os
import signal
import subprocess
import sys
from pathlib import Path

import pytest

from paperwork.output import publish
from tests.few import few_of

ROOT = Path(__file__).resolve().parents[1]
SHOW = ROOT / "example_show" / "first_show.yaml"
STEPS = ("stage rack/channel-chart.pdf", "write the journal", "commit index.html", "write the manifest", "tidy")
"""What a run of publishing does, by the names of its steps."""

DYING = """
import os, signal, sys
from pathlib import Path
from paperwork.output import publish

def step(name):
    if name == sys.argv[2]:
        os.kill(os.getpid(), signal.SIGKILL)

publish(Path(sys.argv[1]), {"index.html": b"dying index", "rack/channel-chart.pdf": b"dying chart"}, step=step)
"""


def _start_build(folder: Path) -> "subprocess.Popen[str]":
    command = [sys.executable, "-m", "paperwork", "build", str(SHOW), "-o", str(folder)]
    return subprocess.Popen(command, cwd=ROOT, stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True)


def _start_dying(folder: Path, step: str) -> "subprocess.Popen[str]":
    """A run that the system ends just before a step, with everything on the disk as it then is."""
    return subprocess.Popen([sys.executable, "-c", DYING, str(folder), step], cwd=ROOT, text=True)


def _files(folder: Path) -> dict[str, bytes]:
    """All that stands in a folder, its own records too, without the lock."""
    files = (path for path in folder.rglob("*") if path.is_file() and path.name != ".paperwork-lock")
    return {path.relative_to(folder).as_posix(): path.read_bytes() for path in files}


def _finish(build: "subprocess.Popen[str]") -> None:
    told, wrong = build.communicate(timeout=120)
    assert build.returncode == 0, told + wrong


@pytest.mark.parametrize("count", few_of((3, 8)))
def test_builds_of_one_show_at_once_leave_one_whole_result(count, tmp_path):
    _finish(_start_build(tmp_path / "alone"))
    for build in [_start_build(tmp_path / "shared") for _ in range(count)]:
        _finish(build)
    assert _files(tmp_path / "shared") == _files(tmp_path / "alone")
    assert not any(name.startswith(".paperwork-stage") for name in os.listdir(tmp_path / "shared"))


@pytest.mark.parametrize("step", few_of(STEPS, among=("write the journal",)))
def test_a_build_that_is_killed_at_any_point_is_put_right_by_those_that_wait(step, tmp_path):
    _finish(_start_build(tmp_path / "alone"))
    folder = tmp_path / "shared"
    publish(folder, {"index.html": b"old index", "rack/old.pdf": b"old"})
    killed = _start_dying(folder, step)
    waiting = [_start_build(folder) for _ in range(2)]
    assert killed.wait(timeout=60) == -signal.SIGKILL
    for build in waiting:
        _finish(build)
    assert _files(folder) == _files(tmp_path / "alone")
