"""A small show in parts is planned as well as it can be: those that must, then the number, then the worst margin of all."""

from dataclasses import replace
from itertools import product

from hypothesis import given, settings
from hypothesis import strategies as st

from paperwork.coordinate import gather_on_air
from paperwork.coordinate.assign import assign_show
from paperwork.coordinate.wants import want_of
from paperwork.plan.windows import ranges_of
from paperwork.radio.board.lattice import candidate_frequencies_hz
from tests.few import few_examples
from tests.radio.test_proofs import least_to_spare
from tests.test_none_left import show_of

FAR = 10**12


@st.composite
def parted(draw):
    """Up to four channels without a frequency on two stages and everywhere, beside one that has one."""
    guard, width = draw(st.sampled_from((20, 90, 150))), draw(st.integers(5, 7))
    belt = f"tunes: 500-{500 + width / 5:.1f}, step: 200 kHz, bandwidth: 100 kHz, apart: {draw(st.sampled_from((50, 100)))} kHz"
    radio = f"belt: {{{belt}, guard two-signal: {guard} kHz, guard three-signal: {guard} kHz}}"
    zone = st.sampled_from(("", ", zone: Field", ", zone: Hall"))
    rows = [f"1: {{radio: belt, by: Ann, mhz: 500.{draw(st.sampled_from((2, 4, 7)))}00{draw(zone)}}}"]
    must = st.sampled_from(("", "", ", must: yes"))
    rows += [f"{20 + at}: {{radio: belt, by: Bo{draw(zone)}{draw(must)}}}" for at in range(draw(st.integers(2, 4)))]
    zones = "groups: {Field: {kind: zone}, Hall: {kind: zone}}\n"
    return f"{zones}radios: {{{radio}}}\nchannels: {{{', '.join(rows)}}}\n"


def rate(on_air, wants, must, placed):
    """How good a plan is: of those that must, of all, and the least that anybody has to spare."""
    carriers = [replace(want.carrier, hz=hz) for want, hz in zip(wants, placed, strict=True) if hz is not None]
    spare = least_to_spare(on_air.carriers, carriers, on_air.rules)
    return sum(one.id in must for one in carriers), len(carriers), FAR if spare is None else spare


def best_of_all(on_air, wants, must):
    plans = product(*([None, *candidate_frequencies_hz(want)] for want in wants))
    return max(found for plan in plans if (found := rate(on_air, wants, must, plan))[2] >= 0)


@settings(max_examples=few_examples(45), deadline=None)
@given(parted())
def test_of_all_plans_of_a_small_show_none_is_better_than_the_one_that_is_given(text):
    show = show_of(text)
    on_air, found = gather_on_air(show), assign_show(show)
    asked = [one for one in show.channels.values() if one.hz is None]
    wants = [want_of(show, one, ranges_of(show, one)) for one in asked]
    must = {want.carrier.id for want, one in zip(wants, asked, strict=True) if one.must}
    given_one = rate(on_air, wants, must, [found.placed.get(one.id) for one in asked])
    assert given_one == best_of_all(on_air, wants, must)
    assert (found.margin_hz if found.placed and found.margin_hz is not None else FAR) == given_one[2]
