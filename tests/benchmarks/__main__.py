"""All benchmarks as one table: `python -m tests.benchmarks [part ...] [--solver]`.

Parts: processes, events, papers, radio_counts, files, editing. None is a test: nothing here fails for being slow. Trust the ratios; the
milliseconds are of one machine. `--solver` adds channels placed by `assign` against a constraint solver, which takes
about ten minutes and needs the extra `bench`.
"""

import sys
from importlib import import_module

from tests.benchmarks.table import print_rows

PARTS = {
    "processes": "Whole commands, by the clock",
    "events": "Big events: processor time and peak memory of the process",
    "papers": "Papers",
    "radio_counts": "Products",
    "files": "Files of others",
    "editing": "Edits on the page",
}
"""The parts and their titles. Each is loaded when its turn comes: what is large here would count as memory of the commands."""


def main(arguments: list[str]) -> None:
    """Print the parts that are asked for, or all."""
    print(f"Python {sys.version.split()[0]}")
    for name in [name for name in arguments if name in PARTS] or PARTS:
        print_rows(PARTS[name], import_module(f"tests.benchmarks.{name}").measure())
    if "--solver" in arguments:
        from tests.benchmarks import radio_assign

        radio_assign.main([])


if __name__ == "__main__":
    main(sys.argv[1:])
