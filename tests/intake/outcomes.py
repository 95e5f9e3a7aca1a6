"""What became of a written list: its facts read back, with or without questions, and what is not silent about the rest."""

import re
from collections.abc import Callable, Iterable, Mapping
from itertools import islice
from typing import Any

from paperwork.intake.source import read_book
from paperwork.intake.understand import Understanding, understand
from paperwork.text.units import Doubt, parse_frequency
from tests.intake.sheets import plain
from tests.intake.worlds import SPARE, Fact, Written

RIGHT, ANSWERED, LOCATED, VAIN, SILENT = OUTCOMES = (
    "right without a question",
    "right with questions",
    "not understood, and said so",
    "asked, and no answer gives it",
    "silently another show",
)

OF_PEOPLE = ("room", "colour", "ear")
"""What is said of whoever wears a channel: of nobody, its notes keep it."""

TRIES = 120
"""How many readings are tried to find the right answers to the questions of one list."""


def judge(written: Written) -> tuple[str, frozenset[Fact], frozenset[Fact]]:
    """The outcome, the facts that are missing in the end, and those that are false."""
    book = read_book(written.data, written.name, written.name.rpartition(".")[2])
    assert book is not None
    answers: dict[tuple[str, str], str] = {}
    got = understand(book)
    missing, false = compare(written, got)
    asked = bool(got.questions)
    if not missing and not false:
        return ANSWERED if asked else RIGHT, missing, false
    best, tries = (len(missing) + len(false), answers, got), 0
    grown = True
    while grown and best[0] and tries < TRIES:
        grown, found = False, best
        for key, value in list(_list_answers(best[2], best[1])):
            tries += 1
            again = understand(book, {**best[1], key: value})
            count = sum(map(len, compare(written, again)))
            if count < found[0]:
                found, grown = (count, {**best[1], key: value}, again), True
            if tries >= TRIES:
                break
        best = found
    missing, false = compare(written, best[2])
    if not missing and not false:
        return ANSWERED, missing, false
    if not false and all(is_located(fact, best[2]) for fact in missing):
        return LOCATED, missing, false
    return VAIN if asked else SILENT, missing, false


def _list_answers(got: Understanding, answers: Mapping[tuple[str, str], str]):
    """Each answer that a question offers and that was not given yet."""
    for question in got.questions:
        for choice in islice(question.choices, 12):
            if (question.kind, question.about) not in answers:
                yield (question.kind, question.about), choice.value


def compare(written: Written, got: Understanding) -> tuple[frozenset[Fact], frozenset[Fact]]:
    """The facts of a list that its reading has not, and those that it has and the list does not say.

    A show calls a channel without a role, also in its scenes, after who has it, and a pack after the channel. Its notes
    keep what has no field of its own.
    """
    if "form" in written.manner:
        return _compare_plot(written.facts, plot_of(got))
    said, read = written.facts, facts_of(got)
    people = {fact[1]: fact[2] for fact in said if fact[0] == "performer"}
    roles = {people[fact[1]]: fact[2] for fact in said if fact[0] == "role" and fact[1] in people}
    read = frozenset((fact[0], roles.get(fact[1], fact[1]), fact[2]) if fact[0] == "live" else fact for fact in read)
    stands = {("role", channel, name) for channel, name in people.items()}
    packs = {fact for fact in read if fact[0] == "pack" and not any(one[0] == "pack" for one in said)}
    notes = {fact for fact in read if fact[0] == "notes"}
    nameless = {fact[1] for fact in said} - set(people)
    kept = {fact for fact in said if fact[0] == "notes" or (fact[0] in OF_PEOPLE and fact[1] in nameless)}
    held = {fact for fact in kept if any(_holds(one, fact) for one in notes)}
    derived = {fact for fact in read if fact[0] == "slot" and fact[2].startswith("RX.")}
    derived |= {fact for fact in read if fact[0] == "show" and not any(one[:2] == fact[:2] for one in said)}
    return said - read - held, frozenset(read - said - notes - stands - packs - derived)


def _compare_plot(said: frozenset[Fact], read: frozenset[Fact]) -> tuple[frozenset[Fact], frozenset[Fact]]:
    """The same of a plot, which need not say who plays whom, nor which pack anybody wears."""
    kinds = {fact[0] for fact in said}
    stands = {fact for fact in read if fact[0] == "plays" and fact[1] == fact[2]}
    return said - read, frozenset(fact for fact in read - said - stands if fact[0] in kinds or fact[0] == "plays")


def plot_of(got: Understanding) -> frozenset[Fact]:
    """What a reading says of a plot: who is live in the scene of each place, with which pack, and who plays whom."""
    sections = plain(got.raw)
    own: dict[str, str] = {}
    facts: set[Fact] = set()
    for id, one in sections.get("channels", {}).items():
        listed, shared = one.get("role") or [], one.get("shared") or {}
        roles = [listed] if isinstance(listed, str) else [*listed, *shared]
        roles = roles or ([one["by"]] if one.get("by") else [])
        own |= dict.fromkeys(roles if "doubles" not in one else (), _figure(id))
        facts |= {("plays", role, shared.get(role) or one["by"]) for role in roles if role in shared or one.get("by")}
        facts |= {("frequency", _figure(id), _khz(one["mhz"]))} if one.get("mhz") else set()
    facts |= {("plays", id, one["by"]) for id, one in sections.get("roles", {}).items() if one.get("by")}
    moved: dict[tuple[str, str], list[str]] = {}
    for move in sections.get("moves", {}).values():
        worn = _figure(move["channel"]) if move.get("channel") else own.get(move["role"], "none")
        moved.setdefault((move["role"], move["scene"]), []).append(worn)
    for place, (id, scene) in enumerate(sections.get("scenes", {}).items(), 1):
        live = scene.get("live") or []
        for role in [live] if isinstance(live, str) else live:
            worn = moved.get((role, id)) or [own[role]] if role in own else moved.get((role, id), [])
            facts.add(("live", role, str(place)))
            facts |= {("worn", role, str(place), ">".join(worn))} if worn else set()
    return frozenset(facts)


