"""What every paper says around its blocks, and how channels are called on all of them."""

from collections.abc import Sequence
from dataclasses import replace

from paperwork.document import Block, PageWords, Sheet
from paperwork.finding import Subject
from paperwork.model import Channel, Scene, Show
from paperwork.names import shorten_ids
from paperwork.plan.handovers import list_handovers
from paperwork.words import format_date, words_of

JOIN = " / "
"""Between roles that share a pack."""


def frame_sheet(
    show: Show, name: str, title: str, blocks: tuple[Block, ...], *, subtitle: tuple[str, ...] = (),
    cautions: tuple[str, ...] = (), landscape: bool = False,
) -> Sheet:
    """A sheet with the production's masthead and foot."""
    production = show.production
    return Sheet(
        name=name,
        title=title,
        show=production.title or production.company,
        blocks=blocks,
        subtitle=subtitle,
        venue=production.venue,
        revision=production.revision,
        replaces=production.replaces,
        dated=format_date(production.revised, production.language),
        returns=production.returns,
        cautions=cautions,
        paper=production.paper,
        orientation="landscape" if landscape else "portrait",
        words=page_words(production.language),
    )


def page_words(language: str) -> PageWords:
    """The words of the page furniture in a language."""
    w = words_of(language)
    return PageWords(
        page=w["page"], continued=w["continued"], replaces=w["replaces"], returns=w["returns"], signed=w["signed"],
        ruler=w["ruler"], label_foot=w["label foot"], label_pack=w["label pack"],
        proof=w["proof"], part=w["part"], piece=w["piece"],
    )


def split_sheets(sheets: Sequence[Sheet]) -> tuple[Sheet, ...]:
    """The sheets with names that differ: a lone one keeps its own."""
    if len(sheets) < 2:
        return tuple(sheets)
    return tuple(replace(sheet, name=f"{sheet.name}-{number}") for number, sheet in enumerate(sheets, start=1))


def title_of(show: Show, channel: Channel) -> str:
    """The big word of a channel: its roles, the word for a spare, or its performer."""
    if channel.spare:
        return words_of(show.production.language)["spare"]
    return JOIN.join(channel.roles) or channel.by


def title_fact_of(channel: Channel) -> str:
    """The big word without a language, for the code."""
    return "spare" if channel.spare else JOIN.join(channel.roles) or channel.by


def people_of(show: Show, channel: Channel) -> tuple[str, ...]:
    """The small lines under it: who wears the pack and from which scene, whose second pack it is, what a spare is for."""
    w = words_of(show.production.language)
    if channel.spare:
        return (w["spare for"].format(channels=shorten_ids(channel.backs)) if channel.backs else w["spare for all"],)
    people = _with_first_scene(show, channel) if channel.roles else []
    if channel.doubles:
        people.append(w["second pack"].format(channel=channel.doubles))
    return tuple(people)


def _with_first_scene(show: Show, channel: Channel) -> list[str]:
    """The performers of a channel; from the second on with the scene in which the pack first comes to them."""
    names = list(show.performers_of(channel))
    w = words_of(show.production.language)
    first: dict[str, str] = {}
    for handover in list_handovers(show, channel):
        first.setdefault(show.roles[handover.to_role].by, short_scene(handover.before))
    worn_first = next((show.roles[role].by for scene in show.scenes for role in channel.roles if role in scene.live), "")
    return [
        w["from scene"].format(name=name, scene=first[name]) if name in first and name != worn_first else name for name in names
    ]


def short_scene(scene: Scene) -> str:
    """The number of a scene as people say it: the first word of its printed name if that holds a figure, else its id."""
    word = scene.name.split(" ")[0] if scene.name else ""
    return word if any(sign.isdigit() for sign in word) else scene.name or scene.id


def subjects_of_channel(show: Show, channel: Channel) -> tuple[Subject, ...]:
    """The records that a row about a channel shows: a finding about one of them puts a stamp on the sheet."""
    found = [Subject("channels", channel.id)]
    found += (Subject("roles", role) for role in channel.roles)
    found += (Subject("people", name) for name in show.performers_of(channel))
    if channel.capsule:
        found.append(Subject("capsules", channel.capsule))
    return tuple(found)
