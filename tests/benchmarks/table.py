"""Figures that are measured, and how they are printed."""

import os
import statistics
import subprocess
import time
from collections.abc import Callable, Iterable, Mapping, Sequence
from typing import NamedTuple


class Row(NamedTuple):
    """One figure: what was measured, how much, how many times the reference, what the reference is, what is wanted."""

    what: str
    figure: str
    ratio: float | None = None
    against: str = ""
    aim: str = ""


class Run(NamedTuple):
    """One run of a command: seconds by the clock and of the processor, and its peak in megabytes."""

    clock_s: float
    cpu_s: float
    peak_mb: int


def print_rows(title: str, rows: Iterable[Row]) -> None:
    """A heading, and a line for each figure as soon as it is known."""
    print(f"\n{title}\n", flush=True)
    print("| what | median | ratio | against | aim |\n|---|---|---|---|---|")
    for row in rows:
        ratio = "" if row.ratio is None else f"{row.ratio:.2f}" if row.ratio < 10 else f"{row.ratio:.1f}"
        print(f"| {row.what} | {row.figure} | {ratio} | {row.against} | {row.aim} |", flush=True)


def milliseconds(seconds: float) -> str:
    """The time as it is printed."""
    return f"{seconds * 1_000:,.0f} ms" if seconds < 10 else f"{seconds:,.1f} s"


def median_s(work: Callable[[], object], rounds: int = 7) -> float:
    """The median processor time of several rounds, so that other programs count little."""
    return statistics.median(time_s(work) for _ in range(rounds))


def compare(ours: Callable[[], object], bare: Callable[[], object], rounds: int = 9) -> tuple[float, float]:
    """The median processor time of ours, and the median of its ratios to the bare work done just after it."""
    pairs = [(time_s(ours), time_s(bare)) for _ in range(rounds)]
    return statistics.median(own for own, _ in pairs), statistics.median(own / drawn for own, drawn in pairs)


def time_s(work: Callable[[], object]) -> float:
    """Processor seconds of one round."""
    began = time.process_time()
    work()
    return time.process_time() - began


def run_in_turns(commands: Mapping[str, Sequence[str]], cache: str, rounds: int = 7) -> dict[str, Run]:
    """Medians of each command, run in turns so that a drifting clock hits all alike; the first round does not count.

    Byte code is cached in a folder of its own and warm, as it is on a user's machine from the second run on.
    """
    environment = {name: value for name, value in os.environ.items() if name != "PYTHONDONTWRITEBYTECODE"}
    environment["PYTHONPYCACHEPREFIX"] = cache
    runs: dict[str, list[Run]] = {name: [] for name in commands}
    for turn in range(rounds + 1):
        for name, command in commands.items():
            run = run_once(command, environment)
            if turn:
                runs[name].append(run)
    return {name: Run(*map(statistics.median, zip(*own, strict=True))) for name, own in runs.items()}


def run_once(command: Sequence[str], environment: Mapping[str, str] | None = None) -> Run:
    """One run of a command, whatever its exit code."""
    began = time.perf_counter()
    process = subprocess.Popen(command, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL, env=environment)
    _, _, usage = os.wait4(process.pid, 0)
    return Run(time.perf_counter() - began, usage.ru_utime + usage.ru_stime, usage.ru_maxrss // 1_024)
