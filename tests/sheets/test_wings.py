"""What hangs in the wings, lies on the table and is pinned to pouches, read off its values and off its print."""

from dataclasses import replace

import pytest

from paperwork.build import build_show
from paperwork.document import Bar, Cards, Plot, Strips
from paperwork.document.facts import code
from paperwork.model import Show
from paperwork.plan.walls import put_on_walls
from paperwork.render.blocks.plots import ACT_UM
from paperwork.render.boxes import Fill
from paperwork.render.layout import lay_out
from tests.metrics import load_metrics
from tests.sheet_texts import texts_of
from tests.sheets.reading import example, make, printed, rows_of
from tests.shows_text import raw_of, show_of

SHOW = """
radios:
  belt: {kind: pack}
  hand: {kind: handheld}
people:
  Max Ried: {pouch: 05, belt: M}
  Ana Cole: {pouch: 05B, belt: S}
  Kit Ross: {child: yes}
  Mara Lind: {belt: L}
channels:
  01: {role: VERA, by: Mara Lind, radio: belt, mhz: 486.200}
  02: {role: VERA, doubles: 01, radio: belt, mhz: 487.200}
  05: {shared: {SAILOR: Max Ried, WIDOW: Ana Cole}, radio: belt, mhz: 488.250, capsule: beige}
  07: {role: GIRL, by: Kit Ross, radio: belt, mhz: 489.250}
  09: {role: HOST, by: Ana Cole, radio: hand, mhz: 490.250}
  11: {spare: belt, mhz: 494.375, pack: S1}
scenes:
  s1: {act: One, name: 1.1 Quay, at: "0:00", live: VERA SAILOR}
  s2: {act: One, name: 1.2 Deck, at: "0:10", live: GIRL HOST}
  s3: {act: Two, name: 2.1 Storm, at: "0:20", live: VERA WIDOW}
  s4: {act: Two, name: 2.2 Shore, at: "0:30", live: SAILOR GIRL}
moves:
  m1: {role: SAILOR, scene: s1, exit: SL, to: "0:08:30"}
  m2: {role: WIDOW, scene: s3, enter: SR, from: "0:20", exit: SR, to: "0:25"}
  m3: {role: SAILOR, scene: s4, enter: SR, from: "0:33:05"}
"""


@pytest.fixture(scope="module")
def show() -> Show:
    built = build_show(raw_of(SHOW))
    assert not built.findings
    return built.show


def plots(show: Show) -> tuple[Plot, Plot]:
    people, channels, _ = make("mic-plot", show)
    return people.blocks[0], channels.blocks[0]


def bars_of(plot: Plot, title: str) -> list[Bar]:
    return [bar for row in plot.rows if row.title.text == title for lane in row.lanes for bar in lane.bars]


def test_the_two_faces_of_the_plot_say_the_same(show):
    people, channels = plots(show)
    by_body = {
        (number, place)
        for row in people.rows
        for lane in row.lanes
        for bar in lane.bars
        for place in range(bar.first, bar.last + 1)
        for number in (bar.text, bar.second)
        if number
    }
    by_channel = {
        (row.key.text, place)
        for row in channels.rows
        for lane in row.lanes
        for bar in lane.bars
        for place in range(bar.first, bar.last + 1)
    }
    replay = {
        (channel.id, place)
        for channel in show.channels.values()
        for place, scene in enumerate(show.scenes)
        if set(channel.roles) & set(scene.live)
    }
    assert by_body == by_channel == replay


def test_a_shared_pack_comes_off_and_says_to_whom_and_where(show):
    people, _ = plots(show)
    one, two = bars_of(people, "Max Ried")
    assert (one.put_on, one.taken_off, one.note) == (True, True, "to Ana Cole, SL / SR")
    assert (two.put_on, two.taken_off, two.note) == (True, False, "")


