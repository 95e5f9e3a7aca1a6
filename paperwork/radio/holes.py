"""Where one more carrier fits, and what is in the way everywhere else."""

from bisect import bisect_left
from collections.abc import Sequence
from dataclasses import dataclass

from paperwork.radio.bands import Block
from paperwork.radio.carrier import Carrier, Rules
from paperwork.radio.grid import Want
from paperwork.radio.problem import Problem


@dataclass(frozen=True, slots=True)
class Openings:
    """The frequencies that a channel could take, from the lowest, and how many of its `candidates` each cause
    takes away, commonest first, each counted once."""

    clean_hz: tuple[int, ...]
    candidates: int
    causes: tuple[tuple[str, int], ...]

    def nearest(self, hz: int) -> int | None:
        """The clean frequency nearest to `hz`, the lower of two; None when there is none."""
        at = bisect_left(self.clean_hz, hz)
        around = self.clean_hz[max(0, at - 1) : at + 1]
        return min(around, key=lambda clean: (abs(clean - hz), clean), default=None)


def find_openings(want: Want, carriers: Sequence[Carrier], blocks: Sequence[Block], rules: Rules) -> Openings:
    """The frequencies at which the channel would be clean and make no hit, given all other carriers.

    A carrier of the channel's own id among `carriers` is left out, so a carrier can be asked for itself:
    pass all carriers of the show and the want of the one that must move.
    """
    others = [carrier for carrier in carriers if carrier.id != want.carrier.id]
    problem = Problem([want], others, blocks, rules)
    board = problem.empty_board()
    gone = set().union(*problem.blocked[0].values())
    clean = tuple(
        hz
        for i, hz in enumerate(problem.frequencies[0])
        if i not in gone and not board.total[0] >> problem.lattice.position(hz) & 1
    )
    return Openings(clean, len(problem.frequencies[0]), problem.count_causes(0, board))
