"""A workbook to fill in: one sheet a section, hover help, choices, and marks on what stands twice."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

from paperwork.files.xlsx.show import LISTS
from paperwork.files.xlsx.write import pack_book

ROWS = 600
"""Rows that choices and marks reach down to: more than the largest show has channels."""

_HEADING = "1F2933"
_EXAMPLE = "8A6D00"
_EXAMPLE_FILL = "FFF4CC"
_DOUBLE_FILL = "F8C9C9"
_OPTIONAL = "7A8793"


@dataclass(frozen=True, slots=True)
class TemplateField:
    """One field: its name, what it holds, the words that it may be, or the section whose ids it names.

    `unique` marks values that stand twice; `example` is the value of the example row.
    """

    name: str
    help: str
    choices: tuple[str, ...] = ()
    refers: str = ""
    unique: bool = False
    example: str = ""


@dataclass(frozen=True, slots=True)
class TemplateSection:
    """One section. `single` ones hold a field in each row; `id_example` is the id of the example row, or ""."""

    name: str
    help: str
    fields: tuple[TemplateField, ...]
    single: bool = False
    id_help: str = ""
    id_example: str = ""


def write_template(sections: Sequence[TemplateSection]) -> bytes:
    """The bytes of the workbook. Same sections, same bytes."""
    import openpyxl

    book = openpyxl.Workbook()
    book.remove(book.active)
    lists = _gather_lists(sections)
    for section in sections:
        sheet = book.create_sheet(section.name)
        if section.single:
            _fill_single(sheet, section, lists)
        else:
            _fill_table(sheet, section, lists)
    _fill_lists(book.create_sheet(LISTS), lists)
    return pack_book(book)


def _gather_lists(sections: Sequence[TemplateSection]) -> dict[tuple[str, ...], str]:
    """The range of each list of choices on the sheet of lists; equal lists share one."""
    from openpyxl.utils import get_column_letter

    found: dict[tuple[str, ...], str] = {}
    for section in sections:
        for field in section.fields:
            if field.choices and field.choices not in found:
                letter = get_column_letter(len(found) + 1)
                found[field.choices] = f"{LISTS}!${letter}$2:${letter}${len(field.choices) + 1}"
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


def _fill_single(sheet: Any, section: TemplateSection, lists: dict[tuple[str, ...], str]) -> None:
    _write_heading(sheet, 1, 1, "field", section.help)
    _write_heading(sheet, 1, 2, "value", "Fill in what you know; a blank line says nothing.")
    for row, field in enumerate(section.fields, 2):
        _write_heading(sheet, row, 1, field.name, field.help)
        if field.example:
            _write_example(sheet, row, 2, field.example)
        else:
            sheet.cell(row, 2).number_format = "@"
        _add_choices(sheet, field, f"B{row}", lists)
    _set_width(sheet, 1, ("field", *(field.name for field in section.fields)))
    _set_width(sheet, 2, ("value", "x" * 40))
    sheet.freeze_panes = "B2"


def _fill_table(sheet: Any, section: TemplateSection, lists: dict[tuple[str, ...], str]) -> None:
    from openpyxl.utils import get_column_letter

    fields = (
        TemplateField("id", section.id_help or section.help, unique=True, example=section.id_example),
        *section.fields,
    )
    for column, field in enumerate(fields, 1):
        letter = get_column_letter(column)
        _write_heading(sheet, 1, column, field.name, field.help)
        if field.example and section.id_example:
            _write_example(sheet, 2, column, field.example)
        area = f"{letter}2:{letter}{ROWS}"
        _add_choices(sheet, field, area, lists)
        if field.unique:
            _mark_doubles(sheet, area)
        _set_width(sheet, column, (field.name, field.example if section.id_example else "", *field.choices))
    sheet.freeze_panes = "B2"
    if not section.id_example:
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


def _add_choices(sheet: Any, field: TemplateField, area: str, lists: dict[tuple[str, ...], str]) -> None:
    """A dropdown from a range. A reference may be something else too: a new name, or several."""
    from openpyxl.worksheet.datavalidation import DataValidation

    source = lists[field.choices] if field.choices else f"{field.refers}!$A$2:$A${ROWS}" if field.refers else ""
    if not source:
        return
    rule = DataValidation(type="list", formula1=source, allow_blank=True, showErrorMessage=bool(field.choices))
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
