"""Where one carrier would be clean, by the search's own board: what tests hold against brute force."""

from collections.abc import Sequence

from paperwork.radio.bands import BlockedRange
from paperwork.radio.board.lattice import Want
from paperwork.radio.board.problem import Problem
from paperwork.radio.carrier import Carrier, Rules


def find_clean_hz(
    want: Want, carriers: Sequence[Carrier], blocks: Sequence[BlockedRange], rules: Rules
) -> tuple[int, ...]:
    """The frequencies, from the lowest, at which a channel would be clean and make no hit beside the other carriers.

    A carrier of its own id is left out: pass all carriers of the show and the want of the one that must move.
    """
    problem = Problem([want], [carrier for carrier in carriers if carrier.id != want.carrier.id], blocks, rules)
    return tuple(problem.list_clean_hz(0, problem.occupancy()))
