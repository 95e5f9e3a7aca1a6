"""The draft made whole: users become roles and performers, scene ranges become scenes, notes become one text."""

from collections.abc import Mapping, Sequence

from paperwork.intake.ledger import Ledger
from paperwork.intake.reading import quote
from paperwork.intake.records.casts import list_cast_names
from paperwork.intake.records.draft import DraftRecord, ShowDraft, User
from paperwork.intake.texts.names import key_of_name, name_role
from paperwork.intake.texts.scenes import expand_scenes, is_scene, says_all
from paperwork.place import Place
from paperwork.raw import Map, Text
from paperwork.text.names import natural_key
from paperwork.text.vocabulary import fold_word, listed_words

_NO_STEP = "other"


def finish(draft: ShowDraft, ledger: Ledger) -> None:
    """Write what was gathered about each channel into its fields, and complete the sections that this begins."""
    _spread_scenes(draft)
    _read_second_packs(draft, ledger)
    _pair_ranked(draft, ledger)
    for record in draft.channels:
        main = draft.find("channels", record.mirrors) if record.mirrors else None
        record.users = main.users if main else record.users
        _write_users(record)
    for record in (*draft.channels, *draft.records("others")):
        if record.notes:
            texts = dict.fromkeys(ledger.withhold(text, place) for text, place in record.notes)
            record.put("notes", "; ".join(texts), record.notes[0][1])
    _write_points(draft)
    if draft.records("people"):
        _complete_people(draft)
    if draft.records("radios"):
        for record in draft.channels:
            if "radio" not in record.fields:
                draft.add("radios", _NO_STEP, record.place)
                record.put("radio", _NO_STEP, record.place)


def _read_second_packs(draft: ShowDraft, ledger: Ledger) -> None:
    """Let a channel of nobody be the second pack of whom its notes name as that: `MARGERY 2nd pack`."""
    names: dict[str, set[str]] = {}
    for record in draft.channels:
        for name in (*record.roles, *(user.by for user in record.users if user.by)):
            names.setdefault(fold_word(name), set()).add(record.id)
    seconds, packs = listed_words("second") - listed_words("spare"), listed_words("pack_word")
    for record in draft.channels:
        if record.users or record.mirrors or "spare" in record.fields:
            continue
        for text, place in record.notes:
            words = fold_word(text).split()
            who = " ".join(word for word in words if word not in seconds | packs)
            main = names.get(who, set()) if set(words) & seconds and set(words) & packs else set()
            if len(main) == 1:
                record.mirrors = next(iter(main))
                record.put("doubles", record.mirrors, place)
                ledger.lines.append(f"channel {record.id} is the second pack of {record.mirrors}: {quote(text)}")


def _pair_ranked(draft: ShowDraft, ledger: Ledger) -> None:
    """Let the channel that a column calls somebody's spare be the second pack of the one that it calls theirs: `Main`, `Spare`."""
    firsts, seconds = listed_words("first") - {"a", "1"}, listed_words("second") - {"b", "2"}
    ranked = [
        (record, fold_word(fact.text)) for record in draft.channels for fact in record.facts if fact.field == "notes"
    ]
    main: dict[str, set[str]] = {}
    for record, word in ranked:
        if word in firsts and record.by:
            main.setdefault(key_of_name(record.by), set()).add(record.id)
    for record, word in ranked:
        ids = main.get(key_of_name(record.by), set()) if record.by else set()
        if word in seconds and len(ids) == 1 and "doubles" not in record.fields and "spare" not in record.fields:
            record.mirrors = next(iter(ids))
            record.put("doubles", record.mirrors, record.place)
            ledger.lines.append(f"channel {record.id} is the second pack of {record.mirrors}: {quote(word)}")


def _write_points(draft: ShowDraft) -> None:
    """Decimal commas beside points are written as points; commas throughout are the sheet's own way, and stay."""
    records = [record for section in ("channels", "others") for record in draft.records(section)]
    frequencies = [(record, mhz) for record in records if isinstance(mhz := record.fields.get("mhz"), Text)]
    if any("." in mhz.text for _, mhz in frequencies):
        for record, mhz in frequencies:
            record.put("mhz", mhz.text.replace(",", "."), mhz.place)


