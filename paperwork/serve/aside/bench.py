"""Heavy work on shows, done aside: in processes of their own, each of which is ended where it takes more than its budget.

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

    def prepare(self) -> None:
        """Starts a process, so that the first file does not wait for it."""
        self._put_back(_Process())

    def run(
        self, show: str, act: Callable[..., Any], values: tuple[Any, ...], seconds: int, note: Note = lambda *_: None
    ) -> Any:
        """What `act` gives for the values, or raises. `note` is told how far it is. Raises OverBudget."""
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
        return process

    def _put_back(self, process: "_Process") -> None:
        with self._lock:
            self._idle.insert(0, process)
            over = self._idle[KEPT:]
            del self._idle[KEPT:]
        for one in over:
            one.end()


class _Process:
    """One process, which does one thing after the other."""

    def __init__(self) -> None:
        self.show = ""
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
        return self._popen.poll() is None

    def do(
        self, show: str, act: Callable[..., Any], values: tuple[Any, ...], seconds: int, note: Note
    ) -> tuple[str, Any]:
        """Raises OverBudget where the process ended, which it does at the latest after so many seconds."""
        self.show = show
        timer = Timer(seconds, self._popen.kill)
        timer.start()
        try:
            pickle.dump((show, act, values, seconds), self._to)
            self._to.flush()
            while True:
                done, result = pickle.load(self._from)
                if done != "progress":
                    return done, result
                note(*result)
        except (EOFError, OSError, pickle.UnpicklingError):
            raise OverBudget(show, seconds) from None
        finally:
            timer.cancel()

    def kill(self) -> None:
        """Ends it at once, for whoever waits for it."""
        self._popen.kill()

    def end(self) -> None:
        """Ends it at once, and lets go of it."""
        self._popen.kill()
        self._popen.wait()
        for pipe in (self._to, self._from):
            with suppress(OSError):  # what was not taken any more
                pipe.close()
