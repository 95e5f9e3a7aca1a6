"""Frequencies taken one after the other on one board are those that a board for each would give."""

from dataclasses import replace

from hypothesis import given, settings
from hypothesis import strategies as st

from paperwork.build import build_show
from paperwork.coordinate import gather_on_air
from paperwork.coordinate.air import block_refused
from paperwork.coordinate.nearest import take_openings, want_again
from tests.broken_plans import crowded_show
from tests.clean_places import find_clean_hz
from tests.few import few_examples
from tests.shows_text import raw_of


def list_clean(on_air, name):
    """The frequencies that are clean for a carrier beside all others, on a board of its own."""
    blocks = (*on_air.air.blocks, *block_refused(on_air.show))
    return list(find_clean_hz(want_again(on_air, name), on_air.carriers, blocks, on_air.rules))


@settings(max_examples=few_examples(15), deadline=None)
@given(st.integers(0, 10_000), st.integers(0, 100))
def test_what_is_taken_on_one_board_is_what_a_board_for_each_would_give(seed, share):
    on_air = gather_on_air(build_show(raw_of(crowded_show(seed))).show)
    names = [carrier.id for carrier in on_air.carriers]

    def take(name, clean):
        return clean[len(clean) * share // 101] if clean and int(name[-1]) % 3 else None

    found = take_openings(on_air, names, take)
    for name in names:
        hz = take(name, list_clean(on_air, name))
        assert found.get(name) == hz
        if hz is not None:
            carrier = next(one for one in on_air.carriers if one.id == name)
            on_air = replace(on_air, carriers=(*on_air.carriers, replace(carrier, id=f"{name} taken", hz=hz)))
