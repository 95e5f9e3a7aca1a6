"""One process that is fed inputs, and the one that starts it again where an input ended it."""

import contextlib
import faulthandler
import io
import json
import os
import shutil
import subprocess
import sys
import tempfile
import traceback
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

from tests.fuzz.guard import (
    SEARCH_SECONDS,
    SECONDS,
    Broken,
    Guard,
    Hang,
    bound_memory,
    digest_tree,
    judge_leftovers,
    make_room,
)
from tests.fuzz.guests import run_visits
from tests.fuzz.seeds import load_seeds
from tests.fuzz.ways import Try, throw

WALL_S = 120
"""After which a process is ended from outside, on however slow a machine."""


@dataclass(frozen=True, slots=True)
class Fault:
    """An input that broke what must hold."""

    number: int
    way: str
    text: str


class Runner:
    """Feeds inputs to this process. Make only one: its guard stays."""

    def __init__(self) -> None:
        self._guard = Guard()
        self._room = make_room()
        os.environ.update(PAPERWORK_TRACEBACK="1", NO_COLOR="1", SOURCE_DATE_EPOCH="1800000000", HOME=str(self._room))
        self._seeds = load_seeds()
        bound_memory()

    def close(self) -> None:
        """Takes the folder away."""
        shutil.rmtree(self._room, ignore_errors=True)

    def run(self, seed: int, number: int, only: str = "", keep: Path | None = None) -> Fault | None:
        """One input; None if all held."""
        way, case = throw(self._seeds, seed, number, only)
        if keep:
            _keep(case, keep)
        try:
            self.judge(case)
        except Hang as hang:
            return Fault(number, way, f"{hang}: {_where(hang)}")
        except BaseException as error:  # noqa: BLE001  whatever comes out is what is looked for
            return Fault(number, way, f"{type(error).__name__}: {str(error)[:300]} {_where(error)}")
        return None

    def judge(self, case: Try) -> None:
        """Runs one input in a fresh folder. Raises whatever must not be."""
        for name in ("in", "out", "tmp"):
            shutil.rmtree(self._room / name, ignore_errors=True)
            (self._room / name).mkdir()
        for folder, files in (("in", case.files), ("out", case.lying)):
            for name, data in files.items():
                (self._room / folder / name).write_bytes(data)
        tempfile.tempdir = str(self._room / "tmp")
        os.chdir(self._room)
        before = digest_tree(self._room / "in")
        with self._guard.watch(self._room, SEARCH_SECONDS if case.argv[:1] in (("survey",), ("assign",)) else SECONDS):
            if case.visits:
                code = run_visits(case.visits)
            else:
                code = run_command(case) if case.argv else run_requests(case, self._room / "in")
        if code not in (0, 1, 2):
            raise Broken(f"exit code {code}")
        if case.argv:
            judge_leftovers(self._room, case.argv, code, before, case.lying)


def run_command(case: Try) -> int:
    """The exit code of the command, as the shell would have it. Whatever it prints must be text that a terminal takes."""
    from paperwork.cli import main

    old = sys.stdin
    sys.stdin = io.StringIO(case.typed)
    said = io.TextIOWrapper(io.BytesIO(), encoding="utf-8")
    try:
        with contextlib.redirect_stdout(said), contextlib.redirect_stderr(said):
            main(list(case.argv))
    except SystemExit as ended:
        said.flush()
        _judge_words(said.buffer.getvalue().decode("utf-8"))
        return ended.code if isinstance(ended.code, int) else 2
    finally:
        sys.stdin = old
    raise Broken("the command did not end")


def _judge_words(said: str) -> None:
    bad = [
        sign
        for sign in said
        if (ord(sign) < 32 and sign not in "\n\t")
        or 0x7F <= ord(sign) < 0xA0
        or sign in "\u202a\u202b\u202d\u202e\u2066\u2067\u2068"
    ]
    if bad:
        raise Broken(f"signs that a terminal obeys are printed: {sorted(set(bad))!r}")
    if "Traceback" in said:
        raise Broken("a traceback is printed")


