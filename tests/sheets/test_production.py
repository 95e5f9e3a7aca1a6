"""Production's papers: what is asked and granted, what is on hire, what went wrong, whom to call."""

from dataclasses import replace

import pytest

from paperwork.document import Table, Tick, WriteIn
from paperwork.render.layout import lay_out
from paperwork.sheets.production.contact_strip import split_contact
from paperwork.text.units import format_mhz
from tests.metrics import load_metrics
from tests.sheets.reading import example, make, printed, rows_of, titles_of
from tests.shows_text import reading_of, show_of

REPLY = """
show: {title: Gala}
radios: {belt: {tunes: 470-510, power: 10 mW}}
channels:
  01: {role: A, mhz: 486.200, granted: 486.200}
  02: {role: B, mhz: 487.100, asked: 487.050, granted: 487.100}
  03: {role: C, mhz: 488.325, granted: 488.400}
  04: {role: D, mhz: 489.900, granted: no}
  05: {role: E, mhz: 490.500, asked: 490.500}
  06: {role: F, mhz: 491.300}
"""


FESTIVAL = """
show: {title: Gala}
radios: {belt: {tunes: 470-510}}
channels:
  01: {role: A, radio: belt, mhz: 486.200, zone: meadow, bill: s1}
  02: {spare: belt, backs: 01, mhz: 488.300}
others:
  NEXT DOOR: {kind: intercom, mhz: 480.500, bandwidth: 25 kHz}
scenes:
  s1: {kind: set, name: The Larks, at: "0:00", live: A}
"""


def tables_of(sheet):
    return [block for block in sheet.blocks if isinstance(block, Table)]


def texts_in(table):
    return [
        [[item.text for part in parts for item in part.items] for parts in row.cells]
        for group in table.groups
        for row in group.rows
    ]


def test_the_request_asks_for_what_was_asked_else_for_what_is_set():
    told = printed("frequency-request")
    for channel in example().channels.values():
        assert format_mhz(channel.asked_hz or channel.hz) in told
    assert "574.075" in told and "574.525" not in told
    for other in example().others.values():
        assert format_mhz(other.hz) in told
    for fact in (
        "Saltmarsh Players",
        "Corn Exchange, Brindle Quay",
        "17:15–21:54",
        "BQ-0417",
        "house extension 21",
        "470–510",
    ):
        assert fact in told


def test_the_request_counts_what_is_needed_and_what_is_spare():
    counted = texts_in(tables_of(make("frequency-request")[0])[1])
    assert [(row[0][0], row[1][0], row[2][0]) for row in counted] == [
        ("low, pack", "11", "1"),
        ("mid, pack", "11", "1"),
        ("high, pack", "3", "1"),
        ("hand, handheld", "3", "1"),
    ]


def test_in_the_request_a_bandwidth_stands_under_bandwidth_for_every_kind_of_carrier():
    body = tables_of(make("frequency-request")[0])[2]
    heads = [column.heading for column in body.columns]
    rows = texts_in(body)
    assert heads == ["Row", "Use", "Tunes, MHz", "Bandwidth", "Power", "Asked, MHz", "Granted, MHz"]
    assert {row[3][0] for row in rows} == {"200 kHz"}
    assert {row[2][0] for row in rows if row[0][0].startswith("EARS")} == {"–"}


def test_the_request_has_a_line_for_a_pen_wherever_a_coordinator_asks_and_the_show_is_silent(tmp_path):
    (sheet,) = make("frequency-request", reading_of(FESTIVAL, tmp_path).show)
    letter, summary, body, _ = tables_of(sheet)
    asked = {
        cells[at][0].items[0].text: cells[at + 1][0].items
        for row in letter.groups[0].rows
        for cells in (row.cells,)
        for at in (0, 2)
    }
    assert set(asked) == {
        "For",
        "Contact",
        "Venue",
        "Licence",
        "Days",
        "Antennas: where, height",
        "On the air",
        "Answer to, by",
    }
    assert all(isinstance(items[0], WriteIn) for items in asked.values())
    (kind,) = summary.groups[0].rows
    assert [isinstance(parts[0].items[0], WriteIn) for parts in kind.cells] == [
        False,
        False,
        False,
        False,
        True,
        True,
        True,
        True,
    ]
    assert [row[1] for row in texts_in(body)] == [["pack", "meadow", "s1"], ["pack", "for 01"], ["intercom"]], (
        "where and when it is on the air"
    )


