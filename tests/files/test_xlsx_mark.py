"""The marked copy: every finding at its cell, what it cannot keep is said, the original untouched."""

import io
import re
import zipfile

import openpyxl
import pytest
from openpyxl.chart import BarChart, Reference

from paperwork.files.refusal import Refused
from paperwork.files.xlsx.mark import mark_workbook
from paperwork.finding import find
from paperwork.place import Place


def _book(change=None) -> bytes:
    book = openpyxl.Workbook()
    book.active.title = "Mics"
    for row in (("Ch", "Freq"), (1, 518.2), (2, "=B2")):
        book.active.append(row)
    if change:
        change(book.active)
    buffer = io.BytesIO()
    book.save(buffer)
    return buffer.getvalue()


def _finding(row, column, sheet="Mics", others=()):
    return find("cell-error", Place("list.xlsx", row, column, sheet), others=others, value="#REF!")


def _mark(data, *findings):
    marked, lost = mark_workbook(data, "list.xlsx", findings)
    return openpyxl.load_workbook(io.BytesIO(marked)), lost


def test_a_finding_is_a_note_and_a_fill_at_its_cell_and_at_its_other_cells():
    book, _ = _mark(_book(), _finding(2, 2, others=(Place("list.xlsx", 3, 1, "Mics"),)))
    for address in ("B2", "A3"):
        cell = book["Mics"][address]
        assert "#REF!" in cell.comment.text and "Fix:" in cell.comment.text and cell.fill.fgColor.rgb.endswith("F8C9C9")
    assert book["Mics"]["A2"].comment is None and book["Mics"]["B3"].value == "=B2"


def test_a_note_that_was_there_stays():
    from openpyxl.comments import Comment

    book, _ = _mark(_book(lambda sheet: setattr(sheet["B2"], "comment", Comment("mine", "me"))), _finding(2, 2))
    assert book["Mics"]["B2"].comment.text.startswith("mine")


def test_a_finding_inside_a_merge_goes_to_its_first_cell_and_one_without_a_cell_to_the_first_of_all():
    def merge(sheet):
        sheet.merge_cells("C1:D2")

    book, _ = _mark(_book(merge), _finding(2, 4), find("sheets-hidden", Place("list.xlsx"), which="old"))
    assert book["Mics"]["C1"].comment and book["Mics"]["A1"].comment


def test_what_the_copy_cannot_keep_is_said():
    def chart(sheet):
        drawn = BarChart()
        drawn.add_data(Reference(sheet, min_col=2, min_row=1, max_row=3))
        sheet.add_chart(drawn, "D1")

    _, lost = _mark(_book(chart))
    assert "charts" in lost and any("stored results" in what for what in lost)
    assert _mark(_book(lambda sheet: sheet.__setitem__("B3", 5)))[1] == ()


def test_a_damaged_workbook_is_refused():
    with pytest.raises(Refused):
        mark_workbook(_book()[:2000], "list.xlsx", ())


def test_a_book_without_a_visible_sheet_is_refused():
    """The library opens it, and then cannot save it."""
    with zipfile.ZipFile(io.BytesIO(_book())) as old:
        parts = {name: old.read(name) for name in old.namelist()}
    parts["xl/workbook.xml"] = re.sub(
        rb'<sheet ([^>]*?)(?:state="\w+")?', rb'<sheet state="hidden" \1', parts["xl/workbook.xml"], count=1
    ).replace(b'state="visible"', b"")
    buffer = io.BytesIO()
    with zipfile.ZipFile(buffer, "w") as new:
        for name, data in parts.items():
            new.writestr(name, data)
    with pytest.raises(Refused) as refused:
        mark_workbook(buffer.getvalue(), "list.xlsx", ())
    assert refused.value.finding.code == "file-damaged"
