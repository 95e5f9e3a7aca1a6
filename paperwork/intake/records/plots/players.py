"""Whom a row of a plot is about, who plays a role where a cell of it says so, and what its legend says of marks."""

import re
from collections.abc import Sequence

from paperwork.files.grid import Grid, GridCell
from paperwork.intake.ledger import Ledger
from paperwork.intake.records.draft import DraftRecord, ShowDraft, User
from paperwork.intake.tables.rows import DataRow
from paperwork.intake.texts.names import key_of_name, name_role, split_roles
from paperwork.raw import Text
from paperwork.text.vocabulary import fold_word, is_nobody, listed_words

_LEGEND = re.compile(
    r"(?:^|[,;\n]\s*)(?P<mark>[^\s=:,;]{1,3})\s*[=:]\s*(?P<words>[^=:;\n]+?)(?=$|;|\n|,\s*[^\s=:,;]{1,3}\s*=)"
)
"""One mark of a legend, and what it says of it."""


def find_roles(row: DataRow, record: DraftRecord | None, draft: ShowDraft, ledger: Ledger) -> Sequence[str]:
    """The roles that a row of the grid is about; a performer without a role is one under their own name."""
    if record is not None:
        for user in record.users:
            user.take_role()
        return record.roles
    role, performer = (ledger.text(cell) if (cell := row.cell(name)) else "" for name in ("role", "performer"))
    performer = "" if is_nobody(performer) else performer
    roles = split_roles(role) or _find_roles_of(performer, draft.users)
    spelled = {key_of_name(role): role for user in draft.users for role in user.roles}
    found = [spelled.get(key_of_name(role), role) for role in roles if role]
    for role in found:
        if key_of_name(role) not in spelled:
            place = next(iter(row.cells.values())).place
            entry = draft.add("roles", role, place)
            if performer not in ("", role) and "by" not in entry.fields:
                entry.put("by", performer, place)
    return found


def _find_roles_of(performer: str, users: Sequence[User]) -> Sequence[str]:
    """The roles of a performer on the channels: the one that is spelled like the name, else all; else the name itself."""
    key, roles = key_of_name(performer), []
    for user in users if performer else ():
        if key in map(key_of_name, (user.by, *user.roles)):
            user.take_role()
            roles += [role for role in user.roles if key == key_of_name(role)] or user.roles
    return list(dict.fromkeys(roles)) or [name_role(performer)]


def enter_player(names: Sequence[str], remark: str, cell: GridCell, draft: ShowDraft) -> bool:
    """Enter who plays a role, where a cell says so: `ORLA (Mina)`, a role in capitals and a name with one. False for any
    other remark, and for a second name."""
    by = remark.strip()[1:-1].strip()
    if (
        len(names) != 1
        or not names[0].isupper()
        or not re.fullmatch(r"(?:[A-Z\u00c0-\u00de]\w*[^\W\d_]\.?[ -]?)+", by)
        or by.isupper()
    ):
        return False
    entry = draft.add("roles", names[0], cell.place)
    known = entry.fields.setdefault("by", Text(by, cell.place))
    return isinstance(known, Text) and key_of_name(known.text) == key_of_name(by)


def read_legend(grid: Grid) -> dict[str, tuple[str, GridCell]]:
    """What a legend on the sheet says of each mark, by the mark in small letters, with the cell: `L = live`, `W: worn, muted`."""
    found: dict[str, tuple[str, GridCell]] = {}
    for cell in grid.cells.values():
        for match in _LEGEND.finditer(cell.text):
            words = fold_word(match["words"]).split()
            said = next(
                (
                    name
                    for word in words
                    for name in ("live", "worn", "handheld", "idle")
                    if word in listed_words(f"mark_{name}")
                ),
                "",
            )
            if said:
                found.setdefault(match["mark"].casefold(), (said, cell))
    return found