def test_a_pack_that_stays_on_between_scenes_is_put_on_once(show):
    people, _ = plots(show)
    row = next(row for row in people.rows if row.title.text == "Mara Lind")
    assert [(bar.put_on, bar.first) for bar in row.lanes[0].bars] == [(True, 0), (False, 2)]
    assert [(keep.first, keep.last) for keep in row.lanes[0].keeps] == [(1, 1)]
    assert [(bar.text, bar.second) for lane in row.lanes for bar in lane.bars] == [("01", "02"), ("01", "02")]


def test_a_handheld_is_held_beside_the_packs_and_below_a_pack_that_is_on(show):
    people, _ = plots(show)
    row = next(row for row in people.rows if row.title.text == "Ana Cole")
    assert [[(bar.text, bar.kind, bar.put_on) for bar in lane.bars] for lane in row.lanes] == [
        [("09", "held", False), ("05", "worn", True)]
    ]
    assert not row.lanes[0].keeps
    row = next(row for row in make("mic-plot")[0].blocks[0].rows if row.title.text == "Bertil Åkesson")
    assert [{bar.text for bar in lane.bars} for lane in row.lanes] == [{"25"}, {"29"}]


def test_a_legend_has_each_sign_once_and_only_those_that_are_shown(show):
    people, channels = plots(show)
    assert [sign for sign, _ in people.legend] == ["put on", "keeps", "taken off", "held", "second"]
    assert [sign for sign, _ in channels.legend] == ["put on", "keeps", "taken off", "held"]
    (alone, _, _) = make(
        "mic-plot", build_show(raw_of("channels: {01: {role: VERA, by: Mara Lind}}\nscenes: {a: {live: VERA}}\n")).show
    )
    assert [sign for sign, _ in alone.blocks[0].legend] == ["put on"]


def test_the_two_faces_of_the_plot_and_the_list_have_three_titles(show):
    titles = [sheet.title for sheet in make("mic-plot", show)]
    assert titles == ["Mic plot: people by scene", "Mic plot: channels by scene", "Who wears which mic"]


@pytest.mark.parametrize("name", ["mic-plot", "swap-sheets", "mic-table-squares", "pouch-cards", "receiver-strips"])
def test_a_childs_name_hangs_nowhere(show, name):
    for sheet in make(name, put_on_walls(show)):
        texts = list(texts_of(sheet))
        assert not any("Kit" in text or "Ross" in text for text in texts)
        assert name in ("swap-sheets", "receiver-strips") or any("K. R." in text for text in texts)


def test_the_cast_sees_numbers_and_times_only(show):
    sheet = make("mic-plot", show)[2]
    rows = {row[0][0]: row[1:] for row in rows_of(sheet)}
    assert rows["Max Ried"] == [["05", "05"], ["1.1   0:00", "2.2   0:33:05"], ["1.1   0:08:30", "to the end"]]
    assert rows["Mara Lind"] == [["01  02"], ["1.1   0:00"], ["to the end"]]
    assert not any("MHz" in text or "486.200" in text for text in texts_of(sheet))


def test_the_cast_finds_names_in_the_order_of_an_alphabet():
    names = [row[0][0] for row in rows_of(make("mic-plot")[2])]
    assert names[:3] == ["Amara Diallo", "Aoife Ní Bhriain", "Bertil Åkesson"]
    assert names.index("Leif Holm") + 1 == names.index("Łukasz Żółcik") and names.index(
        "Siân Gwilym"
    ) + 1 == names.index("Ștefan Ionescu")
    assert names[-2:] == ["Ελένη Μαρκάκη", "Олена Гнатюк"]


def test_a_long_name_with_hyphens_is_whole_on_the_list_for_the_cast():
    long = "Anna-Maximiliane Sommerfeldt-Oppenheimer-Lindqvist"
    show = build_show(raw_of(f"channels: {{01: {{role: VERA, by: {long}}}}}\nscenes: {{a: {{live: VERA}}}}\n")).show
    for sheet in make("mic-plot", show):
        assert lay_out(sheet, load_metrics()).findings == ()


