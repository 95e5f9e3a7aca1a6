"""Pack labels: the number, the role and a code on the pack itself, read by torch; and on in-ear packs, who hears what.

All are on one stock, so that a sheet of it is begun once.
"""

from paperwork.document import Label, Labels, Sheet
from paperwork.finding import Subject
from paperwork.model import Channel, Show
from paperwork.plan.spares import name_backed
from paperwork.plan.tapes import name_tape
from paperwork.sheets.forms import marked_frequency
from paperwork.sheets.frame import JOIN, frame_sheet, people_of, phrase, subjects_of_channel, title_fact_of, title_of
from paperwork.sheets.wardrobe.ears import Ears, list_ears

NAME = "pack-labels"

COPIES = 2
"""Front and back, so that one can be read however the pack sits in its pouch. Common practice, no source."""

STOCKS = {
    "A4": "a4-21-63.5x38.1",
    "A3": "a4-21-63.5x38.1",
    "Letter": "letter-30-2.625x1",
    "Tabloid": "letter-30-2.625x1",
}
"""The label sheet that goes with a show's paper."""


def make_sheets(show: Show) -> tuple[Sheet, ...]:
    """One sheet of labels, two copies a pack side by side, in-ear packs last. No label without a certain frequency."""
    packs = [label_of(show, channel) for channel in show.channels.values() if channel.hz is not None]
    ears = [_label_of_ears(ears, show) for ears in list_ears(show) if ears.other.hz is not None]
    labels = (*packs, *ears)
    if not labels:
        return ()
    block = Labels(STOCKS[show.production.paper], labels)
    return (frame_sheet(show, NAME, "pack labels", (block,)),)


def label_of(
    show: Show, channel: Channel, performers: tuple[str, ...] = (), pack: str = "", capsule: str | None = None
) -> Label:
    """The label of a channel's pack; with other performers, pack or capsule where tonight differs."""
    shown = performers or _people_of(show, channel)
    people = performers or show.performers_of(channel)
    frequency = marked_frequency(show, channel, channel.hz) if channel.hz is not None else ""
    backed = name_backed(show, channel) if channel.spare else ()
    roles = show.roles_on(channel)
    shorts = [show.roles[role].short for role in roles]
    pack, capsule = pack or channel.pack, channel.capsule if capsule is None else capsule
    tape, briefs = name_tape(show, channel), _shorten_people(show, shown)
    return Label(
        number=channel.id,
        role=title_of(show, channel),
        brief=JOIN.join(show.roles[role].short or role for role in roles) if any(shorts) else "",
        performers=shown,
        brief_performers=briefs,
        frequency=frequency,
        pack=pack,
        capsule=capsule,
        mark=tape,
        short_role=_short_role(show, channel),
        copies=COPIES,
        facts=(channel.id, title_fact_of(show, channel), *people, *backed, channel.doubles, frequency, pack, capsule)
        + tuple(filter(None, shorts))
        + briefs
        + ((tape,) if tape else ()),
        subjects=subjects_of_channel(show, channel),
        where=channel.where.record,
    )


def _label_of_ears(ears: Ears, show: Show) -> Label:
    other, pack, listener = ears
    frequency = marked_frequency(show, other, other.hz) if other.hz is not None else ""
    return Label(
        number=ears.number,
        role=listener or other.id,
        frequency=frequency,
        capsule=other.id if pack and listener else "",
        short_role=other.id,
        copies=COPIES,
        facts=(other.id, pack, listener, frequency),
        subjects=(Subject("others", other.id), *((Subject("people", listener),) if listener else ())),
        where=other.where.record,
    )


def _people_of(show: Show, channel: Channel) -> tuple[str, ...]:
    """Who wears the pack, names alone, and whose second one it is; from when is on the chart."""
    if channel.spare:
        return people_of(show, channel)
    worn_by = show.performers_of(channel) if show.roles_on(channel) else ()
    second = phrase(show, "label second", channel=channel.doubles)
    return (*worn_by, second) if channel.doubles else worn_by


def _shorten_people(show: Show, names: tuple[str, ...]) -> tuple[str, ...]:
    """The names by what fits on a small label, where somebody has such a name; else none."""
    briefs = tuple(show.people[name].short or name if name in show.people else name for name in names)
    return briefs if briefs != names else ()


def _short_role(show: Show, channel: Channel) -> str:
    """What the code says of the role: never a performer's name, since strangers can read it."""
    if channel.spare:
        return "SPARE"
    roles = show.roles_on(channel)
    if not roles:
        return "MIC"
    role = show.roles[roles[0]]
    return role.short or role.id
