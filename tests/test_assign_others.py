"""In-ears, intercom, own steps, spots, and who has a frequency where not all can."""

from itertools import combinations

import pytest
from click.testing import CliRunner
from hypothesis import given, settings
from hypothesis import strategies as st

from paperwork.commands.assign import command
from paperwork.coordinate import gather_on_air
from paperwork.coordinate.assign import assign_show, with_frequencies, with_others
from paperwork.model.facts import fingerprint_show
from paperwork.model.gear import RadioType
from paperwork.radio.products.hits import list_hits
from paperwork.radio.spacing import list_close_pairs
from paperwork.reading import read_show
from tests.few import few_examples
from tests.shows_text import reading_of

TYPES = """
radios:
  belt: {tunes: 470-490, apart: 400 kHz}
  ears: {tunes: 502-510, step: 25 kHz, step from: 502.0125, apart: 200 kHz, bandwidth: 150 kHz}
  talk: {spots: [863.100, 863.500, 864.100, 864.900], bandwidth: 50 kHz}
channels: {1: {by: A, radio: belt}, 2: {by: B, radio: belt, mhz: 480.000}}
"""


def show_of(text, tmp_path):
    return reading_of(text, tmp_path).show


def test_in_ears_and_intercom_get_what_their_type_can_be_set_to_and_nothing_is_disturbed(tmp_path):
    rows = "others: {E1: {kind: in-ear, radio: ears}, E2: {kind: in-ear, radio: ears}, T1: {kind: intercom, radio: talk}, T2: {kind: intercom, radio: talk}}\n"
    show = show_of(TYPES + rows, tmp_path)
    found = assign_show(show, effort=200)
    assert not found.missing and set(found.others) == {"E1", "E2", "T1", "T2"} and set(found.placed) == {"1"}
    for id in ("E1", "E2"):
        hz = found.others[id]
        assert (hz - 502_012_500) % 25_000 == 0 and 502_075_000 <= hz <= 509_925_000
    assert {found.others["T1"], found.others["T2"]} < {863_100_000, 863_500_000, 864_100_000, 864_900_000}
    on_air = gather_on_air(with_others(with_frequencies(show, found.placed), found.others))
    assert not list_hits(on_air.carriers, on_air.rules) and not list_close_pairs(on_air.carriers, on_air.rules)


def test_what_cannot_be_looked_for_is_said_and_a_neighbour_is_left_alone(tmp_path):
    path = tmp_path / "show.yaml"
    path.write_text(
        f"{TYPES}others: {{E1: {{kind: in-ear}}, E2: {{kind: in-ear, radio: ears}}, N: {{kind: neighbour}}}}\n"
    )
    done = (
        CliRunner().invoke(command, [str(path), "-o", str(tmp_path / "new.yaml")], standalone_mode=False).return_value
    )
    assert done.code == 1
    assert "other E1: no frequency; nothing says where it may go: give its radio, and what that tunes to" in done.text
    assert (
        "other E2: 50" in done.text
        and " N:" not in done.text
        and "2 placed" in done.text
        and "; 1 left without" in done.text
    )
    new = read_show(tmp_path / "new.yaml", "new.yaml").show
    assert new.others["E1"].hz is None is new.others["N"].hz and new.others["E2"].hz


def test_one_of_the_others_is_judged_by_the_guards_of_its_type_and_by_its_own_words_first(tmp_path):
    """A type that makes nothing and is not struck by third order lets a row of equal steps be."""
    row = "channels: {1: {by: A, mhz: 500.000}, 2: {by: B, mhz: 501.000}}\n"
    plain = row + "others: {E1: {kind: in-ear, mhz: 502.000}}\n"
    calm = "radios: {belt: {}, ears: {guard two-signal: 0 kHz, guard three-signal: 0 kHz, guard fifth-order: 0 kHz, intermodulation: no}}\n"
    typed = calm + row + "others: {E1: {kind: in-ear, radio: ears, mhz: 502.000}}\n"
    codes = [[one.code for one in reading_of(text, tmp_path).findings] for text in (plain, typed)]
    assert codes == [["intermodulation"], []]
    wide = typed.replace("radio: ears,", "radio: ears, apart: 2 MHz,")
    assert [one.code for one in reading_of(wide, tmp_path).findings] == ["neighbours-too-near"]


@given(
    st.lists(st.integers(4_000, 9_000), min_size=1, max_size=8, unique=True),
    st.integers(3_990, 9_010),
    st.booleans(),
    st.integers(0, 40),
)
@settings(max_examples=few_examples(60), deadline=None)
def test_the_settings_around_a_frequency_are_the_nearest_on_either_side(spots, hz, by_spots, start):
    hz, step = hz * 1_000, 25_000
    grid = [one * 1_000 for one in spots] if by_spots else [start * 1_000 + n * step for n in range(-200, 400)]
    radio = (
        RadioType("r", spots_hz=tuple(grid)) if by_spots else RadioType("r", step_hz=step, step_from_hz=start * 1_000)
    )
    below, above = [one for one in grid if one <= hz], [one for one in grid if one >= hz]
    assert set(radio.settings_around(hz)) == {*below[-1:], *above[:1]} if not by_spots else True
    if by_spots:
        assert set(radio.settings_around(hz)) == {*([max(below)] if below else []), *([min(above)] if above else [])}


