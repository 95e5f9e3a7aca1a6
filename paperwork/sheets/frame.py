"""What every paper says around its blocks, and how channels are called on all of them."""

from collections.abc import Sequence
from dataclasses import replace

from paperwork.document import Block, Column, Line, Sheet, fact
from paperwork.document.styles import RACK_SMALL, Style
from paperwork.finding import Subject
from paperwork.model import Channel, Performance, Scene, Show
from paperwork.plan.bodies.carried import list_carried
from paperwork.plan.handovers import list_handovers
from paperwork.plan.spares import ALL, name_backed
from paperwork.text.names import shorten_ids
from paperwork.text.words import format_date, format_day, join_days, say

JOINED = "  ·  "
"""Between parts of one line of the head."""

JOIN = " / "
"""Between roles that share a pack."""


def phrase(show: Show, key: str, /, **parts: object) -> str:
    """The words `key` of the show's language, with these parts in their places; `count` chooses singular or plural."""
    return say(show.production.language, key, **parts)


def frame_sheet(
    show: Show,
    name: str,
    title: str,
    blocks: tuple[Block, ...],
    *,
    order: str = "",
    subtitle: tuple[str, ...] = (),
    cautions: tuple[str, ...] = (),
    facts: tuple[str, ...] = (),
    landscape: bool = False,
    turns: bool = False,
) -> Sheet:
    """A sheet with the production's masthead and foot.

    `title`, `order` (how it is ordered, the first line under the title) and `cautions` are keys of the words;
    `subtitle` is more lines under the title, as texts; `facts` are what they, and the title, say of the show, without
    a language. One that `turns` stands the other way where that saves a page, or a text that is shortened.
    """
    production = show.production
    return Sheet(
        name=name,
        title=phrase(show, title),
        show=production.title or production.company,
        blocks=blocks,
        subtitle=((phrase(show, order),) if order else ()) + subtitle,
        venue=JOINED.join(filter(None, (production.venue, name_performance(show)))),
        revision=production.revision,
        replaces=name_revision(show, production.replaces),
        dated=format_date(production.revised, production.language),
        returns=production.returns,
        cautions=tuple(_caution(show, key) for key in cautions),
        facts=(*facts, *((production.licence,) if "licence caution" in cautions else ())),
        contact=production.contact,
        at_venue=show.edition,
        paper=production.paper,
        orientation="landscape" if landscape else "portrait",
        turns=turns,
        language=production.language,
    )


def name_performance(show: Show) -> str:
    """The performance that the papers are for, with its date where its name does not hold it; "" for the whole run."""
    performance = show.performances.get(show.at_performance)
    if performance is None:
        return _name_days(show)
    date = "" if not performance.date or performance.date in performance.id else performance.date
    return ", ".join(filter(None, (performance.id, format_date(date, show.production.language) if date else "")))


def _name_days(show: Show) -> str:
    """From which day to which the performances of the papers are, where they are not of the whole run."""
    days = show.at_performance.split(" to ")
    return join_days(days[0], days[-1], show.production.language)


def short_performance(show: Show, performance: Performance) -> tuple[str, str]:
    """A performance over a column: its day, and what of its name says more, as `4 March` and `matinee`."""
    if not performance.date:
        return performance.id, ""
    rest = performance.id.replace(performance.date, "").strip(" /,;:-_")
    return format_day(performance.date, show.production.language), rest


def name_revision(show: Show, revision: str, language: str = "") -> str:
    """A revision as papers name it: `B`, at another venue `B for Harbour Hall`, since each house has its own papers."""
    if not revision or not show.edition:
        return revision
    return say(language or show.production.language, "revision for", revision=revision, venue=show.edition)


def _caution(show: Show, key: str) -> str:
    """A caution; that a clean plan is not a permission is said with the licence where the show states one."""
    licence = show.production.licence if key == "licence caution" else ""
    return phrase(show, "licence caution stated", licence=licence) if licence else phrase(show, key)


def headed(show: Show, *columns: Column) -> tuple[Column, ...]:
    """The columns, whose headings are keys of the words, with their headings in the show's language."""
    return tuple(replace(one, heading=phrase(show, one.heading)) if one.heading else one for one in columns)


def split_sheets(sheets: Sequence[Sheet]) -> tuple[Sheet, ...]:
    """The sheets with names that differ: a lone one keeps its own."""
    if len(sheets) < 2:
        return tuple(sheets)
    return tuple(replace(sheet, name=f"{sheet.name}-{number}") for number, sheet in enumerate(sheets, start=1))


