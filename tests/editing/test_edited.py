"""A show file with edits, read again: what is known of it already is not read twice."""

import pytest

from paperwork.editing.edited import read_edited
from paperwork.files.yaml import read as reader
from paperwork.finding import Edit
from tests.shows_text import EXAMPLES


def test_an_edit_reads_the_edited_file_once_and_nothing_else(monkeypatch):
    show = read_edited((EXAMPLES / "show.yaml").read_bytes(), "show.yaml", lambda *_: ((), ()))
    channel = next(iter(show.reading.show.channels))
    read, seen = reader.read_yaml, []
    monkeypatch.setattr(reader, "read_yaml", lambda text, name, **how: seen.append(text) or read(text, name, **how))
    after = show.make([Edit("channels", channel, "notes", "a new lead")])
    assert [text.encode() for text in seen] == [after.data]
    fresh = read_edited(after.data, "show.yaml", lambda *_: ((), ()))
    assert (after.raw, after.reading) == (fresh.raw, fresh.reading)


LISTED = b"""racks: {R1: {channels: "01-04, -, 06", slots: 6}}
channels:
  01: {role: A, by: Ana Cole, mhz: 486.2}
  02: {role: B, by: Ben Arlo, mhz: 488.2}
  03: {role: C, by: Cy Dorn, mhz: 489.7}
  04: {role: D, by: Di Orr, mhz: 491.3}
  06: {role: E, by: Eve Lund, mhz: 494.3}
  09: {spare: yes, backs: 1-4, mhz: 496.9}
scenes: {1: {live: A}, 2: {live: B}, 3: {live: A}}
covers: {c: {role: A, by: Fay Nash, scenes: 1-3}}
venues: {v: {venue: Town Hall, section: racks, record: R1, field: channels, value: 01-04}}
"""


@pytest.mark.parametrize(("section", "old"), [("channels", id) for id in ("01", "02", "04", "06")] + [("scenes", "2")])
def test_a_record_that_is_named_within_a_range_is_renamed_there_too(section, old):
    """Its slots, its spare and its cover are what they were, under the new name; so they are at a venue."""
    for venue in ("", "Town Hall"):
        show = read_edited(LISTED, "show.yaml", lambda *_: ((), ()), venue)
        before, after = show.reading.show, show.make([Edit(section, old, "", "X9", renames=True)]).reading.show
        renamed = {old: "X9"}
        for id, channel in before.channels.items():
            one = after.channels[renamed.get(id, id) if section == "channels" else id]
            assert [str(slot) for slot in one.slots] == [str(slot) for slot in channel.slots]
            assert one.backs == tuple(
                renamed.get(back, back) if section == "channels" else back for back in channel.backs
            )
        assert after.covers[0].scenes == tuple(
            renamed.get(id, id) for id in before.covers[0].scenes if section == "scenes"
        ) or (section == "channels" and after.covers == before.covers)
