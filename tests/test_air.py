"""Frequencies against the air: what must be found is in tests/shows; here is what must not be, and what is said."""

import re
from itertools import pairwise, permutations

import pytest

from paperwork.coordinate import gather_on_air, window_of
from paperwork.model.facts import fingerprint_show
from paperwork.model.fields import SECTIONS
from paperwork.radio.products.hits import list_hits
from paperwork.radio.spacing import list_close_pairs
from tests.shows_text import reading_of, show_of, told

BELT = "radios: {belt: {tunes: 470-530, step: 25 kHz, bandwidth: 200 kHz}}\n"


def sweep(tmp_path, loud=(), low=470.0, high=530.0):
    count = round((high - low) * 10)
    lines = [f"{low + n / 10:.1f},{-60 if round(low + n / 10, 1) in loud else -98 + n % 2}" for n in range(count + 1)]
    (tmp_path / "sweep.csv").write_text("\n".join(lines), encoding="utf-8")


@pytest.mark.parametrize(
    "text",
    (
        "spectrum: {region: Europe, tv: 24}\nchannels:\n  1: {mhz: 493.900, by: Ann}\n  2: {mhz: 502.100, by: Bo}\n",
        "spectrum: {region: Europe, weak tv: 24}\nchannels: {1: {mhz: 498.000, by: Ann}}\n",
        "spectrum: {region: Europe, tv: 24}\nchannels: {1: {mhz: 490.000, by: Ann}}\nothers: {NEXT: {kind: neighbour, mhz: 498.000}}\n",
        "spectrum: {keep clear: 500-502}\nchannels: {1: {mhz: 490.000, by: Ann}}\nothers: {TALK: {kind: intercom, mhz: 501.000}}\n",
        "spectrum: {region: US}\nshow: {title: Glass, venue: Old Mill}\nchannels: {1: {mhz: 485.000, by: Ann}}\n",
        "spectrum: {region: Europe}\nchannels: {1: {mhz: 2410.000, by: Ann}, 2: {mhz: 863.500, by: Bo}, 3: {mhz: 823.500, by: Cy}}\n",
    ),
    ids=(
        "at the edges of television",
        "weak television",
        "a neighbour in television",
        "what a range is kept clear for",
        "a city without land mobile radio",
        "bands that no source closes",
    ),
)
def test_nothing_is_found_where_nothing_is_wrong(tmp_path, text):
    assert told(reading_of(text, tmp_path).findings) == []


def test_a_carrier_that_is_out_of_tune_and_in_television_is_told_once(tmp_path):
    text = BELT + "spectrum: {region: Europe, tv: 30}\nchannels:\n  1: {mhz: 545.000, by: Ann}\n"
    (finding,) = reading_of(text, tmp_path).findings
    assert finding.code == "frequency-out-of-tune" and "529.900 MHz is clean for channel 1" in finding.fix


def test_a_sweep_with_our_own_transmitters_on_says_nothing_about_them(tmp_path):
    sweep(tmp_path, loud=(500.2,))
    text = "spectrum: {sweeps: sweep.csv, own transmitters: %s}\nchannels: {1: {mhz: 500.200, by: Ann}}\n"
    assert told(reading_of(text % "on", tmp_path).findings) == []
    assert told(reading_of(text % "off", tmp_path).findings) == ["2 sweep-loud"]


def test_with_our_own_on_what_the_sweep_hears_elsewhere_is_still_no_clean_frequency(tmp_path):
    sweep(tmp_path, loud=(500.2, 500.7, 500.8, 500.9))
    text = (
        BELT + "spectrum: {sweeps: sweep.csv, own transmitters: on}\nchannels:\n"
        "  1: {mhz: 500.200, by: Ann}\n  2: {mhz: 500.200, by: Bo}\n"
    )
    (finding,) = reading_of(text, tmp_path).findings
    clean = float(re.search(r"; ([0-9.]+) MHz is clean for channel 2", finding.fix)[1])
    assert clean == 499.9, "both sides are free by spacing; above, a station stands at 500.7"


