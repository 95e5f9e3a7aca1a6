"""Who plays, who wears, who covers: the cells of performers and roles."""

import re
from collections.abc import Sequence

from paperwork.files.grid import GridCell
from paperwork.intake.cells import Cells
from paperwork.intake.draft import Draft, Record, User
from paperwork.intake.ledger import Ledger, quote
from paperwork.intake.names import (
    Cover,
    is_blank,
    is_group,
    key_of_name,
    read_casts,
    read_cover,
    split_roles,
    split_sharers,
)
from paperwork.intake.questions import Choice, Question
from paperwork.place import Place
from paperwork.vocabulary import is_nobody

_WHEN = re.compile(
    r"\s+(?:mon|tue|wed|thu|fri|sat|sun|mats?|matinees?|eves?|evenings?|nights?|only)\b.*$", re.IGNORECASE
)


def read_user(
    role_cell: GridCell | None, cell: GridCell | None, cells: Cells, record: Record, draft: Draft, ledger: Ledger
) -> None:
    """Add who plays what on a channel, from the cells of its role and its performer."""
    here = cell or role_cell
    user = User("", [], here.place if here else record.place)
    text = cells.text(role_cell) if role_cell else ""
    if role_cell and not is_blank(text):
        user.roles = list(split_roles(text))
        for role in user.roles:
            if is_group(role):
                ask_group(role, role_cell.place, record.id, draft, ledger)
    text = cells.text(cell) if cell else ""
    users = [user]
    if cell and not is_nobody(text):
        users = _read_performer(text, cell, user, record, draft, ledger)
    record.users += [one for one in users if one.by or one.roles]


def ask_group(name: str, place: Place, channel: str, draft: Draft, ledger: Ledger) -> None:
    """Ask who is in a group. The answer becomes a role that stands for its members."""
    answer = ledger.ask(
        Question(
            kind="group",
            about=name,
            place=place,
            channel=channel,
            stops=False,
            typed="names",
            text=f"{quote(name)} is a group: who is in it?",
            choices=(Choice("one", f"nobody else: it is one pack, called {name}"),),
        )
    )
    if answer and answer != "one":
        members = [member.strip() for member in re.split(r"[,;]", answer) if member.strip()]
        draft.add("roles", name, place).put_list("group", [(member, place) for member in members], place)


def _read_performer(lines: str, cell: GridCell, user: User, record: Record, draft: Draft, ledger: Ledger) -> list[User]:
    """Who wears the pack, one after the other: the user, or several in turn; casts, covers and groups as far as they are told."""
    text = " ".join(lines.split("\n"))
    sharers = split_sharers(lines, len(user.roles))
    cover = read_cover(text)
    if casts := read_casts(text):
        _take_casts(casts, user, draft)
    elif is_group(text):
        user.roles = user.roles or [text]
        ask_group(text, cell.place, record.id, draft, ledger)
    elif sharers or cover:
        return _ask_sharers(text, sharers, cover, user, record, draft, ledger)
    else:
        user.by = text
    return [user]


def _take_casts(casts: Sequence[tuple[str, str]], user: User, draft: Draft) -> None:
    """Two casts of one role: alternates, each with a team."""
    user.roles = user.roles or [" / ".join(name for _, name in casts)]
    for role in user.roles:
        alternates = [(name, user.place) for _, name in casts]
        draft.add("roles", role, user.place).put_list("alternates", alternates, user.place)
    for team, name in casts:
        draft.add("people", name, user.place).put("team", team, user.place)


def _ask_sharers(
    text: str, sharers: Sequence[str], cover: Cover | None, user: User, record: Record, draft: Draft, ledger: Ledger
) -> list[User]:
    """Who wears the pack of a row that names several: in turn, as many as it has roles; or one of them, the other covers."""
    second = _WHEN.sub("", cover.second) if cover else ""
    names = sharers or ((cover.first, second) if cover and "/" in text and not user.roles else ())
    roles = user.roles or list(names)
    choices = []
    if names:
        pairs = [f"{role} is {name}" if role != name else name for role, name in zip(roles, names, strict=True)]
        choices.append(Choice("shared", f"one pack, worn in turn: {', '.join(pairs)}"))
    if cover:
        choices.append(Choice("first", f"{cover.first} wears it, {second} covers"))
        choices.append(Choice("second", f"{second} wears it, {cover.first} covers"))
    choices.append(Choice("one", "it is one name"))
    answer = ledger.ask(
        Question(
            kind="cover",
            about=f"{record.id}: {text}",
            place=user.place,
            channel=record.id,
            stops=False,
            choices=tuple(choices),
            text=f"{quote(text)} names {len(names) or 2} people on channel {record.id}",
            default="shared" if sharers else "",
        )
    )
    if answer == "shared":
        return [User(name, [role], user.place) for role, name in zip(roles, names, strict=True)]
    user.by = (
        _take_cover(cover, second, answer, user, record, draft) if cover and answer in ("first", "second") else text
    )
    return [user]


def _take_cover(cover: Cover, second: str, answer: str, user: User, record: Record, draft: Draft) -> str:
    """The name that wears the pack. The other becomes a cover of the user's roles."""
    wears, covers = (cover.first, second) if answer == "first" else (second, cover.first)
    user.roles = user.roles or [wears]
    for role in user.roles:
        add_cover(role, covers, user.place, draft)
    if when := cover.second[len(second) :].strip():
        record.notes.append((f"{second} {when}", user.place))
    return wears


def add_cover(role: str, by: str, place: Place, draft: Draft) -> None:
    """One more cover of a role."""
    entry = draft.add("covers", f"c{len(draft.table('covers')) + 1}", place)
    entry.put("role", role, place)
    entry.put("by", by, place)


def merge_users(record: Record, told: int, ledger: Ledger) -> None:
    """Users that a second table tells of a channel: the same ones add their roles, others are asked about."""
    for user in record.users[told:]:
        record.users.remove(user)
        earlier = record.users[0]
        same = next((u for u in record.users if not user.by or key_of_name(u.by) == key_of_name(user.by)), None)
        if same is None and not earlier.by:
            same, earlier.by = earlier, user.by
        if same is not None:
            same.roles += [role for role in user.roles if key_of_name(role) not in map(key_of_name, same.roles)]
            continue
        answer = ledger.ask(
            Question(
                kind="channel-twice",
                about=f"{record.id}: {earlier.by} | {user.by}",
                place=user.place,
                others=(earlier.place,),
                text=f"two tables tell different performers of channel {record.id}: {earlier.by}, and {user.by}",
                choices=(
                    Choice("first", earlier.by),
                    Choice("second", user.by),
                    Choice("shared", "both, one after the other"),
                ),
            )
        )
        if answer == "shared":
            record.users.append(user)
        elif answer == "second":
            earlier.by = user.by
