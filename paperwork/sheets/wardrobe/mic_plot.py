"""The mic plot: who has which pack when. Two faces of one truth for sound, and a list of numbers and times for the cast.

Hangs in both wings, at the mic table and in the corridor; read from half a metre.
"""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import replace
from itertools import groupby, pairwise

from paperwork.document import Act, Bar, Keep, Lane, Line, Plot, PlotRow, PlotScene, Sheet, Sign, fact
from paperwork.document.styles import PLOT_KEY, PLOT_TITLE, PLOT_UNDER
from paperwork.model import Channel, Show
from paperwork.model import Scene as ShowScene
from paperwork.plan.bodies.spells import Spell, list_spells
from paperwork.plan.day.clockface import say_time
from paperwork.plan.handovers import Handover
from paperwork.plan.tapes import name_tape
from paperwork.sheets.casting import list_bodies
from paperwork.sheets.forms import is_handheld
from paperwork.sheets.frame import (
    frame_sheet,
    is_staged,
    phrase,
    short_scene,
    subjects_of_channel,
    title_fact_of,
    title_of,
)
from paperwork.sheets.times import clock_fact, clock_word, time_words
from paperwork.sheets.wardrobe.mic_times import list_times

NAME = "mic-plot"


def make_sheets(show: Show) -> tuple[Sheet, ...]:
    """People by scenes, channels by scenes, and the numbers and times for the cast."""
    spells = list_spells(show)
    if not spells:
        return ()
    acts = tuple(_acts(show))
    cautions, clock, staged = ("privacy caution",), (clock_word(show),), (clock_fact(show),)
    people_rows, channel_rows = tuple(_people_rows(show)), tuple(_channel_rows(show, spells))
    people = Plot(acts, people_rows, _legend(show, people_rows))
    channels = Plot(acts, channel_rows, _legend(show, channel_rows))
    times = list_times(show)
    return (
        frame_sheet(
            show,
            NAME,
            "plot people" if is_staged(show) else "plot people parts",
            (people,),
            subtitle=clock,
            cautions=cautions,
            facts=staged,
            landscape=True,
            turns=True,
        ),
        frame_sheet(
            show,
            f"{NAME}-channels",
            "plot channels" if is_staged(show) else "plot channels parts",
            (channels,),
            subtitle=clock,
            cautions=cautions,
            facts=staged,
            landscape=True,
            turns=True,
        ),
        frame_sheet(show, f"{NAME}-cast", "mic times", (times,), subtitle=clock, cautions=cautions, facts=staged),
    )


def _acts(show: Show) -> Iterator[Act]:
    for title, scenes in groupby(show.scenes, key=lambda scene: scene.act):
        yield Act(title, tuple(_scene_of(show, scene) for scene in scenes))


def _scene_of(show: Show, scene: ShowScene) -> PlotScene:
    """Number and name apart; a name without a number is all name."""
    at, of = time_words(show, scene.at_s), "" if scene.at_s is None else say_time(show, scene.at_s)
    number = short_scene(scene)
    if not any(sign.isdigit() for sign in number) or len(number) > 5:
        return PlotScene("", scene.name or scene.id, at, of)
    rest = scene.name.removeprefix(number).strip() if scene.name else ""
    return PlotScene(number, rest, at, of)


def _legend(show: Show, rows: Iterable[PlotRow]) -> tuple[tuple[Sign, str], ...]:
    """Only the signs that these rows show, each once."""
    lanes = [lane for row in rows for lane in row.lanes]
    bars = [bar for lane in lanes for bar in lane.bars]
    signs: tuple[tuple[Sign, str, bool], ...] = (
        ("put on", phrase(show, "plot put on"), any(bar.put_on for bar in bars)),
        ("keeps", phrase(show, "plot keeps"), any(lane.keeps for lane in lanes)),
        ("taken off", phrase(show, "plot taken off"), any(bar.taken_off for bar in bars)),
        ("held", phrase(show, "plot held"), any(bar.kind == "held" for bar in bars)),
        ("second", phrase(show, "plot second"), any(bar.second for bar in bars)),
    )
    return tuple((sign, text) for sign, text, is_shown in signs if is_shown)


def _blocks(scenes: tuple[int, ...]) -> list[tuple[int, int]]:
    """Scenes that follow each other, as (first, last)."""
    found: list[list[int]] = []
    for index in scenes:
        if found and found[-1][1] == index - 1:
            found[-1][1] = index
        else:
            found.append([index, index])
    return [(one, two) for one, two in found]


def _bars(show: Show, spell: Spell, text: str, note: str, of: str, second: str = "") -> Lane:
    blocks = _blocks(spell.scenes)
    held, ends_off = (
        is_handheld(show, spell.channel),
        spell.gives is not None or max(spell.off, default=-1) > spell.scenes[-1],
    )
    parted = [not spell.off.isdisjoint(range(one[1] + 1, two[0])) for one, two in pairwise(blocks)]
    bars = tuple(
        Bar(
            first,
            last,
            text,
            "held" if held else "worn",
            put_on=not held and (number == 0 or parted[number - 1]),
            taken_off=not held and (parted[number] if number < len(parted) else ends_off),
            note=note if number == (len(blocks) - 1 if spell.gives else 0) else "",
            fact=of,
            second=second,
        )
        for number, (first, last) in enumerate(blocks)
    )
    # between scenes the pack is on and not live
    keeps = tuple(
        Keep(one[1] + 1, two[0] - 1) for (one, two), is_off in zip(pairwise(blocks), parted, strict=True) if not is_off
    )
    return Lane(bars, () if held else keeps)


