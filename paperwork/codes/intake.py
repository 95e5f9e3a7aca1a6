"""Codes of foreign sheets: what was taken, what was left, and what is asked."""

from functools import partial

from paperwork.codes.row import Code

_read = partial(Code, stage="read")
_ANSWER = "{choices}; `paperwork answer {name}` asks it and remembers"
_ADVICE = "answer it with `paperwork answer`, which remembers the answer"

TABLE: tuple[Code, ...] = (
    _read(
        "sheet-question",
        "error",
        "{question}",
        _ANSWER,
        "The list can be read in more than one way here, and the papers depend on which. Nothing is printed until the "
        "question is answered. The answer is kept beside the list, so tomorrow's copy does not ask again.",
        advice=_ADVICE,
        asks=True,
    ),
    Code(
        "frequency-asked",
        "error",
        "the frequency of channel {channel}: {question}",
        _ANSWER,
        "The cell can be read as more than one frequency, or as none. Until the question is answered the papers show "
        "a blank to write in, and the label is withheld.",
        advice=_ADVICE,
        topics=("frequency",),
        doubts=True,
        asks=True,
    ),
    Code(
        "value-asked",
        "error",
        "{question}",
        _ANSWER,
        "The cell can be read in more than one way. Papers that show it are stamped until the question is answered.",
        advice=_ADVICE,
        asks=True,
    ),
    _read(
        "value-taken",
        "warning",
        "{question}; until you answer: {taken}",
        _ANSWER,
        "The list can be read in more than one way, and the likeliest is used. It is asked once for all cells of one "
        "kind.",
        advice=_ADVICE,
        asks=True,
    ),
    _read(
        "value-repaired",
        "warning",
        "{kind}: {changes}",
        "nothing to do if that is right; otherwise correct the cells",
        "A value was not written as it is printed, and only one reading is possible. Each is shown as it was, what it "
        "is taken as, and why.",
    ),
    _read(
        "cells-unknown",
        "warning",
        "not understood, and left out: {cells}{what}",
        "give the column a heading that says what it holds, or leave it: nothing else depends on it",
        "Every cell of the list is either used or listed. These are listed.",
    ),
    _read(
        "personal-left",
        "warning",
        "data about people is left out, and printed nowhere: {columns}",
        "keep such data in a list of its own: a mic list hangs on walls",
        "Phone numbers, addresses, allergies, birthdays and the like do not belong on these papers. Such columns are "
        "known by their headings, and named here by heading and place, never by what they hold.",
    ),
    _read(
        "notes-kept",
        "warning",
        "notes on cells are kept as notes: {notes}",
        "read them: such a note often says what the cell does not",
        "A comment on a cell in a channel's row is added to the notes of that channel.",
    ),
    _read(
        "row-ragged",
        "error",
        "this row has {found} values for {wanted} headings: {one} and {other} may be one value, or {last} may be one "
        "too many",
        'put quotes around a value that contains the separator, for example "Smith, Jr.", or delete the extra separator',
        "In a file of separated values, a name with a comma of its own pushes everything after it into the next column.",
    ),
    _read(
        "row-twice",
        "warning",
        "this row repeats row {first} word for word; it is read once",
        "delete one of the two rows",
        "A row was pasted twice. The second adds nothing.",
    ),
    Code(
        "frequency-against-tv",
        "error",
        "channel {channel} is on {mhz} MHz, but its TV channel {tv} is {edges} MHz",
        "correct the one that is wrong; until then the frequency is printed as a blank and gets no label",
        "The list gives the TV channel beside the frequency, and the two do not agree. One of them is a slip.",
        topics=("frequency",),
        doubts=True,
    ),
    Code(
        "mic-twice-in-scene",
        "error",
        "channel {channel} is used twice in scene {scene}: for {first} and for {second}",
        "give one of them another channel, or split the scene where the pack changes hands",
        "One pack cannot be on two people in one scene.",
        topics=("body",),
    ),
    _read(
        "total-differs",
        "warning",
        "the list counts {said}, but {counted} rows were read",
        "look for a row that is missing or one too many, or correct the count",
        "A row of totals is not a channel, but its number is compared with the rows that were read.",
    ),
    _read(
        "csv-encoding",
        "warning",
        "{name} is not UTF-8, so it is read as {encoding}, which gives {signs}",
        "check these letters; if they are wrong, save the list as UTF-8",
        "Text that does not state its encoding was written by an older program. Of those that were in use, the one that gives "
        "the likeliest letters is taken.",
    ),
    _read(
        "answer-unfit",
        "warning",
        "the answer {value} to `{key}` is not one of the choices, so the question is open again",
        "answer it again with `paperwork answer`, or delete the line",
        "Answers are kept in a file beside the list. This one is not among the choices any more, or was edited by hand.",
    ),
    _read(
        "list-revised",
        "warning",
        "{old} and {new} are versions of one list; {new} is read: {changes}",
        "delete or hide the older sheet once it is no longer needed",
        "Two tables name the same channels, and their titles say which is the newer.",
    ),
    _read(
        "table-empty",
        "warning",
        "{what} are read as headings of another table, but there are no rows below them",
        "delete them, or add rows below; if they are a row of the table above, add its channel number and its name",
        "A table below another one begins with headings. Headings without rows are mostly a form that nobody filled "
        "in. They are listed because a row of words could be mistaken for them.",
    ),
    _read(
        "table-unfilled",
        "error",
        "{what} are headings, but there is no row below them",
        "write a row for each channel below the headings",
        "The headings of the list are known, and nothing is under them yet.",
    ),
    _read(
        "table-missing",
        "error",
        "there is no table of channels; the sheet begins with {what}",
        "give the columns headings, for example Ch, Name, Role, Freq, or start from `paperwork new`",
        "A list is found by its headings, wherever on the sheet they are. This sheet has none that are known in any "
        "of the languages that are read.",
    ),
)
