"""The bridge to the radio arithmetic: what a show becomes as carriers, rules, ranges and wants, and what comes back."""

from dataclasses import replace

import pytest

from paperwork import limits
from paperwork.build import build_show
from paperwork.coordinate import find_culprits, find_region, gather_on_air, list_clashes, nearest, window_of
from paperwork.coordinate.air import gather_air, gather_sweep
from paperwork.coordinate.assign import assign_show, with_frequencies
from paperwork.coordinate.freed import free_channels
from paperwork.coordinate.grants import list_refused
from paperwork.coordinate.nearest import find_nearest
from paperwork.coordinate.regions import CENTRE_SLACK_HZ
from paperwork.coordinate.survey import count_searches, list_windows, survey_show
from paperwork.coordinate.swept import SWEEP_LIMIT_CDBM
from paperwork.coordinate.wants import want_of
from paperwork.model.fields import SECTIONS
from paperwork.plan.windows import ranges_of
from paperwork.radio.bands import blocks_on
from paperwork.radio.products.hits import list_hits
from paperwork.radio.spacing import list_close_pairs
from paperwork.reading import read_show
from paperwork.text.units import MHZ
from tests.shows_text import raw_of


def show_of(text):
    return build_show(raw_of(text)).show


def words_for(text, name):
    _, words = find_nearest(gather_on_air(show_of(text)), [name])[name]
    return words


def test_a_clean_frequency_is_looked_for_four_megahertz_to_either_side_where_nothing_is_stated():
    text = "spectrum: {keep clear: %s}\nchannels: {1: {mhz: 501.000, by: Ann}}\n"
    assert words_for(text % "496-504.700", "channel 1") == "; 504.800 MHz is clean for channel 1"
    assert words_for(text % "496-505.000", "channel 1").startswith(
        "; no frequency in reach is clean for channel 1; `paperwork assign --repair`"
    )
    assert words_for(text % "497.250-506", "channel 1") == "; 497.150 MHz is clean for channel 1"


def test_one_of_the_others_has_nowhere_to_go_and_is_not_sent_to_assign():
    text = "spectrum: {keep clear: 490-510}\nchannels: {1: {mhz: 520.000, by: Ann}}\nothers: {W: {kind: in-ear, mhz: 500.000}}\n"
    assert words_for(text, "W") == "; no frequency in reach is clean for W"


def test_a_show_of_too_many_carriers_gets_no_frequency_one_by_one(monkeypatch):
    text = "channels: {1: {mhz: 501.000, by: Ann}, 2: {mhz: 503.000, by: Bo}}\n"
    monkeypatch.setattr(limits, "CARRIERS_NEAREST", 2)
    assert "MHz is clean" in words_for(text, "channel 1")
    monkeypatch.setattr(limits, "CARRIERS_NEAREST", 1)
    assert words_for(text, "channel 1") == "; `paperwork assign --repair` finds it a clean one"


def test_a_transmitter_is_found_a_kilohertz_beside_its_place_and_no_further():
    region = find_region("Europe")
    assert region.find_tv_at(498 * MHZ + CENTRE_SLACK_HZ).name == "24"
    assert region.find_tv_at(498 * MHZ - CENTRE_SLACK_HZ - 1) is None
    assert region.find_tv_at(498_166_667).name == "24"


def test_a_channel_named_in_the_middle_of_its_raster_or_at_its_edge():
    region = find_region("Europe")
    assert region.find_tv("24").name == region.find_tv(" 498.000 MHz").name == "24"
    assert region.find_tv("498").name == "24"
    assert region.find_tv("9a") is None and region.find_tv("491.5") is None and region.find_tv("abc") is None
    assert (region.tv_under(494 * MHZ).name, region.tv_under(494 * MHZ - 1).name) == ("24", "23")
    assert region.tv_under(400 * MHZ) is None


def test_runs_of_one_channel_are_named_once():
    assert find_region("Australia").runs == ("6 to 9", "9A", "10 to 12", "28 to 51")
    assert find_region("nowhere") is None


