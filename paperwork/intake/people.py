"""Who plays, who wears, who covers: the cells of performers and roles."""

import re
from collections.abc import Sequence

from paperwork.files.grid import GridCell
from paperwork.intake.cells import Cells
from paperwork.intake.draft import Draft, Record, User
from paperwork.intake.ledger import Ledger, quote
from paperwork.intake.names import (
    Cover,
    find_near,
    is_blank,
    is_group,
    is_short,
    key_of_name,
    read_casts,
    read_cover,
    split_roles,
)
from paperwork.intake.questions import Choice, Question
from paperwork.place import Place
from paperwork.vocabulary import is_nobody

_WHEN = re.compile(r"\s+(?:mon|tue|wed|thu|fri|sat|sun|mats?|matinees?|eves?|evenings?|nights?|only)\b.*$", re.IGNORECASE)


def read_user(role_cell: GridCell | None, cell: GridCell | None, cells: Cells, record: Record, draft: Draft, ledger: Ledger) -> None:
    """Add who plays what on a channel, from the cells of its role and its performer."""
    here = cell or role_cell
    user = User("", [], here.place if here else record.place)
    text = cells.text(role_cell) if role_cell else ""
    if role_cell and not is_blank(text):
        user.roles = list(split_roles(text))
        for role in user.roles:
            if is_group(role):
                ask_group(role, role_cell.place, record.id, draft, ledger)
    text = " ".join(cells.text(cell).split("\n")) if cell else ""
    if cell and not is_nobody(text):
        _read_performer(text, cell, user, record, draft, ledger)
    if user.by or user.roles:
        record.users.append(user)


def ask_group(name: str, place: Place, channel: str, draft: Draft, ledger: Ledger) -> None:
    """Ask who is in a group. The answer becomes a role that stands for its members."""
    answer = ledger.ask(
        Question(
            kind="group", about=name, place=place, channel=channel, stops=False, typed="names",
            text=f"{quote(name)} is a group: who is in it?",
            choices=(Choice("one", f"nobody else: it is one pack, called {name}"),),
        )
    )
    if answer and answer != "one":
        members = [member.strip() for member in re.split(r"[,;]", answer) if member.strip()]
        draft.add("roles", name, place).put_list("group", [(member, place) for member in members], place)


def _read_performer(text: str, cell: GridCell, user: User, record: Record, draft: Draft, ledger: Ledger) -> None:
    """Who wears the pack, into the user; casts, covers and groups as far as they are told."""
    if casts := read_casts(text):
        _take_casts(casts, user, draft)
    elif is_group(text):
        user.roles = user.roles or [text]
        ask_group(text, cell.place, record.id, draft, ledger)
    else:
        cover = read_cover(text)
        user.by = _ask_cover(text, cover, user, record, draft, ledger) if cover else text


def _take_casts(casts: Sequence[tuple[str, str]], user: User, draft: Draft) -> None:
    """Two casts of one role: alternates, each with a team."""
    user.roles = user.roles or [" / ".join(name for _, name in casts)]
    for role in user.roles:
        alternates = [(name, user.place) for _, name in casts]
        draft.add("roles", role, user.place).put_list("alternates", alternates, user.place)
    for team, name in casts:
        draft.add("people", name, user.place).put("team", team, user.place)


def _ask_cover(text: str, cover: Cover, user: User, record: Record, draft: Draft, ledger: Ledger) -> str:
    """The name that wears the pack. The other becomes a cover of the user's roles."""
    second = _WHEN.sub("", cover.second)
    answer = ledger.ask(
        Question(
            kind="cover", about=f"{record.id}: {text}", place=user.place, channel=record.id, stops=False,
            text=f"{quote(text)} names two people on channel {record.id}",
            choices=(
                Choice("first", f"{cover.first} wears it, {second} covers"),
                Choice("second", f"{second} wears it, {cover.first} covers"),
                Choice("one", "it is one name"),
            ),
        )
    )
    if answer not in ("first", "second"):
        return text
    wears, covers = (cover.first, second) if answer == "first" else (second, cover.first)
    user.roles = user.roles or [wears]
    for role in user.roles:
        add_cover(role, covers, user.place, draft)
    if when := cover.second[len(second):].strip():
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
                kind="channel-twice", about=f"{record.id}: {earlier.by} | {user.by}", place=user.place, others=(earlier.place,),
                text=f"two tables tell different performers of channel {record.id}: {earlier.by}, and {user.by}",
                choices=(Choice("first", earlier.by), Choice("second", user.by), Choice("shared", "both, one after the other")),
            )
        )
        if answer == "shared":
            record.users.append(user)
        elif answer == "second":
            earlier.by = user.by


def settle_people(draft: Draft, ledger: Ledger) -> None:
    """Ask about spellings that may be one person's, and about short names that stand on several channels."""
    channels = tuple(draft.table("channels").values())
    users = [(user, record.id) for record in channels for user in record.users]
    names: dict[str, tuple[Place, str]] = {}
    roles: dict[str, tuple[Place, str]] = {}
    for user, id in users:
        names |= {user.by: (user.place, id)} if user.by and user.by not in names else {}
        roles |= {role: (user.place, id) for role in user.roles if role not in roles}
    renamed = _ask_near(names, "person", ledger)
    roles_renamed = _ask_near(roles, "role", ledger)
    for user, _ in users:
        user.by = renamed.get(user.by, user.by)
        user.roles = list(dict.fromkeys(roles_renamed.get(role, role) for role in user.roles))
    _ask_twins(channels, ledger)


def _ask_near(places: dict[str, tuple[Place, str]], what: str, ledger: Ledger) -> dict[str, str]:
    """Spellings that are said to be one, each with the fullest of them. Equal keys are one without asking."""
    renamed: dict[str, str] = {}
    first: dict[str, str] = {}
    for name in places:
        renamed[name] = first.setdefault(key_of_name(name), name)
    for one, other in find_near(tuple(places)):
        short, full = sorted((one, other), key=lambda name: (len(name), name))
        place, channel = places[other]
        answer = ledger.ask(
            Question(
                kind="person", about=" = ".join(sorted((one, other))), place=place, others=(places[one][0],), channel=channel,
                stops=False, text=f"{quote(one)} and {quote(other)} may be the same {what}",
                choices=(Choice("same", f"the same: {full}"), Choice("two", f"two different {what}s")),
            )
        )
        if answer == "same":
            renamed |= {name: full for name, to in renamed.items() if to in (short, full)}
    return {name: to for name, to in renamed.items() if name != to}


def _ask_twins(channels: Sequence[Record], ledger: Ledger) -> None:
    """A surname with an initial on several channels: one person with two packs, or two people?"""
    seen: dict[str, list[Record]] = {}
    for record in channels:
        if record.by and is_short(record.by) and "doubles" not in record.fields:
            seen.setdefault(key_of_name(record.by), []).append(record)
    for records in seen.values():
        if len(records) < 2:
            continue
        listed = ", ".join(record.id for record in records)
        ledger.ask(
            Question(
                kind="name", about=f"{records[0].by}: {listed}", place=records[1].users[0].place,
                others=(records[0].users[0].place,), channel=records[1].id, stops=False,
                text=f"{quote(records[0].by)} stands on channels {listed}: labels must tell two people apart",
                choices=(Choice("one", "it is one person with several packs"), Choice("shown", "two people; print the name as it stands")),
            )
        )
