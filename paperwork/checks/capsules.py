"""Capsules and what they are screwed into."""

from collections.abc import Iterator

from paperwork.finding import Finding, Subject, find
from paperwork.model import Show
from paperwork.names import fold, shorten_ids
from paperwork.plan.stock import count_capsules

FIXED = "fixed"
"""The word for a head that cannot be changed."""


def check_capsules(show: Show) -> Iterator[Finding]:
    """A handheld with a capsule connector has a capsule, and every capsule fits its transmitter."""
    for channel in show.channels.values():
        radio = show.radio_of(channel)
        if radio is None or not radio.fit:
            continue
        about = (Subject("channels", channel.id),)
        if not channel.capsule:
            if radio.kind == "handheld" and fold(radio.fit) != FIXED:
                yield find("capsule-missing", channel.where.record, about=about, channel=channel.id, radio=radio.id)
            continue
        capsule = show.capsules.get(channel.capsule)
        if capsule and capsule.fit and fold(capsule.fit) != fold(radio.fit):
            has = "a head that cannot be changed" if fold(radio.fit) == FIXED else f"the fit {radio.fit}"
            yield find(
                "capsule-misfit", channel.where["capsule"], about=about,
                others=(capsule.where["fit"], radio.where["fit"]),
                capsule=capsule.id, needs=capsule.fit, radio=radio.id, channel=channel.id, has=has,
            )


def check_capsule_stock(show: Show) -> Iterator[Finding]:
    """There are as many of a capsule as play. A spare can wait for the capsule of the pack that it replaces."""
    for line in count_capsules(show):
        if line.missing:
            users = [channel for channel in show.channels.values() if channel.capsule == line.id and not channel.spare]
            capsule = show.capsules[line.id]
            yield find(
                "capsule-short", capsule.where["owned"],
                about=(Subject("capsules", line.id), *(Subject("channels", channel.id) for channel in users)),
                others=tuple(channel.where["capsule"] for channel in users), capsule=line.id, used=line.used,
                owned=line.owned, channels=shorten_ids([channel.id for channel in users]),
            )


CHECKS = (check_capsules, check_capsule_stock)
