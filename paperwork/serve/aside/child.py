"""The other end of `bench`: a process that does what it is given, until there is nothing more, or until it is ended."""

import os
import pickle
import sys
from threading import Timer
from typing import Any, BinaryIO

from paperwork import limits
from paperwork.budget import limit_memory, search_garbage_seldom
from paperwork.render.pdf.press import Press
from paperwork.serve.shows import Opened

GRACE_S = 5
"""How much longer than its budget it lives where nobody is there any more to end it."""


def serve_work(source: BinaryIO, target: BinaryIO) -> None:
    """Does each thing that comes from `source`, and says to `target` what came of it."""

    def say(done: str, result: Any) -> None:
        try:
            data = pickle.dumps((done, result))
            if done == "raised":
                pickle.loads(data)  # some exceptions can be put into bytes, and not be made of them again
        except Exception as error:
            data = pickle.dumps(("raised", RuntimeError(f"{type(error).__name__}: {error}; {result!r:.500}")))
        target.write(data)
        target.flush()

    held: tuple[str, Press] | None = None
    while True:
        try:
            show, act, values, seconds = pickle.load(source)
            timer = Timer(seconds + GRACE_S, os._exit, (1,))
        except Exception:  # nothing more, or what is no work
            return
        timer.daemon = True
        timer.start()
        if not held or held[0] != show:
            held = show, Press()
        press = held[1]
        press.report = lambda path, left: say("progress", (path, left))
        for value in values:
            if isinstance(value, Opened):
                value.press = press
        try:
            say("done", act(*values))
        except MemoryError:
            say("memory", None)
        except Exception as error:
            say("raised", error)
        timer.cancel()


def main() -> None:
    """What is printed by others must not come between."""
    target = os.fdopen(os.dup(sys.stdout.fileno()), "wb")
    os.dup2(sys.stderr.fileno(), sys.stdout.fileno())
    limit_memory(limits.WORK_BYTES)
    search_garbage_seldom()
    serve_work(sys.stdin.buffer, target)


if __name__ == "__main__":
    main()