def test_the_reply_is_sorted_by_who_has_to_do_something(tmp_path):
    (sheet,) = make("frequency-reply", reading_of(REPLY, tmp_path).show)
    assert titles_of(sheet) == [
        "Not granted: must not be used",
        "Granted, but something else is programmed",
        "No answer yet",
        "Different frequency granted, and programmed",
        "Granted as asked, and programmed",
    ]
    rows = rows_of(sheet)
    assert [row[0][0] for row in rows] == ["04", "03", "05", "06", "02", "01"], "every channel has a row of its own"
    assert [row[2:6] for row in rows[:-1]] == [
        [["489.900"], ["no"], ["489.900"], ["Batteries out; ask for another"]],
        [["488.325"], ["488.400"], ["488.325"], ["+75 kHz from asked", "Set receiver and pack; new label"]],
        [["490.500"], ["000.000"], ["490.500"], ["Ask again; off until answered"]],
        [["491.300"], ["000.000"], ["491.300"], ["Ask again; off until answered"]],
        [["487.050"], ["487.100"], ["487.100"], ["+50 kHz from asked", "Already set"]],
    ]
    assert rows[-1][2:] == [["486.200"]], "one frequency says what is asked, granted and programmed"


def test_in_the_reply_only_what_has_to_be_done_is_marked_and_signed(tmp_path):
    (sheet,) = make("frequency-reply", reading_of(REPLY, tmp_path).show)
    rows = [row for group in sheet.blocks[0].groups for row in group.rows]
    assert [bool(row.mark) for row in rows] == [True, True, True, True, False]
    assert not any(row.mark for group in sheet.blocks[1].groups for row in group.rows)
    assert [isinstance(row.cells[-1][0].items[0], WriteIn) for row in rows] == [bool(row.mark) for row in rows]


def test_without_an_answer_there_is_no_reply(tmp_path):
    assert make("frequency-reply", show_of("channels: {1: {role: A, mhz: 486.2, asked: 486.2}}", tmp_path)) == ()


def test_the_inventory_has_every_serial_and_every_capsule():
    told = printed("inventory")
    for id, transmitter in example().transmitters.items():
        assert transmitter.serial in told and f"{id} {transmitter.radio}" in told
    for id, capsule in example().capsules.items():
        assert f"{id}, {capsule.type}" in told
    assert "R5: receivers, 4 slots" in told and "pouches" in told and "EARS 1: packs" in told


def test_the_inventory_adds_up():
    hired, listed, counted, _ = tables_of(make("inventory")[0])
    (transmitters,) = listed.groups
    assert transmitters.note == "32" == str(len(transmitters.rows))
    assert [row[2][0] for row in texts_in(hired)] == ["28", "4"], "all of them are hired: the packs, and the handhelds"
    totals = {group.title: group.note for group in counted.groups}
    assert totals["Capsules"] == "43" and totals["Receivers, by rack"] == "14"
    for group in counted.groups:
        if group.note:
            assert int(group.note) == sum(int(row.cells[2][0].items[0].text) for row in group.rows)


def test_a_transmitter_is_ticked_out_and_back_with_what_is_clipped_to_it():
    table = tables_of(make("inventory")[0])[1]
    assert [column.heading for column in table.columns[3:8]] == ["Out", "Back", "Antenna", "Clip", "Pouch"]
    for row in table.groups[0].rows:
        assert [type(parts[0].items[0]) for parts in row.cells[3:]] == [Tick] * 5 + [WriteIn]


def test_what_the_show_does_not_count_is_counted_with_a_pen(tmp_path):
    text = "capsules: {c1: {type: lavalier}}\nothers: {EARS: {kind: in-ear, packs: E1-E3}}\nchannels: {1: {by: A}}"
    (sheet,) = make("inventory", reading_of(text, tmp_path).show)
    capsules, ears, _ = tables_of(sheet)[1].groups
    assert capsules.note == "" and isinstance(capsules.rows[0].cells[2][0].items[0], WriteIn)
    assert [[parts[0].items[0].text for parts in (row.cells[0], row.cells[2])] for row in ears.rows] == [
        ["EARS: transmitter", "1"],
        ["EARS: packs E1–E3", "3"],
    ]


def test_what_is_written_by_hand_is_not_destroyed_by_a_later_revision():
    for name in ("incident-log", "inventory"):
        assert "Destroy" not in printed(name)
    assert "Destroy" in printed("line-check")


def test_the_log_has_rows_and_a_square_for_what_is_closed():
    (sheet,) = make("incident-log")
    assert len(rows_of(sheet)) >= 10


