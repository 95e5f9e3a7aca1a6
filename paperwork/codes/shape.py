"""Codes of shape and reference: a file that is read but does not say what a show file says."""

from functools import partial

from paperwork.codes.row import Code

_reference = partial(Code, stage="reference")
_shape = partial(Code, stage="shape")

TABLE: tuple[Code, ...] = (
    _shape(
        "section-unknown",
        "error",
        "there is no section {name}",
        "the sections are {known}{hint}",
        "The outermost entries of a show file, or the sheets of a show workbook, are its sections. This one is not "
        "among them, so nothing in it would be printed.",
        advice="use one of the sections that the message lists",
        edit="{name}//={meant}",
    ),
    _shape(
        "field-unknown",
        "error",
        "{record} has no field {name}",
        "{lead} {known}{hint}",
        "A record has a field that its section does not have. It would be lost silently, so the file is not used "
        "until the field is renamed or deleted.",
        advice="rename the field to one that the section has, or delete it",
        edit="{at}/{name}/={meant}",
    ),
    _shape(
        "field-missing",
        "error",
        "{record} has no {name}",
        "add {name}: {wanted}",
        "A record lacks a field that it cannot do without.",
        advice="add the field",
    ),
    _shape(
        "value-not-listed",
        "error",
        "{name} of {record} is {value}",
        "it can be {options}{hint}",
        "The field takes one of a few words, and this is not one of them.",
        advice="use one of the words that the message lists",
        edit="{at}/{name}={near}",
    ),
    _shape(
        "value-kind",
        "error",
        "{name} of {record} is {found}, but should be {wanted}",
        "{description}",
        "A list, a group or a single value is in a place where another of them belongs.",
        advice="write the value as the message shows it",
    ),
    _shape(
        "records-too-many",
        "error",
        "{name} of {record} holds more than {limit} items",
        "split the show, or delete what is not part of it",
        "A section or a list is far longer than any real show. The limit keeps a damaged file from stopping the run.",
    ),
    _reference(
        "value-unreadable",
        "error",
        "{name} of {record}: {reason}",
        "{description}",
        "The value cannot be read as what the field holds (a width, a time, a date, a number, a list of channels), or "
        "can be read in two ways. It is never guessed.",
        advice="write the value as the message shows it",
    ),
    _reference(
        "id-unknown",
        "error",
        "{name} of {record} names {id}, but {section} has no such entry",
        "correct the name, or add {id} to {section}{hint}",
        "A record refers to another that does not exist. This is checked only where the section exists: a small show "
        "may name capsules or desks that it lists nowhere. The same goes for people where the section lists at most "
        "half of those who are named, unless a name may be a slip of one that is listed.",
        advice="correct the name, or add the record to its section",
        edit="{at}/{name}={near}",
    ),
    _reference(
        "id-doubled",
        "error",
        "{first_id} and {id} in {section} are the same name to a reader",
        "rename one of them",
        "Two ids differ only in capitals, in spaces or in leading zeros (`1` and `01`). On a label or over a headset "
        "they are the same, so only one of them may exist.",
    ),
    _reference(
        "like-endless",
        "error",
        "radio {id} has a circular `like`: {id}, {chain}",
        "give one of them its own fields instead of `like`",
        "`like` takes over another radio type's fields. These types point at each other in a circle.",
    ),
    _reference(
        "like-deep",
        "error",
        "radio {id} is reached through more than {most} steps of `like`",
        "point `like` at the type that has the fields, without steps between",
        "`like` takes over another radio type's fields, through a few steps at most, so that they can be found.",
    ),
    _shape(
        "grid-large",
        "error",
        "{rows} in {scenes} scenes are too many: at most {most} cells fit into the grid",
        "split the show by day or by stage",
        "Who is live where is a grid of channels, or roles, and scenes. The number of its cells is limited, far above any real "
        "show.",
    ),
    _shape(
        "items-many",
        "error",
        "the ranges and racks of this show mean more than {most} items together",
        "give each rack its own channels and slots alone, or split the show by day or by stage",
        "A range such as 1-600 means each of its numbers. All of a file together are limited, far above any real show.",
    ),
    Code(
        "findings-many",
        "error",
        "{count} more findings are not listed, {errors} of them errors",
        "correct what is listed first, and check again; one cause often makes many",
        "A run lists a limited number of findings and counts the rest, so that a damaged file does not bury its first "
        "line.",
    ),
)