def _figure(id: str) -> str:
    return (re.findall(r"[1-9]\d*", id) or [id])[-1]


def _holds(note: Fact, fact: Fact) -> bool:
    return note[1] == fact[1] and any(
        word in note[2] for word in (SPARE.values() if fact[0] == "spare" else (fact[2],))
    )


def facts_of(got: Understanding) -> frozenset[Fact]:
    """What a reading says, in the terms of the lists."""
    sections, facts = plain(got.raw), set()
    facts |= gear_facts(sections)
    for id, one in sections.get("channels", {}).items():
        number = _number_of(id)
        if "doubles" in one:
            continue
        facts.add(("channel", number, number))
        roles = one.get("role") or []
        shared = one.get("shared") or {}
        facts |= {("role", number, role) for role in ([roles] if isinstance(roles, str) else [*roles, *shared])}
        facts |= {("performer", number, _in_speech(by)) for by in (one.get("by"), *shared.values()) if by}
        facts |= {(name, number, one[name]) for name in ("pack", "capsule", "notes") if one.get(name)}
        facts |= {("spare", number, "yes")} if one.get("spare") else set()
        facts |= {("frequency", number, _khz(one["mhz"]))} if one.get("mhz") else set()
    for place, (id, scene) in enumerate(sections.get("scenes", {}).items(), 1):
        number = (re.findall(r"\d+", id) or [str(place)])[-1]
        live = scene.get("live") or []
        facts |= {("live", role, number) for role in ([live] if isinstance(live, str) else live)}
    return frozenset(facts)


def gear_facts(sections: Mapping[str, Any]) -> set[Fact]:
    """What a show says of gear, of those who wear it, and of itself, in the terms of the lists."""
    facts: set[Fact] = {("show", name, text) for name, text in sections.get("show", {}).items() if name != "language"}
    transmitters, people = sections.get("transmitters", {}), sections.get("people", {})
    for id, one in sections.get("channels", {}).items():
        number = _number_of(id)
        if "doubles" in one:
            facts.add(("second", _number_of(one["doubles"]), number))
            continue
        facts |= {("slot", number, one["slot"])} if "slot" in one else set()
        facts |= {("backup", number, _khz(one["backup"]))} if "backup" in one else set()
        facts |= {(name, number, text) for name, text in transmitters.get(one.get("pack", id), {}).items()}
        facts |= {(name, number, people.get(one.get("by"), {})[name]) for name in people.get(one.get("by"), {})}
        facts |= _patch_facts(number, one.get("slot", ""), sections)
    for ears, one in sections.get("others", {}).items():
        numbers = [
            _number_of(id)
            for id, channel in sections["channels"].items()
            if _hears(id, channel, one, ears) and "doubles" not in channel
        ]
        facts |= {("ear", number, _khz(one.get("mhz", ""))) for number in numbers}
    return facts


def _hears(id: str, channel: Mapping[str, Any], other: Mapping[str, Any], ears: str) -> bool:
    names = {channel.get("by"), *(channel.get("role") or ())}
    return bool(names & set(other.get("listeners") or ())) or ears == f"IEM {id}"


def _patch_facts(number: str, slot: str, sections: Mapping[str, Any]) -> set[Fact]:
    rack, _, place = slot.rpartition(".")
    outputs = sections.get("racks", {}).get(rack, {}).get("analogue 1", "")
    target = outputs.split(", ")[int(place) - 1] if outputs and place else "-"
    desk, _, at = target.rpartition(" ")
    jacks = sections.get("consoles", {}).get(desk, {}).get("jacks", "").split(", ")
    jack = {("jack", number, jacks[int(at) - 1])} if at.isdigit() and len(jacks) >= int(at) > 0 and jacks[0] else set()
    kind = "jack" if desk == "SL" else "desk"  # where nothing says the desk, the box is where the cable goes
    return ({(kind, number, at)} if at.isdigit() else set()) | jack


def _number_of(id: str) -> str:
    return re.sub(r"^(mic)?\s*0*", "", id, flags=re.IGNORECASE)


def _in_speech(name: str) -> str:
    return " ".join(reversed(name.split(", ")))


def _khz(text: str) -> str:
    try:
        return str(parse_frequency(text) // 1000)
    except Doubt:
        return text


def is_located(fact: Fact, got: Understanding) -> bool:
    """Whether a fact that was not understood is shown: in the notes of its channel, or papers wait for what is in doubt."""
    kept = any(_holds(one, fact) for one in facts_of(got) if one[0] == "notes")
    return kept or any(one.severity == "error" for one in got.findings) or any(not one.default for one in got.questions)


def assert_no_other_show(seeds: Iterable[int], write: Callable[[int], Written]) -> None:
    """No list is another show, in silence or in spite of right answers."""
    for seed in seeds:
        written = write(seed)
        outcome, missing, false = judge(written)
        assert outcome not in (SILENT, VAIN), (seed, outcome, sorted(missing), sorted(false), written.manner)