def test_the_house_sets_the_limit_of_the_sweep(tmp_path):
    sweep(tmp_path)
    text = "spectrum: {sweeps: sweep.csv, own transmitters: off, sweep limit: %s}\nchannels: {1: {mhz: 500.200, by: Ann}}\n"
    # Bins of 100 kHz at -97 and -98 dBm are -94.5 dBm in the 200 kHz of a carrier, and so is their noise floor.
    assert told(reading_of(text % "-94 dBm", tmp_path).findings) == []
    assert told(reading_of(text % "-95", tmp_path).findings) == ["1 sweep-noisy"]
    sweep(tmp_path, loud=(500.2,))
    assert told(reading_of(text % "-59 dBm", tmp_path).findings) == []
    assert told(reading_of(text % "-61", tmp_path).findings) == ["2 sweep-loud"]
    assert told(reading_of(text % "30 dB", tmp_path).findings) == ["2 sweep-loud"]
    assert told(reading_of(text % "40 dB", tmp_path).findings) == []


def test_several_sweeps_cover_together_and_the_loudest_counts(tmp_path):
    (tmp_path / "a.csv").write_text(
        "\n".join(f"{470 + n / 10:.1f},{-97 - n % 2}" for n in range(200)), encoding="utf-8"
    )
    (tmp_path / "b.csv").write_text(
        "\n".join(f"{489 + n / 10:.1f},{-50 if n == 5 else -98 - n % 2}" for n in range(200)), encoding="utf-8"
    )
    text = (
        BELT
        + "spectrum: {sweeps: [a.csv, b.csv], own transmitters: off}\nracks: {R1: {channels: 1, window: 480-508}}\n"
        "channels: {1: {mhz: 489.500, by: Ann}}\n"
    )
    (finding,) = reading_of(text, tmp_path).findings
    assert finding.code == "sweep-loud" and "-50.0 dBm" in finding.text


def test_what_a_sweep_measured_is_no_fact_of_the_show(tmp_path):
    sweep(tmp_path)
    text = "spectrum: {sweeps: sweep.csv, own transmitters: off}\nchannels: {1: {mhz: 500.200, by: Ann}}\n"
    before = show_of(text, tmp_path)
    sweep(tmp_path, loud=(510.0,))
    after = show_of(text, tmp_path)
    assert before == after and fingerprint_show(before) == fingerprint_show(after)
    assert before.spectrum.measured != after.spectrum.measured


def test_a_wide_carrier_is_one_carrier(tmp_path):
    text = (
        "radios: {wide: {tunes: 510-530, bandwidth: 6 MHz}, belt: {tunes: 510-540, bandwidth: 200 kHz}}\nchannels:\n"
        "  1: {by: Ann, carrier: W, mhz: 514.000}\n  2: {by: Bo, carrier: w}\n  3: {by: Cy, carrier: W, mhz: 514.000}\n"
        "  4: {by: Di, radio: belt, mhz: 517.200}\n"
    )
    show = show_of(text, tmp_path)
    assert [channel.hz for channel in show.channels.values()] == [514_000_000] * 3 + [517_200_000]
    on_air = gather_on_air(show)
    assert [carrier.id for carrier in on_air.carriers] == ["carrier W", "channel 4"]
    assert [subject.id for subject in on_air.subjects["carrier W"]] == ["1", "2", "3"]


def test_a_doubted_frequency_of_a_wide_carrier_is_not_filled_in(tmp_path):
    text = "channels:\n  1: {by: Ann, carrier: W, mhz: 514.000}\n  2: {by: Bo, carrier: W, mhz: 514 / 515}\n"
    reading = reading_of(text, tmp_path)
    assert told(reading.findings) == ["3 frequency-unreadable"] and reading.show.channels["2"].hz is None


