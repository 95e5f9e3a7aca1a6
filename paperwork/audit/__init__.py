"""Photographs of the mic table or the label tray, held against the show: what is there, missing, foreign, stale.

    list_labels(show, ...)   the labels that the show prints today, by number
    read_photo(data, name)   every QR code in a photograph, and where it stands
    compare(labels, photos)  present, missing, foreign, doubled, out of date

A label counts by its number and its code; its revision does not, since a label whose facts did not change stays good.
"""

import re
from collections import Counter
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import replace
from typing import Literal, TypeAlias

from paperwork.audit.photos import Photo, Seen, look_at, read_photo
from paperwork.finding import Finding
from paperwork.frozen import frozen
from paperwork.model import Show
from paperwork.plan.walls import put_on_walls, walls_of
from paperwork.reading import redact_for_print
from paperwork.text.fingerprint import ALPHABET
from paperwork.text.names import natural_key

__all__ = ["Audit", "Photo", "Seen", "compare", "describe_packs", "judge", "list_labels", "look_at", "read_photo"]

_OURS = re.compile(rf"(?P<number>[^:]+):(?P<role>[^:]*):(?P<revision>[^:]*):(?P<code>[{ALPHABET}]{{4}})")


State: TypeAlias = Literal["good", "stale", "foreign", "unreadable"]


@frozen
class Audit:
    """What came of it. Numbers are packs as labels call them; each list in the order of numbers.

    `stale` holds number and the text that was read, `foreign` texts, `doubled` number, photograph and how often.
    `blurred` holds photograph, part of it and how many codes there cannot be decoded, 0 where nothing in it can. While
    there are such, no pack is called missing: it is `unknown`.
    """

    present: tuple[str, ...]
    missing: tuple[str, ...]
    foreign: tuple[str, ...]
    stale: tuple[tuple[str, str], ...]
    doubled: tuple[tuple[str, str, int], ...]
    unknown: tuple[str, ...] = ()
    blurred: tuple[tuple[str, str, int], ...] = ()

    @property
    def is_whole(self) -> bool:
        """Whether every pack is there once, with a label that is good."""
        return not (self.missing or self.unknown or self.foreign or self.stale or self.doubled)


def list_labels(show: Show, findings: Iterable[Finding]) -> dict[str, frozenset[str]]:
    """The codes that are good today, by the number that a label's QR text begins with.

    At one performance a label of the whole run is good too, where it says what one of that performance would.
    """
    from paperwork.document.facts import tags_of
    from paperwork.sheets import SHEETS
    from paperwork.sheets.stamps import stamp_sheet

    found: dict[str, set[str]] = {}
    findings = tuple(findings)
    certain, hidden = redact_for_print(show, findings), walls_of(show).hide(findings)
    for paper in SHEETS:
        for sheet in paper.make(certain):
            stamped = stamp_sheet(paper, sheet, certain, hidden)
            for edition in {stamped.at_venue, show.at_venue}:
                for _, payload in tags_of(replace(stamped, at_venue=edition)):
                    number, _, rest = payload.partition(":")
                    found.setdefault(number, set()).add(rest.rpartition(":")[2])
    return {number: frozenset(codes) for number, codes in found.items()}


def judge(text: str, labels: Mapping[str, frozenset[str]]) -> tuple[State, str]:
    """What one code in a photograph is, and its number; "" for a text that cannot be decoded."""
    if not text:
        return "unreadable", ""
    match = _OURS.fullmatch(text)
    if match is None or match["number"] not in labels:
        return "foreign", ""
    return "good" if match["code"] in labels[match["number"]] else "stale", match["number"]


def compare(labels: Mapping[str, frozenset[str]], photos: Mapping[str, Sequence[Seen]], each: int = 1) -> Audit:
    """The labels held against what photographs show. `each` is how many labels of one pack a photograph may show."""
    present: set[str] = set()
    stale: set[tuple[str, str]] = set()
    foreign: set[str] = set()
    doubled: list[tuple[str, str, int]] = []
    for name, codes in photos.items():
        counts: Counter[str] = Counter()
        for seen in (one for one in codes if one.text):
            state, number = judge(seen.text, labels)
            if state == "foreign":
                foreign.add(seen.text)
                continue
            counts[number] += 1
            if state == "good":
                present.add(number)
            else:
                stale.add((number, seen.text))
        doubled += ((number, name, count) for number, count in counts.items() if count > each)
    unseen = tuple(sorted(set(labels) - present - {number for number, _ in stale}, key=natural_key))
    blurred = tuple(_list_blurred(photos)) if unseen else ()
    return Audit(
        tuple(sorted(present, key=natural_key)),
        () if blurred else unseen,
        tuple(sorted(foreign)),
        tuple(sorted(stale, key=lambda one: (natural_key(one[0]), one[1]))),
        tuple(sorted(doubled, key=lambda one: (natural_key(one[0]), one[1]))),
        unseen if blurred else (),
        blurred,
    )


def _list_blurred(photos: Mapping[str, Sequence[Seen]]) -> Iterator[tuple[str, str, int]]:
    for name, codes in photos.items():
        counts = Counter(seen.part for seen in codes if not seen.text)
        yield from ((name, part, count) for part, count in counts.items())
        if not codes:
            yield name, "", 0


def describe_packs(show: Show) -> dict[str, str]:
    """Who and where each label's number is, children by their initials: role, performer, pack, slots, pouch."""
    walls, found = put_on_walls(show), {}
    for channel in walls.channels.values():
        people = walls.performers_of(channel)
        pouches = dict.fromkeys(walls.people[name].pouch for name in people if name in walls.people)
        named = walls.roles_on(channel) or (("spare",) if channel.spare else ())
        texts = (
            *dict.fromkeys((*named, *people)),
            channel.pack and f"pack {channel.pack}",
            " ".join(map(str, channel.slots)),
            *(f"pouch {pouch}" for pouch in pouches if pouch),
        )
        found[channel.id] = ", ".join(filter(None, texts))
    for other in walls.others.values():
        found |= {pack: ", ".join(filter(None, (other.kind, *other.listeners))) for pack in other.packs}
    return {"".join(number.upper().split()): text for number, text in found.items()}
