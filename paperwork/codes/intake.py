"""Codes of foreign sheets: what was taken, what was left, and what is asked."""

from paperwork.codes.row import Code, Severity, Stage


def _code(name: str, severity: Severity, stage: Stage, says: str, fix: str, explains: str) -> Code:
    return Code(name=name, severity=severity, stage=stage, says=says, fix=fix, explains=explains)


_ANSWER = "{choices}; `paperwork answer {name}` asks it and remembers"

TABLE: tuple[Code, ...] = (
    _code(
        "sheet-question",
        "error",
        "read",
        "{question}",
        _ANSWER,
        "The sheet can be read in more than one way here, and the papers depend on which. Nothing is printed until the "
        "question is answered. An answer is kept beside the sheet, so tomorrow's copy does not ask again.",
    ),
    _code(
        "frequency-asked",
        "error",
        "sense",
        "the frequency of channel {channel}: {question}",
        _ANSWER,
        "The cell can be read as more than one frequency, or as none. Until the question is answered the papers show a "
        "blank to write in, and the label is withheld.",
    ),
    _code(
        "value-asked",
        "error",
        "sense",
        "{question}",
        _ANSWER,
        "The cell can be read in more than one way. Papers that show the subject are stamped until the question is answered.",
    ),
    _code(
        "value-taken",
        "warning",
        "read",
        "{question}; until told otherwise: {taken}",
        _ANSWER,
        "The sheet can be read in more than one way, and the likeliest is used. It is asked once for all cells of one kind.",
    ),
    _code(
        "value-repaired",
        "warning",
        "read",
        "{kind}: {changes}",
        "nothing, if that is what is meant; else correct the cells",
        "A value was not written as it is printed, and only one reading is possible. Each is shown as what stood there, "
        "what it is taken as, and why.",
    ),
    _code(
        "cells-unknown",
        "warning",
        "read",
        "not understood, and left out: {cells}{what}",
        "give the column a heading that says what it holds, or leave it: nothing else depends on it",
        "Every cell of the sheet is either used or listed. These are listed.",
    ),
    _code(
        "notes-kept",
        "warning",
        "read",
        "notes pinned to cells are kept as notes: {notes}",
        "read them: such a note often says what the cell does not",
        "A remark that is pinned to a cell of a channel's row is added to the notes of that channel.",
    ),
    _code(
        "row-ragged",
        "error",
        "read",
        "this row has {found} values and the headings are {wanted}: {one} and {other} may be one value, or {last} may be one too many",
        'put quotes around a value that holds the separator, as "Smith, Jr.", or take the extra separator out',
        "In a file of separated values a name with a comma of its own pushes everything behind it into the next column.",
    ),
    _code(
        "row-twice",
        "warning",
        "read",
        "this row repeats row {first} word by word; it is read once",
        "delete one of the two rows",
        "A row was pasted twice. The second says nothing new.",
    ),
    _code(
        "frequency-against-tv",
        "error",
        "sense",
        "channel {channel} is on {mhz} MHz, and the sheet says television channel {tv}, which is {edges} MHz",
        "correct the one that is wrong; until then the frequency is printed as a blank and gets no label",
        "The sheet tells the television channel beside the frequency, and the two do not agree. One of them is a slip of the pen.",
    ),
    _code(
        "mic-twice-in-scene",
        "error",
        "sense",
        "channel {channel} stands twice in scene {scene}: for {first} and for {second}",
        "give one of them another channel, or split the scene where the pack changes bodies",
        "One pack cannot be on two people in one scene.",
    ),
    _code(
        "total-differs",
        "warning",
        "read",
        "the sheet counts {said}, and {counted} rows were read",
        "look for a row that is missing or one too many, or correct the count",
        "A row of totals is no channel, but its number is compared with the rows that were read.",
    ),
    _code(
        "csv-encoding",
        "warning",
        "read",
        "{name} is not UTF-8; it is read as Windows-1252",
        "check the accented names below; save it as UTF-8 to be sure",
        "Text without a mark of its encoding was written by an older program. Windows-1252 is what most of them used.",
    ),
    _code(
        "answer-unfit",
        "warning",
        "read",
        "the answer {value} to `{key}` fits no choice, so the question is open again",
        "answer it with `paperwork answer`, or delete the line",
        "Answers are kept in a file beside the sheet. This one is no longer among the choices, or was edited by hand.",
    ),
    _code(
        "list-revised",
        "warning",
        "read",
        "{old} and {new} are one list; {new} is read: {changes}",
        "delete or hide the older sheet once it is no longer needed",
        "Two tables name the same channels, and their titles say which is the newer.",
    ),
    _code(
        "table-empty",
        "warning",
        "read",
        "{what} are read as headings of a table of their own, and no row stands below them",
        "delete them, or write rows below; if they are a row of the table above, write its channel number and its name",
        "A table below another one begins with headings. Headings without a row are mostly a form that nobody filled in; "
        "they are told because a row of words could be taken for them.",
    ),
    _code(
        "table-missing",
        "error",
        "read",
        "no table of channels is found; the sheet begins with {what}",
        "give the columns headings, as Ch, Name, Role, Freq, or start from `paperwork new`",
        "A list is found by its headings, wherever on the sheet they stand. This sheet has none that are known in any of "
        "the languages that are read.",
    ),
)
