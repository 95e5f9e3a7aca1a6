"""What became of a written list: its facts read back, with or without questions, and what is not silent about the rest."""

import re
from collections.abc import Mapping
from itertools import islice

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

TRIES = 60
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
        grown = False
        for key, value in list(_list_answers(best[2], best[1])):
            tries += 1
            again = understand(book, {**best[1], key: value})
            count = sum(map(len, compare(written, again)))
            if count < best[0]:
                best, grown = (count, {**best[1], key: value}, again), True
            if tries >= TRIES:
                break
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
    said, read = written.facts, facts_of(got)
    people = {fact[1]: fact[2] for fact in said if fact[0] == "performer"}
    roles = {people[fact[1]]: fact[2] for fact in said if fact[0] == "role" and fact[1] in people}
    read = frozenset((fact[0], roles.get(fact[1], fact[1]), fact[2]) if fact[0] == "live" else fact for fact in read)
    stands = {("role", channel, name) for channel, name in people.items()}
    packs = {fact for fact in read if fact[0] == "pack" and not any(one[0] == "pack" for one in said)}
    notes = {fact for fact in read if fact[0] == "notes"}
    held = {fact for fact in said if fact[0] == "notes" and any(_holds(one, fact) for one in notes)}
    return said - read - held, frozenset(read - said - notes - stands - packs)


def _holds(note: Fact, fact: Fact) -> bool:
    return note[1] == fact[1] and any(
        word in note[2] for word in (SPARE.values() if fact[0] == "spare" else (fact[2],))
    )


def facts_of(got: Understanding) -> frozenset[Fact]:
    """What a reading says, in the terms of the lists."""
    sections, facts = plain(got.raw), set()
    for id, one in sections.get("channels", {}).items():
        number = re.sub(r"^(mic)?\s*0*", "", id, flags=re.IGNORECASE)
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
