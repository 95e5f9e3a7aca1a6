"""A record moved in the text: nothing but the order of its section differs, held against every order that there is."""

from itertools import permutations

import pytest

from paperwork.files.move import move_record
from paperwork.files.read import read_kind
from paperwork.files.refusal import Refused

TEXTS = {
    "rows": "# head\nshow: {title: G}\nscenes:\n  a: {name: A}  # one\n  # about b\n  b: {name: B}\n  c: {name: C}\nday: {bows: 2:00}\n",
    "blocks": "scenes:\n  a:\n    name: A\n    live:\n      - VERA\n  b:\n    name: B\n\n  c:\n    name: |\n      two\n      lines\n",
    "no break at the end": "scenes:\n  a: {name: A}\n  b: {name: B}\n  c: {name: C}",
    "other breaks": "scenes:\r\n  a: {name: A}\r\n  b: {name: B}\r\n  c: {name: C}\r\n# end\r\n",
}


def order_of(data: bytes) -> list[str]:
    raw, _ = read_kind(data, "show.yaml", "yaml")
    return [key.text for key, _ in raw.get("scenes").items]


def lines_of(data: bytes) -> list[str]:
    return sorted(line for line in data.decode().split("\n") if line.strip())


@pytest.mark.parametrize("what", TEXTS)
def test_every_order_is_reached_by_moves_and_no_line_is_lost(what):
    first = TEXTS[what].encode()
    for wanted in permutations("abc"):
        data = first
        for id in wanted:
            data = move_record(data, "yaml", "show.yaml", "scenes", id, "")
        assert order_of(data) == list(wanted)
        assert [line.strip() for line in lines_of(data)] == [line.strip() for line in lines_of(first)]


def test_a_comment_right_above_goes_with_its_record():
    data = move_record(TEXTS["rows"].encode(), "yaml", "show.yaml", "scenes", "b", "a")
    assert data.decode().startswith(
        "# head\nshow: {title: G}\nscenes:\n  # about b\n  b: {name: B}\n  a: {name: A}  # one\n"
    )


def test_where_a_record_is_already_nothing_changes():
    for id, before in (("a", "b"), ("c", ""), ("b", "b")):
        data = TEXTS["rows"].encode()
        assert move_record(data, "yaml", "show.yaml", "scenes", id, before) == data


@pytest.mark.parametrize(
    "text",
    ("scenes: {a: {name: A}, b: {name: B}}\n", "scenes:\n  a: {name: A}\n", "show: {title: G}\n", "scenes: []\n"),
)
def test_what_cannot_be_moved_is_refused(text):
    with pytest.raises(Refused):
        move_record(text.encode(), "yaml", "show.yaml", "scenes", "b", "a")