def title_of(show: Show, channel: Channel) -> str:
    """The big word of a channel: its roles (else those to which moves give it), SPARE, or its performer."""
    if channel.spare:
        return phrase(show, "spare")
    return JOIN.join(channel.roles or show.roles_on(channel)) or channel.by


def title_fact_of(show: Show, channel: Channel) -> str:
    """The big word without a language, for the code."""
    return "spare" if channel.spare else JOIN.join(channel.roles or show.roles_on(channel)) or channel.by


def title_line(show: Show, channel: Channel, style: Style) -> Line:
    """The big word as a fact; where it has no room, its roles give way by their short names."""
    roles = () if channel.spare else channel.roles or show.roles_on(channel)
    short = JOIN.join(show.roles[role].short or role if role in show.roles else role for role in roles)
    title = title_of(show, channel)
    return Line(title, style, title_fact_of(show, channel), short if short != title else "")


def people_lines(show: Show, channel: Channel, style: Style) -> tuple[Line, ...]:
    """The small lines under it: who wears the pack and from which scene, whose second pack it is, what a spare is for.

    As facts they hold no word of a language.
    """
    if channel.spare:
        backs = shorten_ids(name_backed(show, channel))
        return (fact(spare_for(show, channel), style, of=f"backs {backs}"),) if backs else ()
    lines = []
    for name, scene in _worn_from(show, channel):
        text = phrase(show, "from scene", name=name, scene=short_scene(scene)) if scene else name
        lines.append(fact(text, style, of=f"{name} {short_scene(scene)}" if scene else name))
    if channel.doubles:
        lines.append(fact(phrase(show, "second pack", channel=channel.doubles), style, of=f"doubles {channel.doubles}"))
    return tuple(lines)


def spare_for(show: Show, spare: Channel) -> str:
    """Whom a spare stands by for, as `for 01-06`; "" where there is nobody."""
    backed = name_backed(show, spare)
    if backed == (ALL,):
        return phrase(show, "spare for all")
    return phrase(show, "spare for", channels=shorten_ids(backed)) if backed else ""


def is_staged(show: Show) -> bool:
    """Whether the show plays scenes: a match has parts, a bill has sets, and neither has a curtain."""
    return not show.scenes or any(scene.kind == "scene" for scene in show.scenes)


def people_of(show: Show, channel: Channel) -> tuple[str, ...]:
    """The texts of `people_lines`."""
    return tuple(line.text for line in people_lines(show, channel, RACK_SMALL))


def _worn_from(show: Show, channel: Channel) -> list[tuple[str, Scene | None]]:
    """The performers of a channel; from the second on with the scene from which the pack is theirs.

    Where somebody gets it back, no one scene would be true: the swaps are counted beside, and listed on their own
    sheets.
    """
    if not show.roles_on(channel):
        return []
    handovers = list_handovers(show, channel)
    comes_back = len(handovers) >= len(show.performers_of(channel))
    first: dict[str, Scene] = {}
    for handover in () if comes_back else handovers:
        first.setdefault(show.roles[handover.to_role].by, handover.before)
    if not first:
        return [(name, None) for name in show.performers_of(channel)]
    carried = list_carried(show, show.roles_on(channel))
    first_on = min((index for (_, index), ids in carried.items() if channel.id in ids), default=0)
    roles_first = [role for role in show.roles_on(channel) if channel.id in carried.get((role, first_on), ())]
    worn_first = show.roles[roles_first[0]].by if roles_first else ""
    return [(name, first.get(name) if name != worn_first else None) for name in show.performers_of(channel)]


def short_scene(scene: Scene) -> str:
    """A scene's number as people say it: the first word of its printed name if that holds a figure, else its id."""
    word = scene.name.split(" ")[0] if scene.name else ""
    return word if any(sign.isdigit() for sign in word) else scene.name or scene.id


def subjects_in_rack(show: Show, channel: Channel) -> tuple[Subject, ...]:
    """The same with the rack, for a row that shows a slot or where its output goes."""
    return (*subjects_of_channel(show, channel), *(Subject("racks", slot.rack) for slot in channel.slots))


def subjects_of_channel(show: Show, channel: Channel) -> tuple[Subject, ...]:
    """The records that a row about a channel shows: a finding about one of them puts a stamp on the sheet."""
    found = [Subject("channels", channel.id)]
    found += (Subject("roles", role) for role in show.roles_on(channel))
    found += (Subject("people", name) for name in show.performers_of(channel))
    if channel.capsule:
        found.append(Subject("capsules", channel.capsule))
    return tuple(found)
