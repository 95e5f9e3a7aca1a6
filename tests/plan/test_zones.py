"""Zones whose walls let something through: who meets whom, held against every pair, and shows without it as before."""

from itertools import combinations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from paperwork.coordinate.carriers import carrier_of
from paperwork.model import Channel, Group, RadioType, Show, Spectrum
from paperwork.model.facts import fingerprint_show
from paperwork.plan.day.zones import ZONES_APART_CDB, place_of
from paperwork.radio.carrier import are_together
from tests.few import few_examples
from tests.shows_text import reading_of


def build(attenuations, bills, wanted=None, powers=("", "")):
    groups = {f"Z{n}": Group(f"Z{n}", "zone", attenuation_cdb=cdb) for n, cdb in enumerate(attenuations)}
    groups |= {
        "red": Group("red", "bill", from_s=0, until_s=3600),
        "blue": Group("blue", "bill", from_s=3600, until_s=7200),
    }
    zones = (*groups.keys() - {"red", "blue"}, "")
    channels = [
        Channel(f"{number}", zone=zone, bill=bill, hz=500_000_000)
        for number, (zone, bill) in enumerate((zone, bill) for zone in sorted(zones) for bill in bills)
    ]
    radios = {name: RadioType(name, power=power) for name, power in zip("ab", powers, strict=True)}
    channels += [Channel(name, radio=name, hz=600_000_000) for name in radios]
    return Show(
        groups=groups,
        radios=radios,
        channels={one.id: one for one in channels},
        spectrum=Spectrum(zones_apart_cdb=wanted),
    )


@given(
    st.lists(st.one_of(st.none(), st.integers(500, 7_000)), min_size=1, max_size=5),
    st.sampled_from((None, 3_000, 9_000)),
    st.sampled_from(((),)) | st.sampled_from((((), ("red",), ("blue",), ("red", "blue")),)),
)
@settings(max_examples=few_examples(40), deadline=None)
def test_two_carriers_meet_if_their_walls_let_enough_through_and_their_times_meet(attenuations, wanted, bills):
    show = build(attenuations, bills or ((),), wanted)
    enough = ZONES_APART_CDB if wanted is None else wanted
    for one, two in combinations(show.channels.values(), 2):
        cdb = [show.groups[channel.zone].attenuation_cdb if channel.zone else 0 for channel in (one, two)]
        is_through = set(cdb) != {None} and sum(one or 0 for one in cdb) < enough
        is_near = one.zone in ("", two.zone) or two.zone == "" or is_through
        is_now = not one.bill or not two.bill or bool(set(one.bill) & set(two.bill))
        assert are_together([carrier_of(show, channel, 1) for channel in (one, two)]) == (is_near and is_now)


@pytest.mark.parametrize(("cdb", "are_near"), [(3_000, True), (5_999, True), (6_000, False), (None, False)])
def test_a_wall_of_which_nothing_is_stated_hides_no_clash(cdb, are_near):
    """One zone lets 30 dB through, of the other nothing is known: they meet, where both state none they do not."""
    show = build((cdb, None), ((),))
    assert are_together([carrier_of(show, show.channels[id], 1) for id in ("1", "2")]) == are_near


def test_of_more_zones_than_can_be_kept_apart_none_that_meet_is_lost(monkeypatch):
    monkeypatch.setattr("paperwork.plan.day.zones.MOST_PAIRS", 0)
    show = build((3_000, None, None, 7_000), ((),))
    one, two, three, four = (carrier_of(show, show.channels[id], 1) for id in "1234")
    assert are_together((one, two)) and are_together((one, three)) and not are_together((two, four))


def test_three_meet_where_each_pair_does():
    """A product needs all of its carriers: two quiet rooms reach each other, a third one reaches the quieter alone."""
    show = build((1_000, 2_500, 4_500), ((),))
    quiet, middle, thick = (carrier_of(show, show.channels[id], 1) for id in ("1", "2", "3"))
    assert [one.id for one in (quiet, middle, thick)] == ["channel 1", "channel 2", "channel 3"]
    assert are_together((quiet, middle)) and are_together((quiet, thick)) and not are_together((middle, thick))
    assert not are_together((quiet, middle, thick))


@pytest.mark.parametrize(
    ("powers", "are_near"), ((("10 mW", "10 mW"), False), (("10 mW", "100 mW"), True), (("high", "?"), False))
)
def test_a_stronger_transmitter_reaches_farther(powers, are_near):
    """Ten times the power are 10 dB: 65 dB of walls are 55 dB then."""
    show = build((3_000, 3_500), ((),), powers=powers)
    assert are_together([carrier_of(show, show.channels[id], 1) for id in ("1", "2")]) == are_near


def test_without_a_stated_attenuation_nothing_is_other_than_before():
    show = build((None, None), ((), ("red",)))
    assert place_of(show, "Z1", ()) == ("Z1", frozenset())
    assert place_of(show, "", ("red",))[0] == ""


def test_what_is_stated_is_read_counts_as_a_fact_and_is_found_when_it_is_none(tmp_path):
    text = "groups: {hall: {kind: zone}, barn: {kind: zone}}\nchannels: {1: {by: A, mhz: 500.000, zone: hall}, 2: {by: B, mhz: 500.000, zone: barn}}\n"
    thin = text.replace("hall: {kind: zone}", "hall: {kind: zone, attenuation: 20 dB}").replace(
        "barn: {kind: zone}", "barn: {kind: zone, attenuation: 37.5 dB}"
    )
    plain, near = (reading_of(one, tmp_path) for one in (text, thin))
    assert not plain.findings and [one.code for one in near.findings] == ["carrier-doubled"]
    assert near.show.groups["barn"].attenuation_cdb == 3_750
    assert fingerprint_show(plain.show) != fingerprint_show(near.show)
    far = thin + "spectrum: {zones apart: 55 dB}\n"
    assert not reading_of(far, tmp_path).findings
    assert [one.code for one in reading_of(thin.replace("20 dB", "thick"), tmp_path).findings][:1] == [
        "value-unreadable"
    ]
