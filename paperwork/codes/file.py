"""Codes of the readers: what stops a file from being read, or a part of it."""

from paperwork.codes.row import Code

TABLE: tuple[Code, ...] = (
    Code(
        name="file-missing",
        severity="error",
        stage="read",
        says="there is no file {name}",
        fix="check the name and the folder{nearest}",
        explains="The file named on the command line, or named inside the show file, does not exist.",
    ),
    Code(
        name="key-doubled",
        severity="error",
        stage="read",
        says="{key} is written twice; the first is at {first}",
        fix="keep one of the two, or give one of them another name",
        explains=(
            "A key stands twice in one group. Other programs keep the last and drop the first in silence, which "
            "loses one of two edits; so the file is not used until one of them is gone."
        ),
    ),
)
