"""Spellings that may be one person's or one role's: asked, and then written one way wherever they are; and one role of several
people, each on a channel of their own, as `VILLAGER` or `Commentator`: numbered, and a group."""

from collections.abc import Iterator, Mapping, Sequence, Set
from itertools import count

from paperwork.intake.ledger import Ledger
from paperwork.intake.reading import quote, say_place
from paperwork.intake.records.draft import DraftRecord, ShowDraft
from paperwork.intake.texts.ids import key_of
from paperwork.intake.texts.names import find_near, is_short, key_of_name
from paperwork.place import Place
from paperwork.raw import List, Node, Text
from paperwork.text.vocabulary import fold_word

_PEOPLE = {"people": (), "roles": ("by", "alternates", "group"), "covers": ("by",), "others": ("listeners",)}
"""Sections and fields in which people are named, after the users of the channels; of the section people the ids."""

_ROLES = {"roles": ("group",), "covers": ("role",), "scenes": ("live",)}
"""Those in which roles are named; of the section roles the ids too."""


def settle_people(draft: ShowDraft, ledger: Ledger) -> None:
    """Ask about spellings that may be one person's, and about short names that are on several channels."""
    users = [(user, record.id) for record in draft.channels for user in record.users]
    names: dict[str, tuple[Place, str]] = {}
    roles: dict[str, tuple[Place, str]] = {}
    for user, id in users:
        if user.by:
            names.setdefault(user.by, (user.place, id))
        for role in user.roles:
            roles.setdefault(role, (user.place, id))
    for name, place in _list_people(draft):
        names.setdefault(name, (place, ""))
    for record in draft.records("roles"):
        roles.setdefault(record.id, (record.place, ""))
    renamed = _ask_near(names, "person", ledger)
    roles_renamed = _ask_near(roles, "role", ledger)
    for user, _ in users:
        user.by = renamed.get(user.by, user.by)
        user.roles = list(dict.fromkeys(roles_renamed.get(role, role) for role in user.roles))
    _respell(draft, "people", _PEOPLE, renamed, ledger)
    _respell(draft, "roles", _ROLES, roles_renamed, ledger)
    _ask_twins(draft.channels, ledger)


def _list_people(draft: ShowDraft) -> Iterator[tuple[str, Place]]:
    """The people who are named beside the channels: in rooms, casts, covers and ears."""
    for section, fields in _PEOPLE.items():
        for record in draft.records(section):
            if section == "people":
                yield record.id, record.place
            for field in fields:
                yield from ((text.text, text.place) for text in _texts_of(record.fields.get(field)) if field != "group")


def _texts_of(node: Node | None) -> Sequence[Text]:
    items = node.items if isinstance(node, List) else (node,)
    return [item for item in items if isinstance(item, Text)]


def _ask_near(places: dict[str, tuple[Place, str]], what: str, ledger: Ledger) -> dict[str, str]:
    """Spellings that are said to be one, each with the one that counts. Equal keys are one without asking."""
    renamed: dict[str, str] = {}
    first: dict[str, str] = {}
    for name in places:
        renamed[name] = first.setdefault(key_of_name(name), name)
    for one, other in find_near(tuple(places)):
        short, full = sorted((one, other), key=lambda name: (len(name), name))
        place, channel = places[other]
        answer = ledger.ask(
            "person",
            " = ".join(sorted((one, other))),
            place,
            f"{quote(one)} and {quote(other)} may be the same {what}",
            {"same": f"the same: {full}", "other": f"the same: {short}", "two": f"two different {what}s"},
            others=(places[one][0],),
            channel=channel,
            stops=False,
        )
        if answer in ("same", "other"):
            counts = full if answer == "same" else short
            renamed |= {name: counts for name, to in renamed.items() if to in (renamed[short], renamed[full])}
    return {name: to for name, to in renamed.items() if name != to}


