"""A workbook to fill in: one sheet a section, hover help, choices, and marks on what is there twice."""

from collections.abc import Mapping, Sequence
from typing import Any, TypeAlias

from paperwork.files.xlsx.show import LISTS
from paperwork.files.xlsx.write import pack_book
from paperwork.model.kinds import LINES, NAME, NAMES, SPARE, TEXT
from paperwork.model.row import Field, Section

ROWS = 600
"""Rows that choices and marks reach down to: more than the largest show has channels."""

_HEADING = "1F2933"
_EXAMPLE = "8A6D00"
_EXAMPLE_FILL = "FFF4CC"
_DOUBLE_FILL = "F8C9C9"
_OPTIONAL = "7A8793"


Examples: TypeAlias = Mapping[str, Mapping[str, str]]
"""Values of the example by section and field; `id` is that of its row."""

_PICKED = (TEXT, NAME, NAMES, LINES, SPARE)
"""Kinds of fields that choose from the ids of another section. Other text is let through: a new name, or several."""


def write_template(sections: Sequence[Section], examples: Examples) -> bytes:
    """The bytes of the workbook, from the table of fields. Same sections, same bytes."""
    import openpyxl

    book = openpyxl.Workbook()
    book.remove(book.active)
    lists = _gather_lists(sections)
    for section in sections:
        sheet = book.create_sheet(section.name)
        fill = _fill_single if section.is_single else _fill_table
        fill(sheet, section, examples.get(section.name, {}), lists)
    _fill_lists(book.create_sheet(LISTS), lists)
    return pack_book(book)


def _gather_lists(sections: Sequence[Section]) -> dict[tuple[str, ...], str]:
    """The range of each list of choices on the sheet of lists; equal lists share one."""
    from openpyxl.utils import get_column_letter

    found: dict[tuple[str, ...], str] = {}
    for section in sections:
        for choices in (field.kind.choices for field in section.fields.values()):
            if choices and choices not in found:
                letter = get_column_letter(len(found) + 1)
                found[choices] = f"{LISTS}!${letter}$2:${letter}${len(choices) + 1}"
    return found


def _fill_lists(sheet: Any, lists: dict[tuple[str, ...], str]) -> None:
    from openpyxl.styles import Font

    for column, choices in enumerate(lists, 1):
        for row, text in enumerate(("choices", *choices), 1):
            cell = sheet.cell(row, column, text)
            cell.number_format = "@"
        sheet.cell(1, column).font = Font(bold=True)
        _set_width(sheet, column, ("choices", *choices))
    sheet.sheet_properties.tabColor = _OPTIONAL
    sheet.freeze_panes = "A2"


def _fill_single(sheet: Any, section: Section, example: Mapping[str, str], lists: dict[tuple[str, ...], str]) -> None:
    _write_heading(sheet, 1, 1, "field", section.description)
    _write_heading(sheet, 1, 2, "value", "Fill in what you know; a blank line says nothing.")
    for row, field in enumerate(section.fields.values(), 2):
        _write_heading(sheet, row, 1, field.name, field.description)
        if field.name in example:
            _write_example(sheet, row, 2, example[field.name])
        else:
            sheet.cell(row, 2).number_format = "@"
        _add_choices(sheet, field, f"B{row}", lists)
    _set_width(sheet, 1, ("field", *section.fields))
    _set_width(sheet, 2, ("value", "x" * 40))
    sheet.freeze_panes = "B2"


def _fill_table(sheet: Any, section: Section, example: Mapping[str, str], lists: dict[tuple[str, ...], str]) -> None:
    from openpyxl.utils import get_column_letter

    id = Field("id", TEXT, f"The id of the row. {section.description}", marks="unique")
    for column, field in enumerate((id, *section.fields.values()), 1):
        letter = get_column_letter(column)
        _write_heading(sheet, 1, column, field.name, field.description)
        if field.name in example:
            _write_example(sheet, 2, column, example[field.name])
        area = f"{letter}2:{letter}{ROWS}"
        _add_choices(sheet, field, area, lists)
        if field.is_marked("unique"):
            _mark_doubles(sheet, area)
        _set_width(sheet, column, (field.name, example.get(field.name, ""), *field.kind.choices))
    sheet.freeze_panes = "B2"
    if not example:
        sheet.sheet_properties.tabColor = _OPTIONAL


def _write_heading(sheet: Any, row: int, column: int, text: str, help: str) -> None:
    from openpyxl.comments import Comment
    from openpyxl.styles import Alignment, Font, PatternFill

    cell = sheet.cell(row, column, text)
    cell.number_format = "@"
    cell.alignment = Alignment(vertical="top")
    if row == 1:
        cell.font = Font(bold=True, color="FFFFFF")
        cell.fill = PatternFill("solid", fgColor=_HEADING)
    if help:
        cell.comment = Comment(help, "paperwork", width=320, height=40 + 18 * (len(help) // 44 + 1))


def _write_example(sheet: Any, row: int, column: int, text: str) -> None:
    from openpyxl.styles import Font, PatternFill

    cell = sheet.cell(row, column, text)
    cell.data_type = "s"
    cell.number_format = "@"
    cell.font = Font(italic=True, color=_EXAMPLE)
    cell.fill = PatternFill("solid", fgColor=_EXAMPLE_FILL)


def _add_choices(sheet: Any, field: Field, area: str, lists: dict[tuple[str, ...], str]) -> None:
    """A dropdown from a range: of the words that a field may be, or of the ids that it may name."""
    from openpyxl.worksheet.datavalidation import DataValidation

    if choices := field.kind.choices:
        source = lists[choices]
    elif field.refers and field.kind in _PICKED:
        source = f"{field.refers.split()[0]}!$A$2:$A${ROWS}"
    else:
        return
    rule = DataValidation(type="list", formula1=source, allow_blank=True, showErrorMessage=bool(choices))
    rule.errorTitle, rule.error = field.name, "Choose one of the list."
    rule.add(area)
    sheet.add_data_validation(rule)


def _mark_doubles(sheet: Any, area: str) -> None:
    from openpyxl.formatting.rule import Rule
    from openpyxl.styles import PatternFill
    from openpyxl.styles.differential import DifferentialStyle

    style = DifferentialStyle(fill=PatternFill(bgColor=_DOUBLE_FILL, fill_type="solid"))
    sheet.conditional_formatting.add(area, Rule(type="duplicateValues", dxf=style))


def _set_width(sheet: Any, column: int, texts: Sequence[str]) -> None:
    from openpyxl.utils import get_column_letter

    dimension = sheet.column_dimensions[get_column_letter(column)]
    dimension.width = min(max(*(len(text) for text in texts), 8) + 3, 48)
    dimension.number_format = "@"