def test_swaps_stand_by_show_time_one_sheet_a_side_and_crossings_on_both(show):
    sheets = make("swap-sheets", show)
    assert [sheet.title for sheet in sheets] == ["Swaps, SL", "Swaps, SR"]
    numbers = [[card.band[0].text for card in sheet.blocks[0].cards] for sheet in sheets]
    assert numbers == [["1"], ["1", "2"]]
    first = sheets[0].blocks[0].cards[0]
    assert first.band[2].text == "11 min"
    assert [item.text for item in first.items] == [
        "take off Max Ried",
        "SAILOR, 1.1 Quay, off SL 0:08:30",
        "carry to SR",
        "Ana Cole, WIDOW, 2.1 Storm, on SR 0:20",
    ]
    across, second = sheets[1].blocks[0].cards
    assert [item.text for item in across.items] == [
        "comes from SL",
        "Max Ried, SAILOR, 1.1 Quay, off SL 0:08:30",
        "wipe  ·  pouch 05B  ·  belt S  ·  capsule beige",
        "put on Ana Cole",
        "WIDOW, 2.1 Storm, on SR 0:20",
    ]
    assert second.band[2].text == "8:05"
    assert [item.text for item in second.items][::3] == ["take off Ana Cole", "put on Max Ried"]


def test_a_handheld_is_taken_from_a_hand_and_given_to_one_without_pouch_or_belt():
    text = SHOW.replace("WIDOW: Ana Cole}, radio: belt", "WIDOW: Ana Cole}, radio: hand")
    cards = [card for sheet in make("swap-sheets", build_show(raw_of(text)).show) for card in sheet.blocks[0].cards]
    told = [item.text for card in cards for item in card.items]
    assert {"take from Max Ried", "hand to Ana Cole", "wipe  ·  capsule beige"} < set(told)
    assert not any(word in text for text in told for word in ("take off", "put on", "pouch", "belt"))
    text = text.replace('at: "0:30"', 'at: "0:26"').replace("0:33:05", "0:27")
    quick = "\n".join(texts_of(make("quick-changes", build_show(raw_of(text)).show)[0]))
    assert "handheld 05 from Ana Cole" in quick and "handheld 05 to Max Ried" in quick and "into" not in quick


def test_swaps_have_the_numbers_of_the_quick_change_sheet():
    """Read off both papers: a number stands for the same pack before the same scene."""
    listed = {
        row[0][0]: " ".join(text for cell in row[1:4] for text in cell).split()
        for row in rows_of(make("quick-changes")[0])
    }
    cards = {card.band[0].text: card for sheet in make("swap-sheets") for card in sheet.blocks[0].cards}
    assert sorted(cards) == ["3", "4", "5", "6", "7"] and "7" in listed and not {"1", "2"} & set(cards)
    for number in set(cards) & set(listed):
        scene = cards[number].band[1].text.split(" to ")[1]
        assert scene in listed[number] and cards[number].key.text in listed[number]


def test_only_a_quick_swap_is_black_and_one_over_the_interval_says_so():
    cards = {card.band[0].text: card for sheet in make("swap-sheets") for card in sheet.blocks[0].cards}
    assert [number for number, card in sorted(cards.items()) if card.loud] == ["7"]
    assert [
        number for number, card in sorted(cards.items()) if any(line.text == "in the interval" for line in card.band)
    ] == ["3", "4", "5"]
    assert (
        "QUICK" in [line.text for line in cards["7"].band]
        and "times from curtain up" in make("swap-sheets")[0].subtitle
    )


def test_the_second_body_takes_its_own_pack_off_before_it_is_given_another():
    text = SHOW.replace("09: {role: HOST, by: Ana Cole, radio: hand", "09: {role: HOST, by: Ana Cole, radio: belt")
    show = build_show(raw_of(text)).show
    cards = [card for sheet in make("swap-sheets", show) for card in sheet.blocks[0].cards]
    told = [[item.text for item in card.items] for card in cards if card.key.text == "05"]
    assert any(
        "Ana Cole: 09 off" in lines and lines.index("Ana Cole: 09 off") < lines.index("put on Ana Cole")
        for lines in told
    )


