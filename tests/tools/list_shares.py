"""How random lists and plots of other people are read, as shares: `python -m tests.tools.list_shares [LISTS] [FIRST]`."""

import sys
from collections import Counter
from collections.abc import Callable, Iterable

from tests.intake.outcomes import OUTCOMES, SILENT, VAIN, judge
from tests.intake.plots import write_plot
from tests.intake.worlds import Written, write_list

Write = Callable[[int], Written]


def count_outcomes(seeds: Iterable[int], write: Write = write_list) -> Counter[str]:
    """How many of the lists had each outcome."""
    return Counter(judge(write(seed))[0] for seed in seeds)


def main(lists: int = 3000, first: int = 100) -> None:
    """Prints the share of each outcome, of lists and of plots, and the seeds of those that must not be."""
    for what, write in (("lists", write_list), ("plots", write_plot)):
        outcomes = {seed: judge(write(seed))[0] for seed in range(first, first + lists)}
        counts = Counter(outcomes.values())
        print(f"{lists} {what}")
        for outcome in OUTCOMES:
            print(f"  {outcome:32}{counts[outcome]:6}{100 * counts[outcome] / lists:7.1f} %")
        wrong = [seed for seed, outcome in outcomes.items() if outcome in (SILENT, VAIN)]
        print(f"  to look at: {wrong}" if wrong else "  none to look at")


if __name__ == "__main__":
    main(*map(int, sys.argv[1:]))
