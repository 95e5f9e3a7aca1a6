"""`check` over a beloved workbook and over files that would hang a careless reader: processor time."""

import sys
import tempfile
from collections.abc import Iterator
from pathlib import Path

from tests.benchmarks.table import Row, milliseconds, run_once
from tests.intake.beloved import make_beloved
from tests.intake.test_hostile import FILES


def measure() -> Iterator[Row]:
    """One row for each file."""
    files = {"a beloved workbook": ("list.xlsx", make_beloved(), ""), **FILES}
    with tempfile.TemporaryDirectory() as folder:
        for what, (name, data, _) in files.items():
            path = Path(folder) / name
            path.write_bytes(data)
            run = run_once([sys.executable, "-m", "paperwork", "check", str(path)])
            yield Row(f"`check` of {what}", milliseconds(run.cpu_s))
            path.unlink()