def _respell(
    draft: ShowDraft, listed: str, fields: Mapping[str, tuple[str, ...]], renamed: Mapping[str, str], ledger: Ledger
) -> None:
    """Write the names one way in every record; records of `listed` whose ids are now one become one."""
    if not renamed:
        return
    table = draft.sections.get(listed, {})
    for record in tuple(table.values()):
        if record.id in renamed:
            del table[key_of(record.id)]
            record.id = renamed[record.id]
            _join(table.setdefault(key_of(record.id), record), record, ledger)
    for section, names in fields.items():
        for record in draft.records(section):
            for name in set(names) & set(record.fields):
                record.fields[name] = _rename(record.fields[name], renamed)


def _join(kept: DraftRecord, other: DraftRecord, ledger: Ledger) -> None:
    """Add the fields of a record to one that is the same; where both have a field, the first counts and it is said."""
    for name, node in other.fields.items():
        known = kept.fields.setdefault(name, node)
        if isinstance(known, Text) and isinstance(node, Text) and known.text != node.text:
            because = f"the {name} of {kept.id} at {say_place(known.place)}"
            ledger.repair("facts of one person given differently", node.place, node.text, known.text, because)


def _rename(node: Node, renamed: Mapping[str, str]) -> Node:
    if isinstance(node, Text):
        return Text(renamed.get(node.text, node.text), node.place)
    if isinstance(node, List):
        texts = [Text(renamed.get(text.text, text.text), text.place) for text in reversed(_texts_of(node))]
        return List(tuple(reversed({text.text: text for text in texts}.values())), node.place)
    return node


def _ask_twins(channels: Sequence[DraftRecord], ledger: Ledger) -> None:
    """A surname with an initial on several channels: one person with two packs, or two people?"""
    seen: dict[str, list[DraftRecord]] = {}
    for record in channels:
        if record.by and is_short(record.by) and "doubles" not in record.fields:
            seen.setdefault(key_of_name(record.by), []).append(record)
    for records in (records for records in seen.values() if len(records) > 1):
        listed = ", ".join(record.id for record in records)
        first, second = records[:2]
        ledger.ask(
            "name",
            f"{first.by}: {listed}",
            second.users[0].place,
            f"{quote(first.by)} is on channels {listed}: is that one person?",
            {"one": "it is one person with several packs", "shown": "two people; print the name as it is"},
            others=(first.users[0].place,),
            channel=second.id,
            stops=False,
        )


def part_roles(draft: ShowDraft, ledger: Ledger) -> None:
    """Give each person of one role a number after it, since a show has one performer for a role; a plot that has the role means
    all of them. Whoever plays it for another team is one of two casts, and is left."""
    taken = {fold_word(role) for user in draft.users for role in user.roles}
    for role, people in _find_shared(draft):
        names = list(zip(_number(role, people, taken), (records[0].users[0].place for records in people), strict=True))
        for (name, _), records in zip(names, people, strict=True):
            for user in (record.users[0] for record in records):
                user.roles = [name if fold_word(one) == fold_word(role) else one for one in user.roles]
        place, because = names[0][1], "each of them gets a role of their own"
        draft.add("roles", role, place).put_list("group", names, place)
        ledger.repair("roles of several people", place, role, ", ".join(name for name, _ in names), because)


def _find_shared(draft: ShowDraft) -> list[tuple[str, list[list[DraftRecord]]]]:
    """The roles of several people, each with the channels of every one of them."""
    holders: dict[str, tuple[str, dict[str, list[DraftRecord]]]] = {}
    for record in draft.channels:
        by = record.by if len(record.users) == 1 and not record.mirrors else ""
        for role in record.roles if by else ():
            holders.setdefault(fold_word(role), (role, {}))[1].setdefault(key_of_name(by), []).append(record)
    return [(role, list(people.values())) for role, people in holders.values() if len(people) > 1]


def _number(role: str, people: Sequence[Sequence[DraftRecord]], taken: Set[str]) -> list[str]:
    """A role for each person: by their teams where each has another one, else by numbers that no role has."""
    teams = [next((fact.text for fact in records[0].facts if fact.field == "team"), "") for records in people]
    if all(teams) and len(set(map(fold_word, teams))) == len(teams):
        return [f"{role} {team}" for team in teams]
    free = (number for number in count(1) if f"{fold_word(role)} {number}" not in taken)
    return [f"{role} {next(free)}" for _ in people]