def test_windows_along_an_antenna_meet(tmp_path):
    text = "racks:\n" + "".join(
        f"  R{n}: {{slots: 2, window: {window}, antenna: mast, place: {place}}}\n"
        for n, (window, place) in enumerate((("470-494", 1), ("486-510", 2), ("502-526", 3), ("470-500", "")), 1)
    )
    show = show_of(text + "channels: {1: {by: Ann}}\n", tmp_path)
    assert [window_of(show, rack) for rack in show.racks.values()] == [
        ((470_000_000, 494_000_000),),
        ((486_000_000, 494_000_000),),
        (),
        ((470_000_000, 500_000_000),),
    ]


def test_close_quarters_and_the_three_signal_fifth_order_are_settings(tmp_path):
    quiet = "radios: {calm: {intermodulation: no}}\nchannels:\n" + "".join(
        f"  {n}: {{by: P{n}, mhz: {mhz}}}\n" for n, mhz in enumerate(("501.000", "502.000", "503.000"), 1)
    )
    assert told(reading_of(quiet, tmp_path).findings) == []
    assert told(reading_of("spectrum: {close quarters: yes}\n" + quiet, tmp_path).findings) == ["6 intermodulation"]
    # 2 x 500.0 + 503.1 - 2 x 501.4 = 500.3, and neither third order nor 3a-2b comes near a carrier.
    fifth = "channels:\n" + "".join(
        f"  {n}: {{by: P{n}, mhz: {mhz}}}\n" for n, mhz in enumerate(("500.000", "503.100", "501.400", "500.300"), 1)
    )
    assert told(reading_of(fifth, tmp_path).findings) == []
    assert told(reading_of("spectrum: {fifth three-signal: yes}\n" + fifth, tmp_path).findings) == ["6 intermodulation"]


def test_a_spare_beside_what_it_backs_is_told_only_where_there_is_a_choice(tmp_path):
    one = (
        BELT + "spectrum: {region: Europe%s}\nchannels:\n  1: {by: Ann, mhz: 486.200}\n  2: {by: Bo, mhz: %s}\n"
        "  3: {spare: belt, mhz: 490.350}\n"
    )
    assert told(reading_of(one % ("", "488.700"), tmp_path).findings) == ["6 spare-beside"]
    assert told(reading_of(one % ("", "495.700"), tmp_path).findings) == [], (
        "what it backs is in two TV channels already"
    )
    full = ', tv: "21, 22, 24-29"'
    assert told(reading_of(one % (full, "488.700"), tmp_path).findings) == [], "no other TV channel is free"


def test_every_frequency_finding_names_a_frequency_that_is_clean_indeed(tmp_path):
    """The nearest clean frequency, put in place of the wrong one, leaves nothing wrong with that carrier."""
    lines = [
        f"  {n}: {{by: P{n}, mhz: {mhz}}}"
        for n, mhz in enumerate(
            ("486.200", "486.300", "487.000", "487.800", "488.600", "491.000", "491.000", "535.000"), 1
        )
    ]
    text = BELT + "spectrum: {region: Europe, tv: 24}\nchannels:\n" + "\n".join(lines)
    reading = reading_of(text, tmp_path)
    assert len(reading.findings) >= 5
    for finding in reading.findings:
        mhz, number = re.search(r"; ([0-9.]+) MHz is clean for channel ([0-9]+)", finding.fix).groups()
        moved = re.sub(rf"(  {number}: .*mhz: )[0-9.]+", rf"\g<1>{mhz}", text)
        on_air = gather_on_air(reading_of(moved, tmp_path).show)
        name = f"channel {number}"
        assert not any(name in (*hit.makers, hit.victim) for hit in list_hits(on_air.carriers, on_air.rules))
        assert not any(name in (pair.lower, pair.upper) for pair in list_close_pairs(on_air.carriers, on_air.rules))


