"""Papers that follow their file: only what changed is written; half a save and a renaming editor do no harm."""

import gc
import os
import signal
import subprocess
import sys
import weakref
from pathlib import Path
from tempfile import TemporaryDirectory

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from paperwork import watch
from paperwork.commands.watch import list_lines
from paperwork.pipeline import Papers
from paperwork.watch import Follower
from tests.few import few_examples

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


EDITS = st.sampled_from(
    [("Ann", name) for name in ("Bo", "Édith", "Zoe Zander", "N.N.")]
    + [("486.200", mhz) for mhz in ("486.250", "487.400", "499.0005")]
    + [("by: Bo", field) for field in ("by: Bo, role: HOST", "by: Bo, notes: hums", "by: Bo, spare: yes", "role: TOM")]
    + [
        ("Gala", "Fair"),
        ("revision: B", "revision: C, replaces: B"),
        ("revision: B", "paper: A3"),
        ("channels:", "# x\nchannels:"),
    ]
)


@settings(max_examples=few_examples(12))
@given(st.lists(st.lists(EDITS, max_size=2), min_size=1, max_size=4))
def test_what_a_watch_of_any_saves_leaves_is_what_one_build_leaves(saves):
    with TemporaryDirectory() as name:
        show = Path(name, "show.yaml")
        follower = Follower(show, "show.yaml", Path(name, "out"))
        last = ""
        for edits in [[], *saves]:
            text = SHOW
            for was, now in edits:
                text = text.replace(was, now)
            show.write_text(text, encoding="utf-8")
            told = look(follower, [].append)
            last = text if told and told.is_printed else last
        show.write_text(last, encoding="utf-8")
        look(follower, [].append)
        look(Follower(show, "show.yaml", Path(name, "fresh")))
        kept, fresh = (
            {p.relative_to(f): p.read_bytes() for p in f.rglob("*.*") if p.is_file()}
            for f in (Path(name, "out"), Path(name, "fresh"))
        )
        assert kept == fresh


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


MANY = "channels:\n" + "".join(f"  {n}: {{by: P{n}, mhz: {500 + n}.000}}\n" for n in range(1, 21))
HALF = "channels:\n" + "".join(f"  {n}: {{by: P{n}, mhz: {500 + n}.000}}\n" for n in range(1, 9))


@pytest.fixture
def long_show(tmp_path):
    """A show of twenty channels whose papers are printed, and the hands of the clock that its follower reads."""
    (tmp_path / "show.yaml").write_text(MANY, encoding="utf-8")
    hands = [0.0]
    printed = []

    def print_count(show, findings, attached, hand_over) -> Papers:
        printed.append(len(show.channels))
        return Papers({"index.html": str(len(show.channels)).encode()}, (), (), ())

    follower = Follower(
        tmp_path / "show.yaml", "show.yaml", tmp_path / "out", printer=print_count, clock=lambda: hands[0]
    )
    look(follower)
    assert printed == [20]
    return follower, hands, printed


def test_a_save_is_over_when_two_looks_find_the_same(long_show):
    """An editor that writes in pieces, each cut at the end of a line, and a look after each."""
    follower, _, printed = long_show
    lines = MANY.splitlines(keepends=True)
    for count in (5, 12, 17):
        follower.show.write_text("".join(lines[:count]), encoding="utf-8")
        assert follower.look() is None and follower.is_waiting
    save(follower, MANY.replace("P20", "Zoe"))
    assert follower.look() is None and follower.look().is_printed and printed == [20, 20]
    assert not follower.is_waiting


def test_a_save_that_lost_half_of_the_show_leaves_the_papers_and_says_so(long_show):
    follower, _, printed = long_show
    save(follower, HALF)
    found = look(follower)
    assert not found.is_printed and found.doubt == "8 of 20 channels are left"
    assert list(list_lines(found)) == [
        "the papers stay as they were: 8 of 20 channels are left",
        "if that is meant, save again, or wait 15 seconds",
    ]
    assert look(follower) is None and printed == [20] and not follower.is_waiting
    assert (follower.folder / "index.html").read_bytes() == b"20"


def test_a_show_whose_text_shrank_by_half_is_doubted_too(long_show):
    follower, _, _ = long_show
    save(follower, MANY + "# a remark\n" * 400)
    assert look(follower).is_printed
    save(follower, MANY)
    assert look(follower).doubt.endswith(" bytes are left")


def test_half_a_show_is_believed_once_it_is_saved_again(long_show):
    """Saving again alters no byte of the file: the time of the save does."""
    follower, _, printed = long_show
    save(follower, HALF)
    assert look(follower).doubt
    os.utime(follower.show, ns=(1, 1))
    assert look(follower).is_printed and printed == [20, 8]


def test_half_a_show_is_believed_once_it_has_stayed_so_for_the_stated_time(long_show):
    follower, hands, printed = long_show
    save(follower, HALF)
    assert look(follower).doubt
    hands[0] = watch.DOUBTED_S - 1
    assert look(follower) is None and printed == [20]
    hands[0] = watch.DOUBTED_S
    assert look(follower).is_printed and printed == [20, 8]
    assert look(follower) is None


def test_a_doubted_save_that_grows_is_looked_at_anew(long_show):
    """More of a save that came in pieces: still less than half is doubted anew, the whole is the show."""
    follower, hands, printed = long_show
    save(follower, HALF)
    assert look(follower).doubt
    hands[0] = watch.DOUBTED_S
    save(follower, HALF + "  9: {by: P9, mhz: 509.000}\n")
    assert look(follower).doubt == "9 of 20 channels are left"
    hands[0] += watch.DOUBTED_S - 1
    assert look(follower) is None and printed == [20]
    save(follower, MANY.replace("P20", "Zoe"))
    assert look(follower).is_printed and printed == [20, 20]


def test_a_venue_has_a_folder_of_its_own_that_a_watch_of_the_home_house_never_writes(tmp_path):
    from paperwork.output import OutputError

    text = SHOW + "venues: {v: {venue: Barn, section: channels, record: 1, field: mhz, value: 490.200}}\n"
    (tmp_path / "show.yaml").write_text(text, encoding="utf-8")
    look(Follower(tmp_path / "show.yaml", "show.yaml", tmp_path / "out", venue="Barn"))
    with pytest.raises(OutputError, match="holds the papers of Gala for Barn"):
        look(Follower(tmp_path / "show.yaml", "show.yaml", tmp_path / "out"))
