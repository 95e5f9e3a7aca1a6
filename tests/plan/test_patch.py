"""Desks, clocks, capsules, spares and rules of the house, each derived from a few lines."""

from hypothesis import given
from hypothesis import strategies as st

from paperwork.build import build_show
from paperwork.model import Rack, Show
from paperwork.plan import rules
from paperwork.plan.clocks import devices_of, find_leaders, list_domains, list_loops
from paperwork.plan.patch import clashing_names, clip_name, list_inputs, name_on_desk
from paperwork.plan.rules import crossing_s, letters_of, longest_chain, margin_hundredths, swap_s
from paperwork.plan.spares import ALL, list_backed, name_backed
from paperwork.plan.stock import count_capsules
from tests.shows_text import raw_of


def show_of(text):
    return build_show(raw_of(text)).show


DESK = """
racks: {R1: {channels: "01, -, 03, 04", digital 1: FOH 11-14}}
consoles: {FOH: {letters: 6}}
roles: {VERA: {by: Ana, short: VE}, NARRATOR: {by: Max}}
people: {Ines Roth: {short: Ines}}
channels:
  01: {role: VERA}
  02: {role: VERA, doubles: 01}
  03: {role: NARRATOR}
  04: {spare: yes}
  05: {by: Ines Roth}
  06: {by: Ole Dahl}
"""


def test_a_desk_shows_the_short_name_the_role_or_the_performer():
    show = show_of(DESK)
    names = {id: name_on_desk(show, channel) for id, channel in show.channels.items()}
    assert names == {"01": "VE", "02": "VE", "03": "NARRATOR", "04": "SP 04", "05": "Ines", "06": "Ole Dahl"}


def test_a_second_pack_keeps_its_letter_on_a_desk_of_few():
    show = show_of(DESK.replace("short: VE", "short: VERA"))
    clipped = {letters: clip_name(show, show.channels["02"], letters) for letters in (2, 3, 4, 6, 8)}
    assert clipped == {2: "V B", 3: "V B", 4: "VE B", 6: "VERA B", 8: "VERA B"}
    assert clip_name(show, show.channels["06"], 4) == "Ole" and clip_name(show, show.channels["03"], 6) == "NARRAT"


def test_names_that_a_desk_cannot_show_apart_are_in_one_group_and_spares_in_none():
    show = show_of(
        DESK.replace("NARRATOR: {by: Max}", "VERENA: {by: Max}, VEREIN: {by: Bo}").replace(
            "role: NARRATOR", "role: VERENA"
        )
        + "  07: {role: VEREIN}\n"
    )
    groups = clashing_names(show, show.channels.values(), 4)
    assert [[one.id for one in group] for group in groups] == [["03", "07"]]
    assert clashing_names(show, show.channels.values(), 5) == ()


def test_every_input_says_what_feeds_it_and_an_empty_slot_nothing():
    found = list_inputs(show_of(DESK))
    assert [(one.number, one.slot, one.channel, one.name) for one in found] == [
        (11, 1, "01", "VE"),
        (12, 2, "", ""),
        (13, 3, "03", "NARRATOR"),
        (14, 4, "04", "SP 04"),
    ]


CLOCKS = """
racks: {R1: {channels: 1, clock: FOH}, R2: {clock: R1}, R3: {}, R4: {clock: R5}, R5: {clock: R4}, R6: {clock: own}}
consoles: {FOH: {clock: own}, MON: {}}
channels: {1: {by: A}}
"""


def test_devices_follow_to_the_end_of_the_chain_and_a_circle_leads_nowhere():
    show = show_of(CLOCKS)
    devices = devices_of(show)
    leaders = {devices[key].id: leader for key, leader in find_leaders(devices).items()}
    assert list_loops(devices) == (("r4", "r5"),)
    assert leaders == {"R1": "FOH", "R2": "FOH", "R3": "", "R4": "", "R5": "", "R6": "R6", "FOH": "FOH", "MON": ""}