def _people_rows(show: Show) -> Iterator[PlotRow]:
    for by, own, days in list_bodies(show, PLOT_UNDER):
        roles = tuple(dict.fromkeys(role for spell in own for role in spell.roles))
        subjects = dict.fromkeys(subject for spell in own for subject in subjects_of_channel(show, spell.channel))
        title, under = _name_of(by, roles)
        under = _join_under(_with_tapes(show, under, [spell.channel for spell in own]), days)
        lanes, where = tuple(_lanes(show, own)), own[0].channel.where.record
        yield PlotRow(title, under, lanes=lanes, subjects=tuple(subjects), where=where)


def _name_of(by: str, roles: tuple[str, ...]) -> tuple[Line, Line | None]:
    """The performer and the roles; the roles alone where nobody is given."""
    played = ", ".join(roles)
    return (fact(played, PLOT_TITLE), None) if by in roles else (fact(by, PLOT_TITLE), fact(played, PLOT_UNDER))


def _with_tapes(show: Show, under: Line | None, channels: Iterable[Channel]) -> Line | None:
    """What stands under a name, with the tape of each channel that has one."""
    tapes = tuple(dict.fromkeys(filter(None, (name_tape(show, channel) for channel in channels))))
    if not tapes:
        return under
    texts = (*((under.text,) if under else ()), *tapes)
    return fact("  ·  ".join(texts), PLOT_UNDER, of=" ".join(texts))


def _join_under(under: Line | None, days: Line | None) -> Line | None:
    """What stands under a name, with the performances where it is not all of them."""
    if under is None or days is None:
        return under or days
    return replace(days, text=f"{under.text}  ·  {days.text}", fact=f"{under.fact} {days.fact}")


def _lanes(show: Show, spells: Sequence[Spell]) -> Iterator[Lane]:
    """Everything in one lane, a second pack in the bars of the first; more lanes where bars and lines would meet."""
    lanes: list[tuple[set[int], Lane]] = []
    for spell, second in _pair(spells):
        number, other = spell.channel.id, second.channel.id if second else ""
        of = f"{number} {other} {_note_fact(spell.gives)}".strip()
        lane = _bars(show, spell, number, _note_of(show, spell.gives), of, other)
        held = is_handheld(show, spell.channel)
        taken = set(spell.scenes) if held else set(range(spell.scenes[0], spell.scenes[-1] + 1)) - spell.off
        for place, (used, own) in enumerate(lanes):
            if used.isdisjoint(taken):
                bars = tuple(sorted((*own.bars, *lane.bars), key=lambda bar: bar.first))
                lanes[place] = (used | taken, Lane(bars, (*own.keeps, *lane.keeps)))
                break
        else:
            lanes.append((taken, lane))
    yield from (lane for _, lane in lanes)


def _pair(spells: Sequence[Spell]) -> Iterator[tuple[Spell, Spell | None]]:
    """Each pack with the second one that is on in just its scenes; a second pack without such a first is alone."""
    left = [spell for spell in spells if spell.channel.doubles]
    for spell in spells:
        if spell.channel.doubles:
            continue
        key = (spell.channel.id, spell.scenes, spell.gives is None)
        found = next((one for one in left if (one.channel.doubles, one.scenes, one.gives is None) == key), None)
        if found:
            left.remove(found)
        yield spell, found
    yield from ((spell, None) for spell in left)


def _note_of(show: Show, gives: Handover | None) -> str:
    """To whom the pack goes, and between which sides."""
    if gives is None:
        return ""
    parts = [phrase(show, "plot to", name=gives.to_by or gives.to_role)]
    if gives.exit or gives.enter:
        parts.append(" / ".join(dict.fromkeys(filter(None, (gives.exit, gives.enter)))))
    return ", ".join(parts)


def _note_fact(gives: Handover | None) -> str:
    """The same without a language."""
    return f"to {gives.to_by or gives.to_role} {gives.exit} {gives.enter}" if gives else ""


# Channels by scenes.


def _channel_rows(show: Show, spells: tuple[Spell, ...]) -> Iterator[PlotRow]:
    for channel in show.channels.values():
        if channel.spare and not any(spell.channel is channel for spell in spells):
            continue  # a spare has no scene, and its row would be empty
        own = [spell for spell in spells if spell.channel is channel]
        shared = len({spell.by for spell in own}) > 1
        lanes = [_bars(show, spell, "", spell.by if shared else "", spell.by) for spell in own]
        bars = tuple(bar for lane in lanes for bar in lane.bars)
        keeps = tuple(keep for lane in lanes for keep in lane.keeps)
        names = ", ".join(show.performers_of(channel))
        yield PlotRow(
            fact(title_of(show, channel), PLOT_TITLE, of=title_fact_of(show, channel)),
            _with_tapes(show, fact(names, PLOT_UNDER) if names and names != channel.by else None, (channel,)),
            key=fact(channel.id, PLOT_KEY),
            lanes=(Lane(bars, keeps),) if bars else (),
            hatch=channel.spare,
            subjects=subjects_of_channel(show, channel),
            where=channel.where.record,
        )
