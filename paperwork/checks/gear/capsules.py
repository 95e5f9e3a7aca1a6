"""Capsules and what they are screwed into."""

from collections.abc import Iterator

from paperwork.finding import Finding, Subject, find
from paperwork.model import Channel, Show
from paperwork.plan.stock import count_capsules
from paperwork.text.names import fold, shorten_ids

FIXED = "fixed"
"""The word for a head that cannot be changed."""


def check_capsules(show: Show) -> Iterator[Finding]:
    """A handheld with a capsule connector has a capsule, and every capsule fits its transmitter.

    Reported once for each radio type, and for each capsule on it: a connector that is given wrongly is one fault.
    """
    bare: dict[str, list[Channel]] = {}
    misfits: dict[tuple[str, str], list[Channel]] = {}
    for channel in show.channels.values():
        radio = show.radio_of(channel)
        if radio is None or not radio.fit:
            continue
        capsule = show.capsules.get(channel.capsule)
        if not channel.capsule and radio.kind == "handheld" and fold(radio.fit) != FIXED:
            bare.setdefault(radio.id, []).append(channel)
        elif capsule and capsule.fit and fold(capsule.fit) != fold(radio.fit):
            misfits.setdefault((capsule.id, radio.id), []).append(channel)
    for id, channels in bare.items():
        yield find(
            "capsule-missing",
            channels[0].where.record,
            about=_about(channels),
            others=tuple(channel.where.record for channel in channels[1:]),
            channel=_name("handheld", channels),
            radio=id,
        )
    for (id, radio_id), channels in misfits.items():
        capsule, radio = show.capsules[id], show.radios[radio_id]
        has = "a head that cannot be changed" if fold(radio.fit) == FIXED else radio.fit
        yield find(
            "capsule-misfit",
            channels[0].where["capsule"],
            about=_about(channels),
            others=(*(channel.where["capsule"] for channel in channels[1:]), capsule.where["fit"], radio.where["fit"]),
            capsule=id,
            needs=capsule.fit,
            radio=radio_id,
            channel=_name("channel", channels),
            has=has,
        )


def _about(channels: list[Channel]) -> tuple[Subject, ...]:
    return tuple(Subject("channels", channel.id) for channel in channels)


def _name(word: str, channels: list[Channel]) -> str:
    return f"{word}{'s' if len(channels) > 1 else ''} {shorten_ids([channel.id for channel in channels])}"


def check_capsule_stock(show: Show) -> Iterator[Finding]:
    """There are as many of a capsule as play. A spare can wait for the capsule of the pack that it replaces."""
    for line in count_capsules(show):
        if line.missing:
            users = [channel for channel in show.channels.values() if channel.capsule == line.id and not channel.spare]
            capsule = show.capsules[line.id]
            yield find(
                "capsule-short",
                capsule.where["owned"],
                about=(Subject("capsules", line.id), *(Subject("channels", channel.id) for channel in users)),
                others=tuple(channel.where["capsule"] for channel in users),
                capsule=line.id,
                used=line.used,
                owned=line.owned,
                channels=shorten_ids([channel.id for channel in users]),
            )


CHECKS = (check_capsules, check_capsule_stock)
