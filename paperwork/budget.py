"""What this process may take of its machine, where the system can hold it to that: behind the bounds of each field."""

import gc
import signal
import sys
from collections.abc import Callable
from contextlib import suppress


def search_garbage_seldom() -> None:
    """Looks for garbage less often than Python does by itself, and not in what was loaded while nobody looked. What is
    read and laid out of a show is many small objects that stay: searching them again and again was a third of the time
    of a comparison. Measured; the least memory for most of it."""
    if not gc.isenabled():
        gc.freeze()
    gc.set_threshold(4_000, 10, 10)
    gc.enable()


def keep_what_is_there() -> None:
    """Takes what is there, modules and a show that was read, for no garbage: of a command that goes on to make much beside it,
    a twentieth of the time (measured)."""
    gc.freeze()


def limit_memory(most: int) -> None:
    """Holds this process to so many bytes where the system can: more is a MemoryError. A lower limit stays."""
    if sys.platform != "win32":
        import resource

        _lower(resource.RLIMIT_DATA, most)


def limit_time(seconds: int, over: Callable[[int, object], None]) -> None:
    """Calls `over` once this process has had so many seconds of a processor, where the system can tell."""
    if sys.platform != "win32":
        import resource

        def answer(number: int, frame: object) -> None:
            hard = resource.getrlimit(resource.RLIMIT_CPU)[1]
            resource.setrlimit(resource.RLIMIT_CPU, (hard, hard))  # the system would ask again every second
            over(number, frame)

        if _lower(resource.RLIMIT_CPU, seconds):
            signal.signal(signal.SIGXCPU, answer)


def _lower(limit: int, most: int) -> bool:
    """Whether a limit of the system is lowered now."""
    if sys.platform != "win32":
        import resource

        soft, hard = resource.getrlimit(limit)
        if soft == resource.RLIM_INFINITY or soft > most:
            with suppress(OSError, ValueError):  # not every system has every limit
                resource.setrlimit(limit, (most, hard))
                return True
    return False
