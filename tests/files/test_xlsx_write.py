"""A written workbook reads back as the same Raw, holds text only, and is the same bytes every time."""

import io
import subprocess
import sys
import zipfile
from xml.etree import ElementTree

import openpyxl
import pytest
import python_calamine
from hypothesis import given, settings
from hypothesis import strategies as st

from paperwork.files import read_bytes
from paperwork.files.refusal import Refused
from paperwork.files.xlsx.write import write_workbook
from paperwork.files.yaml.read import read_yaml
from paperwork.model.fields import SINGLES
from paperwork.place import Place
from paperwork.raw import Map, Text
from tests.few import few_examples
from tests.shows_text import EXAMPLES

SHOW = """
show: {title: Glass Ferry, venue: Harbour Hall, revision: C, note: "two\\nlines"}
channels:
  01: {role: VERA, by: Mara Lind, mhz: 486.200}
  05: {shared: {SAILOR: Max Ried, WIDOW: Ana Cole}, mhz: "488.250"}
  11:
scenes:
  s1: {name: "=1+1", at: "0:00", live: [VERA, TOM]}
  s2: {name: "#REF!", at: 1-2, live: 007}
  s3: {name: TRUE, at: _x0041_, live: "+1 - 2"}
"""


def _yaml(text: str) -> Map:
    raw, findings = read_yaml(text, "show.yaml")
    assert findings == ()
    return raw


def _text(text: str) -> Text:
    return Text(text, Place("x"))


def _map(table: dict[str, object]) -> Map:
    items = ((_text(k), _map(v) if isinstance(v, dict) else _text(v)) for k, v in table.items())
    return Map(tuple(items), Place("x"))


def _tables() -> st.SearchStrategy[Map]:
    """Sections of records whose fields stand in one order, as the columns of a sheet do."""
    value = st.text(st.characters(codec="utf-8", exclude_categories=("Cc", "Cn", "Zl", "Zp"))).map(str.strip)
    value = value.map(lambda text: text.replace("\ufeff", "").strip()).filter(bool) | st.sampled_from(
        ["=A1", "=", "#N/A", "007", "1e3", "TRUE", "_x0041_", "a\nb", "<b>&amp;", "'", "1-2", "518.200", "-"]
    )
    names = st.sampled_from(["role", "by", "mhz", "analogue 1", "a.b", "über"])

    @st.composite
    def table(draw: st.DrawFn) -> dict[str, object]:
        fields = sorted(draw(st.sets(names)))
        ids = draw(st.lists(value, unique=True, min_size=1, max_size=4))
        return {key: {f: draw(value) for f in fields if n == 0 or draw(st.booleans())} for n, key in enumerate(ids)}

    single = st.dictionaries(names, value, min_size=1)
    sections = {"channels": table(), "in ears": table(), **dict.fromkeys(SINGLES, single)}
    return st.fixed_dictionaries({}, optional=sections).filter(bool).map(_map)


@settings(max_examples=few_examples(60), deadline=None)
@given(_tables())
def test_reading_what_was_written_gives_the_same(raw: Map) -> None:
    assert read_bytes(write_workbook(raw), "show.xlsx") == (raw, ())


def test_lists_and_groups_become_one_cell() -> None:
    raw, findings = read_bytes(write_workbook(_yaml(SHOW)), "show.xlsx")
    assert findings == ()
    assert raw.get("channels").get("05").get("shared").text == "SAILOR: Max Ried, WIDOW: Ana Cole"
    assert raw.get("scenes").get("s1").get("live").text == "VERA, TOM"
    assert raw.get("channels").get("11") == Map((), Place("x"))


def test_every_cell_is_text_with_the_text_format() -> None:
    book = openpyxl.load_workbook(io.BytesIO(write_workbook(_yaml(SHOW))))
    assert book.sheetnames == ["show", "channels", "scenes"]
    cells = [cell for sheet in book for row in sheet.iter_rows() for cell in row if cell.value is not None]
    assert {(cell.data_type, cell.number_format) for cell in cells} == {("s", "@")}
    assert {sheet.freeze_panes for sheet in book} == {"A2", "B2"}
    assert all(cell.font.bold for sheet in book for cell in sheet[1])
    assert all(sheet.column_dimensions["B"].number_format == "@" for sheet in book)


