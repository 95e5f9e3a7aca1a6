"""Papers at the rack: what each must say, in which order, checked against the show file read by another reader."""

import re
from itertools import pairwise

import pytest
import yaml
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from paperwork.document import BoardRow, Tick
from paperwork.document.styles import BOARD_NUMBER
from paperwork.render.layout import lay_out
from paperwork.text.units import format_clock, format_mhz
from tests.few import few_examples
from tests.metrics import load_metrics
from tests.render.proofs import all_texts, check_layout
from tests.sheets.reading import example, make, printed, rows_of, titles_of
from tests.shows_text import EXAMPLES, reading_of, show_of

SOURCE = yaml.load((EXAMPLES / "show.yaml").read_text(encoding="utf-8"), Loader=yaml.BaseLoader)
CHANNELS = SOURCE["channels"]


def test_the_programming_checklist_shows_what_each_display_must_show():
    told = printed("programming-checklist")
    for channel in example().channels.values():
        assert format_mhz(channel.hz) in told
        assert f"{channel.pack} → {channel.slot}" in told
    assert told.count("gain 36 dB, keys locked") == 4 and told.count("gain 30 dB, keys locked") == 28


def test_a_frequency_that_is_not_known_is_a_blank_to_fill_in(tmp_path):
    show = show_of(
        "radios: {belt: {power: 10 mW}}\nchannels: {01: {role: VERA}, 02: {spare: belt, mhz: 486.2}}\n", tmp_path
    )
    first, second = rows_of(make("programming-checklist", show)[0])[:2]
    assert first[1] == ["000.000", "VERA"] and second[1] == ["486.200", "SPARE"]


def test_a_display_name_goes_before_the_role(tmp_path):
    show = show_of(
        "radios: {belt: {power: 10 mW}}\ntransmitters: {01: {radio: belt, display: VERA-A, gain: 12 dB, power: 30 mW, lock: no}}\n"
        "channels: {01: {role: VERA, mhz: 486.2}}\n",
        tmp_path,
    )
    row = rows_of(make("programming-checklist", show)[0])[0]
    assert row[1:3] == [["486.200", "VERA-A"], ["01", "30 mW, gain 12 dB, keys unlocked"]]


def test_the_line_check_goes_along_the_desk_handhelds_then_spares_last(tmp_path):
    show = show_of(
        "radios: {belt: {kind: pack}, hand: {kind: handheld}}\n"
        "racks: {R1: {channels: '01, 02, 03, 04', analogue 1: 'FOH 4, FOH 2, FOH 1, FOH 3'}}\n"
        "channels: {01: {role: A, radio: belt}, 02: {role: B, radio: hand}, 03: {role: C, spare: belt}, 04: {role: D, radio: belt}}\n",
        tmp_path,
    )
    (sheet,) = make("line-check", show)
    assert [(row[0][0], row[1][0]) for row in rows_of(sheet)] == [
        ("FOH 3", "04"),
        ("FOH 4", "01"),
        ("FOH 2", "02"),
        ("FOH 1", "03"),
    ]
    assert titles_of(sheet) == ["Packs", "Handhelds", "Spares"]


def test_the_line_check_names_everybody_and_when():
    told = printed("line-check")
    for channel in example().channels.values():
        for name in example().performers_of(channel):
            assert name in told
    assert "checks at 17:30, the half at 18:55" in told
    numbers = [row[1][0] for row in rows_of(make("line-check")[0])]
    assert sorted(numbers) == sorted(CHANNELS) and numbers[-5:] == ["31", "12", "24", "28", "32"]


def test_the_fitting_call_goes_room_by_room_and_first_on_first():
    (sheet,) = make("fitting-call")
    assert titles_of(sheet) == [f"Room {number}" for number in range(1, 8)]
    table = sheet.blocks[0]
    for group in table.groups:
        times = [row.cells[0][0].items[0].text for row in group.rows if row.cells[0][0].items]
        assert all(one <= two for one, two in pairwise(times))
    rows = {row[1][0]: row for row in rows_of(sheet)}
    assert rows["Noor Haddad"] == [
        ["19:30", "1.1"],
        ["Noor Haddad", "ELSPETH"],
        ["01  22"],
        ["01", "S"],
        ["tone 5"],
        ["small of back", "hairline"],
        [],
        [],
    ]
    worn = {CHANNELS[id]["by"] for id in CHANNELS if "by" in CHANNELS[id] and CHANNELS[id]["radio"] != "hand"}
    assert worn <= set(rows), "nobody with a pack is left out"


