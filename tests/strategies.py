"""Random shows that are valid: the one module of strategies. Each is drawn as plain data and read as a file would be.

A valid show never has a pack on two bodies or a body in two places; its times run forwards and its racks are full.
Nothing in it is on a frequency: the radio rooms have their own.
"""

import json
from itertools import chain
from typing import Any

from hypothesis import strategies as st

from paperwork.build import build_show
from paperwork.model import Show
from tests.shows_text import raw_of

MINUTE = 60


def clock(seconds: int) -> str:
    """Seconds as the show file writes them."""
    return f"{seconds // 3600}:{seconds // 60 % 60:02d}:{seconds % 60:02d}"


@st.composite
def plain_shows(draw: st.DrawFn) -> dict[str, Any]:
    """A valid show as plain data: channels of one to three bodies, scenes, covers, sometimes times and moves."""
    channels: dict[str, Any] = {}
    groups: list[list[str]] = []
    for number in range(1, draw(st.integers(1, 6)) + 1):
        roles = [f"ROLE{number}{letter}" for letter in "ABC"[: draw(st.integers(1, 3))]]
        channels[f"{number:02d}"] = {"shared": {role: f"Person {role}" for role in roles}}
        groups.append(roles)
    show: dict[str, Any] = {"channels": channels, "scenes": draw(_scenes(groups))}
    if draw(st.booleans()):
        show["racks"] = draw(_racks(len(channels)))
    covers = draw(st.lists(st.tuples(st.sampled_from([*chain(*groups)]), st.integers(0, 8)), max_size=6, unique=True))
    if covers:
        show["covers"] = {f"c{n}": _cover(role, who, groups) for n, (role, who) in enumerate(covers)}
    return show


@st.composite
def _scenes(draw: st.DrawFn, groups: list[list[str]]) -> dict[str, Any]:
    """In each scene at most one role of each channel is live."""
    timed = draw(st.booleans())
    scenes: dict[str, Any] = {}
    at_s = 0
    for number in range(draw(st.integers(1, 10))):
        live = [role for roles in groups if (role := draw(st.sampled_from([*roles, ""])))]
        scenes[f"s{number}"] = {"live": live}
        if timed:
            scenes[f"s{number}"]["at"] = clock(at_s)
        at_s += draw(st.integers(1, 15)) * MINUTE
    return scenes


def _cover(role: str, who: int, groups: list[list[str]]) -> dict[str, str]:
    """A cover by a swing, or by somebody who plays another role."""
    others = [other for other in chain(*groups) if other != role]
    return {"role": role, "by": f"Person {others[who]}" if who < len(others) else f"Swing {who}"}


@st.composite
def _racks(draw: st.DrawFn, channels: int) -> dict[str, Any]:
    """Racks of two slots a unit that hold every channel, each slot patched to a desk input of its own number."""
    racks: dict[str, Any] = {}
    first = 1
    while first <= channels:
        slots = 2 * draw(st.integers(1, 3))
        last = first + slots - 1
        held = [f"{number:02d}" if number <= channels else "-" for number in range(first, last + 1)]
        racks[f"R{len(racks) + 1}"] = {
            "channels": held,
            "units": ["2"] * (slots // 2),
            "analogue 1": f"FOH {first}-{last}",
            "digital 1": f"TRUCK {first}-{last}",
        }
        first = last + 1
    return racks


def read_plain(plain: dict[str, Any]) -> Show:
    """The show of plain data, which must be sound as far as the build can tell. Every JSON text is YAML."""
    built = build_show(raw_of(json.dumps(plain, ensure_ascii=False)))
    assert not built.findings, built.findings
    return built.show


shows = plain_shows().map(read_plain)
"""Valid shows, built."""


@st.composite
def days(draw: st.DrawFn) -> dict[str, Any]:
    """A day of one or two shows, packs on from each power-up or through, with an interval and hours for a pack."""
    bows_s = draw(st.integers(60, 240)) * MINUTE
    curtains = [draw(st.integers(12 * 60, 15 * 60)) * MINUTE]
    ups = [curtains[0] - draw(st.integers(40, 180)) * MINUTE]
    if draw(st.booleans()):
        curtains.append(curtains[0] + bows_s + draw(st.integers(90, 240)) * MINUTE)
        if draw(st.booleans()):
            ups.append(curtains[1] - draw(st.integers(40, 80)) * MINUTE)
    interval = [clock(draw(st.integers(20, bows_s // MINUTE - 1)) * MINUTE)] if draw(st.booleans()) else []
    return {
        "day": {
            "power-up": [clock(up) for up in ups],
            "curtain": [clock(up) for up in curtains],
            "bows": clock(bows_s),
            "interval": interval,
            "margin": draw(st.sampled_from(("1", "1.25", "1.5"))),
        },
        "radios": {"belt": {"hours": clock(draw(st.integers(30, 14 * 60)) * MINUTE)}},
        "channels": {"01": {"role": "VERA"}},
    }
