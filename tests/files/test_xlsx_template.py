"""The workbook to fill in: clean as it comes, helpful, and within what spreadsheet programs take without repairing."""

import io
import re
import zipfile
from xml.etree import ElementTree

import openpyxl
import pytest
import python_calamine

from paperwork.commands.new import EXAMPLES, make_text, make_workbook
from paperwork.files import read_bytes
from paperwork.files.xlsx.show import LISTS
from paperwork.model.fields import SECTIONS, SINGLES
from paperwork.reading import read_show


@pytest.fixture(scope="module")
def data() -> bytes:
    return make_workbook()


@pytest.fixture(scope="module")
def book(data):
    return openpyxl.load_workbook(io.BytesIO(data))


@pytest.mark.parametrize("name", ["show.xlsx", "show.yaml"])
def test_of_a_new_show_the_example_alone_is_told(name, data, tmp_path):
    (tmp_path / name).write_bytes(data if name.endswith("xlsx") else make_text().encode())
    reading = read_show(tmp_path / name, name)
    assert [found.code for found in reading.findings] == ["example-left"] and list(reading.show.channels) == ["01"]
    assert "EXAMPLE" in reading.show.production.title and reading.show.channels["01"].roles == ("EXAMPLE",)


def test_workbook_and_text_are_the_same_show(data):
    raw, findings = read_bytes(data, "show.xlsx")
    assert findings == () and raw == read_bytes(make_text().encode(), "show.yaml")[0]


def test_an_independent_reader_sees_the_same_cells(data, book):
    other = python_calamine.CalamineWorkbook.from_filelike(io.BytesIO(data))
    assert other.sheet_names == book.sheetnames
    assert set(book.sheetnames) == {*SECTIONS, LISTS}
    for name in other.sheet_names:
        rows = other.get_sheet_by_name(name).to_python(skip_empty_area=False)
        assert [value or "" for value in next(book[name].iter_rows(values_only=True))] == rows[0]


def test_every_field_has_its_heading_and_hover_help(book):
    for section in SECTIONS:
        sheet = book[section]
        cells = (
            [sheet.cell(row, 1) for row in range(2, sheet.max_row + 1)] if section in SINGLES else list(sheet[1])[1:]
        )
        assert [cell.value for cell in cells] == list(SECTIONS[section].fields)
        assert all(cell.comment and cell.comment.text for cell in cells)


def test_no_choice_is_a_literal_list_and_every_range_is_there(book):
    for sheet in book:
        for rule in sheet.data_validations.dataValidation:
            match = re.fullmatch(r"(\w+)!\$([A-Z]+)\$2:\$\2\$(\d+)", rule.formula1)
            assert match, rule.formula1
            assert re.fullmatch(r"[A-Z]+2:[A-Z]+600|B\d+", str(rule.sqref)), "a choice without cells"
            assert match[1] in book.sheetnames
            if match[1] == LISTS:
                assert all(book[LISTS][f"{match[2]}{row}"].value for row in range(2, int(match[3]) + 1))
    assert book[LISTS].sheet_state == "visible"
    assert len(book["radios"].data_validations.dataValidation) >= 2


def test_panes_are_frozen_and_what_is_typed_stays_text(book):
    for name in SECTIONS:
        assert book[name].freeze_panes == "B2"
        assert book[name].column_dimensions["B"].number_format == "@"
        assert 8 <= book[name].column_dimensions["A"].width <= 60


def test_doubles_are_marked_for_channels_and_frequencies(book):
    marked = {str(area.sqref) for area in book["channels"].conditional_formatting}
    headings = [cell.value for cell in book["channels"][1]]
    column = openpyxl.utils.get_column_letter(headings.index("mhz") + 1)
    assert {"A2:A600", f"{column}2:{column}600"} <= marked


def choices_of(book, section: str, field: str) -> str:
    """The range from which a field of a table chooses, "" where it is free."""
    letter = openpyxl.utils.get_column_letter([cell.value for cell in book[section][1]].index(field) + 1)
    rules = book[section].data_validations.dataValidation
    return next((rule.formula1 for rule in rules if str(rule.sqref) == f"{letter}2:{letter}600"), "")


def test_a_field_that_names_a_record_chooses_from_the_ids_of_its_section(book):
    assert choices_of(book, "channels", "capsule") == "capsules!$A$2:$A$600"
    assert choices_of(book, "racks", "radio") == "radios!$A$2:$A$600"


def test_where_a_capsule_sits_is_not_chosen_from_the_capsules(book):
    assert choices_of(book, "looks", "capsule") == ""


def test_the_example_is_obviously_one(book):
    cell = book["channels"]["A2"]
    assert cell.value == EXAMPLES["channels"]["id"] and cell.font.italic and cell.fill.fgColor.rgb.endswith("FFF4CC")
    assert book["radios"]["A2"].value is None


def test_every_part_is_well_formed_and_the_bytes_are_the_same_every_time(data):
    with zipfile.ZipFile(io.BytesIO(data)) as archive:
        for name in archive.namelist():
            if name.endswith((".xml", ".rels", ".vml")):
                ElementTree.fromstring(archive.read(name))
    assert make_workbook() == data


def test_commented_text_can_be_uncommented_line_by_line():
    text = make_text()
    line = "#     capsule:"
    assert line in text
    opened = re.sub(r"^#     capsule:  # .*$", "    capsule: beige", text, count=1, flags=re.MULTILINE)
    raw, findings = read_bytes(opened.encode(), "show.yaml")
    assert findings == () and raw.get("channels").get("01").get("capsule").text == "beige"
