"""The fewest moves that mend a plan: what is wrong with it, who moves where, and why; and who moves in another house."""

from collections.abc import Callable, Container, Iterable, Iterator, Sequence
from dataclasses import replace
from typing import NamedTuple

from paperwork.checks.air.drafts import Draft
from paperwork.checks.air.frequencies import check_granted, draft_frequencies
from paperwork.codes import CODES
from paperwork.coordinate import BACKUPS, OnAir, carrier_name, gather_on_air
from paperwork.coordinate.air import block_refused
from paperwork.coordinate.carriers import has_grant, list_clashes, list_close
from paperwork.coordinate.freed import free_channels, is_movable
from paperwork.coordinate.nearest import want_again
from paperwork.finding import Subject, find
from paperwork.frozen import frozen
from paperwork.model import Show
from paperwork.radio.board.lattice import Want
from paperwork.radio.moves.repair import repair
from paperwork.radio.products.hits import Clash
from paperwork.radio.spacing import list_close_pairs
from paperwork.text.names import natural_key
from paperwork.text.units import format_mhz

LOUD = "sweep-"
"""How the codes of warnings begin that a plan is mended of too. What has to be decided by asking around stays."""


@frozen
class Retuned:
    """A carrier that moves: its channels, or those whose backup it is, where it was and is, and why. `asked_anew`: it was
    granted, refused or asked for. `section` is `others` for an in-ear or intercom, which is then alone in `channels`."""

    channels: tuple[str, ...]
    was_hz: int
    hz: int
    why: str
    asked_anew: bool
    is_backup: bool = False
    section: str = "channels"


@frozen
class Mended:
    """`moves` by carrier. `left`: carriers that are still wrong, with what is wrong. `hopeless`: so much is wrong that
    nothing was tried, and what it is. `is_fewest`: it is proved that fewer moves are not enough."""

    moves: tuple[Retuned, ...]
    left: tuple[tuple[str, str], ...]
    margin_hz: int | None = None
    is_fewest: bool = True
    stopped: bool = False
    hopeless: str = ""


def repair_show(
    show: Show,
    *,
    effort: int,
    stop: Callable[[], bool] | None = None,
    progress: Callable[[int, int, int], None] | None = None,
) -> Mended:
    """The fewest channels of a show that have to move, so that nothing is wrong with any frequency; what was granted moves only
    where it cannot stay; of the others in-ears and intercom of ours do that are themselves wrong, and neighbours never."""
    on_air = gather_on_air(show)
    drafts = [one for one in (*draft_frequencies(on_air), *check_granted(on_air)) if _is_mended(one)]
    clashes = list_clashes(on_air)
    if clashes is None:
        return Mended((), (), hopeless="more products hit than anybody would mend one by one")
    if list_close(on_air) is None:
        return Mended((), (), hopeless="more carriers are too near each other than anybody would mend one by one")
    wrong = dict(_list_wrong(on_air, drafts))
    ours = [carrier for carrier in on_air.carriers if _may_move(on_air, carrier.id, wrong)]
    names = {carrier.id for carrier in ours}
    found = repair(
        [_want(on_air, carrier.id) for carrier in ours],
        [carrier for carrier in on_air.carriers if carrier.id not in names],
        (*on_air.air.blocks, *block_refused(show)),
        on_air.rules,
        wrong=wrong,
        costly=[carrier.id for carrier in ours if has_grant(on_air, carrier.id) and carrier.id not in wrong],
        conflicts=_list_conflicts(on_air, clashes) if on_air.is_searched_strictly else None,
        effort=effort,
        stop=stop,
        progress=progress,
    )
    was = {carrier.id: carrier.hz for carrier in ours}
    moves = tuple(_move(on_air, drafts, wrong, id, was[id], found.moved[id]) for id in was if id in found.moved)
    others = [id for id in wrong if id not in was]
    left = tuple((id, wrong.get(id) or _find_why(on_air, drafts, id)) for id in (*found.stuck, *others))
    return Mended(moves, left, found.margin_hz, found.is_fewest, found.stopped)


