"""Big events through check, build, changes and archive: processor time, peak memory, and how both grow."""

import sys
import tempfile
from collections.abc import Iterator
from pathlib import Path

from tests.benchmarks.table import Row, Run, milliseconds, run_once
from tests.big_events import big_event

GROWTH = (120, 240, 480)
CHECKED = (250, 600, 1_000, 5_000)


def measure() -> Iterator[Row]:
    """Checks up to the limit, papers of growing events, and the rest of the commands on a thousand channels."""
    with tempfile.TemporaryDirectory() as place:
        folder = Path(place)
        yield from _grow(folder, "check", CHECKED)
        yield from _grow(folder, "build", GROWTH)
        thousand = folder / "1000.yaml"
        thousand.write_text(big_event(1_000))
        later = folder / "later.yaml"
        later.write_text(big_event(1_000).replace("Singer 0007", "Somebody Else").replace("revision: B", "revision: C"))
        for what, command in (
            ("`build` of 1,000 channels x 200 sets", ("build", str(thousand), "-o", str(folder / "papers"))),
            ("`changes` between two revisions of it", ("changes", str(thousand), str(later))),
            ("`archive` of it, with all its papers", ("archive", str(thousand), "-o", str(folder / "kept.zip"))),
            ("`verify` of that archive", ("verify", str(folder / "kept.zip"))),
        ):
            yield _row(what, _run(*command))


def _grow(folder: Path, command: str, sizes: tuple[int, ...]) -> Iterator[Row]:
    """One command on events of growing size, each against the one before: channels and time."""
    before: tuple[int, Run] | None = None
    for channels in sizes:
        show = folder / f"{channels}.yaml"
        show.write_text(big_event(channels, 100 if channels > 2_500 else 200))
        output = ("-o", str(folder / "papers")) if command == "build" else ()
        run = _run(command, str(show), *output)
        against = f"{before[0]:,} channels; channels grew by {channels / before[0]:.1f}" if before else ""
        yield _row(
            f"`{command}` of {channels:,} channels", run, run.cpu_s / before[1].cpu_s if before else None, against
        )
        before = channels, run


def _run(*arguments: str) -> Run:
    return run_once([sys.executable, "-m", "paperwork", *arguments])


def _row(what: str, run: Run, ratio: float | None = None, against: str = "") -> Row:
    return Row(what, f"{milliseconds(run.cpu_s)}, {run.peak_mb} MB", ratio, against)
