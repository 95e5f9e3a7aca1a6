"""The runner of mutants: what it draws, that it leaves the disk alone, and that the list of the equivalent is of today."""

import pytest

from tests.tools.mutate import ROOT, Mutant, draw, find_tests, list_mutants, read_equivalent, run_tests

TARGET = ROOT / "paperwork" / "text" / "fingerprint.py"
FILES = sorted((ROOT / "paperwork").rglob("*.py"))


def test_a_sample_is_the_same_for_a_seed_and_keeps_its_order_when_it_grows():
    every = list_mutants(ROOT / "paperwork" / "text" / "units.py")
    assert draw(every, 3, 1) == draw(every[::-1], 5, 1)[:3]
    assert draw(every, 9, 1) != draw(every, 9, 2)


def test_mutants_are_faults_that_somebody_could_make():
    keys = {mutant.key for mutant in list_mutants(TARGET)}
    assert "paperwork/text/fingerprint.py module: LENGTH = 4 -> LENGTH = 5" in keys
    assert "paperwork/text/fingerprint.py fingerprint: return signs -> return None" in keys
    assert len(keys) == len(list_mutants(TARGET))


@pytest.mark.parametrize(
    ("number", "verdict"), ((0, "killed"), pytest.param(None, "survived", marks=pytest.mark.sweep))
)
def test_a_fault_in_memory_fails_the_tests_and_the_file_stays_as_it_is(number, verdict):
    before = TARGET.read_bytes()
    mutant: Mutant | None = None if number is None else list_mutants(TARGET)[number]
    assert run_tests(find_tests(TARGET), mutant, 60)[0] == verdict
    assert TARGET.read_bytes() == before


def test_what_is_listed_as_equivalent_is_still_a_mutant_and_has_a_reason():
    listed = read_equivalent()
    found = {
        mutant.key
        for path in FILES
        if any(str(path.relative_to(ROOT)) in key for key in listed)
        for mutant in list_mutants(path)
    }
    assert set(listed) <= found
    assert all(listed.values())