def run_requests(case: Try, folder: Path) -> int:
    """2 if any request was refused, else 0. Raises Broken for an answer of 500 and above."""
    import itertools

    import anyio

    from paperwork.serve.app import make_app
    from paperwork.serve.guard import Guard as PageGuard
    from paperwork.serve.shelf import Shelf
    from paperwork.serve.tabs import Tabs
    from tests.serve.asgi import HOST, KEYS, ask

    numbers = itertools.count(1)

    async def make():
        return make_app(Shelf(folder, lambda: f"show{next(numbers)}"), "secret", Tabs())

    app, here, refused = PageGuard(anyio.run(make), HOST, KEYS), "shows/show1/", 0
    for request in case.requests:
        path = "/secret/" + request.path.replace("{here}", here)
        answer = ask(app, path, method=request.method, body=request.body, headers=dict(request.headers))
        refused |= answer.status >= 400
        if answer.status >= 500:
            raise Broken(f"{request.method} {path} was answered {answer.status}")
        here = next((f"shows/show{n}/" for n in range(9, 0, -1) if f"/shows/show{n}/".encode() in answer.body), here)
    return 2 if refused else 0


def _keep(case: Try, folder: Path) -> None:
    for name, data in case.files.items():
        folder.mkdir(parents=True, exist_ok=True)
        (folder / name).write_bytes(data)
    told = {
        "argv": case.argv,
        "typed": case.typed,
        "requests": [repr(one)[:2000] for one in case.requests],
        "lying": {k: repr(v) for k, v in case.lying.items()},
    }
    (folder / "case.json").write_text(json.dumps(told, indent=1, ensure_ascii=True))


def _where(error: BaseException) -> str:
    """The deepest frame of ours, and the last of all."""
    frames = traceback.extract_tb(error.__traceback__)
    ours = [frame for frame in frames if "/paperwork/" in frame.filename]
    told = [
        f"{Path(frame.filename).parent.name}/{Path(frame.filename).name}:{frame.lineno} {frame.name}"
        for frame in (*ours[-2:], *frames[-1:])
    ]
    return "[" + " < ".join(dict.fromkeys(reversed(told))) + "]"


def feed(seed: int, start: int, stop: int, only: str) -> None:
    """The child: a line before each input, a line for each fault, so that its end tells at which it was."""
    runner = Runner()
    out = os.fdopen(os.dup(1), "w", buffering=1)
    try:
        for number in range(start, stop):
            out.write(f"at {number}\n")
            faulthandler.dump_traceback_later(WALL_S, exit=True)
            fault = runner.run(seed, number, only)
            faulthandler.cancel_dump_traceback_later()
            if fault:
                out.write("fault " + json.dumps([fault.number, fault.way, fault.text]) + "\n")
                if fault.text.startswith(("more time", "MemoryError")):
                    out.flush()
                    os._exit(9)  # a thread may still be at it
    finally:
        runner.close()
    out.write("done\n")
    out.flush()
    os._exit(0)


def run_all(seed: int, start: int, stop: int, only: str = "", batch: int = 2_000) -> Iterator[Fault | int]:
    """Each fault, and now and then how far it is. A child that dies is a fault too, and the next goes on behind it."""
    at = start
    while at < stop:
        end = min(stop, at + batch)
        command = [sys.executable, "-m", "tests.fuzz", "--feed", f"{seed},{at},{end}", "--way", only]
        child = subprocess.Popen(command, stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True)
        is_done, told, reached = False, False, at
        for line in child.stdout or ():
            word, _, rest = line.rstrip("\n").partition(" ")
            if word == "at":
                reached, told = int(rest), False
            elif word == "fault":
                told = True
                yield Fault(*json.loads(rest))
            is_done |= word == "done"
        error = (child.stderr.read() if child.stderr else "")[-1500:]
        child.wait()
        if not is_done and not told:
            yield Fault(reached, "", f"the process died with {child.returncode}: {error}")
        at = end if is_done else reached + 1
        yield at
