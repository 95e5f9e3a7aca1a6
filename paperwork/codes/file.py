"""Codes of the readers: what stops a file from being read, or a part of it."""

from paperwork.codes.row import Code, Severity


def _code(name: str, severity: Severity, says: str, fix: str, explains: str) -> Code:
    return Code(name=name, severity=severity, stage="read", says=says, fix=fix, explains=explains)


_FILES: tuple[Code, ...] = (
    _code(
        "file-missing",
        "error",
        "there is no file {name}",
        "check the name and the folder{nearest}",
        "The file named on the command line, or named inside the show file, does not exist.",
    ),
    _code(
        "file-folder",
        "error",
        "{name} is a folder, not a show file",
        "name the file inside it{nearest}",
        "A folder was named where one show file is wanted.",
    ),
    _code(
        "file-denied",
        "error",
        "{name} may not be read: the system denies it",
        "give yourself the right to read the file, or copy it to a folder of your own",
        "The file exists, but its permissions or those of its folder keep it from being read.",
    ),
    _code(
        "file-special",
        "error",
        "{name} is a device or a pipe, not a file on disk",
        "save the show as a file and name that",
        "Only files on disk are read: a device or a pipe may never end, so it is not even opened.",
    ),
    _code(
        "file-unreadable",
        "error",
        "{name} could not be read: {reason}",
        "check the disk, or copy the file elsewhere and try again",
        "The system reported a fault while the file was opened or read.",
    ),
    _code(
        "file-empty",
        "error",
        "{name} is empty{detail}",
        "start it with `paperwork new`, or bring back the last good copy",
        "The file has no contents, or only blank lines and comments. A full disk or a broken copy often leaves one.",
    ),
    _code(
        "file-large",
        "error",
        "{name} is larger than {most} bytes",
        "check that it is the show file; pictures and other lists belong in other files",
        "A show file is some hundred kilobytes at most, so a much larger one is refused before it is read.",
    ),
    _code(
        "file-kind",
        "error",
        "{name} is {what}, not a show file",
        "{remedy}",
        "A show file is YAML text (.yaml) or a workbook (.xlsx). Other files are told by their first bytes.",
    ),
    _code(
        "file-old-workbook",
        "error",
        "{name} is a workbook of the old binary kind (.xls)",
        "open it in a spreadsheet program and save it as .xlsx",
        "The old binary workbooks are not read. Any spreadsheet program saves them in the newer kind.",
    ),
    _code(
        "file-password",
        "error",
        "{name} is a workbook locked with a password",
        "open it with its password, take the password off, and save it again",
        "A locked workbook is encrypted as a whole; nothing in it can be read without its password.",
    ),
    _code(
        "file-damaged",
        "error",
        "{name} is damaged: {reason}",
        "copy or download it again, or open it in a spreadsheet program and save it again",
        "The workbook stops half-way or does not hold what its own table of contents promises.",
    ),
    _code(
        "file-unsafe",
        "error",
        "{name} is refused: {reason}",
        "copy its cells into a new workbook and use that",
        "A workbook is a packed folder. One that unpacks to an unreasonable size, or that declares entities of its own, "
        "could stop the computer, so it is refused before it is unpacked.",
    ),
    _code(
        "photo-unreadable",
        "error",
        "{name} cannot be read: {reason}",
        "save it as JPEG or PNG, or take the photograph again",
        "Photographs are read as JPEG, HEIC, PNG, WebP, TIFF, GIF or BMP.",
    ),
    _code(
        "photo-large",
        "error",
        "{name} has more than {most} pixels",
        "save it smaller, or take two photographs of half the table each",
        "A picture is held in memory as a whole, so its pixels are bounded. Large JPEGs are opened at half their size.",
    ),
    _code(
        "file-misnamed",
        "warning",
        "{name} is {what}, whatever its name says",
        "rename it to end in {suffix}",
        "The file was read by what it holds. A name that says something else makes other programs open it wrongly.",
    ),
    _code(
        "file-encoding",
        "error",
        "{name} is not UTF-8 text: {byte} here",
        "save it again with the encoding set to UTF-8; editors offer it in the Save As window",
        "Text is read as UTF-8 (or UTF-16 that says so). Guessing another encoding would print wrong names.",
    ),
)

