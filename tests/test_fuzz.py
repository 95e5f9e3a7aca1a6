"""Three thousand spoiled inputs by every way in; the long run is `python -m tests.fuzz`. The guard itself is tried too."""

import json
import os
import subprocess
import sys
from pathlib import Path
from random import Random

import anyio
import pytest
from starlette.responses import PlainTextResponse

from paperwork.serve.app import make_app
from paperwork.serve.shelf import Shelf
from paperwork.serve.tabs import Tabs
from tests.fuzz.requests import STEPS
from tests.fuzz.seeds import load_seeds
from tests.fuzz.ways import WAYS, throw

ROOT = Path(__file__).resolve().parent.parent

PROBES = {
    "a file of the user is written": "open(outside, 'w').close()",
    "a file of the user is read": "open('/etc/hostname').read()",
    "a file of the user is removed": "os.remove(outside)",
    "a folder is made elsewhere": "os.mkdir(outside + '.d')",
    "a file leaves the folder by a link": "os.symlink(os.path.dirname(outside), 'out/l'); open('out/l/x', 'w').close()",
    "a file leaves the folder by name": "open('out/../../x', 'w').close()",
    "somebody is called": "socket.create_connection(('192.0.2.1', 9), 0.1)",
    "a name is looked up": "socket.getaddrinfo('example.invalid', 80)",
    "a program is started": "subprocess.run(['true'])",
    "memory is taken": "bytearray(450_000_000)",
    "it does not end": "[None for _ in iter(int, 1)]",
}
"""What the guard must see, each as code that does it."""


def feed(*arguments: str) -> subprocess.CompletedProcess[str]:
    return subprocess.run(
        [sys.executable, "-m", "tests.fuzz", *arguments], cwd=ROOT, capture_output=True, text=True, check=False
    )


@pytest.mark.sweep
def test_three_thousand_spoiled_inputs_break_nothing():
    told = feed("--inputs", "3000", "--seed", "4711")
    assert told.returncode == 0, told.stdout[-3000:] + told.stderr[-1000:]


def test_every_way_in_is_taken_and_the_same_number_is_the_same_input():
    seeds = load_seeds()
    thrown = [throw(seeds, 1, number) for number in range(400)]
    assert {way for way, _ in thrown} == {way.__name__ for way, _ in WAYS}
    assert [throw(seeds, 1, number) for number in range(0, 400, 7)] == thrown[::7]


@pytest.mark.parametrize("what", PROBES)
def test_the_guard_sees(what, tmp_path):
    code = f"""
import os, socket, subprocess
from pathlib import Path
from tests.fuzz import guard
guard.SECONDS = 1
room = Path({str(tmp_path)!r}) / "room"
for name in ("in", "out", "tmp"):
    (room / name).mkdir(parents=True)
os.chdir(room)
outside = {str(tmp_path / "outside")!r}
seen = guard.Guard()
try:
    with seen.watch(room):
        try:
            {PROBES[what]}
        except OSError:
            pass
except (guard.Broken, guard.Hang) as fault:
    print("seen", fault)
"""
    environment = {**os.environ, "PYTHONPATH": str(ROOT)}
    told = subprocess.run(
        [sys.executable, "-c", code], cwd=tmp_path, capture_output=True, text=True, env=environment, check=False
    )
    assert told.stdout.startswith("seen"), told.stderr


def test_half_a_set_of_papers_is_seen(tmp_path):
    from tests.fuzz.guard import Broken, judge_leftovers

    for name in ("in", "out/rack", "tmp"):
        (tmp_path / name).mkdir(parents=True)
    judge_leftovers(tmp_path, ("build",), 0, {}, {})
    (tmp_path / "out/.paperwork-manifest.json").write_text(json.dumps({"files": {"index.html": "0"}}))
    (tmp_path / "out/rack/chart.pdf").write_bytes(b"%PDF-1.7")
    for code in (0, 2):
        with pytest.raises(Broken):
            judge_leftovers(tmp_path, ("build",), code, {}, {})


def test_a_process_that_dies_is_told_and_the_rest_still_runs(monkeypatch):
    from tests.fuzz import runner

    script = "import os,sys; print('at 5'); sys.stdout.flush(); os._exit(7)"
    calls = []

    def start(command, **options):
        calls.append(command)
        code = script if len(calls) == 1 else "print('at 6'); print('done')"
        return popen([sys.executable, "-c", code], **options)

    popen = subprocess.Popen
    monkeypatch.setattr(runner.subprocess, "Popen", start)
    told = list(runner.run_all(1, 5, 7))
    assert told[0].number == 5 and "died with 7" in told[0].text and told[1:] == [6, 7]


def test_every_address_below_a_show_is_asked_for(tmp_path):
    async def make():
        return make_app(Shelf(tmp_path, lambda: "1"), "x", Tabs())

    (token,) = anyio.run(make).routes
    (shows,) = (one for one in token.routes if one.path == "/shows/{id}")
    tried_as_commands = {"/search/begin", "/audit/drop"}
    routes = [one for one in shows.routes if one.path not in tried_as_commands]
    assert len(routes) > 30
    assert [one.path for one in routes if not any(one.path_regex.match(f"/{step}") for step in STEPS)] == []


@pytest.mark.parametrize(
    ("broken", "instead"),
    (
        ("paperwork.serve.guard.Guard._doubt", lambda guard, given: ""),
        ("paperwork.serve.guard.Guard._refusal", lambda guard, scope: ""),
        ("paperwork.serve.share.lent.make_reply", lambda data, path: PlainTextResponse(b"channels: " + data[:9])),
    ),
)
def test_a_guest_who_is_let_in_or_reads_too_much_is_seen(broken, instead, monkeypatch):
    from tests.fuzz.guard import Broken
    from tests.fuzz.guests import make_visits, run_visits

    cases = [make_visits(Random(number)) for number in range(60)]
    assert {run_visits(case) for case in cases} == {0, 2}
    monkeypatch.setattr(broken, instead)
    with pytest.raises(Broken):
        [run_visits(case) for case in cases]
