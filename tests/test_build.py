"""Raw to Show: values parsed, references resolved as a reader would, shorthand expanded."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from paperwork.build import build_show
from paperwork.build.outputs import pair_connectors
from paperwork.checks.company.people import check_listed
from paperwork.model import Output, Slot
from tests.shows_text import raw_of, reading_of, show_of, told


def test_a_number_a_performer_and_a_frequency_are_enough(tmp_path):
    show = show_of(
        """
        channels:
          1: {by: Imke Vos, mhz: 486.200}
        """,
        tmp_path,
    )
    channel = show.channels["1"]
    assert (channel.by, channel.hz, channel.pack, channel.roles) == ("Imke Vos", 486_200_000, "1", ())
    assert show.performers_of(channel) == ("Imke Vos",)


def test_text_that_other_loaders_convert_stays_text(tmp_path):
    show = show_of(
        """
        show: {title: 1e3, company: 12:30, revision: 010}
        channels:
          010: {role: NO, by: Null, mhz: 518.200}
          08: {role: E5, by: True, mhz: 521.200}
        """,
        tmp_path,
    )
    assert (show.production.title, show.production.company, show.production.revision) == ("1e3", "12:30", "010")
    assert [channel.id for channel in show.channels.values()] == ["08", "010"]
    assert (show.channels["010"].roles, show.roles["NO"].by) == (("NO",), "Null")


def test_a_performer_of_a_shared_pack_is_told_in_either_form():
    grouped = raw_of("channels:\n  05: {shared: {SAILOR: Max Ried, WIDOW: Ana Cole}}\n")
    as_text = raw_of("channels:\n  05: {shared: 'SAILOR: Max Ried, WIDOW: Ana Cole'}\n")
    assert build_show(grouped).show == build_show(as_text).show
    assert build_show(grouped).show.channels["05"].roles == ("SAILOR", "WIDOW")


def test_one_performer_may_play_several_roles_on_one_pack(tmp_path):
    show = show_of("channels:\n  15: {role: 'SAILOR, CONSTABLE', by: Petra}\n", tmp_path)
    assert show.performers_of(show.channels["15"]) == ("Petra",)
    assert [show.roles[role].by for role in ("SAILOR", "CONSTABLE")] == ["Petra", "Petra"]


def test_references_are_found_as_a_reader_would_find_them(tmp_path):
    show = show_of(
        """
        racks: {R1: {channels: 1-2}}
        capsules: {Beige 2: {type: lavalier}}
        channels:
          01: {role: VERA, capsule: beige 2}
          02: {role: TOM}
        """,
        tmp_path,
    )
    assert show.channels["01"].capsule == "Beige 2"
    assert [channel.slot for channel in show.channels.values()] == [Slot("R1", 1), Slot("R1", 2)]


def test_what_a_small_show_does_not_list_it_may_still_name(tmp_path):
    show = show_of(
        "racks: {R1: {channels: '01', analogue 1: FOH 7}}\nchannels:\n  01: {role: VERA, capsule: the old one}\n",
        tmp_path,
    )
    assert show.channels["01"].capsule == "the old one"
    assert show.racks["R1"].outputs[0].console == "FOH"


def test_a_radio_type_that_is_like_another_repeats_it_except_for_its_own_fields(tmp_path):
    show = show_of(
        """
        radios:
          hand: {like: belt, kind: handheld}
          belt: {kind: pack, step: 25 kHz, hours: 8}
        channels: {}
        """,
        tmp_path,
    )
    assert (show.radios["hand"].kind, show.radios["hand"].step_hz, show.radios["hand"].hours_s) == (
        "handheld",
        25_000,
        28_800,
    )


def test_outputs_are_listed_slot_by_slot_and_split_with_a_plus():
    raw = raw_of(
        """
        racks:
          R1: {channels: 01-03, analogue 1: "FOH 1-2, -", analogue 2: "MON 7, 9-10 + REC 1-3"}
        channels: {01: {}, 02: {}, 03: {}}
        """
    )
    outputs = build_show(raw).show.racks["R1"].outputs
    assert outputs == (
        Output("analogue", 1, 1, "FOH", 1),
        Output("analogue", 1, 2, "FOH", 2),
        Output("analogue", 2, 1, "MON", 7),
        Output("analogue", 2, 2, "MON", 9),
        Output("analogue", 2, 3, "MON", 10),
        Output("analogue", 2, 1, "REC", 1),
        Output("analogue", 2, 2, "REC", 2),
        Output("analogue", 2, 3, "REC", 3),
    )


def test_a_digital_pair_never_joins_two_units():
    """AES3 carries two channels on one connector (AES3-2003, abstract): odd left, even right, one unit."""
    assert pair_connectors((3, 2)) == {
        1: ("D1", "left"),
        2: ("D1", "right"),
        3: ("D2", "left"),
        4: ("D3", "left"),
        5: ("D3", "right"),
    }


def test_a_missing_rack_is_one_finding_however_many_channels_name_it():
    raw = raw_of("channels:\n" + "".join(f"  {n:02d}: {{role: R{n}, slot: R9.{n}}}\n" for n in range(1, 41)))
    assert build_show(raw).findings == ()


def test_findings_of_references_point_at_the_field():
    raw = raw_of("capsules: {beige: {}}\nchannels:\n  01:\n    role: VERA\n    capsule: biege\n")
    (finding,) = build_show(raw).findings
    assert told((finding,)) == ["5 id-unknown"] and finding.place.column == 14
    assert finding.text == "capsule of channel 01 names biege, which is not in capsules"
    assert finding.fix == "correct the name, or add biege to capsules; did you mean beige?"


def test_scene_order_is_the_order_of_rows(tmp_path):
    show = show_of("scenes: {s9: {name: first}, s1: {name: second}}\nchannels: {}\n", tmp_path)
    assert [scene.name for scene in show.scenes] == ["first", "second"]


def test_a_role_with_a_space_is_one_role_on_its_channel_and_in_its_scenes(tmp_path):
    show = show_of(
        """
        channels:
          01: {role: OLD TOM, by: Ben Arlo, mhz: 486.200}
          02: {role: VERA, by: Mara Lind, mhz: 489.700}
        scenes: {s1: {live: OLD TOM}, s2: {live: VERA OLD TOM}}
        """,
        tmp_path,
    )
    assert show.channels["01"].roles == ("OLD TOM",)
    assert [scene.live for scene in show.scenes] == [("OLD TOM",), ("VERA", "OLD TOM")]


NAMED = "channels:\n" + "".join(
    f"  {n:02d}: {{role: R{n}, by: {name}}}\n"
    for n, name in enumerate(("Ana Cole", "Ben Arlo", "Cy Dorn", "Di Orr"), 1)
)


def test_people_of_whom_nothing_is_to_be_told_need_no_entry():
    """One child among four: the others are on paper as they are named, and a slip of the child's name is told."""
    assert build_show(raw_of("people: {Di Orr: {child: yes}}\n" + NAMED)).findings == ()
    (finding,) = build_show(raw_of("people: {Di Orrr: {child: yes}}\n" + NAMED)).findings
    assert finding.code == "id-unknown" and finding.fix.endswith("did you mean Di Orrr?")


