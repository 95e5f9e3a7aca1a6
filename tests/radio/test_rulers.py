import itertools

import pytest

from paperwork.radio.search.rulers import (
    SHORTEST_LENGTHS,
    bose_set,
    find_ruler,
    iterate_cuts,
    longest_cut,
    modular_sets,
    ruzsa_set,
    search_ruler,
    singer_set,
)
from tests.radio.twins import figures, is_ruler

SIZES = {
    singer_set: lambda q: (q + 1, q * q + q + 1),
    bose_set: lambda q: (q, q * q - 1),
    ruzsa_set: lambda p: (p - 1, p * (p - 1)),
}


@pytest.mark.parametrize(
    ("construct", "q"),
    [
        *((construct, q) for construct in (singer_set, bose_set) for q in (2, 3, 4, 5, 7, 8, 9, 11, 13, 16, 25, 27)),
        *((ruzsa_set, p) for p in (2, 3, 5, 7, 11, 13)),
    ],
)
def test_every_construction_has_unequal_differences_even_modulo(construct, q):
    residues, modulus = construct(q)
    assert (len(residues), modulus) == SIZES[construct](q)
    differences = [(a - b) % modulus for a in residues for b in residues if a != b]
    assert len(set(differences)) == len(differences)


def test_lengths_are_the_published_ones():
    assert list(SHORTEST_LENGTHS) == [row["length"] for row in figures()["golomb_rulers"]["rows"]]


@pytest.mark.parametrize("count", range(2, 13))
def test_the_best_ruler_is_found_up_to_twelve_marks(count):
    length = SHORTEST_LENGTHS[count - 1]
    marks = find_ruler(length)
    assert len(marks) == count
    assert is_ruler(marks)
    assert marks[-1] == length


@pytest.mark.parametrize("count", (13, 15, 16, 18, 20, 24, 28))
def test_constructions_give_the_best_ruler_but_for_three_orders_up_to_28(count):
    """Orders 13, 15 and 16 are one mark short; all others are the published optimum (OEIS A003022)."""
    marks = find_ruler(SHORTEST_LENGTHS[count - 1])
    assert len(marks) == count - (count in (13, 15, 16))
    assert is_ruler(marks) and marks[0] == 0 and marks[-1] <= SHORTEST_LENGTHS[count - 1]


@pytest.mark.parametrize("row", figures()["golomb_all_optimal"]["rows"][1:8], ids=lambda row: str(row["order"]))
def test_trying_everything_finds_an_optimal_ruler_and_none_that_is_shorter(row):
    length = row["rulers"][0][-1]
    marks = search_ruler(row["order"], length)
    mirror = tuple(length - mark for mark in reversed(marks))
    assert list(marks) in row["rulers"] or list(mirror) in row["rulers"]
    assert search_ruler(row["order"], length - 1) is None


def test_marks_keep_a_least_gap():
    marks = longest_cut(240, least_gap=4)
    assert is_ruler(marks)
    assert min(upper - lower for lower, upper in itertools.pairwise(marks)) >= 4
    assert len(marks) >= 15


def test_the_sets_of_all_constructions_of_a_size_are_offered():
    assert sorted((len(residues), modulus) for residues, modulus in modular_sets(2, 4)) == [
        (2, 3),
        (2, 6),
        (3, 7),
        (3, 8),
        (4, 13),
        (4, 15),
        (4, 20),
    ]


def test_a_cut_goes_twice_around_for_every_multiplication_that_is_another_one():
    residues, modulus = singer_set(2)
    cuts = list(iterate_cuts(residues, modulus))
    assert len(cuts) == 3 and all(cut[3:] == tuple(mark + modulus for mark in cut[:3]) for cut in cuts)
    assert {tuple(sorted(mark % modulus for mark in cut[:3])) for cut in cuts} == {
        tuple(sorted(unit * mark % modulus for mark in residues)) for unit in (1, 2, 3)
    }


@pytest.mark.parametrize(("length", "gap", "count"), ((0, 1, 1), (1, 1, 2), (2, 2, 2), (7, 2, 3), (10, 3, 3)))
def test_short_rulers_with_and_without_a_gap(length, gap, count):
    marks = find_ruler(length, gap)
    assert len(marks) == count and is_ruler(marks) and marks[0] == 0 and marks[-1] <= length
    assert all(upper - lower >= gap for lower, upper in itertools.pairwise(marks))