def test_what_the_second_body_dresses_in_stands_between_the_wipe_and_the_pack():
    text = SHOW + "looks: {l: {by: Ana Cole, scene: s3, wears: veil, pouch: 05C}}\n"
    cards = [card for sheet in make("swap-sheets", build_show(raw_of(text)).show) for card in sheet.blocks[0].cards]
    assert any(
        "wipe  ·  dress: veil  ·  pouch 05C  ·  belt S  ·  capsule beige" in [item.text for item in card.items]
        for card in cards
    )


def test_swaps_whose_side_nobody_told_have_a_sheet_of_their_own():
    text = SHOW[: SHOW.index("moves:")]
    (sheet,) = make("swap-sheets", build_show(raw_of(text)).show)
    assert sheet.name == "swaps" and len(sheet.blocks[0].cards) == 2
    assert sheet.blocks[0].cards[0].band[2].text == "not timed" or "or more" in [
        line.text for line in sheet.blocks[0].cards[0].band
    ]


def test_every_swap_of_the_example_is_on_the_side_where_it_happens():
    text = printed("swap-sheets")
    assert text.count("take off Ravi Menon") == 1 and text.count("take off Hugo Brandt") == 1
    assert text.count("carry to SR") == 1 and text.count("comes from SL Hugo Brandt") == 1
    assert text.count("put on Zeynep Çelik") == 1


def test_a_strip_for_every_unit_with_channels_and_a_slot_for_each():
    (sheet,) = make("receiver-strips")
    block = sheet.blocks[0]
    assert isinstance(block, Strips) and block.width_um == 440_000
    assert [len(strip.slots) for strip in block.strips] == [2] * 12 + [4] * 2
    assert [slot.key.text for strip in block.strips for slot in strip.slots] == list(example().channels)


@pytest.mark.parametrize(
    "rack, fronts",
    (
        ("channels: 1-24", [4] * 6),
        ("channels: 1-10", [3, 3, 4]),
        ("channels: 1-8", [8]),
        ("channels: 1-8, units: '4, 4'", [4, 4]),
    ),
)
def test_a_rack_whose_units_are_not_told_is_no_front_of_two_dozen_slots(rack, fronts):
    rows = "".join(f"  {n}: {{role: R{n}}}\n" for n in range(1, 25))
    (sheet,) = make("receiver-strips", build_show(raw_of(f"racks: {{R1: {{{rack}}}}}\nchannels:\n{rows}")).show)
    assert [len(strip.slots) for strip in sheet.blocks[0].strips] == fronts
    assert ("unit" in sheet.blocks[0].strips[0].title) == ("units" in rack)


def test_a_pouch_card_has_no_frequency_and_one_card_a_body(show):
    for sheet in (*make("pouch-cards", show), *make("pouch-cards")):
        assert isinstance(sheet.blocks[0], Cards)
        assert not any(
            "MHz" in text or (text.count(".") == 1 and text.replace(".", "").isdigit()) for text in texts_of(sheet)
        )
    (sheet,) = make("pouch-cards", show)
    assert [card.key.text for card in sheet.blocks[0].cards] == ["01", "02", "05", "05", "07"]


def test_every_number_has_its_square():
    text = printed("mic-table-squares")
    assert all(f" {number} " in f" {text} " for number in example().channels)


def test_a_spare_card_leads_with_the_pack_and_says_where_it_arrives():
    text = printed("spare-cards")
    for part in ("S1", "493.525 MHz", "channel 12", "slot R2.6", "FOH 12", "MON 12", "SPARE for 01–11"):
        assert part in text