def test_a_domain_lists_its_leader_first_and_those_without_a_clock_come_last():
    domains = list_domains(show_of(CLOCKS))
    assert [(one.leader, [device.id for device in one.devices]) for one in domains] == [
        ("FOH", ["FOH", "R1", "R2"]),
        ("R6", ["R6"]),
        ("", ["R3", "R4", "R5", "MON"]),
    ]
    assert find_leaders(devices_of(show_of("racks: {R1: {}, R2: {clock: R1}}\nchannels: {}\n"))) == {
        "r1": "R1",
        "r2": "R1",
    }


@given(st.lists(st.integers(-2, 7), min_size=1, max_size=8))
def test_leaders_and_circles_are_those_that_following_step_by_step_finds(clocks):
    """Clock 7 is nobody, -1 is the device's own, -2 is not stated."""
    written = {-2: "", -1: "own"}
    racks = {f"R{n}": Rack(f"R{n}", clock=written.get(to, f"R{to}")) for n, to in enumerate(clocks)}
    devices = devices_of(Show(racks=racks))
    loops, leaders = set(), {}
    for start in range(len(clocks)):
        path = [start]
        while 0 <= clocks[path[-1]] < len(clocks) and clocks[path[-1]] not in path:
            path.append(clocks[path[-1]])
        end, to = path[-1], clocks[path[-1]]
        if to == end or to == -1 or (to == -2 and end in clocks):
            leaders[f"r{start}"] = f"R{end}"
        elif to in path:
            loops.add(frozenset(f"r{one}" for one in path[path.index(to) :]))
    assert {key: leader for key, leader in find_leaders(devices).items() if leader} == leaders
    assert {frozenset(loop) for loop in list_loops(devices)} == loops and len(list_loops(devices)) == len(loops)


def test_capsules_in_use_are_held_against_those_that_are_owned():
    text = """
    capsules: {cap: {owned: 2}, lav: {serial: "1"}, ring: {}}
    channels:
      1: {by: A, capsule: cap}
      2: {by: B, capsule: cap}
      3: {by: C, capsule: cap}
      4: {by: D, capsule: lav, exclusive: g}
      5: {by: E, capsule: lav, exclusive: g}
      6: {spare: yes, capsule: cap}
      7: {by: F, capsule: ring}
    """
    lines = [(one.id, one.used, one.owned, one.missing) for one in count_capsules(show_of(text))]
    assert lines == [("cap", 3, 2, 1), ("lav", 1, 1, 0), ("ring", 1, None, 0)]
    bare = text.replace('    capsules: {cap: {owned: 2}, lav: {serial: "1"}, ring: {}}\n', "")
    assert [one.id for one in count_capsules(show_of(bare))] == ["cap", "lav", "ring"]


def test_a_spare_backs_what_it_names_else_all_of_its_type():
    text = "radios: {a: {}, b: {}}\nchannels: {1: {by: A, radio: a}, 2: {by: B, radio: b}, 3: {spare: yes, radio: a%s}, 4: {spare: yes, radio: a}}\n"
    show, named = show_of(text % ""), show_of(text % ", backs: 2")
    assert [one.id for one in list_backed(show, show.channels["3"])] == ["1"]
    assert [one.id for one in list_backed(named, named.channels["3"])] == ["2"]
    assert name_backed(show, show.channels["3"]) == ("1",) and name_backed(named, named.channels["3"]) == ("2",)
    alike = show_of((text % "").replace("radio: b", "radio: a"))
    assert name_backed(alike, alike.channels["3"]) == (ALL,)


def test_a_rule_is_what_the_show_states_else_what_the_house_has():
    house, own = (
        show_of("channels: {}\n"),
        show_of("day: {margin: 2, swap: 40 s, swap handheld: 5 s, crossing: 50 s, chain: 3}\nchannels: {}\n"),
    )
    usual = (rules.MARGIN_HUNDREDTHS, rules.SWAP_S, rules.SWAP_HANDHELD_S)
    assert (margin_hundredths(house), swap_s(house, "belt"), swap_s(house, "handheld")) == usual
    assert (margin_hundredths(own), swap_s(own, "belt"), swap_s(own, "handheld")) == (200, 40, 5)
    assert (crossing_s(own), longest_chain(own)) == (50, 3)
    assert (crossing_s(house), longest_chain(house)) == (rules.CROSSING_S, rules.CHAIN_RACKS)
    assert letters_of(None) == rules.DESK_LETTERS != letters_of(show_of(DESK).consoles["FOH"]) == 6
