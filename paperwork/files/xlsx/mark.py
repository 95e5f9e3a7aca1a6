"""A copy of a workbook with every finding as a note and a fill at its cell: for eyes, never an input."""

import io
import warnings
import zipfile
from collections.abc import Sequence
from typing import Any

from paperwork.files.refusal import Refused
from paperwork.files.zip_check import check_zip
from paperwork.finding import Finding, find
from paperwork.place import Place

_ERROR_FILL, _WARNING_FILL = "F8C9C9", "FFF0B3"
_LONGEST = 2_000
"""Characters of one note; a spreadsheet program shows some thousands at most."""

_LOST = (
    ("xl/charts/", "charts"),
    ("xl/pivottables/", "pivot tables"),
    ("xl/vbaproject", "macros"),
    ("xl/slicers/", "slicers"),
    ("xl/threadedcomments/", "threads of comments"),
    ("xl/externallinks/", "links to other workbooks"),
    ("xl/media/", "pictures"),
    ("xl/embeddings/", "embedded files"),
    ("xl/ctrlprops/", "buttons and boxes"),
)


def mark_workbook(data: bytes, name: str, findings: Sequence[Finding]) -> tuple[bytes, tuple[str, ...]]:
    """The marked copy, and in words what it could not keep of the original. Raises Refused if it cannot be opened.

    A finding about a sheet, or about the file as a whole, becomes a note on the first cell of the sheet.
    """
    check_zip(data, name)
    try:
        with warnings.catch_warnings():
            warnings.simplefilter("ignore")
            marked, has_formulas = _mark(data, name, findings)
    except Exception:  # noqa: BLE001  the library lets through whatever a strange part makes Python raise
        raise Refused(find("file-damaged", Place(name), name=name, reason="it cannot be copied")) from None
    return marked, _list_lost(data, has_formulas)


def _mark(data: bytes, name: str, findings: Sequence[Finding]) -> tuple[bytes, bool]:
    """The marked copy, and whether the original holds formulas."""
    import openpyxl

    book = openpyxl.load_workbook(io.BytesIO(data), keep_links=False, rich_text=True)
    notes: dict[tuple[str, int, int], list[Finding]] = {}
    first = book.sheetnames[0] if book.sheetnames else ""
    for finding in findings:
        for place in dict.fromkeys((finding.place, *finding.others)):
            if place.file == name:
                key = (place.sheet or first, max(place.line, 1), max(place.column, 1))
                notes.setdefault(key, []).append(finding)
    for (title, row, column), found in notes.items():
        if title in book.sheetnames:
            _mark_cell(book[title], row, column, found)
    formulas = any(cell.data_type == "f" for sheet in book.worksheets for cell in sheet._cells.values())
    if all(sheet.sheet_state != "visible" for sheet in book):
        raise ValueError("no sheet is visible")  # the library finds it half-way, and leaves its archive open
    buffer = io.BytesIO()
    book.save(buffer)
    return buffer.getvalue(), formulas


def _mark_cell(sheet: Any, row: int, column: int, findings: Sequence[Finding]) -> None:
    from openpyxl.comments import Comment
    from openpyxl.styles import PatternFill

    for area in sheet.merged_cells.ranges:
        if area.min_row <= row <= area.max_row and area.min_col <= column <= area.max_col:
            row, column = area.min_row, area.min_col
    cell = sheet.cell(row, column)
    texts = [cell.comment.text] if cell.comment else []
    texts += [f"{finding.severity.upper()}: {finding.text}\nFix: {finding.fix}" for finding in findings]
    text = "\n\n".join(dict.fromkeys(texts))[:_LONGEST]
    cell.comment = Comment(text, "paperwork", width=380, height=40 + 18 * (len(text) // 50 + text.count("\n") + 1))
    is_error = any(finding.severity == "error" for finding in findings)
    cell.fill = PatternFill("solid", fgColor=_ERROR_FILL if is_error else _WARNING_FILL)


def _list_lost(data: bytes, has_formulas: bool) -> tuple[str, ...]:
    with zipfile.ZipFile(io.BytesIO(data)) as archive:
        names = [part.lower() for part in archive.namelist()]
    stored = "the stored results of formulas (they come back when a spreadsheet program opens it)"
    lost = [what for start, what in _LOST if any(part.startswith(start) for part in names)]
    return (*([stored] if has_formulas else []), *lost)