@given(st.sets(st.sampled_from(("Ana Cole", "Ben Arlo", "Cy Dorn", "Di Orr")), min_size=1))
def test_somebody_who_is_not_listed_is_no_finding_however_many_are(listed):
    assert (
        build_show(raw_of("people: {" + ", ".join(f"{name}: {{}}" for name in sorted(listed)) + "}\n" + NAMED)).findings
        == ()
    )


@pytest.mark.parametrize(
    "near", ["Ana Coel", "Ana Colle", "Ana", "Cole", "A. Cole", "Ana Maria Cole", "Cole, Ana", "ANA  COLÉ"]
)
def test_a_name_nearly_that_of_somebody_listed_is_a_finding_that_says_whose(near):
    found = build_show(
        raw_of(f"people: {{Ana Cole: {{}}, Ben Arlo: {{}}}}\nchannels: {{1: {{role: X, by: '{near}'}}}}\n")
    ).findings
    assert [one.code for one in found] == ["id-unknown"] and found[0].fix.endswith("did you mean Ana Cole?")


@pytest.mark.parametrize("other", ["Max Cole", "Ana Ried", "Mia Cole", "Ana-Lena Holm", "Ben Cole", "Ensemble 1"])
def test_a_sibling_and_a_namesake_are_no_finding(other):
    raw = raw_of(f"people: {{Ana Cole: {{}}, Ensemble: {{}}}}\nchannels: {{1: {{role: X, by: '{other}'}}}}\n")
    assert build_show(raw).findings == ()


