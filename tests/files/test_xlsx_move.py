"""Rows of a workbook in another order: an independent library finds each row whole, and nothing else touched."""

import io
import re
from itertools import permutations
from typing import Any

import openpyxl
import pytest
from hypothesis import given, settings
from hypothesis import strategies as some
from openpyxl.comments import Comment
from openpyxl.formatting.rule import FormulaRule
from openpyxl.styles import Font, PatternFill
from openpyxl.workbook.defined_name import DefinedName
from openpyxl.worksheet.datavalidation import DataValidation

from paperwork.files.move import move_record
from paperwork.files.read import read_kind
from paperwork.files.refusal import Refused
from tests.few import few_examples
from tests.files.workbooks import parts_of, patch, save

IDS = ("a", "b", "c", "d", "e")
LAST = len(IDS) + 2


def make_book() -> openpyxl.Workbook:
    """A sheet as somebody keeps one: own columns, formats, heights, notes, links, merged cells, rules and choices."""
    book = openpyxl.Workbook()
    sheet = book.active
    sheet.title = "scenes"
    sheet.append(["id", "name", "live", "mine"])
    for number, id in enumerate(IDS, 2):
        row = number + (number > 4)  # a blank row is between c and d
        sheet.cell(row, 1, id)
        sheet.cell(row, 2, f"Scene {id}").font = Font(bold=number % 2 == 0, italic=number == 3)
        sheet.cell(row, 4, number * 10).fill = PatternFill("solid", fgColor=f"00FF{number:02d}00")
        sheet.row_dimensions[row].height = 20 + number
        sheet.cell(row, 2).comment = Comment(f"note of {id}", "me")
    sheet["B3"].hyperlink = "https://example.org/b"
    sheet.merge_cells("F4:G4")
    sheet["F4"] = "two in one"
    choices = DataValidation("list", formula1='"x,y"', sqref="C2:C500")
    sheet.add_data_validation(choices)
    sheet.conditional_formatting.add("A2:G400", FormulaRule(["$D2>20"], font=Font(color="00FF0000")))
    sheet.column_dimensions["B"].width = 33
    other = book.create_sheet("people")
    other.append(["id", "room", "sum"])
    other.append(["Ann", "1", "=SUM(scenes!D:D)"])
    book.defined_names["all"] = DefinedName("all", attr_text=f"scenes!$A$2:$D${LAST}")
    return book


def rows_of(data: bytes) -> list[dict[str, Any]]:
    """What each row of the sheet has, as the other library sees it."""
    sheet = openpyxl.load_workbook(io.BytesIO(data))["scenes"]
    merged = {area.min_row: area.coord.replace(str(area.min_row), "") for area in sheet.merged_cells.ranges}
    return [
        {
            "values": [cell.value for cell in row],
            "styles": [(cell.font.b, cell.font.i, cell.fill.fgColor.rgb) for cell in row],
            "notes": [cell.comment.text if cell.comment else "" for cell in row],
            "links": [cell.hyperlink.target if cell.hyperlink else "" for cell in row],
            "height": sheet.row_dimensions[row[0].row].height,
            "merged": merged.get(row[0].row, ""),
        }
        for row in sheet.iter_rows(min_row=2, max_row=LAST, max_col=7)
    ]


def move(data: bytes, id: str, before: str) -> bytes:
    return move_record(data, "xlsx", "show.xlsx", "scenes", id, before)


BOOK = save(make_book())


@given(some.lists(some.tuples(some.sampled_from(IDS), some.sampled_from((*IDS, ""))), min_size=1, max_size=4))
@settings(max_examples=few_examples(20), deadline=None)
def test_each_row_goes_whole_and_those_between_make_room(moves):
    data, wanted = BOOK, rows_of(BOOK)
    for id, before in moves:
        data = move(data, id, before)
        ids = [row["values"][0] for row in wanted]
        if before != id:
            row = wanted.pop(ids.index(id))
            rest = [row["values"][0] for row in wanted]
            last = max(at for at, one in enumerate(rest) if one) + 1
            wanted.insert(rest.index(before) if before else last, row)
        assert rows_of(data) == wanted
    sheet = openpyxl.load_workbook(io.BytesIO(data))["scenes"]
    assert [str(one.sqref) for one in sheet.data_validations.dataValidation] == ["C2:C500"]
    assert [str(one.sqref) for one in sheet.conditional_formatting] == ["A2:G400"]
    assert sheet.column_dimensions["B"].width == 33


