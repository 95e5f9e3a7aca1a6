"""What is done to a show on the page: each act gives the next state of its file, and can be undone to the byte."""

from collections.abc import Callable, Sequence
from difflib import SequenceMatcher
from typing import Any

from paperwork.editing.edited import EditedShow, list_gone
from paperwork.editing.mending import Mending
from paperwork.editing.merging import Key, Merge, add_record, merge
from paperwork.editing.recast import list_recast
from paperwork.files.decode import decode_text
from paperwork.files.edit import edit_fields
from paperwork.files.move import move_record
from paperwork.finding import Edit
from paperwork.serve.edit.history import EditHistory
from paperwork.serve.edit.tables import describe_findings, list_known
from paperwork.serve.shows import Opened

MOST_LINES = 12
MOST_COMPARED = 1_000
"""Lines shown before and after an edit, the rest counted; and lines that are compared. Our own choice."""


def make_edits(opened: Opened, edits: Sequence[Edit], added: Sequence[tuple[str, str]] = ()) -> None:
    """Makes edits as one step, and adds records, by section and id. Raises Refused, and leaves all as it was."""
    empty = [edit for section, record in added for edit in add_record(section, record)]
    words = ", ".join(f"{section} {record}" for section, record in added) + ": is there" if not edits else ""
    _step(opened, lambda show: show.make([*empty, *edits]), words)


def move(opened: Opened, section: str, record: str, before: str) -> None:
    """Puts a record before another, or behind all for "". Raises Refused."""

    def put(show: EditedShow) -> EditedShow:
        return show.take(move_record(show.data, show.kind, show.name, section, record, before))

    _step(opened, put, f"{section} {record}: moved")


def recast(opened: Opened, old: str, new: str, *, stays: bool) -> None:
    """Gives the parts of one to another, as one step. Raises Refused, and ValueError where the names say nothing."""
    _step(opened, lambda show: show.make(_list_recast(show, old, new, stays=stays)), f"{new} for {old}")


def try_recast(opened: Opened, old: str, new: str, *, stays: bool) -> list[str]:
    """What a recast would change, a line each. Raises Refused and ValueError."""
    show = opened.open_edited()
    lines = show.make(_list_recast(show, old, new, stays=stays)).lines[len(show.lines) :]
    added = [line for line in lines if line.startswith(f"people {new} ") and line.endswith((", is x", ", is gone"))]
    return [*([f"people {new}: is added"] if added else []), *(line for line in lines if line not in added)]


def _list_recast(show: EditedShow, old: str, new: str, *, stays: bool) -> tuple[Edit, ...]:
    return list_recast(show.raw, old, new, list_known(show, "people"), stays=stays)


def mend(opened: Opened) -> int:
    """Makes every fix that nobody has to decide, as one step; how many findings are gone by it."""
    mending = Mending(opened.open_edited())
    mending.run()
    _step(opened, lambda _: mending.show, f"{len(mending.made)} fixes")
    return len(mending.made)


def take_state(opened: Opened, state: EditedShow, words: str) -> None:
    """Goes on with another state of the file, as one step."""
    _step(opened, lambda _: state, words)


def undo(opened: Opened) -> None:
    """Takes the last step back, if there is one."""
    if opened.history.undoes:
        opened.take(opened.open_edited().take(opened.history.undo(opened.data)))


def redo(opened: Opened) -> None:
    """Does again what was undone last."""
    if opened.history.redoes:
        opened.take(opened.open_edited().take(opened.history.redo(opened.data)))


def _step(opened: Opened, act: Callable[[EditedShow], EditedShow], words: str = "") -> None:
    before = opened.open_edited()
    after = act(before)
    lines = after.lines[len(before.lines) :]
    words = words or (lines[0] if len(lines) == 1 else f"{len(lines)} values")
    opened.history.add(before.data, after.data, words)
    opened.take(after)


def try_edits(opened: Opened, edits: Sequence[Edit]) -> dict[str, Any]:
    """What edits would do: lines of the file before and after, and what would be found. Raises Refused."""
    before = opened.open_edited()
    after = before.make(edits)
    new = {(one.code, one.text) for one in list_gone(after.reading, before.reading)}
    return {
        "lines": _list_lines(before, after),
        "findings": [
            {**one, "new": (one["code"], one["text"]) in new}
            for one in describe_findings(after)
            if (one["code"], one["text"]) in new
            or any((e.section, e.record, e.field) == (one["section"], one["id"], one["field"]) for e in edits)
        ],
        "gone": [one.text for one in list_gone(before.reading, after.reading)],
    }


def _list_lines(before: EditedShow, after: EditedShow) -> list[tuple[str, str]]:
    """The lines that differ, `-` as they are and `+` as they would be; of a workbook what its cells say."""
    if before.kind != "yaml":
        return [("+", line) for line in after.lines[len(before.lines) :][:MOST_LINES]]
    old, new = (decode_text(show.data, show.name).splitlines() for show in (before, after))
    while old and new and old[-1] == new[-1]:
        del old[-1], new[-1]
    first = next(
        (at for at, (one, other) in enumerate(zip(old, new, strict=False)) if one != other), min(len(old), len(new))
    )
    old, new = old[first:], new[first:]
    lines: list[tuple[str, str]] = []
    if max(len(old), len(new)) > MOST_COMPARED:
        return [("", "lines all over the file")]
    for tag, a, b, c, d in SequenceMatcher(None, old, new, autojunk=False).get_opcodes():
        if tag != "equal":
            lines += [*(("-", line) for line in old[a:b]), *(("+", line) for line in new[c:d])]
    more = len(lines) - MOST_LINES
    return [*lines[:MOST_LINES], *((("", f"and {more} more lines"),) if more > 0 else ())]


def find_merge(opened: Opened, theirs: EditedShow) -> Merge:
    """What was changed here and in the file since it was read."""
    base = theirs.take(opened.history.base)
    return merge(base.raw, opened.open_edited().raw, theirs.raw)


def take_merge(opened: Opened, theirs: EditedShow, kept: Sequence[Key]) -> None:
    """Goes on from the file as it is now, with what was changed here; of each clash `kept` are ours. Raises Refused."""
    own = opened.open_edited()
    edits = find_merge(opened, theirs).list_edits(kept, own.raw)
    made = theirs.take(edit_fields(theirs.data, theirs.kind, edits, theirs.name)) if edits else theirs
    opened.history = EditHistory(theirs.data)
    opened.history.add(theirs.data, made.data, "what was changed on this page")
    opened.take(made)
