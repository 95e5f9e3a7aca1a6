"""The dressing list: room by room who wears which pack in which pouch, and where it sits. One bar a door."""

from collections.abc import Iterator
from typing import NamedTuple

from paperwork.document import Cell, Column, Line, RowGroup, Sheet, Table, TableRow, cell, fact, row, words
from paperwork.document.styles import LIST, LIST_NUMBER, LIST_STRONG
from paperwork.finding import Subject
from paperwork.model import Channel, Show
from paperwork.plan.bodies.carried import list_carried
from paperwork.plan.handovers import Handover, list_all_handovers
from paperwork.sheets import forms
from paperwork.sheets.casting import list_days, list_worn_in_run
from paperwork.sheets.forms import Worn
from paperwork.sheets.frame import frame_sheet, headed, phrase, short_scene, subjects_of_channel
from paperwork.sheets.wardrobe.ears import Ears, list_ears
from paperwork.text.names import name_key

NAME = "dressing-list"
ROW_UM = 9_600


class _Kit(NamedTuple):
    """What one performer has on a usual evening: packs, and in-ear packs."""

    worn: tuple[Worn, ...]
    ears: tuple[Ears, ...]

    @property
    def lying_ready(self) -> int:
        """How many things lie ready."""
        return len({one.channel.pack for one in self.worn}) + len(self.ears)


def make_sheets(show: Show) -> tuple[Sheet, ...]:
    """One sheet, by room and then by name. Needs rooms; no frequency is on it."""
    kits = _list_kits(show)
    if not kits or not any(person.room for person in show.people.values()):
        return ()
    columns = headed(
        show,
        Column("dressing head who", share=9),
        Column("head numbers", 23_000),
        Column("head pouch", 27_000),
        Column("head belt", 13_800),
        Column("head colour", 18_000),
        Column("dressing head passes", share=11),
        forms.tick_column("dressing head hung"),
    )
    sheet = frame_sheet(
        show,
        NAME,
        "dressing",
        (Table(columns, tuple(_groups(show, kits)), row_um=ROW_UM),),
        order="dressing order",
        cautions=("shared caution", "privacy caution"),
    )
    return (sheet,)


def _list_kits(show: Show) -> dict[str, _Kit]:
    """Everybody who wears a pack, and people of the company who have in-ears alone."""
    kits = {by: _Kit(worn, ()) for by, worn in list_worn_in_run(show).items()}
    for ears in list_ears(show):
        if ears.listener in kits or ears.listener in show.people:
            kit = kits.get(ears.listener, _Kit((), ()))
            kits[ears.listener] = kit._replace(ears=(*kit.ears, ears))
    return kits


def _groups(show: Show, kits: dict[str, _Kit]) -> Iterator[RowGroup]:
    passed = list_all_handovers(show)
    for room, people in forms.list_rooms(show, kits):
        rows = tuple(_row_of(show, by, kits[by], passed) for by in sorted(people, key=name_key))
        title = phrase(show, "room", room=room) if room else phrase(show, "no room")
        count = sum(kits[by].lying_ready for by in people)
        yield RowGroup(rows, title, phrase(show, "dressing count", count=count), facts=(room, str(count)))


def _row_of(show: Show, by: str, kit: _Kit, passed: tuple[Handover, ...]) -> TableRow:
    """A part of the row for each pack, so that a second one has its own pouch, capsule and square to tick."""
    person = show.people.get(by)
    parts = [*(_pack_part(show, by, one) for one in kit.worn), *(_ears_part(show, ears) for ears in kit.ears)]
    numbers, pouches, colours = zip(*parts, strict=True)
    return row(
        cell(fact(by, LIST_STRONG), *_role_lines(show, by, kit)),
        numbers,
        pouches,
        cell(fact(person.belt if person else "", LIST_STRONG)),
        colours,
        cell(*list_days(show, by, LIST), *_passing_lines(show, by, passed)),
        tuple(forms.tick_cell() for _ in parts),
        subjects=(
            Subject("people", by),
            *(s for one in kit.worn for s in subjects_of_channel(show, one.channel)),
            *(Subject("others", ears.other.id) for ears in kit.ears),
        ),
    )


def _pack_part(show: Show, by: str, one: Worn) -> tuple[Cell, Cell, Cell]:
    """Pack, pouch and capsule colour; that it is the second pack stands behind the pouch."""
    person, channel = show.people.get(by), one.channel
    capsule = show.capsules.get(channel.capsule)
    colour = capsule.colour if capsule and capsule.colour else channel.capsule
    pouch = "" if person is None else person.second_pouch if channel.doubles else person.pouch
    second = phrase(show, "second") if channel.doubles else ""
    text = ", ".join(filter(None, (pouch, second)))
    return (
        cell(fact(channel.pack, LIST_NUMBER)),
        cell(fact(text, LIST_STRONG, of=f"{pouch} {channel.doubles}".strip())),
        cell(fact(colour, LIST_STRONG)),
    )


def _ears_part(show: Show, ears: Ears) -> tuple[Cell, Cell, Cell]:
    text = phrase(show, "in-ears")
    return cell(fact(ears.number, LIST_NUMBER)), cell(words(text, LIST)), cell()


def _role_lines(show: Show, by: str, kit: _Kit) -> Iterator[Line]:
    """Who is played, and who is covered."""
    roles = forms.join_roles(tuple(role for one in kit.worn for role in one.roles))
    if roles != by:
        yield fact(roles, LIST)
    covered = forms.join_roles(tuple(cover.role for cover in show.covers if cover.by == by))
    if covered:
        yield fact(phrase(show, "covers", roles=covered), LIST, of=f"covers {covered}")


def _passing_lines(show: Show, by: str, passed: tuple[Handover, ...]) -> Iterator[Line]:
    """To whom a pack goes and from whom, which handheld is taken up, and what wardrobe is to know."""
    for one in passed:
        if by in (one.from_by, one.to_by):
            key, other = ("dressing gives", one.to_by) if by == one.from_by else ("dressing gets", one.from_by)
            text = phrase(show, key, pack=show.channels[one.channel].pack, name=other, scene=short_scene(one.before))
            yield fact(text, LIST, of=f"{key} {show.channels[one.channel].pack} {other} {short_scene(one.before)}")
    for channel in show.channels.values():
        if by in show.performers_of(channel):
            yield from _held_lines(show, by, channel)
            yield from (fact(note, LIST) for note in filter(None, (channel.notes_to("wardrobe"),)))


def _held_lines(show: Show, by: str, channel: Channel) -> Iterator[Line]:
    """In which scenes a handheld is taken up."""
    if forms.is_handheld(show, channel) and not channel.spare:
        carried = list_carried(show, (role for role in show.roles_on(channel) if show.roles[role].by == by))
        held = {index for (_, index), ids in carried.items() if channel.id in ids}
        live = [show.scenes[index] for index in sorted(held)]
        scenes = ", ".join(short_scene(scene) for scene in live) or "–"
        text = phrase(show, "dressing held", pack=channel.pack, scene=scenes)
        yield fact(text, LIST, of=f"held {channel.pack} {scenes}")