_TEXT: tuple[Code, ...] = (
    _code(
        "yaml-syntax",
        "error",
        "{problem}",
        "{remedy}",
        "The text cannot be taken apart as YAML at this place. Nothing after it was read, so there may be more.",
    ),
    _code(
        "yaml-control",
        "error",
        "there is an invisible control character here ({character})",
        "delete it; it usually comes with text pasted from a PDF",
        "Control characters cannot be printed and are not allowed in YAML.",
    ),
    _code(
        "yaml-repeat",
        "error",
        "{what} here; the file must say everything in full",
        "write the values out where they belong",
        "Anchors (&), aliases (*) and merge keys (<<) make one place of a file stand for another. They are not read: a "
        "printed line could no longer be traced to one place, and a short file could unfold without end.",
    ),
    _code(
        "yaml-tag",
        "error",
        "a tag ({tag}) is not read",
        'delete the tag; for text that begins with !, put it in quotes: "{tag}"',
        "Tags (!name) ask for special kinds of values. A show file needs none; every value is text.",
    ),
    _code(
        "yaml-key",
        "error",
        "{problem}",
        "{remedy}",
        "Every entry is a plain name, a colon and a value. A list or a group cannot be the name, and an entry within "
        "braces needs its colon.",
    ),
    _code(
        "yaml-documents",
        "error",
        "a second document begins here",
        "delete the line `---`, or move what follows to a file of its own",
        "A line of three hyphens starts a second document in the same file. One file is one show.",
    ),
    _code(
        "yaml-top",
        "error",
        "the file is {what}, not a table of sections",
        "begin with a section, as `channels:` on a line of its own",
        "At its outer level a show file names its sections: show, channels, racks and so on.",
    ),
    _code(
        "yaml-deep",
        "error",
        "groups are nested more than {most} deep here",
        "check the brackets and the indentation; a show file is three levels deep",
        "Section, record, field: a show file has three levels and a short list or group within a field.",
    ),
    _code(
        "yaml-large",
        "error",
        "the file holds more than {most} values",
        "check that it is the show file",
        "The number of values in one file is bounded far above a real show.",
    ),
    _code(
        "key-doubled",
        "error",
        "{key} is written twice; the first is at {first}",
        "keep one of the two, or give one of them another name",
        "A key stands twice in one group. Other programs keep the last and drop the first in silence, which "
        "loses one of two edits; so the file is not used until one of them is gone.",
    ),
    _code(
        "comment-in-value",
        "warning",
        "everything from the # on is taken as a comment: {lost}",
        "put the whole value in quotes, or write a space after the # if it is a comment",
        "In YAML a space and a # begin a comment. `note: see #4 pack` reads as `see`, and half a note is lost. Only a # "
        "with a figure right behind it, or one that leaves a value empty, is reported.",
    ),
    _code(
        "text-long",
        "error",
        "this value is longer than {most} characters",
        "shorten it; keep long notes in a file of their own",
        "No paper has room for a value of this length.",
    ),
    _code(
        "text-control",
        "warning",
        "invisible control characters were left out of this value: {characters}",
        "type the value again; they usually come with text pasted from a PDF",
        "Control characters cannot be printed. The value is used without them.",
    ),
)