def test_the_contact_strip_has_contact_and_licence_and_room_for_the_rest():
    told = printed("contact-strip")
    for fact in ("Sound desk", "house extension 21", "BQ-0417", "Brindle Quay", "1–20 March 2027"):
        assert fact in told
    for contact in example().contacts:
        for fact in (contact.department, contact.job, contact.id, contact.phone, contact.other):
            assert fact in told
    rows = rows_of(make("contact-strip")[0])
    assert rows[0] == [[], ["Sound desk"], ["house extension 21"]] and rows[-1] == [[], [], []]


def test_without_contacts_the_strip_has_a_line_for_everybody_who_may_have_to_be_called():
    strip = make("contact-strip", replace(example(), contacts=()))[0]
    sound, *others, _, blank = rows_of(strip)
    assert sound == [["Sound"], ["Sound desk"], ["house extension 21"]] and blank == [[], [], []]
    assert "Stage manager" in [row[0][0] for row in others if row[0]] and {*map(len, others)} == {3}
    assert not any(row[1] or row[2] for row in others)


@pytest.mark.parametrize(
    ("contact", "who", "reach"),
    [
        ("Dee (A2) 07700 900112", "Dee (A2)", "07700 900112"),
        ("Dee (2nd desk) 07700 900112", "Dee (2nd desk)", "07700 900112"),
        ("Dee, A2", "Dee, A2", ""),
        ("Sound desk, house extension 21", "Sound desk", "house extension 21"),
        ("Mara Lind 555 0134", "Mara Lind", "555 0134"),
        ("Mara Lind, +44 (0)20 555 0134, night 555 0135", "Mara Lind", "+44 (0)20 555 0134, night 555 0135"),
        ("Lind, Mara, ext. 7", "Lind", "Mara, ext. 7"),
        ("mara@example.org", "", "mara@example.org"),
        ("the booth: radio channel 4", "the booth", "radio channel 4"),
        ("the stage door", "the stage door", ""),
        ("", "", ""),
    ],
)
def test_a_contact_is_parted_into_who_it_is_and_how_they_are_reached(contact, who, reach):
    assert split_contact(contact) == (who, reach)


def test_a_long_contact_is_told_whole(tmp_path):
    text = "show: {contact: 'Mara Lind of the sound department of the Corn Exchange, house extension 21 or stage door 4 after hours'}\nchannels: {1: {by: A}}"
    (sheet,) = make("contact-strip", reading_of(text, tmp_path).show)
    assert lay_out(sheet, load_metrics()).findings == ()


def test_an_inventory_without_a_list_of_transmitters_ticks_the_pack_of_every_channel(tmp_path):
    """A small show lists no serials, and its packs are hired all the same; so are the capsules that channels name."""
    text = """radios: {belt: {}, hand: {kind: handheld}}
racks: {R1: {channels: 01-03}}
channels:
  01: {role: VERA, capsule: skin}
  02: {role: HOST, radio: hand, pack: H1}
  03: {spare: belt}
"""
    (sheet,) = make("inventory", reading_of(text, tmp_path).show)
    listed, counted, _ = tables_of(sheet)
    told, capsules = ([one.cells[0][0].items[0].text for one in table.groups[0].rows] for table in (listed, counted))
    assert (told, capsules) == (["01 belt", "03 belt", "H1 hand"], ["skin"])


def test_the_frequency_list_goes_upwards_with_everybody_and_names_who_shares(tmp_path):
    text = """
    channels: {1: {role: A, mhz: 500.2}, 2: {role: B, mhz: 486.2, bill: early}, 3: {role: C, mhz: 486.2, bill: late}}
    others: {E1: {kind: in-ear, mhz: 495.1}}
    """
    (sheet,) = make("frequency-list", reading_of(text, tmp_path).show)
    rows = [(row[0][0], row[1][0], row[4][0]) for row in texts_in(sheet.blocks[0])]
    assert rows == [
        ("486.200", "2", "with 3"),
        ("486.200", "3", "with 2"),
        ("495.100", "E1", "–"),
        ("500.200", "1", "–"),
    ]


def test_the_frequency_list_has_no_column_for_what_nobody_shares(tmp_path):
    text = "channels: {1: {role: A, mhz: 500.2}, 2: {role: B, mhz: 486.2}}"
    (sheet,) = make("frequency-list", reading_of(text, tmp_path).show)
    assert [len(row) for row in texts_in(sheet.blocks[0])] == [4, 4]
