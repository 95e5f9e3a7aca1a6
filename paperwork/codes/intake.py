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
        "The list can be read in more than one way here, and the papers depend on which. Nothing is printed until you "
        "answer. The answer is kept beside the list, so tomorrow's copy does not ask again.",
        advice=_ADVICE,
        asks=True,
    ),
    Code(
        "frequency-asked",
        "error",
        "the frequency of channel {channel}: {question}",
        _ANSWER,
        "The cell could be several frequencies, or none. Until you answer, papers have a blank to write in, and the "
        "label is withheld.",
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
        "The cell can be read in more than one way. Papers that show it are stamped until you answer.",
        advice=_ADVICE,
        asks=True,
    ),
    _read(
        "value-taken",
        "warning",
        "{question}; until you answer: {taken}",
        _ANSWER,
        "The list can be read in more than one way, and the likeliest is used. You are asked once for all cells of a "
        "kind.",
        advice=_ADVICE,
        asks=True,
    ),
    _read(
        "value-repaired",
        "warning",
        "{kind}: {changes}",
        "nothing to do if that is right; if not, correct the cells",
        "A value was not written as it is printed, and can be read only one way. Each is shown as it was, what it "
        "became, and why.",
    ),
    _read(
        "cells-unknown",
        "warning",
        "not understood, and left out: {cells}{what}",
        "give the column a heading that says what it holds, or leave it: nothing else needs it",
        "Every cell of the list is either used or listed. These are the listed ones.",
    ),
    _read(
        "personal-left",
        "warning",
        "personal data is left out, and printed nowhere: {columns}",
        "keep such data in another list: a mic list hangs on walls",
        "Phone numbers, addresses, allergies, birthdays and the like do not belong on these papers. Such columns are "
        "found by their headings, and named here by heading and place, never by what they hold.",
    ),
    _read(
        "notes-kept",
        "warning",
        "comments on cells are kept as notes: {notes}",
        "read them: such a note often says what the cell does not",
        "A comment on a cell in the row of a channel goes into the notes of that channel.",
    ),
    _read(
        "row-ragged",
        "error",
        "this row has {found} values under {wanted} headings: {one} and {other} may be one value, or {last} may be one "
        "too many",
        'put quotes around a value with a separator in it, as "Smith, Jr.", or delete the extra separator',
        "In a file of separated values, a name with a comma in it pushes everything after it into the next column.",
    ),
    _read(
        "row-twice",
        "warning",
        "this row repeats row {first} word for word; it is used once",
        "delete one of the two rows",
        "A row was pasted twice. The second adds nothing.",
    ),
    Code(
        "frequency-against-tv",
        "error",
        "channel {channel} is on {mhz} MHz, but its TV channel {tv} is {edges} MHz",
        "correct the one that is wrong; until then the frequency is printed as a blank and gets no label",
        "The list gives a TV channel beside the frequency, and the two disagree. One of them is a slip.",
        topics=("frequency",),
        doubts=True,
    ),
    Code(
        "mic-twice-in-scene",
        "error",
        "channel {channel} is on two people in scene {scene}: {first} and {second}",
        "give one of them another channel, or split the scene where the pack changes hands",
        "One pack cannot be on two people in one scene.",
        topics=("body",),
    ),
    _read(
        "total-differs",
        "warning",
        "the list counts {said}, but {counted} rows were read",
        "look for a missing row, or one too many, or correct the count",
        "A row of totals is no channel, but its number is compared with the rows that were read.",
    ),
    _read(
        "csv-encoding",
        "warning",
        "{name} is not UTF-8, so it is read as {encoding}; that gives {signs}",
        "check these letters; if they are wrong, save the list as UTF-8",
        "An older program wrote this text without saying its encoding. Of those in use, the one with the likeliest "
        "letters is taken.",
    ),
    _read(
        "answer-unfit",
        "warning",
        "the answer {value} to `{key}` is not one of the choices, so the question is open again",
        "answer it again with `paperwork answer`, or delete the line",
        "Answers are kept in a file beside the list. This one is no longer among the choices, or was edited by hand.",
    ),
    _read(
        "list-revised",
        "warning",
        "{old} and {new} are versions of one list; {new} is read: {changes}",
        "delete or hide the older sheet once nobody needs it",
        "Two tables name the same channels, and their titles say which is newer.",
    ),
    _read(
        "table-empty",
        "warning",
        "{what} look like headings of another table, but there are no rows below them",
        "delete them, or add rows below; if they are a row of the table above, add its channel number and its name",
        "A table below another begins with headings. Without rows it is usually a form that nobody filled in. It is "
        "listed because a row of words may look the same.",
    ),
    _read(
        "table-unfilled",
        "error",
        "{what} are headings, but there is no row below",
        "write a row for each channel below the headings",
        "The headings are known, and nothing is under them yet.",
    ),
    _read(
        "table-missing",
        "error",
        "there is no table of channels; the sheet begins with {what}",
        "give the columns headings, for example Ch, Name, Role, Freq, or start from `paperwork new`",
        "A list is found by its headings, anywhere on the sheet. This sheet has none that are known, in any language "
        "that is read.",
    ),
)
