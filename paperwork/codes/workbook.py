"""Codes of workbooks: what stops one from being read, or a part of it."""

from functools import partial

from paperwork.codes.row import Code

_read = partial(Code, stage="read")

TABLE: tuple[Code, ...] = (
    _read(
        "workbook-blank",
        "error",
        "no sheet of {name} has a value in it{detail}",
        "make a sheet for each section, for example `channels` with the heading id in its first cell",
        "In a workbook each sheet is a section. A picture of a table cannot be read.",
    ),
    _read(
        "sheet-large",
        "error",
        "{what}",
        "delete everything beyond the table, blank cells with a format too",
        "The size of a sheet is limited, far above any real show. It is usually one stray cell at the far end.",
        stops=True,
    ),
    _read(
        "cell-far",
        "warning",
        "a value far beyond the table is not read: {where}",
        "delete it and everything beyond the table, or move it next to the table if it belongs there",
        "A list is small. A stray value at the far end of a sheet is left out.",
    ),
    _read(
        "sheet-doubled",
        "error",
        "two sheets are the section {section}; the first is {first}",
        "keep one of them, or hide the one that is not used",
        "Sheet names are compared without capitals or spaces around them. A section is one sheet.",
    ),
    _read(
        "heading-id",
        "error",
        "no row of sheet {title} holds headings of ours",
        "name the column of the ids id, and the others after their fields; or hide the sheet if it is not a section",
        "A row of a section has the names of its fields, one of them id, the name that other sheets use.",
    ),
    _read(
        "title-unread",
        "warning",
        "what is above the headings is not read: {words}",
        "leave it, or write it into the sheet `show`, if papers need it",
        "The headings of a table are found below a title. What is above them belongs to no record, so no paper shows it.",
    ),
    _read(
        "heading-missing",
        "error",
        "{value} has no heading above it",
        "write the name of the field into row 1 of this column, or delete the cell",
        "Without a heading a value belongs to no field and would be lost.",
    ),
    _read(
        "id-missing",
        "error",
        "this row has values but no id",
        "give the row an id in the first column, or delete the row",
        "Every record needs an id for other sheets and papers. Put totals and remarks on a hidden sheet.",
    ),
    _read(
        "id-date",
        "error",
        "the id is a date ({value}): a spreadsheet program makes one of {day}-{month}",
        "set the cell's format to text and type the id again",
        "Type 1-2 as an id, and a spreadsheet program makes it the first of February. What was typed is gone.",
    ),
    _read(
        "cell-beyond",
        "error",
        "{value} is beside the value; this sheet has a field and its value in columns A and B only",
        "move it to a row of its own, or delete it",
        "The sheets show, day and spectrum have a field in column A and its value in column B.",
    ),
    _read(
        "cell-fieldless",
        "error",
        "this value has no field name",
        "write the name of the field in column A of this row, or delete the value",
        "On the sheets show, day and spectrum, column A names the field of column B.",
    ),
    _read(
        "cell-formula",
        "error",
        "the formula {formula} has no stored result{more}",
        "open the workbook in a spreadsheet program, save it, and try again; or type the value",
        "Formulas are not calculated here. The result that a spreadsheet program stored is read, and this one has "
        "none.",
    ),
    _read(
        "cell-error",
        "error",
        "the cell shows {value} instead of a value",
        "correct the formula, or type the value",
        "The stored result of the formula is an error, so there is nothing to print.",
    ),
    _read(
        "cell-struck",
        "error",
        "struck-through text in this row: {cells}",
        "delete what is no longer valid, or remove the strike-through; a hidden row is left out",
        "A struck-through cell may be a cut channel or an old value. It is not guessed, and not used.",
    ),
    _read(
        "cells-merged",
        "error",
        "the cells {range} are merged; only the first holds the value",
        "unmerge them and write the value into every cell that needs it",
        "A merged cell may mean one value for all its cells, or only for the first. It is not guessed, and not used.",
    ),
    _read(
        "sheets-hidden",
        "warning",
        "hidden sheets are left out: {which}",
        "unhide a sheet to have it read",
        "What is hidden is not printed.",
    ),
    _read(
        "rows-hidden",
        "warning",
        "hidden rows of sheet {title} are left out: {which}",
        "unhide the rows, or clear the filter, to have them read",
        "What is hidden is not printed. A filter hides rows too.",
    ),
    _read(
        "columns-hidden",
        "warning",
        "hidden columns of sheet {title} are left out: {which}",
        "unhide the columns to have them read",
        "What is hidden is not printed.",
    ),
    _read(
        "edit-refused",
        "error",
        "{name} cannot be edited: {reason}",
        "type the values in by hand, or save the file again from the program that made it and try once more",
        "A file is edited in place, so that comments, order and results of formulas stay. If that is not certain to "
        "work, nothing is changed.",
    ),
    _read(
        "notes-unread",
        "warning",
        "notes on cells are not read: {which}",
        "move what must be printed into a field, for example into a column `notes`",
        "A note on a cell belongs to no field, so no paper shows it.",
    ),
    _read(
        "workbook-cannot",
        "error",
        "{what} cannot be written into a workbook: {reason}",
        "keep this show as YAML, or write it in a simpler way",
        "A workbook has a sheet for a section, a row for a record and a text in a cell. A short list or a group of "
        "names fits into a cell. Deeper groups, and items with commas in them, do not.",
    ),
)
