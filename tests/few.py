"""Cases of one kind of which a few are enough each time; all of them are tried in the sweep."""

import os
from collections.abc import Iterable, Sequence
from typing import Any

import pytest


def few_of(cases: Iterable[Any], few: int = 1, *, among: Sequence[Any] = ()) -> list[Any]:
    """The first cases, or those that are named, as they are; the others with the marker `sweep`."""
    listed = list(cases)
    kept = [case for case in listed if case in among] if among else listed[:few]
    return [case if case in kept else pytest.param(case, marks=pytest.mark.sweep) for case in listed]


def few_examples(count: int) -> int:
    """How many examples of a generated test are drawn: a third each time, all where PAPERWORK_TESTS is `whole`, as
    `.ci/run` sets it for the oldest libraries and the sweep."""
    return count if os.environ.get("PAPERWORK_TESTS") == "whole" else -(-count // 3)
