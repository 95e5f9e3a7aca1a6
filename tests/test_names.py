"""Names and lists as people write them."""

from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from paperwork.text.names import (
    expand_ids,
    fold,
    hint,
    join_words,
    name_key,
    natural_key,
    nearest,
    shorten_ids,
    split_list,
)
from paperwork.text.units import Doubt


@pytest.mark.parametrize(
    ("text", "ids"),
    (
        ("01-06", ("01", "02", "03", "04", "05", "06")),
        ("1-3, 7", ("1", "2", "3", "7")),
        ("S1-S3", ("S1", "S2", "S3")),
        ("S1-3", ("S1", "S2", "S3")),
        ("01, -, 03", ("01", "", "03")),
        ("01 02 03", ("01", "02", "03")),
        ("08-11", ("08", "09", "10", "11")),
        ("12b", ("12b",)),
        ("", ()),
    ),
)
def test_a_shorthand_stands_for_its_ids_with_their_padding(text, ids):
    assert expand_ids(text) == ids


@pytest.mark.parametrize("text", ("06-01", "1-999999"))
def test_a_range_that_runs_backwards_or_without_end_is_a_doubt(text):
    with pytest.raises(Doubt):
        expand_ids(text)


def test_a_list_is_split_at_commas_else_at_spaces_but_a_known_name_is_kept_whole():
    assert split_list("VERA, OLD TOM") == ("VERA", "OLD TOM")
    assert split_list("VERA TOM") == ("VERA", "TOM")
    assert split_list("OLD TOM", known=("OLD TOM",)) == ("OLD TOM",)
    assert split_list("VERA old tom COOK", known=("TOM", "OLD TOM", "VERA")) == ("VERA", "old tom", "COOK")


def test_order_is_as_people_count():
    assert sorted(("R1.10", "R1.9", "10", "9", "02", "1", "S1"), key=natural_key) == [
        "1",
        "02",
        "9",
        "10",
        "R1.9",
        "R1.10",
        "S1",
    ]


@given(st.lists(st.text(), max_size=6))
def test_any_texts_can_be_ordered(texts):
    once = sorted(texts, key=natural_key)
    assert all(not natural_key(after) < natural_key(before) for before, after in pairwise(once))


def test_two_spellings_of_a_name_fold_to_one_key():
    assert fold("  Mara\u00a0LIND ") == fold("Mara Lind")
    assert fold("\uff2dara Lind") == fold("Mara Lind")


def test_the_nearest_word_is_offered_and_nothing_far_away():
    assert nearest("capsle", ("capsule", "channel")) == "capsule"
    assert hint("zzz", ("capsule",)) == ""


def test_words_are_joined_as_spoken():
    assert [join_words(x) for x in ((), "a", "ab", "abc")] == ["", "a", "a and b", "a, b and c"]


def test_names_are_filed_as_an_alphabet_without_accents_files_them():
    names = ["Zoë", "Łukasz", "Ștefan", "Олена", "Leif", "ana", "Ángel", "Đukić", "Đurđa", "Maja", "Ελένη", "Ørsted"]
    assert sorted(names, key=name_key) == [
        "ana",
        "Ángel",
        "Đukić",
        "Đurđa",
        "Leif",
        "Łukasz",
        "Maja",
        "Ørsted",
        "Ștefan",
        "Zoë",
        "Ελένη",
        "Олена",
    ]


@given(st.lists(st.tuples(st.sampled_from(("", "P", "HH", "x")), st.integers(0, 130), st.integers(1, 3)), max_size=40))
def test_ids_that_were_shortened_mean_the_same_ids(parts):
    ids = list(dict.fromkeys(f"{head}{number:0{width}d}" for head, number, width in parts))
    assert expand_ids(shorten_ids(ids)) == tuple(sorted(ids, key=natural_key))


def test_a_range_goes_on_over_a_power_of_ten_and_keeps_its_letters():
    assert shorten_ids([str(n) for n in range(1, 13)]) == "1–12"
    assert shorten_ids([f"P{n}" for n in range(8, 12)]) == "P8–P11"
    assert shorten_ids(["9", "010", "11"]) == "9, 010, 11"


def test_ranges_stand_between_blanks_as_they_do_between_commas():
    assert expand_ids("01 07-09") == expand_ids("01, 07-09") == ("01", "07", "08", "09")
    assert expand_ids("1 - 3") == ("1", "2", "3") and expand_ids("1 - 3 5") == ("1", "", "3", "5")
