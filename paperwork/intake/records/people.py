"""Who plays, who wears, who covers: the cells of performers and roles."""

import re
from collections.abc import Sequence

from paperwork.intake.ledger import Ledger
from paperwork.intake.reading import quote
from paperwork.intake.records.draft import DraftRecord, Fact, ShowDraft, User
from paperwork.intake.tables.rows import DataRow
from paperwork.intake.texts.names import (
    is_blank,
    is_group,
    key_of_name,
    read_casts,
    read_cover,
    split_roles,
    split_sharers,
)
from paperwork.place import Place
from paperwork.text.vocabulary import fold_word, is_nobody, listed_words

_WHEN = re.compile(r"(?i)\s+(?:mon|tue|wed|thu|fri|sat|sun|mats?|matinees?|eves?|evenings?|nights?|only)\b.*$")


def read_users(row: DataRow, record: DraftRecord, draft: ShowDraft, ledger: Ledger) -> list[User]:
    """Who plays what on a channel, from the cells of its role and its performer."""
    role_cell, cell = row.cell("role"), row.cell("performer")
    here = cell or role_cell
    user = User("", [], here.place if here else record.place)
    text = ledger.text(role_cell) if role_cell else ""
    if role_cell and not is_blank(text):
        user.roles = list(split_roles(text))
        for role in user.roles:
            if is_group(role):
                _ask_group(role, role_cell.place, record.id, draft, ledger)
    text = ledger.text(cell) if cell else ""
    if cell and fold_word(text) in listed_words("handheld"):
        fact = Fact("type", "", text, cell.place)
        record.facts.append(fact)
        record.notes.append(fact.note)
        text = ""
    is_role = text.startswith("(") and text.endswith(")") and fold_word(text) in map(fold_word, user.roles)
    is_somebody = cell and text and not is_nobody(text) and not is_role
    users = _read_performer(text, user, record, draft, ledger) if is_somebody else [user]
    return [one for one in users if one.by or one.roles]


def _ask_group(name: str, place: Place, channel: str, draft: ShowDraft, ledger: Ledger) -> None:
    """Ask who is in a group. The answer becomes a role that is read as its members."""
    text = f"{quote(name)} is a group: who is in it?"
    choices = {"one": f"nobody else: it is one pack, called {name}"}
    answer = ledger.ask("group", name, place, text, choices, channel=channel, stops=False, typed="names")
    if answer and answer != "one":
        members = [member.strip() for member in re.split(r"[,;]", answer) if member.strip()]
        draft.add("roles", name, place).put_list("group", [(member, place) for member in members], place)


def _read_performer(lines: str, user: User, record: DraftRecord, draft: ShowDraft, ledger: Ledger) -> Sequence[User]:
    """Who wears the pack, one after the other: the user, or several in turn; casts, covers and groups where they are
    named."""
    text = " ".join(lines.split("\n"))
    if casts := read_casts(text):
        _take_casts(casts, user, draft)
    elif is_group(text):
        user.roles = user.roles or [text]
        _ask_group(text, user.place, record.id, draft, ledger)
    elif split_sharers(lines, len(user.roles)) or read_cover(text):
        return _ask_sharers(lines, user, record, draft, ledger)
    else:
        user.by = text
    return [user]


def _take_casts(casts: Sequence[tuple[str, str]], user: User, draft: ShowDraft) -> None:
    """Two casts of one role: alternates, each with a team."""
    user.roles = user.roles or [" / ".join(name for _, name in casts)]
    for role in user.roles:
        alternates = [(name, user.place) for _, name in casts]
        draft.add("roles", role, user.place).put_list("alternates", alternates, user.place)
    for team, name in casts:
        draft.add("people", name, user.place).put("team", team, user.place)


def _ask_sharers(lines: str, user: User, record: DraftRecord, draft: ShowDraft, ledger: Ledger) -> list[User]:
    """Who wears the pack of a row that names several: in turn, as many as it has roles; or one of them, the other covers."""
    text = " ".join(lines.split("\n"))
    sharers, pair = split_sharers(lines, len(user.roles)), read_cover(text)
    second = _WHEN.sub("", pair.second) if pair else ""
    names = sharers or ((pair.first, second) if pair and "/" in text and not user.roles else ())
    roles = user.roles or list(names)
    choices = {}
    if names:
        pairs = [f"{role} is {name}" if role != name else name for role, name in zip(roles, names, strict=True)]
        choices["shared"] = f"one pack, worn in turn: {', '.join(pairs)}"
    if pair:
        choices["first"] = f"{pair.first} wears it, {second} covers"
        choices["second"] = f"{second} wears it, {pair.first} covers"
    answer = ledger.ask(
        "cover",
        f"{record.id}: {text}",
        user.place,
        f"{quote(text)} names {len(names) or 2} people on channel {record.id}",
        choices | {"one": "it is one name"},
        channel=record.id,
        stops=False,
        default="shared" if sharers else "",
    )
    if answer == "shared":
        return [User(name, [role], user.place) for role, name in zip(roles, names, strict=True)]
    user.by = text
    if pair and answer in ("first", "second"):
        user.by, covers = (pair.first, second) if answer == "first" else (second, pair.first)
        user.take_role()
        for role in user.roles:
            add_cover(role, covers, user.place, draft)
        if when := pair.second[len(second) :].strip():
            record.notes.append((f"{second} {when}", user.place))
    return [user]


def add_cover(role: str, by: str, place: Place, draft: ShowDraft) -> None:
    """Add one more cover of a role."""
    record = draft.add("covers", f"c{len(draft.table('covers')) + 1}", place)
    record.put("role", role, place)
    record.put("by", by, place)


def merge_users(record: DraftRecord, users: Sequence[User], ledger: Ledger) -> None:
    """Add the users that a second table has of a channel: the same ones add their roles, others are asked about."""
    earlier = record.users[0]
    for user in users:
        same = next((u for u in record.users if not user.by or key_of_name(u.by) == key_of_name(user.by)), None)
        if same is None and not earlier.by:
            same, earlier.by = earlier, user.by
        if same is not None:
            same.roles += [role for role in user.roles if key_of_name(role) not in map(key_of_name, same.roles)]
            continue
        answer = ledger.ask(
            "channel-twice",
            f"{record.id}: {earlier.by} | {user.by}",
            user.place,
            f"two tables give channel {record.id} different performers: {earlier.by}, and {user.by}",
            {"first": earlier.by, "second": user.by, "shared": "both, one after the other"},
            others=(earlier.place,),
        )
        if answer == "shared":
            record.users.append(user)
        elif answer == "second":
            earlier.by = user.by
