"""Written YAML reads back as the same Raw, for us and, where it can, for everybody else."""

import yaml
from hypothesis import given, settings
from hypothesis import strategies as st

from paperwork.files import read_bytes
from paperwork.files.yaml.write import write_yaml
from paperwork.place import Place
from paperwork.raw import List, Map, Node, Text
from tests.few import few_examples

HERE = Place("x")
NASTY = [
    "NO",
    "no",
    "~",
    "null",
    "Null",
    "010",
    "1:05",
    "0:00",
    "518.200",
    "1_000",
    "0x1F",
    "1e3",
    "see #4 pack",
    "#4",
    "a: b",
    "a:b",
    "a:",
    "- a",
    "-",
    "--",
    "---",
    "? x",
    "[x]",
    "{x}",
    "a, b",
    "A<B & C>",
    "it's",
    '"quoted"',
    "'",
    "two\nlines",
    "back\\slash",
    "=1+1",
    "+1",
    "@home",
    "%",
    "`",
    "!tag",
    "&anchor",
    "*alias",
    "|",
    ">",
    "é",
    "日本",
    "😀",
    "Ştefan",
    "x y",
    "2027-03-02",
    ".inf",
    "<<",
    "y",
    "e.g. this",
    "...",
    "a #b",
]
TEXTS = st.sampled_from(NASTY) | st.text(
    st.characters(codec="utf-8", exclude_categories=("Cc", "Cs", "Cn", "Zl", "Zp")), min_size=1
).map(lambda text: text.replace("\ufeff", "").strip()).filter(bool)


def _text(text: str) -> Text:
    return Text(text, HERE)


def _map(items: dict[str, Node]) -> Map:
    return Map(tuple((_text(key), value) for key, value in items.items()), HERE)


VALUES = TEXTS.map(_text) | st.lists(TEXTS.map(_text), min_size=1, max_size=3).map(
    lambda items: List(tuple(items), HERE)
)
RECORDS = st.dictionaries(TEXTS, VALUES, min_size=1, max_size=4).map(_map)
SHOWS = st.dictionaries(
    st.sampled_from(["channels", "roles", "in ears"]),
    st.dictionaries(TEXTS, RECORDS, min_size=1, max_size=3).map(_map),
    min_size=1,
).map(_map)


@settings(max_examples=few_examples(150), deadline=None)
@given(SHOWS)
def test_reading_what_was_written_gives_the_same(raw):
    back, findings = read_bytes(write_yaml(raw).encode("utf-8"), "show.yaml")
    assert back == raw and findings == ()


def test_text_that_others_would_convert_is_quoted_and_figures_stay_bare():
    raw = _map({"channels": _map({"01": _map({"by": _text("No"), "at": _text("1:05"), "mhz": _text("518.200")})})})
    text = write_yaml(raw)
    assert text == 'channels:\n  01: {by: "No", at: "1:05", mhz: 518.200}\n'
    assert yaml.safe_load(text)["channels"][1] == {"by": "No", "at": "1:05", "mhz": 518.2}


def test_long_records_are_parted_into_lines_and_commas_stay_bare_there():
    fields = {f"field {number}": _text("some words, and more") for number in range(8)}
    text = write_yaml(_map({"racks": _map({"R1": _map(fields)})}))
    assert (
        text.startswith("racks:\n  R1:\n    field 0: some words, and more\n") and max(map(len, text.splitlines())) < 140
    )


def test_an_empty_record_is_still_a_record():
    raw = _map({"channels": _map({"01": _map({})})})
    assert read_bytes(write_yaml(raw).encode(), "show.yaml")[0] == raw
