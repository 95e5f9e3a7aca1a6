"""The running sheet of the A2: everything that has to be done, in order of time. Carried, and ticked on the way."""

from collections.abc import Iterable, Iterator
from dataclasses import replace
from typing import NamedTuple

from paperwork.document import Column, Line, RowGroup, Sheet, Table, TableRow, cell, fact, row, words
from paperwork.document.styles import HAND, HAND_STRONG, LIST_NUMBER
from paperwork.finding import Subject
from paperwork.model import Scene, Show
from paperwork.plan.bodies.events import BodyChange, Event, list_events
from paperwork.plan.bodies.spells import Spell
from paperwork.plan.day.batteries import plan_batteries
from paperwork.plan.day.clockface import is_by_clock, list_origins, say_time
from paperwork.plan.evening import PackChange
from paperwork.plan.handovers import Handover
from paperwork.plan.timeline import list_stints, scene_times
from paperwork.sheets import forms
from paperwork.sheets.frame import frame_sheet, headed, phrase, short_scene, subjects_of_channel
from paperwork.sheets.running.handhelds import Issue, list_issues
from paperwork.sheets.times import clock_fact, clock_word, day_time_words, time_line, time_words
from paperwork.sheets.wardrobe.change_steps import bodies_of, channels_of
from paperwork.text.names import natural_key, shorten_ids

NAME = "running-sheet"

WHAT = replace(HAND, lines=3)
STRONG_WHAT = replace(HAND_STRONG, lines=3)

ROW_PACKS = 40
"""Packs in one row, which then has twenty lines of two, and several fit on a page."""

LINE_SIGNS = 24
"""A list of packs that is longer has no room on one line of its column, even at its floor."""

MANY_NUMBERS = replace(LIST_NUMBER, purpose="list of numbers", breaks=True, lines=ROW_PACKS)
"""A list that breaks between numbers, never in one."""


class Task(NamedTuple):
    """One thing to do at a time (None: when the scene begins; `by_day`: by the clock), with whom, with which packs, and
    from side to side. `swapped`: the first pack comes off and the second goes on."""

    at_s: int | None
    what: Line
    who: tuple[Line, ...] = ()
    packs: tuple[str, ...] = ()
    sides: str = ""
    subjects: tuple[Subject, ...] = ()
    by_day: bool = False
    swapped: bool = False


def make_sheets(show: Show) -> tuple[Sheet, ...]:
    """One sheet, scene by scene. Needs a change on a body or a handheld that goes out and comes back."""
    events, issues = list_events(show), list_issues(show)
    if not events and not issues:
        return ()
    columns = headed(
        show,
        Column("running head time", 26_000),
        Column("running head what", share=4),
        Column("running head who", share=6),
        Column("battery head pack", 30_000),
        Column("running head side", 22_000),
        forms.tick_column("quick head done"),
    )
    groups = (*_before(show), *_scenes(show, events, issues))
    return (
        frame_sheet(
            show,
            NAME,
            NAME,
            (Table(columns, groups, row_um=8_200),),
            order="running order",
            subtitle=(clock_word(show),),
            cautions=("shared caution", "cell caution"),
            facts=(clock_fact(show),),
        ),
    )


def _before(show: Show) -> Iterator[RowGroup]:
    """What is done before the first scene; of two shows a day all that goes by the clock, and the bar says so."""
    tasks = _list_day(show)
    first_s = next((scene.at_s for scene in show.scenes if scene.at_s is not None), None)
    one_axis = len(list_origins(show)) == 1
    own = [task for task in tasks if not one_axis or first_s is None or (task.at_s or 0) < first_s]
    if own:
        note = "" if one_axis else phrase(show, "time of day")
        rows = tuple(_row_of(show, part) for one in own for part in _part(one))
        yield RowGroup(rows, phrase(show, "running day"), note, facts=("day",))


