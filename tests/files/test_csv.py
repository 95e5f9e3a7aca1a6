"""Separated values: encodings, separators, quotes and places; and a list that no program runs."""

import csv
import io
import json

import pytest
from hypothesis import given, settings
from hypothesis import strategies as some

from paperwork.build import build_show
from paperwork.editing.conversion import write_show
from paperwork.files.csv.read import find_separator, read_csv, split_rows
from paperwork.files.csv.write import write_csv
from paperwork.files.xlsx.write import write_rows as write_workbook_rows
from paperwork.intake import read_source_bytes
from paperwork.model.fields import SECTIONS
from paperwork.place import Place
from paperwork.raw import Map, Text
from tests.few import few_examples
from tests.shows_text import raw_of
from tests.strategies import plain_shows

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
    some.lists(some.lists(some.text("ab,;\"\n' x", max_size=6), min_size=2, max_size=4), min_size=1, max_size=5),
    some.sampled_from(",;\t|"),
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
    back = read_own(data).raw
    assert back.get("channels").get("01").get("by").text == text


def read_own(data: bytes, name: str = "list.csv"):
    """What a file of ours is read as: never by the reader of strangers' lists, which asks."""
    source = read_source_bytes(data, name, lambda: ({}, ()))
    assert source.understanding is None
    return source


TEXTS = some.text("ab01,;|:\t\"'=+-@ \né", min_size=1, max_size=8).map(str.strip).filter(bool)
CHANNELS = some.dictionaries(
    TEXTS, some.dictionaries(some.sampled_from(sorted(SECTIONS["channels"].fields)), TEXTS, max_size=5), max_size=5
)


@settings(max_examples=few_examples(300), deadline=None)
@given(CHANNELS)
def test_a_list_that_we_wrote_is_read_back_cell_for_cell_whatever_it_says(channels):
    raw = raw_of(json.dumps({"channels": channels}, ensure_ascii=False))
    back = read_own(write_show(raw, ".csv")[0])
    assert _say(back.raw.get("channels")) == _say(raw.get("channels"))
    assert not back.findings


def _say(records):
    return {id.text: {n.text: v.text for n, v in fields.items} for id, fields in records.items}


@settings(max_examples=few_examples(60), deadline=None)
@given(plain_shows())
def test_the_channels_of_a_show_are_the_same_once_they_went_out_as_a_list(plain):
    raw = raw_of(json.dumps(plain, ensure_ascii=False))
    back = read_own(write_show(raw, ".csv")[0])
    only = Map(tuple(item for item in raw.items if item[0].text == "channels"), raw.place)
    assert build_show(back.raw).show == build_show(only).show
    assert not back.findings


HEADS = "id,role,by,radio,spare,mhz\n"


@pytest.mark.parametrize(
    ("rows", "codes"),
    [
        ("01,TOM,Ann,low,,518.2\n", []),
        ("01,TOM,Ann,low,,518.2\n01,VERA,Bo,,,\n", ["key-doubled"]),
        (",TOM,Ann,low,,518.2\n02,VERA,Bo,,,\n", ["id-missing"]),
        ("01,TOM,Ann,low,,518.2,wet\n", ["heading-missing"]),
    ],
)
def test_our_own_list_is_told_by_its_headings_however_it_was_spoilt_since(rows, codes):
    assert [one.code for one in read_own((HEADS + rows).encode()).findings] == codes


@pytest.mark.parametrize("head", ["id,name,mhz", "by,id", "ID,Mic,MHz", "id,by,Remarks"])
def test_other_headings_make_it_a_list_of_somebody_else(head):
    data = f"{head}\n1,Ann,518.2\n2,Bo,520.2\n".encode()
    assert read_source_bytes(data, "list.csv", lambda: ({}, ())).understanding is not None


def test_our_list_saved_again_by_a_spreadsheet_is_still_ours():
    data = write_workbook_rows("list", [["id", "radio", "spare"], ["01", "low", ""], ["02", "", "low"]])
    channels = read_own(data, "list.xlsx").raw.get("channels")
    assert _say(channels) == {"01": {"radio": "low"}, "02": {"spare": "low"}}


def test_a_stray_quote_hangs_nothing_and_loses_nothing():
    text = "a;b\n" + '1;"x\n' * 2000
    assert sum(len(row) for row in split_rows(text, ";")) >= 4