def test_text_is_no_formula_in_the_file_itself() -> None:
    with zipfile.ZipFile(io.BytesIO(write_workbook(_yaml(SHOW)))) as archive:
        for name in archive.namelist():
            if name.startswith("xl/worksheets/"):
                tags = {element.tag.rpartition("}")[2] for element in ElementTree.fromstring(archive.read(name)).iter()}
                assert "f" not in tags


def test_text_that_looks_like_a_character_code_is_kept_from_being_one() -> None:
    with zipfile.ZipFile(io.BytesIO(write_workbook(_yaml(SHOW)))) as archive:
        parts = b"".join(archive.read(name) for name in archive.namelist())
    assert b">_x005F_x0041_<" in parts  # ECMA-376 part 1, 22.9.2.19


def test_headings_come_in_the_given_order_and_before_values() -> None:
    headings = {"channels": ("mhz", "role", "capsule"), "racks": ("channels",), "show": ("venue", "title", "paper")}
    data = write_workbook(_yaml(SHOW), headings)
    book = openpyxl.load_workbook(io.BytesIO(data))
    assert [cell.value for cell in book["channels"][1]] == ["id", "mhz", "role", "capsule", "by", "shared"]
    assert [cell.value for cell in book["racks"][1]] == ["id", "channels"]
    assert [cell.value for cell in book["show"]["A"]] == ["field", "venue", "title", "paper", "revision", "note"]
    raw, findings = read_bytes(data, "show.xlsx")
    assert findings == ()
    assert [name.text for name, _ in raw.items] == ["show", "channels", "scenes"]


def test_same_raw_gives_the_same_bytes_in_another_process() -> None:
    script = (
        "import sys; from paperwork.files.yaml.read import read_yaml; from paperwork.files.xlsx.write import *;"
        "sys.stdout.buffer.write(write_workbook(read_yaml(sys.argv[1], 'show.yaml')[0]))"
    )
    environment = {"PYTHONHASHSEED": "7", "TZ": "Asia/Tokyo", "LC_ALL": "C"}
    command = [sys.executable, "-c", script, SHOW]
    other = subprocess.run(command, capture_output=True, check=True, env=environment).stdout
    assert other == write_workbook(_yaml(SHOW))


@pytest.mark.parametrize(
    ("text", "place", "reason"),
    [
        ("channels: [a]", "show.yaml:1:1", "it is not a table of records"),
        ("channels: {01: VERA}", "show.yaml:1:12", "it is not a record with fields"),
        ("channels: {01: {shared: {A: {b: c}}}}", "show.yaml:1:17", "it holds a group within a group"),
        ("channels: {01: {live: [['a']]}}", "show.yaml:1:17", "it holds a group within a group"),
        ("channels: {01: {live: ['Lind, M']}}", "show.yaml:1:24", "Lind, M holds a comma of its own"),
        ("channels: {01: {Role: a}}", "show.yaml:1:17", "no column can have this heading"),
        ("channels: {01: {id: a}}", "show.yaml:1:17", "no column can have this heading"),
        ("Channels: {01: {role: a}}", "show.yaml:1:1", "no sheet can have this name"),
        ("a/b: {01: {role: a}}", "show.yaml:1:1", "no sheet can have this name"),
    ],
)
def test_what_no_cell_can_hold_is_located(text: str, place: str, reason: str) -> None:
    with pytest.raises(Refused) as caught:
        write_workbook(_yaml(text))
    assert str(caught.value.finding.place) == place
    assert reason in caught.value.finding.text


def test_empty_show_is_still_a_workbook() -> None:
    assert openpyxl.load_workbook(io.BytesIO(write_workbook(Map((), Place("x"))))).sheetnames == ["show"]


def test_another_reader_finds_the_same_texts_in_the_example() -> None:
    """python-calamine shares no code with our writer or our reader."""
    raw, _ = read_bytes((EXAMPLES / "show.yaml").read_bytes(), "show.yaml")
    assert raw is not None
    book = python_calamine.CalamineWorkbook.from_filelike(io.BytesIO(write_workbook(raw)))
    for section, records in raw.items:
        rows = book.get_sheet_by_name(section.text).to_python()
        assert isinstance(records, Map)
        held = {str(row[0]): [str(text) for text in row[1:] if text != ""] for row in rows[1:]}
        assert list(held) == [key.text for key, _ in records.items]
        for key, record in records.items:
            fields = record.items if isinstance(record, Map) else ((key, record),)
            texts = [value.text for _, value in fields if isinstance(value, Text)]
            assert sorted(text for text in held[key.text] if text in texts) == sorted(texts)
