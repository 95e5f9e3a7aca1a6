"""No list of channels is printed without its channels, however little a show says of racks, slots, packs or people."""

import json
import re

from hypothesis import given, settings
from hypothesis import strategies as st

from paperwork.build import build_show
from paperwork.model import Channel, Show
from paperwork.sheets import SHEETS
from tests.few import few_examples
from tests.sheet_texts import texts_of
from tests.sheets.reading import read_back
from tests.shows_text import raw_of

ALWAYS = ("channel-chart", "table-squares")
"""Papers that every show with channels has."""


@st.composite
def partial_shows(draw):
    """Channels of which each says some of its fields; racks that are stated, named by slots alone, or not at all."""
    ids = [f"K{number:02d}" for number in range(1, draw(st.integers(1, 7)) + 1)]
    racked = draw(st.sampled_from(("none", "slots", "stated", "both")))
    channels: dict[str, dict[str, str]] = {}
    for number, id in enumerate(ids, 1):
        fields = {
            "role": f"ROLE{number}",
            "by": f"Person {number}",
            "mhz": f"{500 + number}.000",
            "pack": f"P{number}",
            "capsule": "tan",
            "notes": "note",
            "doubles": ids[number - 2],
            "radio": "belt",
            "spare": "yes",
        }
        said = {name: value for name, value in fields.items() if draw(st.booleans())}
        spare = "spare" in said
        said = {k: v for k, v in said.items() if not (spare and k in ("role", "by", "doubles"))}
        if said.get("doubles") == id or channels.get(said.get("doubles", ""), {}).keys() & {"spare", "doubles"}:
            said.pop("doubles", None)
        if racked in ("slots", "both") and draw(st.booleans()):
            said["slot"] = f"R{draw(st.integers(1, 2))}.{number}"
        channels[id] = said
    show: dict[str, object] = {"channels": channels, "radios": {"belt": {"hours": "6:00", "cells": "2 AA"}}}
    if racked == "stated":
        show["racks"] = {"R1": {"channels": draw(st.lists(st.sampled_from(ids), unique=True, min_size=1))}}
    if racked == "both":
        show["racks"] = {f"R{number}": draw(_rack(number)) for number in (1, 2)}
    roles = [one["role"] for one in channels.values() if "role" in one]
    if draw(st.booleans()):
        show["scenes"] = {"1.1": {"live": roles[: draw(st.integers(0, 7))]}}
    if draw(st.booleans()):
        show["day"] = {"power-up": "17:00", "curtain": "19:30", "bows": "2:30", "checks": "18:00"}
    people = [one["by"] for one in channels.values() if "by" in one]
    if people and draw(st.booleans()):
        show["people"] = {person: {"room": "4"} for person in people}
    if draw(st.booleans()):
        show["transmitters"] = {one["pack"]: {} for one in channels.values() if "pack" in one}
    return {name: value for name, value in show.items() if value}


@st.composite
def _rack(draw, number):
    return {"slots": "9"} | ({"analogue 1": f"DESK{number} 1-9"} if draw(st.booleans()) else {})


def wanted_on(name: str, show: Show) -> list[Channel]:
    """The channels that a paper must name, once it is printed: all, but for papers that are about some."""
    channels = list(show.channels.values())
    patched = {rack.id for rack in show.racks.values() if rack.outputs}
    about = {
        "frequency-list": lambda one: one.hz is not None,
        "pack-labels": lambda one: one.hz is not None,
        **dict.fromkeys(("fitting-call", "dressing-list", "placement-notes"), lambda one: is_worn(show, one)),
        "pouch-cards": lambda one: not one.spare,
        "receiver-strips": lambda one: any(one in show.channels_in(rack) for rack in show.racks.values()),
        "patch-sheet": lambda one: any(one in show.channels_in(show.racks[rack]) for rack in patched),
        "spare-cards": lambda one: one.spare,
        "battery-plan": lambda one: not one.spare,
        **dict.fromkeys((*ALWAYS, "walk-test", "programming", "line-check"), lambda one: True),
    }
    return [one for one in channels if name in about and about[name](one)]


def is_worn(show: Show, channel: Channel) -> bool:
    """Whether the channel names who has its pack, by itself or by the channel whose second pack it is."""
    first = show.channels.get(channel.doubles, channel)
    return not channel.spare and bool(channel.by or channel.roles or first.by or first.roles)


def words_of(texts) -> set[str]:
    return set(re.findall(r"\w+", " ".join(texts)))


def built(plain) -> Show:
    made = build_show(raw_of(json.dumps(plain)))
    assert not made.findings, made.findings
    return made.show


@settings(max_examples=few_examples(150))
@given(partial_shows())
def test_every_channel_is_on_every_list_of_channels(plain):
    show = built(plain)
    for paper in SHEETS:
        sheets = paper.make(show)
        assert sheets or paper.name not in ALWAYS, (paper.name, plain)
        for wanted in wanted_on(paper.name, show) if sheets else ():
            said = words_of(text for sheet in sheets for text in texts_of(sheet))
            assert {wanted.id, wanted.pack} & said, (paper.name, wanted.id, plain)


@settings(max_examples=4)
@given(partial_shows())
def test_a_reader_of_pdf_finds_every_channel_on_every_list_of_channels(plain):
    show = built(plain)
    for paper in SHEETS:
        wanted = wanted_on(paper.name, show)
        sheets = paper.make(show) if wanted else ()
        said = words_of([read_back(sheets)]) if sheets else set()
        assert not sheets or all({one.id, one.pack} & said for one in wanted), (paper.name, plain)
