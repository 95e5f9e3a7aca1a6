"""Production's papers: what is asked and granted, what is on hire, what went wrong, whom to call."""

from paperwork.units import format_mhz
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


def test_the_request_asks_for_what_was_asked_else_for_what_is_set():
    told = printed("frequency-request")
    for channel in example().channels.values():
        assert format_mhz(channel.asked_hz or channel.hz) in told
    assert "574.800" in told and "574.525" not in told
    for other in example().others.values():
        assert format_mhz(other.hz) in told
    for fact in ("Saltmarsh Players", "Corn Exchange, Brindle Quay", "17:15–21:54", "BQ-0417", "house extension 21", "470–510 MHz"):
        assert fact in told


def test_the_request_counts_what_is_needed_and_what_is_spare():
    counted = [row for row in rows_of(make("frequency-request")[0]) if len(row[0]) == 2]
    assert [(row[0][0], row[1][0], row[2][0]) for row in counted] == [
        ("low", "11", "1"), ("mid", "11", "1"), ("high", "3", "1"), ("hand", "3", "1"),
    ]


def test_the_reply_is_sorted_by_who_has_to_do_something(tmp_path):
    (sheet,) = make("frequency-reply", reading_of(REPLY, tmp_path).show)
    assert titles_of(sheet) == [
        "Not granted: cells out", "Retune to what was granted", "Granted elsewhere, and already set", "No answer yet", "Granted as asked",
    ]
    rows = rows_of(sheet)
    assert [row[0][0] for row in rows] == ["04", "03", "02", "05", "01"]
    assert [row[2:5] for row in rows] == [
        [["489.900"], ["no"], ["489.900"]],
        [["488.325"], ["488.400", "+75 kHz"], ["488.325"]],
        [["487.050"], ["487.100", "+50 kHz"], ["487.100"]],
        [["490.500"], ["000.000"], ["490.500"]],
        [["486.200"], ["486.200"], ["486.200"]],
    ]
    assert "channels 06" in sheet.blocks[1].text, "a channel of which nothing is told is said to be so"


def test_without_an_answer_there_is_no_reply(tmp_path):
    assert make("frequency-reply", show_of("channels: {1: {role: A, mhz: 486.2, asked: 486.2}}", tmp_path)) == ()


def test_the_inventory_has_every_serial_and_every_capsule():
    told = printed("inventory")
    for id, transmitter in example().transmitters.items():
        assert transmitter.serial in told and f"{id} {transmitter.radio}" in told
    for id, capsule in example().capsules.items():
        assert f"{id}, {capsule.type}" in told
    assert "R5, 4 slots" in told and "pouches and belts" in told


def test_what_is_written_by_hand_is_not_destroyed_by_a_later_revision():
    for name in ("incident-log", "inventory"):
        assert "Destroy" not in printed(name)
    assert "Destroy" in printed("line-check")


def test_the_log_has_rows_and_a_square_for_what_is_closed():
    (sheet,) = make("incident-log")
    assert len(rows_of(sheet)) >= 10


def test_the_contact_strip_has_contact_and_licence_and_room_for_the_rest():
    told = printed("contact-strip")
    for fact in ("Sound desk, house extension 21", "BQ-0417", "Brindle Quay", "1 March 2027 – 20 March 2027", "Stage manager"):
        assert fact in told