def test_handhelds_are_not_fitted():
    assert "AUCTION" not in printed("fitting-call") and "CRIER" not in printed("fitting-call")


def test_the_battery_plan_says_how_long_and_with_which_margin():
    """Power-up 17:15, curtain 19:30, bows 2:24 later: 4 h 39 min; a quarter more is 5 h 48 min 45 s, rounded up."""
    told = printed("battery-plan")
    assert (
        told.count("on 4:39 h") == 28
        and told.count("needs 5:49 of 7:00") == 25
        and told.count("needs 5:49 of 6:00") == 3
    )
    assert "17:15 power-up" in told and "28 transmitters get fresh batteries" in told
    assert told.count("set A") == 28 and "not in them: H4, S1–S3" in told


TWO_SHOWS = """
day: {power-up: "13:00", curtain: ["14:30", "19:30"], bows: "2:30", cells: "power-up, between"}
radios: {belt: {hours: %s}, odd: {}}
transmitters: {07: {radio: odd, cells: 9 V}}
channels: {01: {role: VERA, radio: belt}, 07: {role: TOM, radio: odd}, 09: {spare: belt}}
"""


def test_two_shows_have_a_bar_for_each_change_and_no_pack_is_left_out(tmp_path):
    (sheet,) = make("battery-plan", show_of(TWO_SHOWS % 8, tmp_path))
    assert titles_of(sheet) == ["13:00  power-up", "17:00  between shows", "Battery life not given"]
    assert [row[0][0] for row in rows_of(sheet)] == ["01", "01", "07"]
    assert [row[3] for row in rows_of(sheet)] == [
        ["on 4:00 h", "needs 5:00 of 8:00"],
        ["on 5:00 h", "needs 6:15 of 8:00"],
        [],
    ]


@pytest.mark.parametrize(("hours", "said"), ((4, "TOO SHORT"), (6, "no margin")))
def test_cells_that_will_not_last_are_boxed(tmp_path, hours, said):
    (sheet,) = make("battery-plan", reading_of(TWO_SHOWS % hours, tmp_path).show)
    assert rows_of(sheet)[1][3] == ["on 5:00 h", said]


def test_the_walk_test_has_every_channel_that_is_in_a_rack():
    numbers = [row[0][0] for row in rows_of(make("walk-test")[0])]
    assert numbers == sorted(CHANNELS)
    assert "antenna mid pair, place 2" in printed("walk-test")


def test_the_clock_page_has_leaders_on_top_and_addresses():
    (sheet,) = make("clocks-and-network")
    assert titles_of(sheet) == ["Clock of FOH", "Clock not given"]
    rows = rows_of(sheet)
    assert [row[0][0] for row in rows] == ["FOH", "R1", "R2", "R3", "R4", "R5", "R6", "REC", "MON", "TRUCK"]
    assert rows[0][1] == ["LEADER"] and rows[1][1] == ["follows FOH"] and rows[-1][2] == ["96 kHz", "SRC"]
    assert all(rack["address"] in printed("clocks-and-network") for rack in SOURCE["racks"].values())


def live_in(scene: dict) -> list[str]:
    """The channels of a scene, by reading the source again: roles, shared roles, second packs of a role."""
    found = []
    for id, channel in CHANNELS.items():
        roles = re.split(r",\s*", channel.get("role", "")) + list(channel.get("shared", {}))
        if set(roles) & set(scene["live"].split()):
            found.append(id)
    return sorted(found)


def board_rows(show=None) -> list[BoardRow]:
    (board,) = make("who-is-live", show)[0].blocks
    return [row for group in board.groups for row in group.rows]


def test_who_is_live_has_every_channel_of_a_scene_and_what_changes():
    """Replayed from the source: what is up, what is new (on another body than when it was last up, too), what has gone."""
    before: list[str] = []
    for index, (row, scene) in enumerate(zip(board_rows(), SOURCE["scenes"].values(), strict=True)):
        now = live_in(scene)
        moved = [note.text.split(" ")[0] for note in row.notes]
        assert list(row.up) == now
        assert list(row.gone) == [id for id in before if id not in now]
        assert list(row.new) == ([id for id in now if id not in before or id in moved] if index else [])
        before = now


