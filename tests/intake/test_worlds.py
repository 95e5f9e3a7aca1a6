"""Random lists, written in random manners, are read as the show that they say, or as doubts, and never as another show."""

from collections import Counter

import pytest

from tests.intake.outcomes import ANSWERED, LOCATED, RIGHT, assert_no_other_show
from tests.intake.worlds import write_list
from tests.tools.list_shares import count_outcomes

BLOCK = 100


@pytest.mark.parametrize("first", range(0, 60, 10))
def test_a_random_list_is_never_another_show(first):
    assert_no_other_show(range(first, first + 10), write_list)


@pytest.mark.sweep
@pytest.mark.parametrize("first", range(BLOCK, BLOCK + 3000, BLOCK))
def test_many_random_lists_are_never_another_show(first):
    assert_no_other_show(range(first, first + BLOCK), write_list)


def test_most_lists_become_their_show_and_few_are_not_understood():
    counts = count_outcomes(range(60))
    assert counts.total() == 60 and (counts[RIGHT] + counts[ANSWERED]) * 10 >= 60 * 9
    assert counts[LOCATED] * 10 <= 60


def test_every_manner_of_writing_is_among_the_lists():
    manners = [write_list(seed).manner for seed in range(60)]
    seen = {name: Counter(manner[name] for manner in manners) for name in manners[0]}
    assert all(len(values) > 1 and min(values.values()) > 1 for values in seen.values()), seen
