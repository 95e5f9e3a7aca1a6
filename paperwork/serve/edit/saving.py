"""An edited show put into its folder: never over a file that says something else; what was there is kept."""

import re
from pathlib import Path
from typing import Literal

from paperwork.finding import Edit
from paperwork.output import OutputError, write_new, write_over
from paperwork.raw import Map, Text
from paperwork.serve.edit.acts import make_edits
from paperwork.serve.shows import Opened

Way = Literal["own", "revision", "new"]

MOST_IN_A_MINUTE = 100

FORMER = re.compile(r"\.\d{4}-\d\d-\d\d-\d{4}(?:-\d+)?$")
"""What the name of a former state ends in, before its suffix."""


class Changed(Exception):
    """The file in the folder says something else than when it was read: nothing was written."""


def save_over(opened: Opened, now: str) -> str:
    """Writes the show into its own file; what that held is kept beside it, named by `now`. The name of what was kept.

    Raises Changed, and OutputError. Without a change nothing is written.
    """
    if opened.folder is None:
        raise OutputError(f"{opened.name} is in no folder", "save it as a download")
    if opened.was_saved():
        raise Changed
    path, kept = opened.folder / opened.name, ""
    if path.is_file():
        kept = keep_former(path, opened.history.base, now)
        if opened.load_saved() != opened.history.base:
            raise Changed
        write_over(path, opened.data)
    else:
        write_new(path, opened.data)
    opened.history.base = opened.data
    return kept


def keep_former(path: Path, data: bytes, now: str) -> str:
    """A copy of what a file said, as `show.2027-03-01-1620.yaml`, with a number where there is one of that minute."""
    for number in range(1, MOST_IN_A_MINUTE):
        more = f"-{number}" if number > 1 else ""
        kept = path.with_name(f"{path.stem}.{now}{more}{path.suffix}")
        if not kept.exists():
            write_new(kept, data)
            return kept.name
    raise OutputError(f"{path.name} was saved {MOST_IN_A_MINUTE} times in a minute", "wait, and save again")


def save_new(opened: Opened, name: str) -> str:
    """Writes the show into a new file of its folder, which the page goes on with. Raises OutputError."""
    if opened.folder is None:
        raise OutputError(f"{opened.name} is in no folder", "save it as a download")
    suffix = Path(opened.name).suffix
    plain = name.strip().removesuffix(suffix)
    if not plain or plain != Path(plain).name or plain.startswith(".") or not plain.isprintable() or "\\" in plain:
        raise OutputError(f"{name or 'nothing'} cannot be the name of a file", "write a plain name, as show-d")
    write_new(opened.folder / f"{plain}{suffix}", opened.data)
    opened.rename(f"{plain}{suffix}")
    opened.history.base = opened.data
    return opened.name


def make_revision(opened: Opened, revision: str, reason: str, now: str) -> None:
    """Gives the show its next revision: name, reason, time, the one before among the earlier. Raises Refused."""
    held = opened.open_edited().raw.get("show")
    shown = held if isinstance(held, Map) else Map((), opened.open_edited().raw.place)
    before = _text(shown, "revision")
    if not revision.strip() or revision.strip() == before:
        raise OutputError(f"the revision is {before or 'without a name'} already", "name the new one")
    earlier = opened.open_edited().reading.show
    names = [*(earlier.production.revisions if earlier else ()), *([before] if before else [])]
    day, _, clock = now.rpartition("-")
    listed = f"{names[0]}," if len(names) == 1 and " " in names[0] else ", ".join(names)  # not parted at its blank
    moment = f"{day} {clock[:2]}:{clock[2:]}"
    edits = [("revision", revision.strip()), ("revised", moment), ("reason", reason.strip()), ("revisions", listed)]
    make_edits(opened, [Edit("show", "", field, value) for field, value in edits if value or _text(shown, field)])


def _text(record: Map, field: str) -> str:
    value = record.get(field)
    return value.text if isinstance(value, Text) else ""


def suggest_revision(before: str) -> str:
    """The name that follows: `D` after `C`, `4` after `3`, "" where that is not plain."""
    if before.isascii() and before.isdigit():
        return str(int(before[:9]) + 1)
    if len(before) == 1 and before.isascii() and before.isalpha() and before not in "Zz":
        return chr(ord(before) + 1)
    return "" if before else "A"