def test_who_is_live_names_the_channel_that_comes_up_on_another_body():
    """Channel 11 goes from the pilot to the magistrate, back, and to the magistrate again."""
    told = {row.title.text: [note.text for note in row.notes] for row in board_rows()}
    assert told["2.3"] == ["05 → WIDOW", "11 → MAGISTRATE", "18 → STRANGER"]
    assert (told["2.6"], told["2.7"]) == (["11 → PILOT"], ["11 → MAGISTRATE"])
    assert not any(lines for scene, lines in told.items() if scene not in ("2.3", "2.6", "2.7"))


def test_who_is_live_gives_a_channel_one_place_on_every_page_and_the_example_two_pages():
    """Read off the boxes: each number that is up stands at one height above its row's line, in one column."""
    layout = lay_out(make("who-is-live")[0], load_metrics())
    assert len(layout.pages) == 2
    places: dict[str, set[int]] = {}
    for text in all_texts(layout):
        if text.cap_um == BOARD_NUMBER.wanted_um and text.text in CHANNELS:
            places.setdefault(text.text, set()).add(text.x + text.ink.width // 2)
    assert len(places) == 27 and all(max(xs) - min(xs) <= 2 for xs in places.values())


GAMES = st.lists(st.tuples(st.integers(0, 12), st.integers(1, 8)), min_size=1, max_size=7)
"""Start and length of each game, in steps of ten minutes."""


@given(GAMES)
@settings(max_examples=few_examples(60), suppress_health_check=[HealthCheck.function_scoped_fixture])
def test_who_is_live_keeps_games_up_that_run_beside_each_other(tmp_path, games):
    """Replayed minute by minute: after each row, up is just what has begun and not ended."""
    games = sorted(games)
    channels = "".join(f"  {n:02d}: {{role: REF{n}}}\n" for n in range(1, len(games) + 1))
    scenes = "".join(
        f'  g{n}: {{name: Game {n}, at: "{format_clock(600 * start)}", until: "{format_clock(600 * (start + length))}", live: REF{n}}}\n'
        for n, (start, length) in enumerate(games, 1)
    )
    rows = board_rows(show_of(f"channels:\n{channels}scenes:\n{scenes}", tmp_path))
    for row in rows:
        number = int(row.title.text.split()[-1])
        start, length = games[number - 1]
        at = start + length if row.under.text.startswith("ends") else start
        begun = number if at == start else len(games)
        up = [f"{n:02d}" for n, (first, lasts) in enumerate(games, 1) if first <= at < first + lasts and n <= begun]
        assert list(row.up) == up, (games, row)
    overlaps = [
        n
        for n, (start, length) in enumerate(games)
        if start + length not in {s for s, _ in games[n + 1 :]} and any(s < start + length for s, _ in games[n + 1 :])
    ]
    assert len(rows) == len(games) + len(overlaps)


def test_who_is_live_says_which_channels_are_live_in_no_scene():
    (sheet,) = make("who-is-live")
    seen = {id for scene in SOURCE["scenes"].values() for id in live_in(scene)}
    idle = sorted(id for id, channel in CHANNELS.items() if "spare" not in channel and id not in seen)
    assert idle == ["27"] and "never live: 27" in sheet.subtitle and "27" not in sheet.blocks[0].ids


def test_who_is_live_takes_many_changes_of_body_under_the_numbers(tmp_path):
    channels = "".join(f"  {n:02d}: {{shared: {{A{n}: One {n}, B{n}: Two {n}}}}}\n" for n in range(1, 30))
    live = [" ".join(f"{letter}{n}" for n in range(1, 30)) for letter in "AB"]
    scenes = "".join(f"  s{index}: {{name: 1.{index} X, live: {told}}}\n" for index, told in enumerate(live, 1))
    show = show_of(f"channels:\n{channels}scenes:\n{scenes}", tmp_path)
    layout = lay_out(make("who-is-live", show)[0], load_metrics())
    check_layout(layout)
    assert layout.findings == () and len(board_rows(show)[1].notes) == 29
    assert all(f"{n:02d} → B{n}" in " ".join(text.text for text in all_texts(layout)) for n in range(1, 30))


@pytest.mark.parametrize(
    "name",
    (
        "programming-checklist",
        "fitting-call",
        "battery-plan",
        "walk-test",
        "clocks-and-network",
        "who-is-live",
        "line-check",
    ),
)
def test_a_show_of_eight_lines_has_none_of_them(tmp_path, name):
    assert make(name, show_of("show: {title: Gala}\nchannels: {1: {by: Imke Vos, mhz: 486.2}}\n", tmp_path)) == ()


def test_a_swap_card_tells_when_the_first_is_off_and_the_second_on():
    """From the moves of the example: the pilot is off at 0:48, the magistrate on at 1:36:30."""
    told = printed("swap-sheets")
    assert "off SL 0:48" in told and "on SL 1:36:30" in told and "on SR 1:41" in told


def test_whoever_gets_a_pack_in_a_swap_is_not_fitted_before_the_show():
    """Channel 11 starts on the pilot and comes to the magistrate in 2.3; the number is that of the swap sheet."""
    (sheet,) = make("fitting-call")
    rows = {row.cells[1][0].items[0].text: row for group in sheet.blocks[0].groups for row in group.rows}
    cards = sorted(
        (card for one in make("swap-sheets") for card in one.blocks[0].cards),
        key=lambda card: card.band[0].text,
        reverse=True,
    )
    numbers = {card.items[-2].text: card.band[0].text for card in cards}
    by_swap = {"Aoife Ní Bhriain": ("05", "2.3"), "Maja Đukić": ("11", "2.3"), "Zeynep Çelik": ("18", "2.3")}
    for name, row in rows.items():
        place, fitted, wig = (list(row.cells[index][0].items) for index in (5, 6, 7))
        if name in by_swap:
            pack, scene = by_swap[name]
            assert [item.text for item in place] == [f"{pack} by swap {numbers[f'put on {name}']}, in {scene}"]
        assert all(isinstance(item, Tick) == (name not in by_swap) for item in (*fitted, *wig)), name


def test_a_body_with_a_pack_of_its_own_and_one_by_a_swap_is_fitted_with_the_first(tmp_path):
    show = show_of(
        "people: {Ana Cole: {room: 1}, Max Ried: {room: 1}}\n"
        "channels: {01: {shared: {SAILOR: Max Ried, WIDOW: Ana Cole}}, 02: {role: MAID, by: Ana Cole}}\n"
        "scenes: {s1: {name: 1.1 A, live: SAILOR MAID}, s2: {name: 1.2 B, live: WIDOW}}\n",
        tmp_path,
    )
    rows = {row[1][0]: row for row in rows_of(make("fitting-call", show)[0])}
    assert rows["Ana Cole"][5] == ["01 by swap 1, in 1.2"]
    (sheet,) = make("fitting-call", show)
    assert all(isinstance(row.cells[6][0].items[0], Tick) for group in sheet.blocks[0].groups for row in group.rows)


def test_a_channel_with_neither_role_nor_performer_is_walked_too(tmp_path):
    show = show_of(
        "racks: {R1: {channels: 01-02}}\nchannels: {01: {by: Ann, mhz: 486.2}, 02: {mhz: 488.2}}\n", tmp_path
    )
    assert [row[0][0] for row in rows_of(make("walk-test", show)[0])] == ["01", "02"]


def test_a_channels_note_for_the_deck_is_on_the_chart_and_one_for_wardrobe_is_not(tmp_path):
    show = show_of(
        "channels:\n  01: {role: VERA, by: Mara Lind, notes: high-pass at 120, notes for: deck}\n"
        "  02: {role: TOM, by: Ben Arlo, notes: new pouch, notes for: wardrobe}\n  03: {role: MAX, by: Ida Voss, notes: both read this}\n",
        tmp_path,
    )
    told = printed("channel-chart", show)
    assert "high-pass at 120" in told and "both read this" in told and "new pouch" not in told


def test_the_input_list_has_each_destination_in_its_own_order(tmp_path):
    """Not in the order of the racks: the desk's first input is the last slot here, and the recorder's is a digital pair."""
    text = """
    racks: {R1: {channels: 1-3, units: [3], analogue 1: "FOH 9, FOH 7, FOH 8", digital 1: REC 1-3}}
    consoles: {FOH: {name: Big desk, box: wall, jacks: 101-116, letters: 4}, REC: {inputs: 8}}
    radios: {belt: {kind: pack}}
    channels: {1: {role: LANTERN}, 2: {role: TOM}, 3: {spare: belt}}
    """
    (sheet,) = make("input-list", show_of(text, tmp_path))
    (table,) = sheet.blocks
    assert [group.title for group in table.groups] == ["FOH", "REC"]
    assert [[cell[0] for cell in row] for row in rows_of(sheet)] == [
        ["7", "wall 107", "TOM", "2", "TOM", "R1.2, analogue 1"],
        ["8", "wall 108", "SP 3", "3", "SPARE", "R1.3, analogue 1"],
        ["9", "wall 109", "LANT", "1", "LANTERN", "R1.1, analogue 1"],
        ["1", "–", "LANTERN", "1", "LANTERN", "R1.1, digital 1, D1 left"],
        ["2", "–", "TOM", "2", "TOM", "R1.2, digital 1, D1 right"],
        ["3", "–", "SP 3", "3", "SPARE", "R1.3, digital 1, D2 left"],
    ]


def test_of_two_channels_that_claim_one_slot_the_input_list_names_neither(tmp_path):
    text = """
    racks: {R1: {slots: 1, analogue 1: FOH 1}}
    channels: {1: {role: A, slot: R1.1}, 2: {role: B, slot: R1.1}}
    """
    ((_, _, name, _, who, _),) = rows_of(make("input-list", reading_of(text, tmp_path).show)[0])
    assert (name, who) == (["–"], ["1? / 2?"])


def test_above_forty_channels_who_is_live_has_all_at_the_start_of_an_act_and_then_only_what_changes(tmp_path):
    """Fifty channels, of which two more come up in each scene: read off the boxes, row by row."""
    channels = "".join(f"  {n:02d}: {{role: R{n}}}\n" for n in range(1, 51))
    live = [" ".join(f"R{n}" for n in range(1, last + 1)) for last in (42, 44, 46, 48, 50)]
    scenes = "".join(f"  s{index}: {{name: 1.{index} X, live: {up}}}\n" for index, up in enumerate(live, 1))
    layout = lay_out(
        make("who-is-live", show_of(f"channels:\n{channels}scenes:\n{scenes}", tmp_path))[0], load_metrics()
    )
    check_layout(layout)
    assert layout.findings == () and len(layout.pages) == 1
    shown = [text.text for text in all_texts(layout)]
    rows = [shown.index(f"1.{index}") for index in range(1, 6)]
    numbers = [
        [text for text in shown[first:last] if text.isdigit()]
        for first, last in zip(rows, (*rows[1:], None), strict=True)
    ]
    assert numbers[0] == [f"{n:02d}" for n in range(1, 43)]
    assert numbers[1:] == [["43", "44"], ["45", "46"], ["47", "48"], ["49", "50"]]


def test_the_chart_has_a_zone_with_its_figure_whole(tmp_path):
    """`TUNNEL.2` and `TUNNEL.3` are two places, and only the figure tells them apart."""
    text = "".join(
        f"  {n:02d}: {{role: STEWARD OF THE TUNNEL.{n}, mhz: {500 + n}, zone: TUNNEL.{n}}}\n" for n in (2, 3)
    )
    zones = "groups: {TUNNEL.2: {kind: zone}, TUNNEL.3: {kind: zone}}\n"
    layout = lay_out(make("channel-chart", show_of(f"{zones}channels:\n{text}", tmp_path))[0], load_metrics())
    check_layout(layout)
    said = " ".join(text.text for text in all_texts(layout))
    assert said.count("TUNNEL.2") == said.count("TUNNEL.3") == 2 and "…" not in said


def test_a_name_on_a_swap_card_is_read_at_a_metre_however_long_it_is(tmp_path):
    """16 minutes of arc at a metre are 4.65 mm (ISO 9241-3 as quoted): a name breaks, and is never lower."""
    long = "Konstantinos-Alexandros Papadimitriou-Oikonomopoulos of Nafplio"
    show = show_of(
        f"channels: {{1: {{shared: {{A: {long}, B: Bo Ek}}}}}}\n"
        "scenes: {s1: {name: 1.1 X, live: A}, s2: {name: 1.2 Y, live: B}}\n",
        tmp_path,
    )
    layout = lay_out(make("swap-sheets", show)[0], load_metrics())
    check_layout(layout)
    names = [text for text in all_texts(layout) if text.face == "text-bold" and "Papadimitriou" in text.text]
    assert names and min(text.cap_um for text in names) >= 4_654 and layout.findings == ()
