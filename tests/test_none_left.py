"""Where it is said that nothing is left, nothing is: held against every frequency, and every placing, tried one by one."""

from dataclasses import replace
from itertools import combinations, product

from hypothesis import example, given, settings
from hypothesis import strategies as st

from paperwork.build import build_show
from paperwork.coordinate import gather_on_air
from paperwork.coordinate.assign import assign_show
from paperwork.coordinate.nearest import find_nearest, want_again
from paperwork.coordinate.survey import survey_show
from paperwork.coordinate.wants import want_of
from paperwork.plan.windows import ranges_of
from paperwork.radio.bands import blocks_on
from paperwork.radio.board.lattice import candidate_frequencies_hz
from paperwork.radio.moves.repair import list_conflicts
from tests.few import few_examples
from tests.shows_text import raw_of

GUARDS = "bandwidth: 100 kHz, apart: 100 kHz, guard two-signal: {g} kHz, guard three-signal: {g} kHz"


@st.composite
def crowded(draw):
    """A window of a few places, almost full: channels with a frequency, with a backup, and without; odd neighbours."""
    places = [f"{500 + place / 5:.3f}" for place in range(1, 8)]
    radio = f"belt: {{tunes: 500-501.6, step: 200 kHz, {GUARDS.format(g=draw(st.sampled_from((20, 90, 150))))}}}"
    given_ones = draw(st.lists(st.sampled_from(places), max_size=4))
    rows = [f"{at}: {{radio: belt, by: Ann, mhz: {hz}}}" for at, hz in enumerate(given_ones, 1)]
    if rows and draw(st.booleans()):
        rows[0] = rows[0].replace("}", f", backup: {draw(st.sampled_from(places))}}}")
    must = st.sampled_from(("", "", ", must: yes"))
    rows += [f"{20 + at}: {{radio: belt, by: Bo{draw(must)}}}" for at in range(draw(st.integers(1, 3)))]
    odd = draw(st.sampled_from((0, 0, 0, 1, 10)))
    others = [f"N{at}: {{kind: neighbour, mhz: 50{1 + at % 3}.{70 + at}037{at}}}" for at in range(odd)]
    clear = draw(st.sampled_from(("", "spectrum: {keep clear: 500.700-501}\n")))
    text = f"{clear}radios: {{{radio}}}\nchannels: {{{', '.join(rows)}}}\n"
    return text + (f"others: {{{', '.join(others)}}}\n" if others else "")


def show_of(text):
    found = build_show(raw_of(text))
    assert found.show is not None, found.findings
    return found.show


def is_clean(on_air, carriers, names):
    """By the arithmetic of the check, which places nothing: no conflict with one of them, and no block under one."""
    if any(names & conflict for conflict in list_conflicts(carriers, on_air.rules)):
        return False
    mine = [one for one in carriers if one.id in names]
    return not any(blocks_on(on_air.air.blocks, one.hz, one.bandwidth_hz) for one in mine)


@settings(max_examples=few_examples(90), deadline=None)
@given(crowded())
def test_no_frequency_in_reach_is_said_only_where_every_one_was_wrong(text):
    on_air = gather_on_air(show_of(text))
    names = [carrier.id for carrier in on_air.carriers if on_air.is_channel(carrier.id)]
    for name, (hz, words) in find_nearest(on_air, names).items():
        clean = [
            place
            for place in candidate_frequencies_hz(want_again(on_air, name))
            if is_clean(on_air, [replace(one, hz=place) if one.id == name else one for one in on_air.carriers], {name})
        ]
        assert hz is None or hz in clean
        assert "no frequency in reach" not in words or not clean
        assert ("beside those offered" in words) <= bool(clean)


def can_place(on_air, wants, count):
    """Whether some placing of so many is clean."""
    for some in combinations(wants, count):
        for places in product(*map(candidate_frequencies_hz, some)):
            placed = [replace(want.carrier, hz=hz) for want, hz in zip(some, places, strict=True)]
            if is_clean(on_air, [*on_air.carriers, *placed], {one.id for one in placed}):
                return True
    return False


BESIDE_A_BACKUP = (
    f"radios: {{belt: {{tunes: 500-501.6, step: 200 kHz, {GUARDS.format(g=20)}}}}}\n"
    "channels: {1: {radio: belt, by: Ann, mhz: 500.200, backup: 500.400}, 20: {radio: belt}, 21: {radio: belt}}\n"
)
"""A channel is on its own frequency or on its backup: two more fit. A search keeps clear of both at once, and finds one."""


@settings(max_examples=few_examples(60), deadline=None)
@example(BESIDE_A_BACKUP)
@given(crowded())
def test_none_is_left_is_said_only_where_no_placing_has_one_more(text):
    show = show_of(text)
    on_air, found = gather_on_air(show), assign_show(show, effort=40)
    without = [one for one in show.channels.values() if one.hz is None]
    wants = [want_of(show, one, ranges_of(show, one)) for one in without]
    if found.missing and found.is_most:
        assert not can_place(on_air, wants, len(found.placed) + 1)
    for one in found.missing:
        if "none is left" in one.reason or "its only frequency" in one.reason:
            assert found.is_most
        if "must have one" in one.reason and "none is left" in one.reason:
            assert all(show.channels[id].must for id in found.placed)


@settings(max_examples=few_examples(60), deadline=None)
@given(crowded())
def test_a_survey_calls_a_count_exact_only_where_one_more_never_fits(text):
    show = show_of(text)
    on_air = gather_on_air(show)
    ((_, fit),) = [(one, one.fits[0]) for one in survey_show(show, [(500_000_000, 501_600_000)])]
    like = next(iter(show.channels.values()))
    want = want_of(show, like, ((500_000_000, 501_600_000),))
    alike = [replace(want, carrier=replace(want.carrier, id=f"x{at}", exclusive="")) for at in range(8)]
    for count, there in (
        (fit.clean, [one for one in on_air.carriers if not on_air.is_channel(one.id)]),
        (fit.more, None),
    ):
        beside = on_air if there is None else replace(on_air, carriers=tuple(there))
        if count.is_exact and count.most < 4:
            assert not can_place(beside, alike[: count.most + 1], count.most + 1)
        assert count.least > 3 or can_place(beside, alike[: count.least], count.least)
