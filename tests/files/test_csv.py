"""Separated values: encodings, separators, quotes and places; and a list that no program runs."""

import csv
import io

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from paperwork.files.csv.read import find_separator, read_csv, split_rows
from paperwork.files.csv.write import write_csv
from paperwork.intake.listing import read_listing
from paperwork.place import Place
from paperwork.raw import Map, Text
from tests.few import few_examples

HERE = Place("x")


def _grid(data: bytes):
    return {cell.address: cell.text for cell in read_csv(data, "list.csv").grids[0].cells.values()}


@pytest.mark.parametrize(
    ("text", "separator"),
    [
        ("a;b\n1;518,2\n", ";"),
        ("a,b\n1,2\n", ","),
        ("a\tb\n1\t2,5\n", "\t"),
        ("a|b\n1|2\n", "|"),
        ("a\nb\n", ""),
        ("", ""),
        ("a,b\nSmith, Jr.,2\n3,4\n", ","),
        ('a;"b\n;c"\n1;2\n', ";"),
        ("one sentence, with a comma\nand another line\n", ","),
    ],
)
def test_separator_is_the_one_that_parts_most_rows_alike(text, separator):
    assert find_separator(text) == separator


@pytest.mark.parametrize("codec", ["utf-8", "utf-8-sig", "utf-16", "cp1252"])
def test_encodings_are_told_apart(codec):
    assert _grid("Nr;Name\n1;Jörg Čapek\n".replace("Č", "C").encode(codec)) == {
        "A1": "Nr",
        "B1": "Name",
        "A2": "1",
        "B2": "Jörg Capek",
    }


@settings(max_examples=few_examples(150), deadline=None)
@given(
    st.lists(st.lists(st.text("ab,;\"\n' x", max_size=6), min_size=2, max_size=4), min_size=1, max_size=5),
    st.sampled_from(",;\t|"),
)
def test_what_the_standard_writer_quotes_is_read_as_it_was(rows, separator):
    buffer = io.StringIO()
    csv.writer(buffer, delimiter=separator, quoting=csv.QUOTE_ALL).writerows(rows)
    assert [[field.text for field in row] for row in split_rows(buffer.getvalue(), separator)] == rows


def test_every_value_has_its_line_and_column():
    rows = list(split_rows('a;"b\nc";d\r\ne;f;g', ";"))
    assert [(f.text, f.line, f.column) for row in rows for f in row] == [
        ("a", 1, 1),
        ("b\nc", 1, 3),
        ("d", 2, 4),
        ("e", 3, 1),
        ("f", 3, 3),
        ("g", 3, 5),
    ]


DANGEROUS = [
    "=1+1",
    "+1",
    "-1",
    "@SUM(A1)",
    "=cmd|' /C calc'!A0",
    "'=1",
    "\t=1",
    "-",
    "a=b",
    "'05",
    "plain",
    'say "go"',
    "a, b",
    "two\nlines",
]


@pytest.mark.parametrize("text", [text for text in DANGEROUS if text != "\t=1"])
def test_no_value_is_run_and_every_value_comes_back(text):
    record = Map(((Text("by", HERE), Text(text, HERE)),), HERE)
    data = write_csv(Map(((Text("01", HERE), record),), HERE), ["by"])
    value = list(csv.reader(io.StringIO(data.decode("utf-8-sig"))))[1][1]
    assert value == "-" or value[0] not in "=+-@"
    back = read_listing(read_csv(data, "list.csv"))
    assert back is not None and back.get("channels").get("01").get("by").text == text


def test_a_list_of_ours_is_told_by_its_headings():
    assert read_listing(read_csv(b"id,by,mhz\n01,Ann,518.2\n", "list.csv")) is not None
    for text in (b"id,name,mhz\n01,Ann,518.2\n", b"by,id\nAnn,1\n", b"id,by\n1,Ann\n1,Bo\n", b"id,by\n,Ann\n"):
        assert read_listing(read_csv(text, "list.csv")) is None


def test_a_stray_quote_hangs_nothing_and_loses_nothing():
    text = "a;b\n" + '1;"x\n' * 2000
    assert sum(len(row) for row in split_rows(text, ";")) >= 4
