"""Work done aside: in processes that are ended at their budget, while other shows are answered."""

import itertools
import subprocess
import sys
from pathlib import Path
from threading import Thread

import anyio
import pytest

from paperwork import limits
from paperwork.files.refusal import Refused
from paperwork.output import OutputError
from paperwork.serve.app import make_app
from paperwork.serve.aside import bench as room
from paperwork.serve.aside.bench import Bench, OverBudget
from paperwork.serve.shelf import Shelf
from paperwork.serve.tabs import Tabs
from tests.serve.asgi import ask
from tests.serve.hostile import chat, fill, hang, hang_for_slow, hoard, refuse

SHOW = "show: {title: Gala}\nchannels: {1: {role: VERA, by: Ann, mhz: 486.200}}\n"


@pytest.fixture
def bench():
    made = Bench()
    yield made
    made.close()


def test_what_is_given_aside_comes_back_and_so_does_what_it_raises(bench):
    assert bench.run("a", chat, ("x",), 60) == "done"
    first = bench._idle[0]
    assert bench.run("a", len, ("four",), 60) == 4 and bench._idle == [first]
    with pytest.raises(Refused) as refused:
        bench.run("b", refuse, ("show.yaml",), 60)
    assert refused.value.finding.code == "file-missing"
    with pytest.raises(OutputError) as full:
        bench.run("b", fill, ("x",), 60)
    assert (full.value.text, full.value.fix) == ("the disk is full", "free some") and bench._idle == [first]


@pytest.mark.parametrize("act", (hang, hoard))
def test_a_process_beyond_its_budget_is_ended_and_another_goes_on(bench, act, monkeypatch):
    bench.prepare()
    hostile = bench._idle[0]
    with pytest.raises(OverBudget) as over:
        bench.run("a", act, (), 60 if act is hoard else 1)
    assert over.value.show == "a" and "2000 MB" in str(over.value)
    assert not hostile.is_alive and bench._idle == []
    assert bench.run("b", len, ("four",), 60) == 4


def test_no_more_wait_than_are_kept_and_those_of_a_show_are_taken_for_it(bench):
    for _ in range(room.KEPT + 1):
        bench.prepare()
    assert len(bench._idle) == room.KEPT
    for show in ("a", "b", "a"):
        bench.run(show, len, ("x",), 60)
        assert bench._idle[0].show == show
    assert {one.show for one in bench._idle} == {"a", "b"}


def test_closing_ends_what_is_under_way(bench):
    said = []

    def wait():
        try:
            bench.run("a", hang, (), 300)
        except OverBudget as over:
            said.append(over.show)

    waiting = Thread(target=wait)
    waiting.start()
    while not bench._busy:
        pass
    bench.close()
    waiting.join(60)
    assert said == ["a"] and bench._busy == bench._idle == []


def test_a_process_ends_with_what_gives_it_work():
    process = room._Process()
    process._to.close()
    assert process._popen.wait(60) == 0
    process.end()


def make_page(folder: Path, bench: Bench | None):
    numbers = itertools.count(1)

    async def make():
        shelf = Shelf(folder, lambda: f"show{next(numbers)}")
        shelf.bench = bench
        return make_app(shelf, "secret", Tabs())

    return anyio.run(make)


def open_file(app, name: str):
    return ask(app, "/secret/open", method="POST", body=f"name={name}".encode())


def test_the_page_with_and_without_other_processes_is_one(bench, tmp_path):
    for name in ("show.yaml", "old.yaml"):
        (tmp_path / name).write_text(SHOW.replace("486", "487" if name == "old.yaml" else "486"))
    told = []
    for app in (make_page(tmp_path, None), make_page(tmp_path, bench)):
        open_file(app, "show.yaml")
        post = [
            ask(app, f"/secret/shows/show1/{path}", method="POST", body=body)
            for path, body in (("print", b""), ("compare", b"name=old.yaml"), ("since", b""))
        ]
        pages = [
            ask(app, f"/secret/shows/show1/{path}")
            for path in ("", "papers/rack/channel-chart.pdf", "pocket/rack.html", "progress")
        ]
        told.append([(one.status, one.body) for one in (*post, *pages)])
    assert told[0] == told[1] and {status for status, _ in told[0]} == {200, 303}


def test_a_file_that_takes_too_long_is_said_and_stops_no_other(bench, tmp_path, monkeypatch):
    """While one file is being opened, which would take for ever, another is opened, shown and printed. It is `file-heavy`."""
    (tmp_path / "show.yaml").write_text(SHOW)
    (tmp_path / "slow.yaml").write_text(SHOW)
    monkeypatch.setattr("paperwork.serve.shows._read_anew", hang_for_slow)
    monkeypatch.setattr(limits, "READ_SECONDS", 600)
    app = make_page(tmp_path, bench)
    answers, order = {}, []

    async def both():
        async def slow():
            answers["slow"] = await anyio.to_thread.run_sync(open_file, app, "slow.yaml")
            order.append("slow")

        async def other():
            answers["open"] = await anyio.to_thread.run_sync(open_file, app, "show.yaml")
            go = answers["open"].headers["location"]
            answers["print"] = await anyio.to_thread.run_sync(lambda: ask(app, f"{go}print", method="POST", body=b""))
            answers["page"] = await anyio.to_thread.run_sync(ask, app, go)
            order.append("other")
            bench.close()  # ends the one that hangs, however long it may

        async with anyio.create_task_group() as tasks:
            tasks.start_soon(slow)
            tasks.start_soon(other)

    anyio.run(both)
    assert order == ["other", "slow"]
    assert b"channel-chart" in answers["page"].body and answers["print"].status == 303
    slow = ask(app, answers["slow"].headers["location"]).body
    assert b"slow.yaml takes more than 600 s or 2000 MB to read" in slow and b"far too large" in slow


def test_papers_that_take_too_long_are_said_on_the_page_of_their_show(bench, tmp_path, monkeypatch):
    monkeypatch.setattr("paperwork.serve.shows._make_papers", hoard)
    (tmp_path / "show.yaml").write_text(SHOW)
    app = make_page(tmp_path, bench)
    open_file(app, "show.yaml")
    html = {"accept": "text/html"}
    told = ask(app, "/secret/shows/show1/print", method="POST", body=b"", headers=html)
    assert told.status == 400 and b"This takes more than 900 s or 2000 MB" in told.body
    assert b"<html" in told.body and b"command line" in told.body
    bare = ask(app, "/secret/shows/show1/print", method="POST", body=b"")
    assert bare.status == 400 and b"<html" not in bare.body


SPENDS = """
import sys
from paperwork import cli, limits
limits.COMMAND_SECONDS, limits.COMMAND_BYTES = 60 * (sys.argv[1] == "hoard") or 1, 300_000_000
import paperwork.commands.check as check
from tests.serve.hostile import hoard
def spend(*_, **__):
    if sys.argv.pop() == "hoard": hoard()
    while True: pass
check.command.callback = spend
cli.main(["check", "show.yaml"])
"""


@pytest.mark.skipif(sys.platform == "win32", reason="the system holds nobody to a limit")
@pytest.mark.parametrize("how", ("hoard", "spin"))
def test_a_command_beyond_its_budget_ends_with_plain_words(how):
    told = subprocess.run([sys.executable, "-c", SPENDS, how], capture_output=True, text=True, check=False)
    assert told.returncode == 2 and told.stdout == ""
    assert told.stderr.startswith("this takes more than") and "or 300 MB" in told.stderr
    assert "Traceback" not in told.stderr