def test_a_city_is_found_as_a_word_of_the_venue():
    region = find_region("United States")
    city, names = next(iter(region.crowd.cities.items()))
    assert {one.name for one in region.crowded_at(f"Old Mill, {city}, main stage")} == set(names)
    assert region.crowded_at(f"x{city}") == () == find_region("Europe").crowded_at(city)


TWO = """
radios:
  a: {%s}
  b: {%s}
channels:
  1: {mhz: 500.000, by: Ann, radio: a}
  2: {mhz: 510.000, by: Bo, radio: b}
"""


@pytest.mark.parametrize(
    ("one", "two", "kinds"),
    (
        ("kind: belt", "kind: handheld", {""}),
        ("apart: 100 kHz", "apart: 100 kHz, tunes: 470-530", {"100000 default default default"}),
        ("guard two-signal: 90 kHz", "guard two-signal: 90 kHz, guard three-signal: 80 kHz", None),
        ("apart: 100 kHz", "apart: 200 kHz", None),
    ),
)
def test_types_that_state_the_same_distances_are_one_kind(one, two, kinds):
    built = build_show(raw_of(TWO % (one, two)))
    assert built.show
    found = {carrier.kind for carrier in gather_on_air(built.show).carriers}
    assert found == kinds if kinds else len(found) == 2


def test_a_sweep_of_ranges_and_one_of_points_are_held_together_at_the_highest():
    show = show_of("channels: {1: {mhz: 500.000, by: Ann}}\n")
    ranges = ((499 * MHZ, 501 * MHZ, -9_000),)
    points = ((500_000_000, 500_000_000, -7_000), (500_100_000, 500_100_000, -9_500))
    both = replace(show, spectrum=replace(show.spectrum, measured=(ranges, points)))
    sweep = gather_sweep(both)
    assert sweep.held.covered == ((499 * MHZ, 501 * MHZ),)
    # A tenth of the wide bin is 10 dB less than all of it, and the point is as wide as the distance to its neighbour.
    assert sweep.held.level(499_400_000, 499_600_000) == -10_000
    assert sweep.held.level(499_950_000, 500_050_000) == -7_000
    assert gather_sweep(show) is None