_WORKBOOK: tuple[Code, ...] = (
    _code(
        "workbook-blank",
        "error",
        "no sheet of {name} holds a value{detail}",
        "fill in a sheet for each section, as `channels` with the heading id in its first cell",
        "A workbook gives one section on each sheet. A picture of a table cannot be read.",
    ),
    _code(
        "sheet-large",
        "error",
        "{what}",
        "delete everything beyond the table, also blank cells that carry only a format",
        "Sheets are bounded far above a real show; a stray cell at the far end of a sheet is the usual cause.",
    ),
    _code(
        "sheet-doubled",
        "error",
        "two sheets are the section {section}; the first is {first}",
        "keep one of the two, or hide the sheet that is not meant",
        "Sheet names are compared without case and outer spaces. Only one sheet can be a section.",
    ),
    _code(
        "heading-id",
        "error",
        "the first cell of sheet {title} must be the heading id",
        "make row 1 the headings, id first, with no title above; or hide the sheet if it is no section",
        "Row 1 of a section's sheet names the fields, and its first column is the id that other sheets refer to.",
    ),
    _code(
        "heading-missing",
        "error",
        "{value} stands under no heading",
        "write the field's name into row 1 of this column, or delete the cell",
        "A value in a column without a heading belongs to no field, so it would be lost.",
    ),
    _code(
        "id-missing",
        "error",
        "this row has values but no id",
        "give the row an id in the first column, or delete the row",
        "Every record needs an id, so that other sheets and papers can refer to it. Totals and remarks below a table "
        "belong on a sheet that is hidden.",
    ),
    _code(
        "id-date",
        "error",
        "the id is a date ({value}); a spreadsheet program turns {day}-{month} into one",
        "set the cell's format to text and type the id again",
        "An id typed as 1-2 becomes the first of February in a spreadsheet program, and what was typed is gone.",
    ),
    _code(
        "cell-beyond",
        "error",
        "{value} stands beside the value; this sheet has a field and its value in columns A and B only",
        "move it to a row of its own, or delete it",
        "The sheets show, day and spectrum describe one thing each: a field in column A, its value in column B.",
    ),
    _code(
        "cell-fieldless",
        "error",
        "a value without a field's name",
        "write the field's name in column A of this row, or delete the value",
        "On the sheets show, day and spectrum column A names the field of the value in column B.",
    ),
    _code(
        "cell-formula",
        "error",
        "the formula {formula} has no stored result{more}",
        "open the workbook in a spreadsheet program, save it, and try again; or type the value",
        "Formulas are not calculated here; the result that a spreadsheet program stored with them is read. A workbook "
        "written by another kind of program has none.",
    ),
    _code(
        "cell-error",
        "error",
        "the cell shows {value} in place of a value",
        "mend the formula, or type the value",
        "The stored result of the formula is an error, so there is no value to print.",
    ),
    _code(
        "cell-struck",
        "error",
        "struck-through text in this row: {cells}",
        "delete what no longer holds, or take the strike-through off; a hidden row is left out",
        "A struck-through cell may be a cut channel or an old value. It is not guessed which.",
    ),
    _code(
        "cells-merged",
        "error",
        "the cells {range} are merged; only the first of them holds the value",
        "unmerge them and write the value into every cell that it is meant for",
        "A merged cell may mean one value for all its cells or only for the first. It is not guessed which.",
    ),
    _code(
        "sheets-hidden",
        "warning",
        "hidden sheets are left out: {which}",
        "show a sheet to have it read",
        "What is hidden is not printed.",
    ),
    _code(
        "rows-hidden",
        "warning",
        "hidden rows of sheet {title} are left out: {which}",
        "show the rows, or take the filter off, to have them read",
        "What is hidden is not printed. A filter hides rows too.",
    ),
    _code(
        "columns-hidden",
        "warning",
        "hidden columns of sheet {title} are left out: {which}",
        "show the columns to have them read",
        "What is hidden is not printed.",
    ),
    _code(
        "edit-refused",
        "error",
        "values cannot be put into {name}: {reason}",
        "write the values in by hand, or save the file anew from the program that made it and try again",
        "A file is edited in place, so that comments, order and the results of formulas stay. Where that cannot be done "
        "with certainty it is not done.",
    ),
    _code(
        "notes-unread",
        "warning",
        "notes pinned to cells are not read: {which}",
        "move what must be printed into a field, as a column `note`",
        "A note or comment that is pinned to a cell belongs to no field, so no paper shows it.",
    ),
    _code(
        "workbook-cannot",
        "error",
        "{what} cannot be written into a workbook: {reason}",
        "keep this show as YAML, or write it more simply",
        "A workbook has one sheet a section, one row a record and one text a cell. A short list or a group of names "
        "fits into a cell; deeper groups, and items with commas of their own, do not.",
    ),
)

TABLE: tuple[Code, ...] = (*_FILES, *_TEXT, *_WORKBOOK)