def test_a_spot_outside_the_tuning_range_is_given_to_nobody(tmp_path):
    text = (
        TYPES.replace("talk: {", "talk: {tunes: 863.450-864, ")
        + "others: {T1: {kind: intercom, radio: talk}, T2: {kind: intercom, radio: talk}}\n"
    )
    found = assign_show(show_of(text, tmp_path), effort=50)
    assert set(found.others.values()) == {863_500_000} and [one.section for one in found.missing] == ["others"]


FULL = "radios: {belt: {tunes: 470-471, apart: 400 kHz, intermodulation: no}}\nchannels:\n"


@pytest.mark.parametrize("must", ((), ("3",), ("2", "4"), ("1", "5")))
def test_where_not_all_fit_those_that_must_are_placed_first(must, tmp_path):
    """Two of 200 kHz at 600 kHz fit into one megahertz."""
    rows = "".join(f"  {n}: {{by: P{n}, radio: belt{', must: yes' if str(n) in must else ''}}}\n" for n in range(1, 6))
    found = assign_show(show_of(FULL + rows, tmp_path), effort=50)
    assert len(found.placed) == 2 and set(must) <= set(found.placed)
    assert must or set(found.placed) == {"1", "2"}


def test_a_house_channel_that_must_have_one_keeps_it_though_acts_lose_more_by_it(tmp_path):
    """All day beside two acts that never meet: without it four acts' channels fit, with it fewer."""
    bill = "groups: {red: {kind: bill, from: '0:00', until: '1:00'}, blue: {kind: bill, from: '1:30', until: '2:30'}}\n"
    acts = "".join(f"  {n}: {{by: P{n}, radio: belt, bill: {'red' if n < 3 else 'blue'}}}\n" for n in range(1, 5))
    plain, must = (
        assign_show(show_of(f"{bill}{FULL}{acts}  5: {{by: HOST, radio: belt{more}}}\n", tmp_path), effort=50)
        for more in ("", ", must: yes")
    )
    assert set(plain.placed) == {"1", "2", "3", "4"}
    assert plain.placed["1"] in (plain.placed["3"], plain.placed["4"])  # acts that never meet share
    assert "5" in must.placed and len(must.placed) == 3
    assert {id for id in must.placed if id < "5"} in ({"1", "3"}, {"1", "4"}, {"2", "3"}, {"2", "4"})


def test_acts_that_meet_share_what_there_is(tmp_path):
    """Four places for two acts of four that are on at once: two each, where the first act could have all."""
    bill = "groups: {red: {kind: bill, from: '0:00', until: '1:00'}, blue: {kind: bill, from: '0:30', until: '2:30'}}\n"
    text = bill + FULL.replace("470-471", "470-472.100")
    text += "".join(f"  {n}: {{by: P{n}, radio: belt, bill: {'red' if n < 5 else 'blue'}}}\n" for n in range(1, 9))
    found = assign_show(show_of(text, tmp_path), effort=50)
    assert len(found.placed) == 4
    assert sum(int(id) < 5 for id in found.placed) == 2


def test_a_place_on_spots_is_found_where_trying_all_finds_one(tmp_path):
    """Brute force over every choice of spots."""
    spots = (863_100, 863_300, 863_500, 863_900, 864_500, 864_900)
    text = f"radios: {{belt: {{tunes: 470-490}}, talk: {{spots: [{', '.join(f'{one / 1000:.3f}' for one in spots)}], bandwidth: 100 kHz, apart: 100 kHz}}}}\nchannels: {{1: {{by: A, mhz: 480.000}}}}\n"
    show = show_of(
        text + "others: {" + ", ".join(f"T{n}: {{kind: intercom, radio: talk}}" for n in range(5)) + "}\n", tmp_path
    )

    def is_clean(chosen):
        placed = {f"T{n}": khz * 1_000 for n, khz in enumerate(chosen)}
        on_air = gather_on_air(with_others(show, placed))
        return not list_hits(on_air.carriers, on_air.rules) and not list_close_pairs(on_air.carriers, on_air.rules)

    most = max(count for count in range(6) for chosen in combinations(spots, count) if is_clean(chosen))
    assert len(assign_show(show, effort=100).others) == most == 4


def test_shows_without_the_new_fields_keep_their_fingerprint(tmp_path):
    """Each of them counts once it says something."""
    plain = TYPES.replace(", step from: 502.0125", "").replace(
        "spots: [863.100, 863.500, 864.100, 864.900]", "tunes: 863-865"
    )
    rows = "others: {E1: {kind: in-ear, mhz: 505.000}}\n"
    base = fingerprint_show(show_of(plain + rows, tmp_path))
    assert base == fingerprint_show(show_of(plain.replace("by: A,", "by: A, must: no,") + rows, tmp_path))
    changed = {
        fingerprint_show(show_of(text, tmp_path))
        for text in (
            plain.replace("by: A,", "by: A, must: yes,") + rows,
            plain.replace("step: 25 kHz", "step: 25 kHz, step from: 502.0125") + rows,
            plain.replace("tunes: 863-865", "tunes: 863-865, spots: 863.100") + rows,
            plain + rows.replace("in-ear,", "in-ear, radio: ears,"),
            plain + rows.replace("in-ear,", "in-ear, must: yes,"),
        )
    }
    assert len(changed | {base}) == 6