def _list_day(show: Show) -> list[Task]:
    """Switching on, checks, the half, cells: as scenes count where they have one axis, else by the clock (`by_day`)."""
    day, origins = show.day, list_origins(show)
    zero_s = origins[0] if len(origins) == 1 else 0
    found: list[tuple[int, str, tuple[str, ...]]] = []
    for key, times in (("power-up", day.power_up_s), ("checks", day.checks_s), ("half", day.half_s)):
        found += [(at_s, f"performances {key}", ()) for at_s in times]
    cells: dict[int, list[str]] = {}
    for plan in plan_batteries(show):
        for run in plan.runs:
            cells.setdefault(run.change.at_s, []).append(plan.pack)
    found += [(at_s, "running cells", tuple(packs)) for at_s, packs in cells.items()]
    return [
        Task(at_s - zero_s, fact(phrase(show, key), WHAT, of=key), packs=packs, by_day=len(origins) != 1)
        for at_s, key, packs in sorted(found)
    ]


def _scenes(show: Show, events: Iterable[Event], issues: list[Issue]) -> Iterator[RowGroup]:
    """A bar for each scene in which there is something to do, with who is where in it."""
    tasks: dict[str, list[Task]] = {scene.id: [] for scene in show.scenes}
    taken = {(one.spell.channel.id, show.scenes[one.first].id) for one in issues if one.is_taken}
    for event in events:
        change = event.change
        held = isinstance(change, Handover) and forms.is_handheld(show, show.channels[change.channel])
        if not (isinstance(change, Handover) and held) or (change.channel, change.before.id) in taken:
            tasks[_begun_in(event.change).id].append(_task_of_event(show, event))
    for one in issues:
        if not one.is_taken:
            tasks[show.scenes[one.first].id].append(_issue(show, one.spell, "running out", one.from_s))
        if not one.on_to:
            last = _find_last(show, show.scenes[one.last], one.to_s)
            tasks[last.id].append(_issue(show, one.spell, "running back", one.to_s))
    before = _list_before_days(show)
    for task in _list_day(show) if len(list_origins(show)) == 1 else ():
        if (scene := _find_scene(show, task.at_s or 0)) and not any(task in listed for listed in before.values()):
            tasks[scene.id].insert(0, task)
    for index, scene in _in_time(show):
        if first := before.get(scene.id):
            parts = tuple(_row_of(show, part) for task in first for part in _part(task))
            yield RowGroup(parts, phrase(show, "running day"), facts=("day", scene.id))
        rows = tuple(_row_of(show, part) for task in sorted(tasks[scene.id], key=_order) for part in _part(task))
        where = _position_rows(show, index)
        if rows:
            name, said = scene.name or scene.id, "" if scene.at_s is None else say_time(show, scene.at_s)
            yield RowGroup((*where, *rows), name, time_words(show, scene.at_s), facts=(name, said))


def _list_before_days(show: Show) -> dict[str, list[Task]]:
    """What is done from each power-up after the first to the scene that is the next, by that scene."""
    found: dict[str, list[Task]] = {}
    for up_s in show.day.power_up_s[1:] if is_by_clock(show) else ():
        first = next((scene for _, scene in _in_time(show) if scene.at_s is not None and scene.at_s >= up_s), None)
        if first and first.at_s is not None:
            found[first.id] = [task for task in _list_day(show) if up_s <= (task.at_s or 0) < first.at_s]
    return found


def _begun_in(change: BodyChange) -> Scene:
    """The scene in which a change can begin: that of the exit where its time is known, else the one it is made for."""
    return change.after if change.after and change.off_s is not None else change.before


def _in_time(show: Show) -> list[tuple[int, Scene]]:
    """The scenes with their places in the show, in order of time: a bill may list one stage after the other."""
    numbered = list(enumerate(show.scenes))
    known = [(scene.at_s, index, scene) for index, scene in numbered if scene.at_s is not None]
    if len(known) < len(numbered):
        return numbered
    return [(index, scene) for _, index, scene in sorted(known, key=lambda one: one[:2])]


def _find_last(show: Show, own: Scene, at_s: int | None) -> Scene:
    """The last scene to begin before a time: its own one, or one on another stage that begins no earlier."""
    begun = [one for _, one in _in_time(show) if one.at_s is not None and at_s is not None and one.at_s < at_s]
    return begun[-1] if begun and own.at_s is not None else own


