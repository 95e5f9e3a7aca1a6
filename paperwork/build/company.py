"""One function a section: fields to a record of the company and its day."""

import re
from collections.abc import Callable
from decimal import Decimal, InvalidOperation
from typing import get_args

from paperwork.build.fields import Fields
from paperwork.model import (
    ChangePoint,
    Cover,
    Day,
    Follows,
    Look,
    Move,
    PaperSize,
    Person,
    Production,
    Role,
    Scene,
    SceneKind,
    Spectrum,
    VenueRow,
)
from paperwork.names import fold
from paperwork.units import Doubt, parse_clock, parse_date, parse_level, parse_time_of_day

CHANGE_POINTS: tuple[ChangePoint, ...] = get_args(ChangePoint)


def build_production(fields: Fields) -> Production:
    """The section `show`."""
    first, last = fields.read("dates", _parse_dates, ("", ""))
    licensed = fields.read("licensed", _parse_dates, ("", ""))
    return Production(
        title=fields.text("title"),
        company=fields.text("company"),
        venue=fields.text("venue"),
        first_day=first,
        last_day=last,
        revision=fields.text("revision"),
        revised=fields.read("revised", _parse_moment, ""),
        reason=fields.text("reason"),
        revisions=fields.items("revisions"),
        licence=fields.text("licence"),
        licensed_from=licensed[0],
        licensed_to=licensed[1],
        licensed_for=fields.text("licensed for"),
        contact=fields.text("contact"),
        returns=fields.text("returns"),
        paper=fields.pick("paper", get_args(PaperSize), "A4"),
        language=fields.text("language") or "en",
        where=fields.where,
    )


def build_day(fields: Fields) -> Day:
    """The section `day`."""
    return Day(
        power_up_s=_read_times(fields, "power-up"),
        checks_s=_read_times(fields, "checks"),
        half_s=_read_times(fields, "half"),
        curtain_s=_read_times(fields, "curtain"),
        interval_s=_read_times(fields, "interval", parse_clock),
        bows_s=fields.read("bows", parse_clock, None),
        cells=_read_change_points(fields),
        team=fields.text("team"),
        margin_hundredths=fields.read("margin", _parse_factor, None),
        swap_s=fields.read("swap", parse_clock, None),
        swap_handheld_s=fields.read("swap handheld", parse_clock, None),
        crossing_s=fields.read("crossing", parse_clock, None),
        chain=fields.count("chain"),
        where=fields.where,
    )


def build_spectrum(fields: Fields) -> Spectrum:
    """The section `spectrum`."""
    own = fields.text("own transmitters")
    return Spectrum(
        region=fields.text("region"),
        tv=fields.ids("tv"),
        weak_tv=fields.ids("weak tv"),
        keep_clear=fields.ranges("keep clear"),
        sweeps=fields.lines("sweeps"),
        own_on=fields.yes("own transmitters", False) if own else None,
        sweep_limit_cdbm=fields.read("sweep limit", parse_level, None),
        close_quarters=fields.yes("close quarters", False),
        fifth_three_signal=fields.yes("fifth three-signal", False),
        where=fields.where,
    )


def build_person(fields: Fields) -> Person:
    """One person."""
    return Person(
        id=fields.id,
        short=fields.text("short"),
        room=fields.text("room"),
        belt=fields.text("belt"),
        pouch=fields.text("pouch"),
        second_pouch=fields.text("second pouch"),
        colour=fields.text("colour"),
        team=fields.text("team"),
        child=fields.yes("child", False),
        where=fields.where,
    )


def build_role(fields: Fields) -> Role:
    """One role; the members of a group are resolved by `groups`, and the day's performer by `link`."""
    return Role(
        id=fields.id,
        by=fields.somebody(fields.text("by")),
        short=fields.text("short"),
        unmiked=fields.yes("unmiked", False),
        alternates=tuple(filter(fields.somebody, fields.lines("alternates"))),
        group=fields.lines("group"),
        where=fields.where,
    )


