"""Eight window sizes at a fixed effort: how many channels `assign` places, against the last known numbers.

    python -m tests.benchmarks.radio_ci

Nothing here is timed: the search is deterministic, so fewer channels mean that it has become worse. Needs no
solver. Exit code 1 when any size falls behind.
"""

import sys
from dataclasses import replace

from paperwork.radio.board.lattice import Want
from paperwork.radio.search.assign import assign
from tests.benchmarks.radio_cases import ANALOGUE, DIGITAL, MHZ, RULES

EFFORT = 150
# Window in MHz, channels wanted, channels placed when this was last run.
SIZES = ((6, 10, 10), (12, 16, 15), (18, 20, 17), (24, 24, 21), (30, 28, 23), (36, 32, 24), (48, 40, 28), (66, 48, 33))


def place(width_mhz: int, count: int) -> int:
    """Channels placed of `count`, a third of them digital, in a clean window."""
    window = ((470 * MHZ, (470 + width_mhz) * MHZ),)
    wants = [Want(replace(DIGITAL if number % 3 == 2 else ANALOGUE, id=str(number)), window) for number in range(count)]
    return len(assign(wants, (), (), RULES, effort=EFFORT).placed)


def main() -> None:
    worse = False
    for width_mhz, count, known in SIZES:
        placed = place(width_mhz, count)
        worse |= placed < known
        print(f"{width_mhz:3} MHz, {count} wanted: {placed} placed, {known} known", flush=True)
    sys.exit(worse)


if __name__ == "__main__":
    main()