def test_what_our_own_transmitters_put_into_a_sweep_is_no_block_and_the_limit_is_the_houses():
    show = show_of("spectrum: {own transmitters: on}\nchannels: {1: {mhz: 500.000, by: Ann}}\n")
    loud = (
        (499_900_000, 500_100_000, -5_000),
        (505_000_000, 505_200_000, SWEEP_LIMIT_CDBM + 1),
        (507_000_000, 507_200_000, SWEEP_LIMIT_CDBM),
    )
    show = replace(show, spectrum=replace(show.spectrum, measured=(loud,)))
    ours = gather_on_air(show).carriers
    assert [(block.low_hz, block.high_hz) for block in gather_air(show, ours).blocks] == [(505_100_000, 505_100_001)]
    off = replace(show, spectrum=replace(show.spectrum, own_on=False))
    assert [block.low_hz // 100_000 for block in gather_air(off, ours).blocks] == [4_999, 5_051]
    strict = replace(off, spectrum=replace(off.spectrum, sweep_limit_cdb=-4_000))
    assert gather_air(strict, ours).blocks == ()


CHAIN = """
racks:
  R1: {channels: 1, window: 470-500, antenna: North, place: "1"}
  R2: {channels: 2, window: 490-520, antenna: north, place: "2"}
  R3: {channels: 3, window: 480-530, antenna: South, place: "3"}
  R4: {channels: 4, antenna: North, place: "3"}
  R5: {channels: 5}
radios: {belt: {tunes: 495-510}, other: {}}
channels:
  1: {by: A, radio: belt}
  2: {by: B, radio: belt}
  3: {by: C, radio: other}
  4: {by: D, radio: other}
  5: {by: E, radio: other}
  6: {by: F, radio: belt}
"""


def test_racks_on_one_antenna_pass_on_what_those_before_them_passed():
    show = show_of(CHAIN)
    assert window_of(show, show.racks["R1"]) == ((470 * MHZ, 500 * MHZ),)
    assert window_of(show, show.racks["R2"]) == ((490 * MHZ, 500 * MHZ),)
    assert window_of(show, show.racks["R3"]) == ((480 * MHZ, 530 * MHZ),)
    assert window_of(show, show.racks["R4"]) == ((490 * MHZ, 500 * MHZ),)
    assert window_of(show, show.racks["R5"]) is None


def test_a_channel_may_go_where_its_radio_tunes_and_its_rack_passes():
    show = show_of(CHAIN)
    ranges = {id: ranges_of(show, channel) for id, channel in show.channels.items()}
    assert ranges["2"] == ((495 * MHZ, 500 * MHZ),) and ranges["6"] == ((495 * MHZ, 510 * MHZ),)
    assert ranges["3"] == ((480 * MHZ, 530 * MHZ),) and ranges["5"] is None
    assert want_of(show, show.channels["6"], ranges["6"]).step_hz == 25_000


def test_spares_are_numbered_on_and_as_wide_as_the_numbers_are_written():
    text = "radios: {belt: {tunes: 470-530}}\nchannels: {%s: {mhz: 500.000, by: Ann, radio: belt}}\n"
    for first, spares in (("007", ["008", "009"]), ("9", ["10", "11"]), ("A", ["1", "2"])):
        found = assign_show(show_of(text % first), spares=[("belt", 2)], effort=4)
        assert [one.id for one in found.spares] == spares and all(one.spare for one in found.spares)
        assert set(found.placed) == set(spares) and not found.stopped


def test_a_spare_goes_where_its_type_is_received_and_what_it_backs_can_be_tuned():
    text = """
    racks: {R1: {channels: 1, window: 470-480}, R2: {channels: 2, window: 520-530}}
    radios: {belt: {tunes: 470-530}, hand: {tunes: 470-530, kind: handheld}}
    channels: {1: {by: Ann, radio: belt, mhz: 475.000}, 2: {by: Bo, radio: hand, mhz: 525.000}}
    """
    show = show_of(text)
    for radio, low in (("belt", 470), ("hand", 520)):
        (hz,) = assign_show(show, spares=[(radio, 1)], effort=4).placed.values()
        assert low * MHZ < hz < (low + 10) * MHZ


def test_a_channel_without_a_place_gets_its_reason():
    text = """
    radios: {belt: {tunes: 500-500.500, step: 100 kHz}, tight: {tunes: 600-600.100}, loose: {}}
    spectrum: {keep clear: 500-501}
    channels:
      1: {by: A, radio: belt}
      2: {by: B, radio: tight}
      3: {by: C, radio: loose}
    """
    reasons = {one.channel: one.reason for one in assign_show(show_of(text), effort=4).missing}
    assert reasons == {
        "1": "of 4 frequencies none is left: 4 in a range kept clear",
        "2": "its bandwidth fits nowhere in the range of its radio, the window of its rack and what was granted",
        "3": reasons["3"],
    }
    assert "radio loose tunes to" in reasons["3"]


def test_a_weak_television_channel_is_second_choice():
    text = "spectrum: {region: Europe, weak tv: 21}\nradios: {belt: {tunes: 470-486}}\nchannels: {1: {by: A, radio: belt}}\n"
    (hz,) = assign_show(show_of(text), effort=4).placed.values()
    assert hz >= 478 * MHZ


def test_a_wide_carrier_is_placed_and_freed_with_all_its_channels():
    text = """
    radios: {wide: {tunes: 470-530, bandwidth: 6 MHz}}
    channels:
      1: {by: A, radio: wide, carrier: W}
      2: {by: B, radio: wide, carrier: W}
      3: {by: C, radio: wide, mhz: 520.000}
    """
    show = show_of(text)
    found = assign_show(show, effort=4)
    assert len(found.placed) == 1
    whole = with_frequencies(show, found.placed)
    assert whole.channels["1"].hz == whole.channels["2"].hz == next(iter(found.placed.values()))
    assert [one.id for one in gather_on_air(whole).carriers] == ["carrier W", "channel 3"]
    assert [one.hz for one in free_channels(whole, ["2"]).channels.values()] == [None, None, 520 * MHZ]


def test_the_last_added_of_our_own_channels_is_the_culprit():
    text = "channels:\n  1: {by: A, mhz: 500.000}\n  2: {by: B, mhz: 500.600}\n  3: {by: C, mhz: 501.200}\n"
    on_air = gather_on_air(show_of(text))
    ((name, clashes),) = find_culprits(on_air, list_clashes(on_air))
    assert (name, len(clashes)) == ("channel 3", 1)
    other = gather_on_air(
        show_of(text.replace("  3: {by: C, mhz: 501.200}", "others: {W: {kind: in-ear, mhz: 501.200}}"))
    )
    ((name, _),) = find_culprits(other, list_clashes(other))
    assert name == "channel 2"


def test_windows_are_those_of_racks_else_what_radios_tune_to():
    assert [name for name, _ in list_windows(show_of(CHAIN))][:2] == ["rack R1", "racks R2 and R4"]
    text = "radios: {a: {tunes: 470-480}, b: {tunes: 470-480}}\nchannels: {1: {by: A, mhz: 475.000, radio: a}}\n"
    show = show_of(text)
    assert list_windows(show) == [("radio a and b", (470 * MHZ, 480 * MHZ))]
    assert count_searches(show) == 1 == count_searches(show, [(470 * MHZ, 475 * MHZ)])
    (found,) = survey_show(show, effort=4)
    assert (found.low_hz, found.high_hz, found.free_hz, found.swept) == (470 * MHZ, 480 * MHZ, 10 * MHZ, False)
    (fit,) = found.fits
    assert fit.radios == ("a", "b") and fit.bandwidth_hz == 200_000
    # 200 kHz and 100 kHz of air on a step of 25 kHz: from 470.1 to 479.9 MHz.
    assert fit.by_spacing == 33 and fit.by_spacing > fit.clean.most >= fit.clean.least > fit.more.least > 0


def test_a_neighbour_is_a_carrier_that_nobody_protects():
    show = show_of("others: {N: {kind: neighbour, mhz: 500.000}, I: {kind: in-ear, mhz: 502.000}}\nchannels: {}\n")
    assert [(one.id, one.listens) for one in gather_on_air(show).carriers] == [("I", True), ("N", False)]


def test_ranges_kept_clear_and_television_in_use_block_what_overlaps_them():
    show = show_of("spectrum: {region: Europe, tv: 21, keep clear: 490-491}\nchannels: {1: {by: A, mhz: 500.000}}\n")
    blocks = gather_air(show).blocks
    for hz, causes in (
        (470_100_000, {"tv"}),
        (490_500_000, {"keep-clear"}),
        (489_900_000, set()),
        (823_500_000, set()),
    ):
        assert {block.cause for block in blocks_on(blocks, hz, 200_000)} == causes


@pytest.mark.parametrize("carriers", (3, 60, 100, 200, 300, 1_000))
def test_as_many_carriers_are_looked_after_as_a_check_can_afford_and_ten_at_least(carriers):
    """n carriers and k that ask take some n + k log k placings, each weighed by n."""
    affordable = [
        k for k in range(carriers + 1) if (carriers + 2 * k * k.bit_length()) * (carriers + k) <= nearest.MOST_WORK
    ]
    most = max(affordable, default=0) if carriers <= limits.CARRIERS_NEAREST else 0
    least = min(nearest.LEAST, carriers) if carriers <= limits.CARRIERS_NEAREST else 0
    assert nearest._count_affordable(carriers, carriers) == max(least, most)


def test_a_granted_frequency_is_taken_where_the_radio_can_be_set_to_it_and_it_is_clean():
    text = """
    radios: {belt: {tunes: 470-490, step: 100 kHz}}
    spectrum: {keep clear: 480-482}
    channels:
      0: {by: Z, radio: belt, granted: 475.512}
      1: {by: A, radio: belt, granted: 475.500}
      2: {by: B, radio: belt, granted: 481.000}
      3: {by: C, radio: belt, granted: "no"}
    """
    found = assign_show(show_of(text), effort=4)
    assert found.placed == {"1": 475_500_000}
    reasons = {one.channel: one.reason for one in found.missing}
    assert "the nearest it tunes to is 475.500, 12 kHz away" in reasons["0"]
    assert reasons["2"] == "its only frequency is not clean: 1 in a range kept clear"
    assert reasons["3"] == "the coordinator granted nothing for it"


@pytest.mark.parametrize(
    "rows, refused",
    (
        ('{mhz: 486.200, asked: 486.600, granted: "no"}', {486_200_000, 486_600_000}),
        ("{asked: 486.600, granted: 487.000}", {486_600_000}),
        ("{asked: 486.600, granted: 486.600}", set()),
        ("{mhz: 486.200, asked: 486.600}", set()),
    ),
)
def test_refused_is_what_was_answered_by_no_or_by_another_frequency(rows, refused):
    show = build_show(raw_of(f"channels:\n  01: {rows.replace('{', '{role: VERA, ')}\n")).show
    assert list_refused(show) == refused


def test_whoever_was_refused_is_sent_to_ask_and_whoever_asked_for_nothing_is_not(tmp_path):
    """A frequency of one's own choice is no use to a channel whose frequencies a coordinator grants."""
    path = tmp_path / "show.yaml"
    fixes = []
    for answer in ("", ', asked: 480.200, granted: "no"'):
        path.write_text(
            "radios: {belt: {tunes: 470-530, step: 25 kHz, bandwidth: 200 kHz}}\nchannels:\n"
            f"  01: {{role: A, radio: belt, mhz: 486.200{answer}}}\n  02: {{role: B, radio: belt, mhz: 486.300{answer}}}\n",
            encoding="utf-8",
        )
        found = read_show(path, "show.yaml").findings
        fixes.append(" ".join(one.fix for one in found if one.code == "neighbour-too-near"))
    assert fixes[0] and "ask for" not in fixes[0] and "ask for" in fixes[1]


DEFAULTS = {field.name: field.default for field in SECTIONS["radios"].fields.values() if field.default}


@pytest.mark.parametrize(
    ("field", "frequencies"),
    (
        ("apart", (500_000, 500_200)),
        ("guard two-signal", (500_000, 501_000, 502_000)),
        ("guard three-signal", (500_000, 501_300, 503_700, 505_000)),
        ("guard fifth-order", (500_000, 501_000, 498_000)),
    ),
)
def test_what_a_radio_type_does_not_state_is_kept_as_its_field_says(field, frequencies):
    """One kilohertz less than the default of the reference is found, the default itself is clean."""
    wanted = int(DEFAULTS[field].split(" kHz")[0])
    found = {}
    for off in (wanted - 1, wanted):
        *others, last = frequencies
        khz = [*others, last + off]
        rows = "".join(f"  {at}: {{mhz: {one / 1000:.3f}, by: A{at}}}\n" for at, one in enumerate(khz))
        guards = "guard two-signal: 0 kHz, " * (field == "guard three-signal")
        on_air = gather_on_air(show_of(f"radios: {{a: {{{guards}kind: pack}}}}\nchannels:\n{rows}"))
        hits = list_hits(on_air.carriers, on_air.rules)
        found[off] = len(list_close_pairs(on_air.carriers, on_air.rules)) if field == "apart" else len(hits)
    assert found[wanted - 1] and not found[wanted]