def build_scene(fields: Fields) -> Scene:
    """One scene; the roles of `live` are split again by `link`, which knows the roles."""
    return Scene(
        id=fields.id,
        name=fields.text("name"),
        act=fields.text("act"),
        page=fields.text("page"),
        kind=fields.pick("kind", get_args(SceneKind), "scene"),
        at_s=fields.read("at", parse_clock, None),
        until_s=fields.read("until", parse_clock, None),
        live=(fields.joined("live"),),
        where=fields.where,
    )


def build_move(fields: Fields) -> Move:
    """One entrance and exit."""
    return Move(
        id=fields.id,
        role=fields.text("role"),
        scene=fields.text("scene"),
        enter=fields.text("enter"),
        exit=fields.text("exit"),
        from_s=fields.read("from", parse_clock, None),
        to_s=fields.read("to", parse_clock, None),
        where=fields.where,
    )


def build_look(fields: Fields) -> Look:
    """One look."""
    return Look(
        id=fields.id,
        by=fields.somebody(fields.text("by")),
        scene=fields.text("scene"),
        wears=fields.text("wears"),
        pouch=fields.text("pouch"),
        sits=fields.text("sits"),
        second_sits=fields.text("second sits"),
        capsule=fields.text("capsule"),
        where=fields.where,
    )


def build_cover(fields: Fields) -> Cover:
    """One cover."""
    return Cover(
        id=fields.id,
        role=fields.text("role"),
        by=fields.somebody(fields.text("by")),
        scenes=fields.items("scenes"),
        follows=fields.pick("follows", get_args(Follows), "role"),
        channel=fields.text("channel"),
        capsule=fields.text("capsule"),
        pouch=fields.text("pouch"),
        where=fields.where,
    )


def build_venue_row(fields: Fields) -> VenueRow:
    """One value of one venue. It was judged, and perhaps put into place, by `overlay` before."""
    return VenueRow(
        id=fields.id,
        venue=fields.text("venue"),
        section=fields.text("section"),
        record=fields.text("record"),
        name=fields.text("field"),
        value=fields.text("value"),
        where=fields.where,
    )


def _read_times(fields: Fields, name: str, parse: Callable[[str], int] = parse_time_of_day) -> tuple[int, ...]:
    """One time for each show of the day, with commas or blanks between them."""
    found = []
    for text in (time for part in fields.lines(name) for time in re.split(r"\s+(?=[0-9])", part)):
        try:
            found.append(parse(text))
        except Doubt as doubt:
            fields.complain(name, str(doubt))
    return tuple(found)


def _read_change_points(fields: Fields) -> tuple[ChangePoint, ...]:
    named = [fold(text).replace(" ", "-") for text in fields.lines("cells")]
    for name in named:
        if name not in CHANGE_POINTS:
            fields.complain("cells", f"{name} is not one of {', '.join(CHANGE_POINTS)}")
    return tuple(point for point in CHANGE_POINTS if point in named)


def _parse_factor(text: str) -> int:
    """A factor of at least 1 with two decimals, in hundredths."""
    try:
        hundredths = Decimal(text.replace(",", ".")) * 100
    except InvalidOperation:
        raise Doubt(f"{text} is not a factor, as in 1.25") from None
    if not 100 <= hundredths <= 1000 or hundredths != int(hundredths):
        raise Doubt(f"{text} is not a factor between 1 and 10 with two decimals, as in 1.25")
    return int(hundredths)


def _parse_dates(text: str) -> tuple[str, str]:
    parts = re.split(r"\s+(?:to|-|\u2013)\s+", text)
    if len(parts) > 2:
        raise Doubt(f"{text} is not one day, or two with `to` between")
    days = [parse_date(part) for part in parts]
    if days[-1] < days[0]:
        raise Doubt(f"{text} runs backwards")
    return days[0], days[-1]


def _parse_moment(text: str) -> str:
    day, _, time = text.strip().replace("T", " ").partition(" ")
    if not time.strip():
        return parse_date(day)
    minutes = parse_time_of_day(time) // 60
    if minutes >= 24 * 60:
        raise Doubt(f"{time.strip()} is no time of day")
    return f"{parse_date(day)} {minutes // 60:02d}:{minutes % 60:02d}"
