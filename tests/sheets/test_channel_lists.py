"""No list of channels is printed without its channels, however little a show says of racks, slots, packs or people."""

import json

from hypothesis import given, settings
from hypothesis import strategies as st

from paperwork.build import build_show
from paperwork.sheets.rack import channel_chart, line_check, programming, walk_test
from paperwork.sheets.wardrobe import table_squares
from tests.sheet_texts import texts_of
from tests.shows_text import raw_of

LISTS = (channel_chart, line_check, programming, walk_test, table_squares)


@st.composite
def partial_shows(draw):
    """Channels of which each says some of its fields; racks that are stated, named by slots alone, or not at all."""
    ids = [f"{number:02d}" for number in range(1, draw(st.integers(1, 7)) + 1)]
    racked = draw(st.sampled_from(("none", "slots", "stated", "both")))
    channels = {}
    for number, id in enumerate(ids, 1):
        fields = {
            "role": f"ROLE{id}",
            "by": f"Person {id}",
            "mhz": f"{500 + number}.000",
            "pack": f"P{id}",
            "capsule": "tan",
            "notes": "note",
            "spare": "yes",
        }
        channels[id] = {name: value for name, value in fields.items() if draw(st.booleans())}
        if "spare" in channels[id]:
            channels[id] = {k: v for k, v in channels[id].items() if k not in ("role", "by")}
        if racked in ("slots", "both") and draw(st.booleans()):
            channels[id]["slot"] = f"R{draw(st.integers(1, 2))}.{number}"
    show = {"channels": channels}
    if racked == "stated":
        show["racks"] = {"R1": {"channels": draw(st.lists(st.sampled_from(ids), unique=True, min_size=1))}}
    if racked == "both":
        show["racks"] = {"R1": {"slots": "9"}, "R2": {"slots": "9"}}
    if draw(st.booleans()):
        show["radios"] = {"belt": {}}
    if draw(st.booleans()):
        show["scenes"] = {"1.1": {"live": [one["role"] for one in channels.values() if "role" in one][:1]}}
    return show


@settings(max_examples=120)
@given(partial_shows())
def test_every_channel_is_on_every_list_of_channels(plain):
    built = build_show(raw_of(json.dumps(plain)))
    assert not built.findings, built.findings
    for paper in LISTS:
        for sheet in paper.make_sheets(built.show):
            missing = set(plain["channels"]) - {part for text in texts_of(sheet) for part in text.split()}
            assert not missing, (paper.__name__, missing, plain)