def test_every_order_is_reached_and_the_first_is_reached_again():
    for wanted in [*permutations("abc"), tuple("abc")]:
        data = BOOK
        for id in (*wanted, "d", "e"):
            data = move(data, id, "")
        assert [key.text for key, _ in read_kind(data, "show.xlsx", "xlsx")[0].get("scenes").items] == [
            *wanted,
            "d",
            "e",
        ]


def test_where_a_row_is_already_no_byte_changes():
    assert move(BOOK, "a", "b") == move(BOOK, "e", "") == move(BOOK, "c", "c") == BOOK


def test_the_frames_of_notes_go_with_their_rows():
    def list_drawn(data: bytes) -> list[int]:
        (text,) = [part for path, part in parts_of(data).items() if path.endswith(".vml")]
        return [int(row) for row in re.findall(rb"Row>([0-9]+)<", text)]

    assert list_drawn(BOOK) == [1, 2, 3, 5, 6]
    assert list_drawn(move(BOOK, "e", "a")) == [2, 3, 4, 6, 1], "counted from 0; the last is the first now"


def test_the_frame_of_a_note_moves_as_far_as_its_row():
    def frame(data: bytes) -> bytes:
        return data.replace(b"<ns2:Row>6<", b"<ns2:Anchor>1, 15, 5, 10, 3, 15, 8, 4</ns2:Anchor><ns2:Row>6<")

    (path,) = [path for path in parts_of(BOOK) if path.endswith(".vml")]
    moved = parts_of(move(patch(BOOK, path, frame), "e", "a"))[path]
    assert b"<ns2:Anchor>1, 15, 0, 10, 3, 15, 3, 4</ns2:Anchor><ns2:Row>1<" in moved


def _formula(book):
    book["scenes"]["H3"] = "=D3*2"


def _elsewhere(book):
    book["people"]["C2"] = "=scenes!D3"


def _quoted(book):
    book["people"]["C2"] = "=SUM('scenes'!$D$2:$D$3)"


def _indirect(book):
    book["people"]["C2"] = '=INDIRECT("scenes!D" & 3)'


def _choices(book):
    book["scenes"].add_data_validation(DataValidation("list", formula1='"x"', sqref="B2:B3"))


def _rule(book):
    book["scenes"].conditional_formatting.add("A2:G3", FormulaRule(["$D2>1"], font=Font(b=True)))


def _fixed(book):
    book["scenes"].conditional_formatting.add("A2:G400", FormulaRule(["$D$3>1"], font=Font(b=True)))


def _named(book):
    book.defined_names["one"] = DefinedName("one", attr_text="scenes!$D$3")


def _merged(book):
    book["scenes"].merge_cells("F2:F3")


@pytest.mark.parametrize(
    "change",
    (_formula, _elsewhere, _quoted, _indirect, _choices, _rule, _fixed, _named, _merged),
    ids=lambda f: f.__name__,
)
def test_what_would_lead_elsewhere_is_refused_with_its_place_and_rows_away_from_it_are_moved(change):
    book = make_book()
    change(book)
    data = save(book)
    with pytest.raises(Refused) as refused:
        move(data, "b", "d")
    assert refused.value.finding.place.file == "show.xlsx"
    if change is not _indirect:
        assert [row["values"][0] for row in rows_of(move(data, "e", "d"))][-2:] == ["e", "d"]


@pytest.mark.parametrize(("id", "before"), [("x", "a"), ("a", "x")])
def test_a_record_that_there_is_not_is_refused(id, before):
    with pytest.raises(Refused):
        move(BOOK, id, before)
