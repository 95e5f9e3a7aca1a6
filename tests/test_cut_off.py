"""A command that is killed at any step of its writing is finished, or undone, by the next run, and that run says so."""

import zipfile
from collections.abc import Callable
from functools import partial
from pathlib import Path

import pypdfium2
import pytest

from paperwork import watch
from paperwork.cli import root
from paperwork.output import add_files, publish, write_new
from paperwork.output.disk import digest_file
from paperwork.output.record import read_manifest
from paperwork.pipeline import Papers
from paperwork.terminal import Outcome
from tests.few import few_of
from tests.test_output import Killed, _stop_at

SHOW = """\
show: {title: Gala, revision: B}
channels:
  1: {role: TOM, by: Ann, mhz: 486.200}
  2: {role: CAT, by: Bo, mhz: 487.400, capsule: beige}
scenes: {s: {live: TOM}}
covers: {k: {role: TOM, by: Cy}}
"""

SETS = {
    "build": ("build", "show.yaml", "--only", "channel-chart,pack-labels", "-o", "out"),
    "since": ("build", "show.yaml", "--since", "old.yaml", "--only", "channel-chart", "-o", "out"),
    "tonight": ("tonight", "show.yaml", "--off", "Ann", "-o", "out"),
    "changes": ("changes", "old.yaml", "show.yaml", "-o", "out"),
}
MOST_STEPS = 80


def run(*arguments: str) -> Outcome:
    return root.main(list(arguments), standalone_mode=False, obj={"made": ""})


def is_killed(monkeypatch: pytest.MonkeyPatch, target: str, writer: Callable, number: int, *arguments: str) -> bool:
    """Whether a command died at that step of its writer; where it did not, it came to its end."""
    with monkeypatch.context() as patch:
        patch.setattr(target, partial(writer, step=_stop_at(number, Killed)))
        try:
            run(*arguments)
        except Killed:
            return True
    return False


@pytest.fixture(autouse=True)
def show(tmp_path, monkeypatch) -> Path:
    monkeypatch.chdir(tmp_path)
    Path("show.yaml").write_text(SHOW, encoding="utf-8")
    Path("old.yaml").write_text(SHOW.replace("487.400", "488.100").replace("B}", "A}"), encoding="utf-8")
    return tmp_path / "show.yaml"


def is_whole(folder: Path) -> bool:
    """Whether every file is the one that was meant, each PDF opens, and nothing of ours is left over."""
    manifest = read_manifest(folder)
    files = {str(path.relative_to(folder)) for path in folder.rglob("*") if path.is_file()}
    for path in files:
        if path.endswith(".pdf"):
            assert len(pypdfium2.PdfDocument(folder / path)) > 0
    hidden = {path for path in files if ".paperwork-" in path}
    return (
        files - hidden == set(manifest.files)
        and all(digest_file(folder / path) == digest for path, digest in manifest.files.items())
        and hidden <= {".paperwork-lock", ".paperwork-manifest.json"}
        and not manifest.more_follows
    )


def print_two(show, findings, attached, hand_over) -> Papers:
    """A paper, handed over before the index that names its performers: as the real printer does, in no time."""
    names = " ".join(show.roles[role].by for channel in show.channels.values() for role in channel.roles).encode()
    hand_over({"rack/chart.txt": names})
    return Papers({"rack/chart.txt": names, "index.html": b"index of " + names}, (), (), tuple(findings))


@pytest.mark.parametrize("name", few_of(SETS))
def test_a_set_of_papers_that_was_cut_off_is_whole_after_the_next_run_which_says_so(name, tmp_path, monkeypatch):
    """The folder holds an older set; whatever the step, the journal decides whether there is anything to say."""
    said = set()
    for number in range(MOST_STEPS):
        folder = tmp_path / f"out{number}"
        arguments = (*SETS[name][:-1], folder.name)
        publish(folder, {"index.html": b"older", "rack/older.pdf": b"older"}, title="Gala")
        if not is_killed(monkeypatch, "paperwork.output.publish", publish, number, *arguments):
            break
        was_journalled = (folder / ".paperwork-journal.json").exists()
        outcome = run(*arguments)
        assert outcome.code in (0, 1) and is_whole(folder), number
        assert ("an earlier run was cut off" in outcome.text) == was_journalled, number
        said.add(was_journalled)
    assert number > 10 and said == {True, False}


