"""Spellings of one name, and names that are two."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from paperwork.text.spellings import find_doubled, is_one_name

SAME = (
    ("Björn Übel", "Bjorn Übel"),
    ("Björn Übel", "Bjoern Uebel"),
    ("Björn Übel", "Bjorn Uebel"),
    ("Jürgen Groß", "Juergen Gross"),
    ("Groß, Jürgen", "Jürgen Gross"),
    ("Anna-Lena Groß", "Annalena Gross"),
    ("T. O'Brien", "O\N{RIGHT SINGLE QUOTATION MARK}Brien, T"),
    ("José Lind", "JOSE LIND"),
    ("Åsa Holm", "Aasa Holm"),
    ("Åsa Holm", "Asa Holm"),
    ("Søren Kjær", "Soeren Kjaer"),
    ("Łukasz Żak", "Lukasz Zak"),
    ("Zoë Maës", "Zoe Maes"),
    ("Siân Gwilym", "Sia\N{COMBINING CIRCUMFLEX ACCENT}n Gwilym"),
)
DIFFERENT = (
    ("Anna Lind", "Anne Lind"),
    ("Jo Lind", "Joe Lind"),
    ("Sue Ott", "Su Ott"),
    ("René Lind", "Renée Lind"),
    ("J. Marsh", "Jo Marsh"),
    ("Max Ried", "Max Reid"),
    ("Ali Hassan", "Hassan Ali"),
    ("Drums 1", "Drums 2"),
    ("Käthe Schäfer", "Käthe Schäffer"),
    ("Lena", "Lena Groß"),
)


@pytest.mark.parametrize(("one", "other"), SAME)
def test_two_spellings_of_one_name_are_a_pair(one, other):
    assert (
        is_one_name(one, other)
        and is_one_name(other, one)
        and find_doubled([one, "Tom Quell", other]) == ((one, other),)
    )


@pytest.mark.parametrize(("one", "other"), DIFFERENT)
def test_names_of_two_people_are_none(one, other):
    assert not is_one_name(one, other) and find_doubled([one, other]) == ()


@given(st.lists(st.text("aeouäöüßåøé -,.'JL", max_size=8), max_size=6))
def test_pairs_are_found_as_trying_all_of_them_finds_them(names):
    names = list(dict.fromkeys(names))
    found = find_doubled(names)
    assert all(is_one_name(*pair) for pair in found)
    left = [name for name in names if name not in {second for _, second in found}]
    assert not any(is_one_name(one, other) for n, one in enumerate(left) for other in left[:n])
