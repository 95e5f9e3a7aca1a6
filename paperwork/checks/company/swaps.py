"""Swaps: whether a pack can get from one body to the next in the time and on the side of the stage that it has."""

from collections.abc import Iterator
from operator import gt

from paperwork.finding import Finding, Subject, find
from paperwork.model import Channel, Day, Show
from paperwork.place import Place
from paperwork.plan.bodies.carried import scenes_on
from paperwork.plan.day.clockface import NIGHT_S, is_by_clock, say_time
from paperwork.plan.day.powered import powered_stretches
from paperwork.plan.handovers import Handover, list_all_handovers
from paperwork.plan.rules import crossing_s, swap_s
from paperwork.plan.timeline import bows_by_clock, first_by_clock, list_bows, scene_times
from paperwork.text.clock import DAY_S
from paperwork.text.names import join_words
from paperwork.text.units import format_clock


def check_swaps(show: Show) -> Iterator[Finding]:
    """Each handover has the time that it needs. Where a time is missing there is no finding."""
    for handover in list_all_handovers(show):
        channel = show.channels[handover.channel]
        radio = show.radio_of(channel)
        kind = radio.kind if radio else "pack"
        seconds = handover.seconds
        if seconds is None or handover.in_vision or (kind == "handheld" and seconds <= 0):
            continue
        least_s = swap_s(show, kind)
        wanted_s = least_s + (crossing_s(show) if handover.crosses else 0)
        if seconds < wanted_s and not handover.at_least:
            code = "swap-too-fast" if seconds < least_s else "swap-across-stage"
            yield _word_swap(show, code, channel, handover, seconds, wanted_s)


def _word_swap(show: Show, code: str, channel: Channel, handover: Handover, seconds: int, wanted_s: int) -> Finding:
    place = _place_of(show, handover.to_role, handover.before.id, "from")
    return find(
        code,
        place,
        about=(Subject("channels", channel.id), Subject("scenes", handover.before.id)),
        others=(_place_of(show, handover.from_role, handover.after.id, "to"), channel.where["shared"]),
        channel=channel.id,
        first=f"{handover.from_role} ({handover.from_by})",
        second=f"{handover.to_role} ({handover.to_by})",
        seconds=_word_time(seconds),
        wanted=_word_time(wanted_s),
        way=f", {crossing_s(show)} s of it to cross from {handover.exit} to {handover.enter}"
        if handover.crosses
        else "",
        exit=handover.exit,
        enter=handover.enter,
        scene=handover.before.name or handover.before.id,
    )


def _word_time(seconds: int) -> str:
    return f"{seconds} s" if seconds >= 0 else f"{-seconds} s too few"


def _place_of(show: Show, role: str, scene: str, name: str) -> Place:
    """Where the move that gives a time is written, else the scene's live roles."""
    for move in show.moves.values():
        if move.role == role and move.scene == scene:
            return move.where[name]
    return next(one.where["live"] for one in show.scenes if one.id == scene)


def check_moves(show: Show) -> Iterator[Finding]:
    """A move is of a role that is live in its scene."""
    live = {scene.id: (scene, set(scene.live)) for scene in show.scenes}
    for move in show.moves.values():
        scene, roles = live.get(move.scene, (None, set()))
        role = show.roles.get(move.role)
        if scene is None or role is None or move.role in roles or not roles.isdisjoint(role.group):
            continue
        yield find(
            "move-not-live",
            move.where["role"],
            about=(Subject("scenes", scene.id), Subject("roles", move.role)),
            others=(scene.where["live"],),
            role=move.role,
            scene=scene.name or scene.id,
        )


def check_given(show: Show) -> Iterator[Finding]:
    """A channel that a move gives is not a spare: those stand by, and have their place on no list of who is on."""
    for move in show.moves.values():
        channel = show.channels.get(move.channel)
        if channel and channel.spare:
            yield find(
                "move-takes-spare",
                move.where["channel"],
                about=(Subject("channels", channel.id), Subject("roles", move.role)),
                others=(channel.where["spare"],),
                channel=channel.id,
                role=move.role,
                scene=name_scene(show, move.scene),
            )


def check_idle(show: Show) -> Iterator[Finding]:
    """A channel whose roles are live is worn in some scene: where moves give each of them another one, it never is."""
    if not any(move.channel for move in show.moves.values()):
        return
    live = {role for scene in show.scenes for role in scene.live}
    for channel in show.channels.values():
        roles = [role for role in show.roles_on(channel) if role in live]
        if roles and not channel.spare and not scenes_on(show, channel):
            yield find(
                "channel-never-worn",
                channel.where["role"],
                about=(Subject("channels", channel.id), *(Subject("roles", role) for role in roles)),
                others=tuple(
                    move.where["channel"] for move in show.moves.values() if move.channel and move.role in roles
                ),
                channel=channel.id,
                roles=join_words(roles),
            )


def name_scene(show: Show, id: str) -> str:
    """The printed name of a scene, else its id."""
    return next((scene.name for scene in show.scenes if scene.id == id and scene.name), id)


def _word_night(show: Show, at_s: int) -> str:
    """How a time of the small hours is written where times are of day; "" where it is none."""
    is_early = is_by_clock(show) and at_s < NIGHT_S
    return f"; at night {say_time(show, at_s)} is written {format_clock(at_s + DAY_S)}" if is_early else ""