def test_a_channel_has_the_radio_of_its_pack_else_of_its_rack_else_the_first():
    show = build_show(
        raw_of(
            "radios: {low: {}, mid: {}, high: {}}\ntransmitters: {2: {radio: high}}\n"
            "racks: {R1: {channels: 1-3, radio: mid}}\n"
            "channels: {1: {role: A}, 2: {role: B}, 3: {role: C, radio: low}, 4: {role: D}, 5: {spare: yes}}\n"
        )
    ).show
    assert {id: channel.radio for id, channel in show.channels.items()} == {
        "1": "mid",
        "2": "high",
        "3": "low",
        "4": "low",
        "5": "low",
    }


def test_an_unknown_radio_of_a_rack_is_told_at_the_rack():
    (finding,) = build_show(
        raw_of("radios: {low: {}}\nracks: {R1: {channels: 1-2, radio: lwo}}\nchannels: {1: {role: A}, 2: {role: B}}\n")
    ).findings
    assert finding.text == "radio of rack R1 names lwo, which is not in radios"


def test_scenes_of_one_name_are_told_apart_by_their_ids():
    scenes = "scenes: {1.1: {name: Street}, 1.2: {name: House}, 2.1: {name: street}, 2.2: {}, 2.3: {}}\nchannels: {}\n"
    show = build_show(raw_of(scenes)).show
    assert [scene.name for scene in show.scenes] == ["1.1 Street", "House", "2.1 street", "", ""]


@pytest.mark.parametrize(
    "live",
    (
        "VERA, TOM and HOST",
        "vera + tom + host",
        "VERA TOM HOST",
        "VERA & TOM, HOST",
        "VERA / TOM und HOST",
        "[VERA, TOM, HOST]",
    ),
)
def test_live_roles_are_listed_as_people_write_them(live):
    text = f"channels: {{1: {{role: VERA}}, 2: {{role: TOM}}, 3: {{role: HOST}}}}\nscenes:\n  s:\n    live: {live}\n"
    built = build_show(raw_of(text))
    assert built.findings == () and built.show.scenes[0].live == ("VERA", "TOM", "HOST")


def test_a_role_with_an_and_in_its_name_is_never_taken_apart():
    text = "channels: {1: {role: MAN AND WIFE}, 2: {role: Q & A}}\nscenes: {s: {live: 'MAN AND WIFE, Q & A'}, t: {live: man and wife}}\n"
    built = build_show(raw_of(text))
    assert built.findings == ()
    assert [scene.live for scene in built.show.scenes] == [("MAN AND WIFE", "Q & A"), ("MAN AND WIFE",)]


@pytest.mark.parametrize(
    "times, told",
    (
        ("7:30pm", (70_200,)),
        ("2.30 pm, 7.30 p.m.", (52_200, 70_200)),
        ("14:30 19:30", (52_200, 70_200)),
        ("12 am", (0,)),
        ("12:15 PM", (44_100,)),
    ),
)
def test_times_of_day_may_be_told_by_the_half_day(times, told):
    built = build_show(raw_of(f"day: {{curtain: '{times}'}}\nchannels: {{}}\n"))
    assert built.findings == () and built.show.day.curtain_s == told


def test_a_time_from_curtain_up_has_no_half_day():
    (finding,) = build_show(raw_of("channels: {}\nscenes: {s: {at: 7:30 pm}}\n")).findings
    assert finding.code == "value-unreadable"


def test_a_range_of_channels_may_say_to():
    text = "racks: {R1: {channels: 01 to 03}}\nchannels: {01: {role: A}, 02: {role: B}, 03: {role: C}}\n"
    built = build_show(raw_of(text))
    assert built.findings == () and [str(c.slot) for c in built.show.channels.values()] == ["R1.1", "R1.2", "R1.3"]


def test_of_a_list_with_and_the_name_that_is_no_role_is_told_alone():
    text = "channels: {1: {role: VERA}, 2: {role: TOM}}\nscenes: {s: {live: VERA + TOMM}, t: {live: 'R&D'}}\n"
    assert [finding.text for finding in build_show(raw_of(text)).findings] == [
        "live of scene s names TOMM, which is not in roles",
        "live of scene t names R&D, which is not in roles",
    ]


