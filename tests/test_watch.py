"""Papers that follow their file: only what changed is written; half a save and a renaming editor do no harm."""

import gc
import os
import signal
import subprocess
import sys
import weakref

import pytest

from paperwork import watch
from paperwork.commands.watch import list_lines
from paperwork.watch import Follower

SHOW = """\
show: {title: Gala, revision: B}
channels:
  1: {by: Ann, mhz: 486.200}
  2: {by: Bo, mhz: 487.400}
"""


@pytest.fixture
def follower(tmp_path) -> Follower:
    (tmp_path / "show.yaml").write_text(SHOW, encoding="utf-8")
    follower = Follower(tmp_path / "show.yaml", "show.yaml", tmp_path / "out")
    assert look(follower).is_printed
    return follower


def look(follower: Follower, report=None):
    """Two looks: a save is over when the second finds what the first did."""
    first = follower.look(report)
    return first or follower.look(report)


def save(follower: Follower, text: str) -> None:
    """The way of editors that write a new file and put it in place of the old one."""
    draft = follower.show.with_name("show.yaml~")
    draft.write_text(text, encoding="utf-8")
    os.replace(draft, follower.show)


def papers(follower: Follower) -> dict[str, tuple[int, int]]:
    return {
        str(p.relative_to(follower.folder)): (p.stat().st_ino, p.stat().st_mtime_ns)
        for p in follower.folder.rglob("*.*")
        if p.is_file()
    }


def test_a_look_without_a_change_does_nothing(follower):
    assert look(follower) is None
    follower.show.touch()
    assert look(follower) is None


def test_a_changed_fact_is_told_and_only_its_papers_are_written(follower):
    before = papers(follower)
    save(follower, SHOW.replace("Bo", "Cy"))
    told = look(follower)
    after = papers(follower)
    changed = {path for path in after if after[path] != before.get(path) and not path.startswith(".")}
    assert changed == set(told.report.written) and "rack/channel-chart.pdf" in changed
    assert "production/incident-log.pdf" in after.keys() - changed
    assert any("channel 2" in line and "Bo → Cy" in line for line in list_lines(told))


def test_papers_are_there_and_told_before_the_book_that_holds_them(follower):
    save(follower, SHOW.replace("486.200", "486.250"))
    ahead = []

    def hear(told):
        ahead.append(
            (
                told,
                (follower.folder / "rack" / "channel-chart.pdf").stat().st_mtime_ns,
                (follower.folder / "index.html").stat().st_mtime_ns,
            )
        )

    before = papers(follower)
    rest = look(follower, hear)
    ((first, chart_ns, index_ns),) = ahead
    after = papers(follower)
    assert chart_ns == after["rack/channel-chart.pdf"][1] != before["rack/channel-chart.pdf"][1]
    assert index_ns == before["index.html"][1] != after["index.html"][1]
    lines, more = list(list_lines(first)), list(list_lines(rest))
    assert "printed rack/channel-chart.pdf" in lines and "the show book and the index follow" in lines
    assert any("486.200" in line for line in lines) and [line for line in more if line.startswith("printed")] == [
        "printed production/show-book.pdf"
    ]
    assert "no paper changed" not in more and not set(lines) & set(more)


def test_a_comment_changes_no_paper(follower):
    before = {path: stamp for path, stamp in papers(follower).items() if not path.startswith(".")}
    save(follower, SHOW + "# a remark\n")
    told = look(follower)
    assert told.entries == () and all(
        papers(follower)[path] == stamp for path, stamp in before.items() if "show-book" not in path
    )


def test_half_a_save_leaves_the_papers_as_they_were(follower):
    before = papers(follower)
    follower.show.write_text("", encoding="utf-8")
    assert look(follower) is None
    follower.show.unlink()
    assert look(follower) is None
    follower.show.write_text(SHOW[:60], encoding="utf-8")
    told = look(follower)
    assert told is None or not told.is_printed
    assert papers(follower) == before
    save(follower, SHOW)
    assert look(follower).report.written == ()


def test_what_a_long_watch_leaves_is_what_one_build_leaves(follower, tmp_path):
    for text in (
        SHOW.replace("487.400", "486.200"),
        SHOW.replace("Ann", "Édith"),
        SHOW.replace("revision: B", "revision: C"),
        SHOW.replace("Gala", "Fair"),
    ):
        save(follower, text)
        assert look(follower, [].append).is_printed
    fresh = Follower(follower.show, "show.yaml", tmp_path / "fresh")
    look(fresh)
    one, other = (
        {p.relative_to(f.folder): p.read_bytes() for p in f.folder.rglob("*.*") if p.is_file()}
        for f in (follower, fresh)
    )
    assert one == other


def test_a_long_watch_keeps_no_garbage_for_good(follower, monkeypatch):
    """What one save puts aside from the searches for garbage is searched again at the next."""

    class Ring:
        def __init__(self):
            self.itself = self

    monkeypatch.setattr(follower, "look", lambda report: True)
    held = [Ring()]
    ring = weakref.ref(held[0])
    watch._look_until_quiet(follower, lambda told: None)
    held.clear()
    watch._look_until_quiet(follower, lambda told: None)
    gc.unfreeze()
    assert ring() is None


def test_only_names_that_matter_wake_it(follower):
    assert follower.is_relevant("/elsewhere/show.yaml") and follower.is_relevant("show.yaml.answers.yaml")
    assert not follower.is_relevant("show.yaml~") and not follower.is_relevant("out/rack/channel-chart.pdf")


def test_the_command_prints_again_on_a_save_and_ends_with_ctrl_c(tmp_path):
    (tmp_path / "show.yaml").write_text(SHOW, encoding="utf-8")
    with subprocess.Popen(
        [sys.executable, "-u", "-m", "paperwork", "watch", "show.yaml", "-o", "out"],
        cwd=tmp_path,
        encoding="utf-8",
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
        env={**os.environ, "PYTHONIOENCODING": "utf-8"},
        preexec_fn=lambda: signal.signal(
            signal.SIGINT, signal.SIG_DFL
        ),  # a shell that runs tests in the background ignores it
    ) as process:
        lines = iter(process.stdout.readline, "")
        assert any(line.startswith("printed rack/channel-chart.pdf") for line in lines)
        while process.poll() is None:
            (tmp_path / "show.yaml").write_text(SHOW.replace("Bo", f"Cy {os.urandom(2).hex()}"), encoding="utf-8")
            if next(line for line in lines if line.startswith(("changed", "no paper"))).startswith("changed"):
                break
        process.send_signal(signal.SIGINT)
        rest, wrong = process.communicate(timeout=20)
    assert "stopped watching" in rest + wrong and "Traceback" not in wrong