def check_times(show: Show) -> Iterator[Finding]:
    """No time runs backwards: in a move, in a scene, from scene to scene, from power-up to curtain."""
    for move in show.moves.values():
        if move.from_s is not None and move.to_s is not None and move.to_s < move.from_s:
            yield find(
                "time-backwards",
                move.where["to"],
                about=(Subject("scenes", move.scene),),
                what=f"{move.role} leaves {move.scene} before entering it{_word_night(show, move.to_s)}",
            )
    last: Place | None = None
    last_s = -1
    for scene in show.scenes:
        if scene.at_s is not None and scene.until_s is not None and scene.until_s < scene.at_s:
            yield find(
                "time-backwards",
                scene.where["until"],
                about=(Subject("scenes", scene.id),),
                what=f"{scene.name or scene.id} ends before it starts{_word_night(show, scene.until_s)}",
            )
        if scene.at_s is None or scene.kind == "set":
            continue
        if last is not None and scene.at_s < last_s:
            yield find(
                "time-backwards",
                scene.where["at"],
                about=(Subject("scenes", scene.id),),
                others=(last,),
                what=f"scene {scene.name or scene.id} starts before the scene in front of it",
            )
        last, last_s = scene.where["at"], scene.at_s


def check_day(show: Show) -> Iterator[Finding]:
    """Power-up comes before the first scene, and there are as many of them as shows, or one for the whole day."""
    day = show.day
    if is_by_clock(show):
        yield from _check_days(show)
        return
    if not day.power_up_s or not day.curtain_s:
        return
    if len(day.power_up_s) not in (1, len(day.curtain_s)):
        yield _word_uneven(day, "power-up", len(day.power_up_s), "curtain", len(day.curtain_s))
    elif len(day.bows_s) not in (0, 1, len(day.curtain_s)):
        yield _word_uneven(day, "bows", len(day.bows_s), "curtain", len(day.curtain_s))
    elif any(up_s > curtain_s for up_s, curtain_s in zip(day.power_up_s, day.curtain_s, strict=False)):
        yield _word_backwards(day, "power-up", "curtain", "packs are switched on after curtain up")
    elif list_bows(show) and not powered_stretches(show):
        yield _word_backwards(
            day, "curtain", "power-up", "the second show's packs are switched on before the first show is over"
        )


def _word_uneven(day: Day, field: str, count: int, other: str, shows: int) -> Finding:
    where = day.where
    return find("day-uneven", where[field], others=(where[other],), field=field, count=count, other=other, shows=shows)


def _check_days(show: Show) -> Iterator[Finding]:
    """By the clock: a power-up before the first scene, and one after each day is over."""
    ups, known = show.day.power_up_s, [scene for scene in show.scenes if scene.at_s is not None]
    first = min(known, key=lambda scene: scene.at_s or 0, default=None)
    if (backwards := _find_early_bows(show)) is not None:
        yield backwards
        return
    if not ups:
        return
    if len(show.day.bows_s) > 1 and len(ups) not in (1, len(show.day.bows_s)):
        yield _word_uneven(show.day, "bows", len(show.day.bows_s), "power-up", len(ups))
    elif first and first.at_s is not None and first.at_s < ups[0]:
        what = f"packs are switched on after {first.name or first.id} begins"
        yield find("time-backwards", show.day.where["power-up"], others=(first.where["at"],), what=what)
    elif len(ups) > 1 and any(to_s is not None for _, to_s in scene_times(show)) and not powered_stretches(show):
        what = "packs are switched on again before what they were on for is over"
        yield find("time-backwards", show.day.where["power-up"], what=what)


def _find_early_bows(show: Show) -> Finding | None:
    """By the clock: bows before what they end, as 1:00 where 25:00 is meant, or those of the first of two shows."""
    day = show.day
    starts = [(curtain_s, "curtain up", day.where["curtain"]) for curtain_s in day.curtain_s]
    starts += [(up_s, "power-up", day.where["power-up"]) for up_s in day.power_up_s]
    starts += [(one.at_s, one.name or one.id, one.where["at"]) for one in show.scenes if one.at_s is not None]
    last = max(starts, key=lambda start: start[0], default=None)
    over_s = max(day.bows_s, default=None)
    if over_s is None or last is None or over_s >= last[0]:
        return None
    what = f"the bows are at {say_time(show, over_s)}, before {last[1]} at {say_time(show, last[0])}"
    what += _word_night(show, over_s)
    return find("time-backwards", day.where["bows"], others=(last[2],), what=what)


def check_evening(show: Show) -> Iterator[Finding]:
    """Checks and the half come before curtain up, the interval before the bows."""
    day = show.day
    for field, times_s in (("checks", day.checks_s), ("half", day.half_s)):
        if len(times_s) == len(day.curtain_s) and not is_by_clock(show) and any(map(gt, times_s, day.curtain_s)):
            yield _word_backwards(day, field, "curtain", f"{field} is after curtain up")
    first = first_by_clock(show)
    if first is not None and first.at_s is not None:
        given, meant = format_clock(first.at_s), format_clock(first.at_s - day.curtain_s[0])
        yield find(
            "scenes-by-clock",
            first.where["at"],
            about=(Subject("scenes", first.id),),
            others=(day.where["curtain"],),
            scene=first.name or first.id,
            given=given,
            meant=meant,
        )
        return
    if meant_s := bows_by_clock(show):
        given, end = (", ".join(map(format_clock, times_s)) for times_s in (day.bows_s, meant_s))
        yield find(
            "bows-by-clock",
            day.where["bows"],
            others=(day.where["curtain"],),
            given=given,
            end=end,
            longest=format_clock(max(day.bows_s)),
        )
    elif day.bows_s and any(at_s >= max(day.bows_s) for at_s in day.interval_s):
        yield _word_backwards(day, "interval", "bows", "the interval begins after the bows; both count from curtain up")


def _word_backwards(day: Day, field: str, other: str, what: str) -> Finding:
    return find("time-backwards", day.where[field], others=(day.where[other],), what=what)


CHECKS = (check_swaps, check_moves, check_given, check_idle, check_times, check_day, check_evening)