def test_a_long_row_of_equal_steps_is_one_finding_with_an_exact_count(tmp_path):
    count = 80
    lines = [f"  {n}: {{by: P{n}, mhz: {470.2 + 0.6 * n:.3f}}}" for n in range(count)]
    (finding,) = reading_of("channels:\n" + "\n".join(lines), tmp_path).findings
    assert finding.code == "intermodulation-many"
    # Totals over the row by the closed form (D2 + D3 less what lands on its own c), plus 3a-2b: v - a = 2 (a - b).
    second = 2 * ((count - 1) ** 2 // 4)
    third = (4 * count**3 - 15 * count**2 + 14 * count) // 12 - sum(min(r - 1, count - r) for r in range(1, count + 1))
    fifth = sum(0 <= 3 * a - 2 * b < count for a in range(count) for b in range(count) if a != b)
    said = int(re.search(r"([0-9,]+) products", finding.text)[1].replace(",", ""))
    assert said == second + third + fifth
    assert f"on {count} of {count} carriers" in finding.text


def test_frequencies_of_one_show_are_sorted_findings(tmp_path):
    text = "channels:\n" + "\n".join(f"  {n}: {{by: P{n}, mhz: 486.200}}" for n in range(1, 5))
    lines = [finding.place.line for finding in reading_of(text, tmp_path).findings]
    assert all(first < second for first, second in pairwise(lines))


def test_more_sweeps_than_a_venue_needs_are_told_and_not_read(tmp_path, monkeypatch):
    from paperwork import limits

    sweep(tmp_path)
    monkeypatch.setattr(limits, "SWEEP_FILES", 2)
    text = "spectrum: {sweeps: [sweep.csv, sweep.csv, lost.csv], own transmitters: off}\nchannels: {1: {mhz: 500.200, by: Ann}}\n"
    assert told(reading_of(text, tmp_path).findings) == ["1 sweeps-many"]


def test_a_wide_carrier_on_two_frequencies_is_printed_as_a_blank(tmp_path):
    from paperwork.reading import blank_doubted

    reading = reading_of(
        "channels:\n  1: {by: Ann, carrier: W, mhz: 514.000}\n  2: {by: Bo, carrier: W, mhz: 515.000}\n", tmp_path
    )
    assert [channel.hz for channel in blank_doubted(reading.show, reading.findings).channels.values()] == [None, None]


def test_a_show_that_is_wrong_all_over_is_answered_and_sent_to_the_search(tmp_path):
    lines = [f"  {n}: {{by: P{n}, mhz: {470.2 + 0.25 * n:.3f}}}" for n in range(300)]
    findings = reading_of("channels:\n" + "\n".join(lines), tmp_path).findings
    near = [finding for finding in findings if finding.code == "neighbour-too-near"]
    told_by_name = [
        finding for finding in near if "is clean for channel" in finding.fix or "no frequency in reach" in finding.fix
    ]
    assert len(near) == 299 and 9 <= len(told_by_name) < 299
    assert all("`paperwork assign --repair`" in finding.fix for finding in near if finding not in told_by_name)


@pytest.mark.parametrize("zones", sorted(set(permutations(("zone: A", "zone: B", "")))))
def test_one_carrier_everywhere_is_found_beside_one_in_each_zone_in_any_order(tmp_path, zones):
    rows = [f"  {at}: {{mhz: 500.000, by: A{at}{', ' * bool(zone)}{zone}}}\n" for at, zone in enumerate(zones, 1)]
    text = f"channels:\n{''.join(rows)}groups: {{A: {{kind: zone}}, B: {{kind: zone}}}}\n"
    everywhere = str(zones.index("") + 1)
    found = [one for one in reading_of(text, tmp_path).findings if one.severity == "error"]
    assert {one.code for one in found} == {"carrier-doubled"} and len(found) == 2
    pairs = {frozenset(subject.id for subject in one.subjects) for one in found}
    assert pairs == {frozenset((everywhere, other)) for other in "123" if other != everywhere}


def test_carriers_that_stay_beside_one_that_moves_are_doubled_too_and_make_no_products(tmp_path):
    """The one without a grant would move for both others, which are on one frequency all the same."""
    granted = "mhz: 500.000, granted: 500.000"
    text = (
        f"channels:\n  1: {{mhz: 500.000, by: Ann}}\n  2: {{{granted}, by: Bo}}\n  3: {{{granted}, by: Cy}}\n"
        "  4: {mhz: 500.400, by: Di}\n  5: {mhz: 500.800, by: Ed}\n"
    )
    codes = [one.code for one in reading_of(text, tmp_path).findings if one.severity == "error"]
    assert codes.count("carrier-doubled") == 3 and "neighbour-too-near" not in codes
    assert codes.count("intermodulation") == 1, "4 lies midway between one of the three and 5"


def test_a_type_that_wants_no_distance_does_not_touch_one_that_states_nothing(tmp_path):
    text = "radios: {a: {apart: 0 kHz}, b: {kind: pack}}\nchannels:\n  1: {mhz: 500.000, radio: a, by: Ann}\n"
    (finding,) = reading_of(text + "  2: {mhz: 500.200, radio: b, by: Bo}\n", tmp_path).findings
    assert finding.code == "neighbour-too-near" and "100 kHz" in finding.text
    assert reading_of(text + "  2: {mhz: 500.200, radio: a, by: Bo}\n", tmp_path).findings == ()


def test_three_channels_on_one_frequency_are_each_found_across_their_zones(tmp_path):
    """Two zones and one everywhere: both pairs with it, and none between the zones."""
    text = (
        "channels: {1: {by: A, mhz: 500.000, zone: hall}, 2: {by: B, mhz: 500.000, zone: field}, "
        "3: {by: C, mhz: 500.000}}\n"
    )
    found = [one for one in reading_of(text, tmp_path).findings if one.code == "carrier-doubled"]
    pairs = [{subject.id for subject in one.subjects} for one in found]
    assert pairs == [{"1", "3"}, {"2", "3"}]
    assert not [one for one in reading_of(text, tmp_path).findings if one.code.startswith("intermodulation")]


@pytest.mark.parametrize(("stated", "default"), (("two-signal", 100), ("three-signal", 100), ("fifth-order", 90)))
def test_what_the_schema_says_of_a_guard_that_is_not_stated_is_what_is_done(stated, default, tmp_path):
    """A carrier of 200 kHz: a product just inside the default is a hit, one on it is none."""
    field = SECTIONS["radios"].fields[f"guard {stated}"]
    assert field.default.startswith(f"{default} kHz for carriers of 200 kHz")
    rows = {
        "two-signal": (500.0, 503.0, 506.0),
        "three-signal": (500.0, 503.0, 507.0, 510.0),
        "fifth-order": (500.0, 503.0, 509.0),
    }
    for khz, is_hit in ((default - 1, True), (default, False)):
        *others, last = rows[stated]
        mhz = [*others, last + khz / 1000]
        text = "channels:\n" + "".join(f"  {n}: {{by: P{n}, mhz: {hz:.6f}}}\n" for n, hz in enumerate(mhz, start=1))
        assert ("intermodulation" in [one.code for one in reading_of(text, tmp_path).findings]) == is_hit, khz


def test_a_type_without_a_distance_beside_one_that_wants_none_keeps_the_usual_one(tmp_path):
    text = (
        "radios: {belt: {tunes: 470-510, apart: 0 kHz}, plain: {tunes: 470-510}}\n"
        "channels: {1: {by: A, radio: belt, mhz: 500.000}, 2: {by: B, radio: plain, mhz: 500.200}}\n"
    )
    assert [one.code for one in reading_of(text, tmp_path).findings] == ["neighbour-too-near"]


def test_a_tv_number_that_the_region_has_not_is_looked_for_in_the_others(tmp_path):
    text = "spectrum: {region: United States, tv: [21, 48]}\nchannels: {1: {by: A, mhz: 500.000}}\n"
    (found,) = [one for one in reading_of(text, tmp_path).findings if one.code == "tv-unknown"]
    assert "channels in Europe" in found.fix and "is region right?" in found.fix


def test_roles_on_one_channel_may_be_parted_by_semicolons(tmp_path):
    show = reading_of("channels: {1: {role: VERA; TOM, mhz: 500.000}}\n", tmp_path).show
    assert show.channels["1"].roles == ("VERA", "TOM")
