"""Heavy work on shows, done aside: in processes of their own, each ended where it takes more than its budget.

So one file never stops the others, whatever is in it. A process is kept and used again, for the same show if it can be:
it holds what it printed of it.
"""

import os
import pickle
import subprocess
import sys
from collections.abc import Callable
from contextlib import suppress
from threading import Lock, Timer
from typing import Any

from paperwork import limits

KEPT = 2
"""Processes that wait for work; each holds some 60 MB."""

Note = Callable[[str, int], None]


class OverBudget(Exception):
    """Work that took more time or memory than it may. `show` is the id of the show that it was done for."""

    def __init__(self, show: str, seconds: int) -> None:
        self.show = show
        self.most = f"{seconds} s or {limits.WORK_BYTES // 1_000_000} MB"
        super().__init__(
            f"This takes more than {self.most}. Print a part of it, or use `paperwork` on the command line, which has more room."
        )


class Bench:
    """The processes that work is given to."""

    def __init__(self) -> None:
        self._lock = Lock()
        self._idle: list[_Process] = []
        self._busy: list[_Process] = []
        self._is_closed = False

    def prepare(self) -> None:
        """Starts a process, so that the first file does not wait for it."""
        self._put_back(_Process())

    def run(
        self, show: str, act: Callable[..., Any], values: tuple[Any, ...], seconds: int, note: Note = lambda *_: None
    ) -> Any:
        """What `act` gives for the values, or raises. `note` hears how far it is. Raises OverBudget."""
        process = self._take(show)
        try:
            done, result = process.do(show, act, values, seconds, note)
        except BaseException:
            process.end()
            raise
        finally:
            with self._lock:
                self._busy.remove(process)
        if done == "memory":
            process.end()
            raise OverBudget(show, seconds)
        self._put_back(process)
        if done == "raised":
            raise result
        return result

    def close(self) -> None:
        """Ends all, what they are at too."""
        with self._lock:
            self._is_closed = True
            idle, self._idle = self._idle, []
            for process in self._busy:
                process.kill()
        for process in idle:
            process.end()

    def _take(self, show: str) -> "_Process":
        with self._lock:
            own = next((one for one in self._idle if one.show == show), self._idle[-1] if self._idle else None)
            if own:
                self._idle.remove(own)
            process = own if own and own.is_alive else _Process()
            self._busy.append(process)
        if own and own is not process:
            own.end()
        return process

    def _put_back(self, process: "_Process") -> None:
        with self._lock:
            self._idle.insert(0, process)
            kept = 0 if self._is_closed else KEPT
            over = self._idle[kept:]
            del self._idle[kept:]
        for one in over:
            one.end()


class _Process:
    """One process, which does one thing after the other."""

    def __init__(self) -> None:
        self.show = ""
        self._is_ended = False
        self._popen = subprocess.Popen(
            [sys.executable, "-P", "-m", "paperwork.serve.aside.child"],
            stdin=subprocess.PIPE,
            stdout=subprocess.PIPE,
            stderr=subprocess.DEVNULL,
            env={**os.environ, "PYTHONPATH": os.pathsep.join(filter(None, sys.path))},
        )
        assert self._popen.stdin and self._popen.stdout
        self._to, self._from = self._popen.stdin, self._popen.stdout

    @property
    def is_alive(self) -> bool:
        """Whether it can be given work: one that was just ended may still look as if it ran."""
        return not self._is_ended and self._popen.poll() is None

    def do(
        self, show: str, act: Callable[..., Any], values: tuple[Any, ...], seconds: int, note: Note
    ) -> tuple[str, Any]:
        """Raises OverBudget where the process ended, which it does at the latest after so many seconds, or says what
        is not a message."""
        self.show = show
        timer = Timer(seconds, self.kill)
        timer.start()
        try:
            with suppress(OSError):  # one that has ended hears nothing, and says nothing either
                pickle.dump((show, act, values, seconds), self._to)
                self._to.flush()
            while message := self._hear():
                if message[0] != "progress":
                    return message
                note(*message[1])
            raise OverBudget(show, seconds)
        finally:
            timer.cancel()
            timer.join()  # from here on nobody ends it for this work

    def _hear(self) -> tuple[str, Any] | None:
        """The next message; None where it has ended, in the middle of one too, or said something else."""
        try:
            message = pickle.load(self._from)
        except Exception:  # noqa: BLE001  what comes of bytes that are no message can be anything
            return None
        match message:
            case ("done" | "memory" as done, result) | ("raised" as done, Exception() as result):
                return done, result
            case ("progress" as done, (str(), int()) as result):
                return done, result
        return None

    def kill(self) -> None:
        """Ends it at once, for whoever waits for it."""
        self._is_ended = True
        self._popen.kill()

    def end(self) -> None:
        """Ends it at once, and lets go of it."""
        self.kill()
        self._popen.wait()
        for pipe in (self._to, self._from):
            with suppress(OSError):  # what was not taken any more
                pipe.close()