def test_of_a_section_that_is_absent_the_first_spelling_holds_so_one_pack_on_two_channels_is_found(tmp_path):
    text = """
    radios: {belt: {kind: pack}}
    channels:
      1: {by: Ann, pack: P1}
      2: {by: Bo, pack: p1}
    """
    assert told(reading_of(text, tmp_path).findings) == ["5 pack-doubled"]


def test_slots_that_cannot_be_read_are_one_fault_whatever_hangs_on_them():
    for slots in ("units: '4, x'", "slots: six"):
        text = f"racks: {{R1: {{{slots}, analogue 1: FOH 1-8}}}}\nchannels: {{1: {{by: Ann}}}}\n"
        assert [one.code for one in build_show(raw_of(text)).findings] == ["value-unreadable"]


def test_ids_of_digits_that_are_no_numbers_are_ids_like_any_other(tmp_path):
    reading = reading_of("channels: {'\u00b2': {by: Ann}, '\u00b3': {by: Bo}, 4: {by: Cy, mhz: 486.200}}\n", tmp_path)
    assert set(reading.show.channels) == {"4", "²", "³"}


def test_a_child_is_a_child_however_a_group_or_a_listener_spells_it(tmp_path):
    text = """
    people: {Ana Cole: {child: yes}, Max Ried: {}}
    roles: {CHORUS: {group: "ana cole, Max Ried"}}
    others: {ears: {kind: in-ear, mhz: 640.150, listeners: "ANA COLE, Max Ried"}}
    channels: {1: {role: CHORUS}}
    """
    show = reading_of(text, tmp_path).show
    assert show.others["ears"].listeners == ("Ana Cole", "Max Ried")
    assert set(show.roles) == {"CHORUS", "Ana Cole", "Max Ried"} and show.roles["Ana Cole"].by == "Ana Cole"


@pytest.mark.parametrize(
    "section, field, text, attr, value",
    (
        ("day", "margin", "1", "margin_hundredths", 100),
        ("day", "margin", "10", "margin_hundredths", 1000),
        ("day", "chain", "3", "chain", 3),
        ("show", "revised", "2027-03-02", "revised", "2027-03-02"),
        ("show", "revised", "2027-03-02 17:40", "revised", "2027-03-02 17:40"),
    ),
)
def test_a_value_is_held_as_it_was_written_at_the_ends_of_its_range_too(section, field, text, attr, value):
    head = "" if section == "show" else "show: {title: Glass}\n"
    built = build_show(raw_of(f"{head}{section}: {{{field}: {text}}}\nchannels:\n  01: {{role: VERA}}\n"))
    assert not built.findings
    assert getattr(built.show.production if section == "show" else built.show.day, attr) == value


@pytest.mark.parametrize("text, hz, refused", (("486.200", 486_200_000, False), ("no", None, True), ("No", None, True)))
def test_what_a_coordinator_answers_is_a_frequency_or_no(text, hz, refused):
    channel = build_show(raw_of(f'channels:\n  01: {{role: VERA, granted: "{text}"}}\n')).show.channels["01"]
    assert (channel.granted_hz, channel.refused) == (hz, refused)


def test_of_alternates_the_one_of_the_days_team_plays_and_the_others_stay_alternates():
    text = """
    day: {team: red}
    people: {Ana Cole: {team: blue}, Ben Orr: {team: Red}}
    roles: {VERA: {by: Ana Cole, alternates: Ben Orr}, TOM: {by: Ana Cole}}
    channels: {01: {role: VERA}, 02: {role: TOM}}
    """
    roles = build_show(raw_of(text)).show.roles
    assert (roles["VERA"].by, roles["VERA"].alternates) == ("Ben Orr", ("Ana Cole",))
    assert (roles["TOM"].by, roles["TOM"].alternates) == ("Ana Cole", ())


def test_a_wide_carrier_given_on_one_channel_is_that_of_all_of_them():
    text = "channels:\n  01: {role: A, carrier: W}\n  02: {role: B, carrier: W, mhz: 486.200}\n  03: {role: C}\n"
    channels = build_show(raw_of(text)).show.channels
    assert [one.hz for one in channels.values()] == [486_200_000, 486_200_000, None]


