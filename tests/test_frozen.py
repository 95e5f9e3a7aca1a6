"""Records are what the standard library's frozen dataclasses are, but for what a class costs."""

import copy
import pickle
import subprocess
import sys
from dataclasses import FrozenInstanceError, asdict, dataclass, field, fields, is_dataclass, replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from paperwork.finding import Edit, Subject
from paperwork.frozen import FEW, frozen

THERE_AND_BACK = "import pickle, sys; sys.stdout.buffer.write(pickle.dumps(pickle.load(sys.stdin.buffer)))"


class _Base:
    """A record with every way to state a field."""

    id: str
    hz: int | None = None
    names: tuple[str, ...] = ()
    held: list[int] = field(default_factory=list)
    note: str = field(default="", compare=False)
    place: str = field(default="here", compare=False, repr=False)


class _Plain:
    """A record without a field that must be given."""


def declare(make, base):
    """One class declared by `make`."""
    return make(type("Record", (), dict(base.__dict__)))


OURS, THEIRS = declare(frozen, _Base), declare(dataclass(frozen=True, slots=True), _Base)

VALUES = st.fixed_dictionaries(
    {"id": st.sampled_from("ab")},
    optional={
        "hz": st.none() | st.integers(0, 2),
        "names": st.lists(st.sampled_from("xy"), max_size=2).map(tuple),
        "held": st.lists(st.integers(0, 1), max_size=1),
        "note": st.sampled_from(["", "n"]),
        "place": st.sampled_from(["here", "there"]),
    },
)


@given(VALUES, VALUES)
def test_a_record_is_shown_compared_and_altered_as_the_library_does_it(first, second):
    ours, theirs = (OURS(**first), OURS(**second)), (THEIRS(**first), THEIRS(**second))
    assert repr(ours[0]) == repr(theirs[0])
    assert (ours[0] == ours[1]) == (theirs[0] == theirs[1])
    assert asdict(ours[0]) == asdict(theirs[0])
    assert asdict(replace(ours[0], **second)) == asdict(replace(theirs[0], **second))
    assert ours[0] != theirs[0] and ours[0] != first


def test_equal_records_are_one_in_a_set_and_fields_that_are_not_compared_do_not_count():
    @frozen
    class Pair:
        a: int
        b: int = field(default=0, compare=False)

    assert {Pair(1), Pair(1, 2), Pair(2)} == {Pair(1), Pair(2)}


def test_values_in_turn_are_values_by_name():
    assert OURS("a", 1, ("x",), [2]) == OURS(held=[2], names=("x",), hz=1, id="a")


def test_each_record_has_a_list_of_its_own():
    OURS("a").held.append(1)
    assert OURS("a").held == []


@pytest.mark.parametrize(
    "values, named", [((), {}), (("a",), {"id": "b"}), (("a",), {"mhz": 1}), (tuple("abcdefg"), {})]
)
def test_values_that_do_not_fit_are_refused(values, named):
    for made in (OURS, THEIRS):
        with pytest.raises(TypeError):
            made(*values, **named)


def test_nothing_of_a_record_is_changed_or_added():
    for one in (OURS("a"), declare(frozen, _Plain)()):
        for name in ("id", "other"):
            with pytest.raises(FrozenInstanceError):
                setattr(one, name, "b")
            with pytest.raises(FrozenInstanceError):
                delattr(one, name)
        assert not hasattr(one, "__dict__")


def test_a_record_is_a_dataclass_to_whoever_asks():
    assert is_dataclass(OURS) and [one.name for one in fields(OURS)] == [one.name for one in fields(THEIRS)]
    assert OURS.__match_args__ == THEIRS.__match_args__


def test_a_record_that_settles_its_values_does_so_once_made():
    @frozen
    class Upper:
        text: str

        def __post_init__(self) -> None:
            object.__setattr__(self, "text", self.text.upper())

    assert Upper("a").text == "A"


def test_a_record_with_the_fields_of_another_has_them_first():
    @frozen
    class Near:
        a: int

    @frozen
    class Far(Near):
        b: int = 2

    assert repr(Far(1)).endswith("Far(a=1, b=2)") and Far(1) == Far(1, 2) and Far(1) != Near(1)


def test_a_record_travels_to_another_process():
    one = (Edit("channels", "08", "mhz", "516.750"), Subject("channels", "08"))
    there = subprocess.run(
        [sys.executable, "-c", THERE_AND_BACK], input=pickle.dumps(one), capture_output=True, check=True
    ).stdout
    assert pickle.loads(there) == one == copy.deepcopy(one) == copy.copy(one)


def test_a_function_for_the_records_of_a_class_is_written_once_there_are_a_few():
    """Whether it is written makes no difference to them."""
    made, unwritten = declare(frozen, _Base), declare(frozen, _Plain).__init__
    few = [made("a", 1, note="n") for _ in range(FEW)]
    assert made.__init__ is unwritten
    more = [made("a", 1, note="n") for _ in range(FEW)]
    assert made.__init__ is not unwritten
    assert all(one == few[0] and asdict(one) == asdict(few[0]) for one in (*few, *more))
    assert len({id(one.held) for one in (*few, *more)}) == 2 * FEW