def _spread_scenes(draft: ShowDraft) -> None:
    """Ranges of scenes beside a performer make that performer's roles live in them, and the scenes known."""
    users = [user for user in draft.users if user.scenes]
    if not users:
        return
    known = [record.id for record in draft.records("scenes")]
    live: dict[str, list[tuple[str, Place]]] = {scene: [] for scene in known}
    ordered = sorted(users, key=lambda user: (user.place.sheet, user.place.line))
    listed = {user.scenes: expand_scenes(user.scenes, known) for user in ordered}
    every = dict.fromkeys(scene for user in ordered if not says_all(user.scenes) for scene in listed[user.scenes])
    if not every and not known:
        return  # `all` of scenes that nobody names
    for user in ordered:
        user.take_role()
        for scene in (known or every) if says_all(user.scenes) else listed[user.scenes]:
            live.setdefault(scene, []).extend((role, user.listed or user.place) for role in user.roles)
    _move_roles(
        draft, {user.scenes: tuple(known or every) if says_all(user.scenes) else listed[user.scenes] for user in users}
    )
    is_counted = not known and all(map(is_scene, live))
    for scene in sorted(live, key=natural_key) if is_counted else live:
        first = live[scene][0][1] if live[scene] else draft.records("scenes")[0].place
        record = draft.add("scenes", scene, first)
        record.fields.setdefault("name", Text(scene, record.place))
        if live[scene] and "live" not in record.fields:
            record.put_list("live", _first_places(live[scene]).items(), first)


def _move_roles(draft: ShowDraft, scenes: Mapping[str, Sequence[str]]) -> None:
    """Let a role that has one pack in some scenes and another in others wear its first, and make moves of the others."""
    worn: dict[str, list[tuple[DraftRecord, User]]] = {}
    for record in draft.channels:
        for user in record.users:
            for role in user.roles if user.scenes else ():
                worn.setdefault(role, []).append((record, user))
    for role, stints in worn.items():
        first, seen = stints[0][0], [scene for _, user in stints for scene in scenes[user.scenes]]
        if all(record is first for record, _ in stints) or len(set(seen)) < len(seen):
            continue
        for record, user in stints:
            if record is first:
                continue
            user.roles = [one for one in user.roles if one != role]
            for scene in scenes[user.scenes]:
                place = user.listed or user.place
                move = draft.add("moves", f"m{len(draft.table('moves')) + 1}", place)
                for name, text in (("role", role), ("scene", scene), ("channel", record.id)):
                    move.put(name, text, place)
            record.users = [one for one in record.users if one.roles]


def _first_places(live: Sequence[tuple[str, Place]]) -> dict[str, Place]:
    """Each role once, at its first place."""
    found: dict[str, Place] = {}
    for role, place in live:
        found.setdefault(role, place)
    return found


def _write_users(record: DraftRecord) -> None:
    users = record.users
    names = dict.fromkeys(user.by for user in users if user.by)
    if len(names) > 1:
        pairs = {role: (user.by, user.place) for user in users for role in user.roles or [name_role(user.by)]}
        items = tuple((Text(role, place), Text(by, place)) for role, (by, place) in pairs.items())
        record.fields["shared"] = Map(items, users[0].place)
        return
    if record.roles:
        where = {role: user.place for user in reversed(users) for role in user.roles}
        record.put_list("role", [(role, where[role]) for role in record.roles], users[0].place)
    if names:
        record.put("by", next(iter(names)), next(user.place for user in users if user.by))


def _complete_people(draft: ShowDraft) -> None:
    """A section of people has to hold everybody: a name that it lacks would be taken for a slip."""
    for user in draft.users:
        if user.by:
            draft.add("people", user.by, user.place)
    for name, place in list_cast_names(draft):
        draft.add("people", name, place)
    for record in draft.records("covers"):
        by = record.fields.get("by")
        if isinstance(by, Text):
            draft.add("people", by.text, by.place)
