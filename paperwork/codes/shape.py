"""Codes of shape and reference: a file that is read but does not say what a show file says."""

from paperwork.codes.row import Code

TABLE: tuple[Code, ...] = (
    Code(
        name="section-unknown",
        severity="error",
        stage="shape",
        says="there is no section {name}",
        fix="the sections are {known}{hint}",
        explains=(
            "The outermost keys of a show file, or the sheets of a show workbook, are its sections. This one is not "
            "among them, so nothing in it would be printed."
        ),
    ),
    Code(
        name="field-unknown",
        severity="error",
        stage="shape",
        says="{record} has no field {name}",
        fix="{lead} {known}{hint}",
        explains=(
            "A record holds a field that its section does not have. It would be lost in silence, so the file is not "
            "used until the field is renamed or taken out."
        ),
    ),
    Code(
        name="field-missing",
        severity="error",
        stage="shape",
        says="{record} has no {name}",
        fix="add {name}: {wanted}",
        explains="A record lacks a field without which it says nothing.",
    ),
    Code(
        name="value-not-listed",
        severity="error",
        stage="shape",
        says="{name} of {record} is {value}",
        fix="it can be {options}{hint}",
        explains="The field takes one of a few words, and this is none of them.",
    ),
    Code(
        name="value-kind",
        severity="error",
        stage="shape",
        says="{name} of {record} is {found}, and it should be {wanted}",
        fix="{description}",
        explains="A list, a group or a single value stands where another of them belongs.",
    ),
    Code(
        name="records-too-many",
        severity="error",
        stage="shape",
        says="{name} of {record} holds more than {limit} items",
        fix="split the show, or take out what is not part of it",
        explains="A section or a list is far longer than any real show; the limit keeps a damaged file from hanging the run.",
    ),
    Code(
        name="value-unreadable",
        severity="error",
        stage="reference",
        says="{name} of {record}: {reason}",
        fix="{description}",
        explains=(
            "The value cannot be read as what the field holds (a width, a time, a date, a number, a list of channels), "
            "or can be read in two ways. It is never guessed."
        ),
    ),
    Code(
        name="id-unknown",
        severity="error",
        stage="reference",
        says="{name} of {record} names {id}, and {section} has no such entry",
        fix="correct the name, or add {id} to {section}{hint}",
        explains=(
            "A record refers to another that does not exist. The check is made only where the section exists: a small "
            "show may name capsules or desks that it lists nowhere. The same goes for people where the section lists at "
            "most half of those who are named, unless a name may be a slip of one that is listed."
        ),
    ),
    Code(
        name="id-doubled",
        severity="error",
        stage="reference",
        says="{first_id} and {id} in {section} are the same name to a reader",
        fix="rename one of them",
        explains=(
            "Two ids differ only in upper and lower case, in spaces or in leading zeros (`1` and `01`). On a label or "
            "over a headset they are one, so they must not both exist."
        ),
    ),
    Code(
        name="like-endless",
        severity="error",
        stage="reference",
        says="radio {id} is like itself, by way of {chain}",
        fix="let one of them stand on its own",
        explains="`like` takes over another radio type's fields; these types point at each other in a circle.",
    ),
    Code(
        name="like-deep",
        severity="error",
        stage="reference",
        says="radio {id} stands behind more than {most} others by `like`",
        fix="let it be like the type that holds the fields, without steps between",
        explains="`like` takes over another radio type's fields, through a few steps at most, so that they can be found.",
    ),
    Code(
        name="grid-large",
        severity="error",
        stage="shape",
        says="{channels} channels in {scenes} scenes are more than {most} places of a grid",
        fix="split the show by day or by stage",
        explains="Who is live where is a grid of channels and scenes. The number of its places is bounded far above any real show.",
    ),
    Code(
        name="findings-many",
        severity="error",
        stage="sense",
        says="{count} more findings are not listed, {errors} of them errors",
        fix="mend what is listed first, and check again; one cause often makes many",
        explains="A run lists so many findings and counts the rest, so that a damaged file does not bury its first line.",
    ),
)
