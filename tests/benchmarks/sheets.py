"""How long `check` takes over a beloved workbook and over files that would hang a careless reader, and in how much memory.

Run `python -m tests.benchmarks.sheets`. Processor time and peak memory of the whole process, smallest of three runs.
"""

import os
import subprocess
import sys
import tempfile
from pathlib import Path

from tests.intake.beloved import make_beloved
from tests.intake.test_hostile import FILES

RUNS = 3


def measure(path: Path) -> tuple[float, int]:
    """Processor seconds and peak kilobytes of one check of a file."""
    taken = []
    for _ in range(RUNS):
        process = subprocess.Popen(
            [sys.executable, "-m", "paperwork", "check", path.name], cwd=path.parent, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL
        )
        _, _, usage = os.wait4(process.pid, 0)
        taken.append((usage.ru_utime + usage.ru_stime, usage.ru_maxrss))
    return min(taken)


def main() -> None:
    """Print one line for each file."""
    files = {"a beloved workbook": ("list.xlsx", make_beloved(), ""), **FILES}
    with tempfile.TemporaryDirectory() as folder:
        for what, (name, data, _) in files.items():
            path = Path(folder) / name
            path.write_bytes(data)
            seconds, kilobytes = measure(path)
            print(f"{seconds:6.2f} s  {kilobytes / 1024:6.0f} MB  {what}")
            path.unlink()


if __name__ == "__main__":
    main()
