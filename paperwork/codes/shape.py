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
        "A show is made of sections: the outermost names of the file, or the sheets of the workbook. This one is not "
        "among them, and nothing in it would be printed.",
        advice="use one of the sections that the message lists",
        edit="{name}//={meant}",
    ),
    _shape(
        "field-unknown",
        "error",
        "{record} has no field {name}",
        "{lead} {known}{hint}",
        "The section has no such field. It would be lost without a word, so the file is not used until it is renamed "
        "or deleted.",
        advice="rename the field to one that the section has, or delete it",
        edit="{at}/{name}/={meant}",
    ),
    _shape(
        "column-unread",
        "warning",
        "the column headed {name} is not read: {section} have no such field",
        "leave it, if no paper needs it{hint}",
        "Somebody added a column to a table of ours. It is kept in the file, and no paper shows it.",
    ),
    _shape(
        "field-missing",
        "error",
        "{record} has no {name}",
        "add {name}: {wanted}",
        "This record needs a field that is not there.",
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
        "A list, a group or a single value is where another of them belongs.",
        advice="write the value as the message shows it",
    ),
    _shape(
        "records-too-many",
        "error",
        "{name} of {record} holds more than {limit} items",
        "split the show, or delete what does not belong to it",
        "No real show has a section or list this long. The limit keeps a damaged file from running for ever.",
    ),
    _reference(
        "value-unreadable",
        "error",
        "{name} of {record}: {reason}",
        "{description}",
        "The value cannot be read as what the field holds (a width, a time, a date, a number, a list of channels), or "
        "can be read two ways. It is never guessed.",
        advice="write the value as the message shows it",
    ),
    _reference(
        "id-unknown",
        "error",
        "{name} of {record} names {id}, which {are} not in {section}",
        "correct the name, or add {id} to {section}{hint}",
        "A record names another that is not there. This is checked only if the section exists: a small show may name "
        "capsules or desks that it lists nowhere. `people` may leave out others: there only a name that is nearly a "
        "listed one is reported.",
        advice="correct the name, or add the record to its section",
        edit="{at}/{name}={near}",
    ),
    _reference(
        "id-doubled",
        "error",
        "{first_id} and {id} in {section} look the same to a reader",
        "rename one of them",
        "Two ids differ only in capitals, spaces or leading zeros (`1` and `01`). On a label or over the intercom they "
        "are the same, so only one may exist.",
    ),
    _reference(
        "like-endless",
        "error",
        "`like` of radio {id} runs in a circle: {id}, {chain}",
        "give one of them its own fields instead of `like`",
        "`like` takes over the fields of another radio type. These types point at each other.",
    ),
    _reference(
        "like-deep",
        "error",
        "radio {id} is more than {most} steps of `like` deep",
        "point `like` straight at the type with the fields",
        "`like` takes over the fields of another radio type, through a few steps at most.",
    ),
    _shape(
        "grid-large",
        "error",
        "{rows} in {columns} are too many: there is room for {most} cells",
        "split the show by day or by stage",
        "Who is live is a grid of channels or roles by scenes, who plays one of roles by performances. They are limited, far above any real show.",
    ),
    _shape(
        "items-many",
        "error",
        "the lists, ranges and racks of this show come to more than {most} items",
        "give each rack only its own channels and slots, or split the show by day or by stage",
        "A list counts as what it names, a range such as 1-600 as each of its numbers. Together they are limited, far above any real show.",
    ),
    Code(
        "findings-many",
        "error",
        "{count} more findings are not listed, {errors} of them errors",
        "correct the first ones and check again; one cause often makes many",
        "A run lists up to a limit and counts the rest, so that a damaged file does not bury its first line.",
    ),
)