def _find_scene(show: Show, at_s: int) -> Scene | None:
    """The scene that is on at a time, else the one before which it is; None before the first and without times."""
    begun = [(from_s, to_s, scene) for scene, (from_s, to_s) in zip(show.scenes, scene_times(show), strict=True)]
    known = sorted(
        ((from_s, to_s, scene) for from_s, to_s, scene in begun if from_s is not None), key=lambda one: one[0]
    )
    before = [one for one in known if one[0] <= at_s]
    after = [scene for from_s, _, scene in known if from_s > at_s]
    if not before:
        return None
    _, to_s, scene = before[-1]
    return after[0] if after and to_s is not None and at_s >= to_s else scene


def _order(task: Task) -> tuple[bool, int]:
    """What has no time of its own is done before the scene."""
    return task.at_s is not None, task.at_s or 0


def _part(task: Task) -> list[Task]:
    """The task, in as many rows as its packs want: all cells of hundreds of packs are one task, and no row is split."""
    if task.swapped:
        return [task]
    packs = sorted(dict.fromkeys(task.packs), key=natural_key)
    parts = [task._replace(packs=tuple(packs[at : at + ROW_PACKS])) for at in range(0, len(packs), ROW_PACKS)]
    return parts or [task]


def _row_of(show: Show, task: Task) -> TableRow:
    packs = " → ".join(task.packs) if task.swapped else shorten_ids(sorted(dict.fromkeys(task.packs), key=natural_key))
    time = time_line(show, task.at_s, HAND_STRONG)
    if task.by_day:
        time = fact(day_time_words(show, task.at_s or 0), HAND_STRONG, of=str(task.at_s))
    return row(
        cell(time) if time.text else cell(words("–", HAND)),
        cell(task.what),
        cell(*task.who),
        cell(fact(packs, LIST_NUMBER if len(packs) <= LINE_SIGNS else MANY_NUMBERS)),
        cell(fact(task.sides, HAND_STRONG)),
        forms.tick_cell(),
        subjects=task.subjects,
    )


def _task_of_event(show: Show, event: Event) -> Task:
    """A swap, a change of pack or of costume, by its number on the swap sheets and the quick changes."""
    change, bodies = event.change, bodies_of(event.change)
    key = "running swap" if isinstance(change, Handover) else "running change"
    key = "running pack" if isinstance(change, PackChange) else key
    names = " → ".join(bodies) if isinstance(change, Handover) else ", ".join(bodies)
    ids = channels_of(show, event)
    what, of = phrase(show, key, number=event.number), f"{key} {event.number}"
    if _begun_in(change) is not change.before:
        scene = short_scene(change.before)
        what, of = phrase(show, "running due", what=what, scene=scene), f"{of} due {scene}"
    return Task(
        change.on_s if change.off_s is None else change.off_s,
        fact(what, STRONG_WHAT, of=of),
        (fact(names, HAND_STRONG),),
        tuple(show.channels[id].pack for id in ids),
        " → ".join(filter(None, dict.fromkeys((change.exit, change.enter)))),
        tuple(subject for id in ids for subject in subjects_of_channel(show, show.channels[id])),
        swapped=isinstance(change, PackChange),
    )


def _issue(show: Show, spell: Spell, key: str, at_s: int | None) -> Task:
    roles = forms.join_roles(spell.roles)
    who = (fact(spell.by, HAND_STRONG), fact(roles if roles != spell.by else "", HAND))
    what = fact(phrase(show, key), WHAT, of=key)
    return Task(at_s, what, who, (spell.channel.pack,), "", subjects_of_channel(show, spell.channel))


def _position_rows(show: Show, index: int) -> tuple[TableRow, ...]:
    """Who enters where with what, side by side in one row; nothing where no side is stated."""
    sides: dict[str, list[str]] = {}
    for role, stints in list_stints(show, show.scenes[index].live).items():
        for stint in stints:
            if stint.index == index and stint.enter:
                packs = " ".join(show.channels[id].pack for id in stint.channels)
                sides.setdefault(stint.enter, []).append(f"{role} ({packs})" if packs else role)
    if not sides:
        return ()
    lines = [forms.labelled(show, side, ", ".join(who), HAND) for side, who in sides.items()]
    place = fact(phrase(show, "running where"), HAND, of="where")
    return (row(cell(words("–", HAND)), cell(place), cell(*lines), cell(), cell(), cell()),)