def _may_move(on_air: OnAir, name: str, wrong: Container[str]) -> bool:
    """Whether a carrier is one of our channels, or an in-ear or intercom of ours that is itself wrong."""
    if on_air.is_channel(name):
        return True
    return name in wrong and is_movable(on_air.show, on_air.show.others[on_air.subjects[name][0].id])


def _list_conflicts(on_air: OnAir, clashes: Sequence[Clash]) -> list[frozenset[str]]:
    """Carriers of which one has to move: those too near each other, a backup and its own carrier too; and those whose
    products hit when all of them can be on the air."""
    pairs = [frozenset((pair.lower, pair.upper)) for pair in list_close_pairs(on_air.searched, on_air.rules)]
    return [*pairs, *(frozenset(clash.carriers) for clash in clashes)]


def _is_mended(draft: Draft) -> bool:
    return CODES[draft.code].severity == "error" or draft.code.startswith(LOUD)


def _list_wrong(on_air: OnAir, drafts: list[Draft]) -> Iterator[tuple[str, str]]:
    """The carriers that have to move whatever the others do, each with the reason."""
    for channel in on_air.show.channels.values():
        if channel.refused and channel.hz is not None:
            yield carrier_name(channel), f"the coordinator refused {format_mhz(channel.hz)} MHz"
    for draft in reversed(drafts):
        if set(draft.about) <= set(on_air.subjects[draft.mover]):
            yield draft.mover, _word(draft)


def _want(on_air: OnAir, name: str) -> Want:
    """The carrier as a want that keeps off weak television where it can."""
    return replace(want_again(on_air, name), avoid=tuple((one.low_hz, one.high_hz) for one in on_air.air.weak))


def _move(on_air: OnAir, drafts: list[Draft], wrong: dict[str, str], name: str, was_hz: int, hz: int) -> Retuned:
    why = wrong.get(name) or _find_why(on_air, drafts, name)
    answered = any(
        one.refused or (one.granted_hz != hz and (one.granted_hz, one.asked_hz) != (None, None))
        for one in on_air.records_of(name)
    )
    ids = tuple(subject.id for subject in on_air.subjects[name])
    section = "channels" if on_air.is_channel(name) else "others"
    return Retuned(ids, was_hz, hz, why, answered, on_air.is_backup(name), section)


def _find_why(on_air: OnAir, drafts: list[Draft], name: str) -> str:
    """The finding in which a carrier has part, those first whose mover it is; else it makes room."""
    about = [one for one in drafts if set(on_air.subjects[name]) & set(one.about)]
    chosen = min(about, key=lambda one: one.mover != name, default=None)
    return _word(chosen) if chosen else "makes room for the others"


def _word(draft: Draft) -> str:
    facts = {**draft.facts, "nearest": "", "at": None, "clean": ""}
    return find(draft.code, draft.place, about=draft.about, **facts).text


class Movers(NamedTuple):
    """The ids of channels that have to move, of those whose backup has to, and of in-ears and their like."""

    channels: tuple[str, ...]
    backups: tuple[str, ...] = ()
    others: tuple[str, ...] = ()


def list_movers(show: Show, kept: frozenset[Subject] = frozenset()) -> Movers:
    """The channels whose frequency or backup is not clean, each time those that findings would move, until
    nothing is wrong with the rest. Those `kept` stay, whatever they disturb."""
    moved: set[Subject] = set()
    while True:
        movers = Movers(*(_sort_ids(moved, section) for section in ("channels", BACKUPS, "others")))
        on_air = gather_on_air(free_channels(show, *movers))
        drafts = [draft for draft in draft_frequencies(on_air) if CODES[draft.code].severity == "error"]
        found = {one for draft in drafts for one in _list_moving(on_air, draft)} - kept
        if not found - moved:
            return movers
        moved |= found


def _sort_ids(subjects: Iterable[Subject], section: str) -> tuple[str, ...]:
    return tuple(sorted((one.id for one in subjects if one.section == section), key=natural_key))


def _list_moving(on_air: OnAir, draft: Draft) -> Iterator[Subject]:
    """The channels of the carrier that would have to move; of a plan with more hits than are listed, the worse half."""
    for subject in (*on_air.subjects[draft.mover], *draft.movers):
        if subject.section != "others" or is_movable(on_air.show, on_air.show.others[subject.id]):
            yield subject