@pytest.mark.parametrize(
    "group", ("A B OLD TOM", "'A, B, OLD TOM'", "A and B & OLD TOM", "[A, B, OLD TOM]", "b + a / old tom")
)
def test_a_group_is_written_as_the_roles_of_a_scene_are(group, tmp_path):
    text = """
    channels: {1: {role: A}, 2: {role: B}, 3: {role: OLD TOM}}
    roles: {ALL: {group: %s}}
    scenes: {s1: {live: ALL}, s2: {live: %s}}
    """
    first, second = show_of(text % (group, group), tmp_path).scenes
    assert first.live == second.live and sorted(first.live) == ["A", "B", "OLD TOM"]


def test_a_person_in_a_group_keeps_both_names_even_where_one_is_a_role(tmp_path):
    text = "channels: {1: {role: TOM, by: Ana Cole}}\nroles: {ALL: {group: Tom Ried}}\n"
    assert reading_of(text, tmp_path).show.roles["ALL"].group == ("Tom Ried",)


def test_the_channels_that_a_racks_range_lacks_are_one_finding_that_names_them():
    raw = raw_of(
        "racks: {R1: {channels: 01-08}, R2: {channels: 08-09, slots: 2}}\nchannels: {01: {role: A}, 05: {role: B}}\n"
    )
    first, second = build_show(raw).findings
    assert (
        first.text == "channels of rack R1 names 02\u201304, 06\u201308, which are not in channels"
        and len(first.others) == 1
    )
    assert second.text == "channels of rack R2 names 09, which is not in channels"


SCENES = "roles: {A: {}}\nscenes: {1: {}, 2: {}, 2a: {}, 3: {}, '04': {}, 5-6: {}}\n"


@pytest.mark.parametrize(
    ("written", "meant"),
    [
        ("3-4", ("3", "04")),
        ("'1-2, 4'", ("1", "2", "04")),
        ("[1-2, 3 to 4]", ("1", "2", "3", "04")),
        ("3 - 4", ("3", "04")),
    ]
    + [("5-6", ("5-6",)), ("2a", ("2a",))],
)
def test_scenes_of_a_cover_are_read_in_ranges_as_channels_are(written, meant):
    built = build_show(raw_of(SCENES + f"covers: {{c: {{role: A, by: Di Orr, scenes: {written}}}}}\n"))
    assert (built.findings, built.show.covers[0].scenes) == ((), meant)


@pytest.mark.parametrize(
    ("written", "fix"),
    [("1-4", "write 1, 2, 2a, 3, 04"), ("2a-4", "write 2a, 3, 04"), ("4-3", "write 3, 04"), ("4-9", None)],
)
def test_a_range_that_leaves_out_a_scene_between_its_ends_is_refused_with_how_to_write_it(written, fix):
    (finding,) = build_show(raw_of(SCENES + f"covers: {{c: {{role: A, by: Di Orr, scenes: {written}}}}}\n")).findings
    assert finding.fix == fix or (fix is None and "names 5\u20139, which are not in scenes" in finding.text)
    if fix:
        mended = SCENES + f"covers: {{c: {{role: A, by: Di Orr, scenes: '{fix.removeprefix('write ')}'}}}}\n"
        assert build_show(raw_of(mended)).findings == ()


PLAYERS = ("Ana Ried", "Ben Orr", "Cy Dorn", "Di Holm", "Ed Falk")


@given(st.lists(st.sampled_from(PLAYERS), min_size=3, max_size=3, unique=True), st.sets(st.sampled_from(PLAYERS)))
def test_a_recast_in_one_place_is_found_where_most_are_listed_and_nowhere_else(cast, listed):
    """Somebody who plays is not listed, while somebody listed does not play."""
    roles = ", ".join(f"R{number}: {{by: {name}}}" for number, name in enumerate(cast))
    rows = ", ".join(f"{name}: {{room: 1}}" for name in sorted(listed))
    show = build_show(raw_of(f"people: {{{rows}}}\nroles: {{{roles}}}\n")).show
    found = list(check_listed(show))
    is_recast = {*cast} - listed and listed - {*cast} and 2 * len({*cast} & listed) > len(cast)
    assert bool(found) == bool(is_recast)
    if found:
        assert all(name in found[0].text for name in {*cast} ^ listed)