def test_after_the_packs_comes_an_in_ear_label_for_every_listener_and_copy():
    (sheet,) = make("pack-labels")
    assert [(label.number, label.role, label.copies) for label in sheet.blocks[0].labels[-5:]] == [
        ("EARS 1", "Jonah Teale", 2),
        ("EARS 1", "Ελένη Μαρκάκη", 2),
        ("EARS 2", "Noor Haddad", 2),
        ("EARS 3", "Łukasz Żółcik", 2),
        ("EARS 4", "pit", 2),
    ]


@pytest.mark.parametrize(
    "name", ["mic-plot", "swap-sheets", "pouch-cards", "receiver-strips", "mic-table-squares", "spare-cards"]
)
def test_papers_whose_facts_are_missing_are_not_printed(name):
    assert make(name, Show()) == ()


def test_a_scene_that_gains_a_role_changes_the_plot_and_leaves_the_pouches(show):
    scenes = (replace(show.scenes[0], live=(*show.scenes[0].live, "GIRL")), *show.scenes[1:])
    later = replace(show, scenes=scenes)
    changed = [code(sheet) for name in ("mic-plot", "pouch-cards") for sheet in make(name, later)]
    before = [code(sheet) for name in ("mic-plot", "pouch-cards") for sheet in make(name, show)]
    assert [one == two for one, two in zip(changed, before, strict=True)] == [False, False, False, True]


def test_papers_of_a_match_speak_of_parts_and_know_no_curtain(tmp_path):
    show = show_of(
        "channels: {01: {role: REF, by: Ana Rey}, 02: {spare: yes}}\nscenes:\n"
        "  H1: {kind: segment, name: First half, at: '0:00', until: '0:47', live: REF}\n"
        "  H2: {kind: segment, name: Second half, at: '1:02', until: '1:50', live: REF}\n",
        tmp_path,
    )
    for name in ("mic-plot", "who-is-live"):
        told = printed(name, show)
        assert "times from the start" in told and "curtain" not in told and "scene" not in told
    layout = lay_out(make("mic-plot", show)[0], load_metrics())
    assert not any(isinstance(box, Fill) and box.height == ACT_UM for box in layout.pages[0].boxes), (
        "no bar without a title"
    )


UNFOUND = """people: {Mara Lind: {room: 1}}
radios: {belt: {}, stick: {kind: handheld}}
channels:
  01: {role: VERA, by: Mara Lind}
  02: {role: GUEST, by: N.N.}
  03: {spare: belt}
  04: {role: HOST, radio: stick}
  05: {spare: stick}
  06: {spare: belt, backs: 01}
scenes: {1.1: {live: VERA GUEST HOST}}
"""


@pytest.mark.parametrize("name", ("fitting-call", "dressing-list", "placement-notes"))
def test_a_role_for_which_nobody_is_found_yet_is_fitted_all_the_same(name):
    (sheet,) = make(name, build_show(raw_of(UNFOUND)).show)
    told = [[text for cell in row for text in cell] for row in rows_of(sheet)]
    assert [row.count("GUEST") for row in told if "GUEST" in row] == [1] and any("02" in row for row in told)
    assert not any("HOST" in row for row in told), "a handheld is not fitted"


def test_a_spare_that_names_no_channels_is_for_those_of_its_radio_type():
    show = build_show(raw_of(UNFOUND)).show
    cards = " ".join(text for sheet in make("spare-cards", show) for text in texts_of(sheet))
    assert all(told in cards for told in ("SPARE for 01, 02", "SPARE for 04", "SPARE for 01"))
    chart = " ".join(text for sheet in make("channel-chart", show) for text in texts_of(sheet))
    assert "for 01, 02" in chart and "for all" not in chart
    one = build_show(raw_of("radios: {a: {}, b: {}}\nchannels: {1: {by: Ann}, 2: {spare: a}, 3: {spare: b}}")).show
    (sheet,) = make("spare-cards", one)
    assert [card.items[0].text for card in sheet.blocks[0].cards] == ["SPARE for all", "SPARE"]