def test_a_watch_that_was_cut_off_between_papers_and_index_is_finished_and_named_by_the_next(
    show, tmp_path, monkeypatch
):
    folder = tmp_path / "out"
    for number in range(MOST_STEPS):
        show.write_text(SHOW, encoding="utf-8")
        follower = watch.Follower(show, "show.yaml", folder, printer=print_two)
        follower.look(), follower.look()
        show.write_text(SHOW.replace("Bo", "Dee"), encoding="utf-8")
        counted = iter(range(10_000))

        def step(_: str, number: int = number, counted=counted) -> None:
            if next(counted) == number:
                raise Killed

        with monkeypatch.context() as patch:
            patch.setattr(watch, "publish", partial(publish, step=step))
            try:
                follower.look(), follower.look([].append)
                break
            except Killed:
                pass
        is_cut = read_manifest(folder).more_follows or (folder / ".paperwork-journal.json").exists()
        again = watch.Follower(show, "show.yaml", folder, printer=print_two)
        again.look()
        assert bool(again.look().report.earlier) == is_cut and is_whole(folder), number
    assert number > 10


def test_an_archive_that_was_cut_off_is_whole_or_not_there_and_the_next_run_ends_well(show, tmp_path, monkeypatch):
    for number in range(10):
        target = tmp_path / f"{number}.zip"
        if not is_killed(
            monkeypatch, "paperwork.output.write_new", write_new, number, "archive", "show.yaml", "-o", target.name
        ):
            break
        was_there = target.exists()
        assert not was_there or zipfile.ZipFile(target).testzip() is None
        outcome = run("archive", "show.yaml", "-o", target.name)
        assert outcome.code == 0 and ("was there already" in outcome.text) == was_there
        assert zipfile.ZipFile(target).testzip() is None
        assert not list(tmp_path.glob(".paperwork-*")), number
    assert number == 4


def test_assigned_frequencies_that_were_cut_off_are_all_there_or_none_and_the_next_run_says_which(show, monkeypatch):
    show.write_text(
        SHOW.replace(", mhz: 487.400", "")
        .replace("channels:", "radios: {r: {tunes: 486-500}}\nchannels:")
        .replace("by: Bo", "by: Bo, radio: r"),
        encoding="utf-8",
    )
    for number in range(10):
        new = Path(f"new{number}.yaml")
        if not is_killed(
            monkeypatch, "paperwork.output.single.write_new", write_new, number, "assign", "show.yaml", "-o", new.name
        ):
            break
        was_there = new.exists()
        outcome = run("assign", "show.yaml", "-o", new.name)
        assert ("whole: an earlier run was cut off" in outcome.aside) == was_there
        assert run("check", new.name).code == 0 and "mhz" in new.read_text(encoding="utf-8").split("CAT")[1]
        assert not list(Path().glob(".paperwork-*"))
    assert number == 4


def test_files_that_were_being_put_back_are_all_there_after_the_next_run_which_says_so(show, tmp_path, monkeypatch):
    run("archive", "show.yaml", "-o", "show.zip")
    for number in range(20):
        folder = tmp_path / f"back{number}"
        if not is_killed(
            monkeypatch, "paperwork.output.add_files", add_files, number, "restore", "show.zip", "-o", folder.name
        ):
            break
        had_begun = (folder / ".paperwork-adding").exists()
        outcome = run("restore", "show.zip", "-o", folder.name)
        assert ("an earlier run was cut off" in outcome.text) == had_begun
        assert [path.name for path in folder.iterdir()] == ["show.yaml"]
        assert (folder / "show.yaml").read_text(encoding="utf-8") == SHOW
    assert number >= 4
