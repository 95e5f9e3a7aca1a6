"""What no field bounds by itself: groups wherever they are named, and one section by another. Each is read in steps in
proportion to what it stands for, or refused at its place."""

import tracemalloc

import pytest

from paperwork import limits
from tests.shows_text import reading_of
from tests.test_field_bounds import count_steps

ROLES = "".join(f"  R{n}: {{by: P{n}}}\n" for n in range(10))
GROUP = f"roles:\n{ROLES}  ALL: {{group: [{', '.join(f'R{n}' for n in range(10))}]}}\n"


def rows(section: str, count: int, row: str) -> str:
    return f"{section}:\n" + "".join(f"  {row.format(n=n, next=n + 1)}\n" for n in range(1, count + 1))


OWN = rows("channels", 9, "{n}: {{role: R{n}}}")
NAMED = {
    "channels": lambda count: GROUP + rows("channels", count, "{n}: {{role: ALL}}"),
    "moves": lambda count: (
        f"{GROUP}{OWN}scenes: {{s: {{live: ALL}}}}\n{rows('moves', count, '{n}: {{role: ALL, scene: s}}')}"
    ),
    "covers": lambda count: f"{GROUP}{OWN}{rows('covers', count, '{n}: {{role: ALL, by: Ann}}')}",
    "roles": lambda count: GROUP + "".join(f"  G{n}: {{group: ALL}}\n" for n in range(count)) + OWN,
    "a role of several": lambda count: (
        f"{GROUP}{OWN}scenes: {{s: {{live: ALL}}}}\nmoves: "
        f"{{1: {{role: {' and '.join(['R1', 'R2'] * (5 * count))}, scene: s}}}}\n"
    ),
    "a role of several, with blanks": lambda count: (
        f"{GROUP}{OWN}scenes: {{s: {{live: ALL}}}}\nmoves: "
        f"{{1: {{role: {' '.join(['R1', 'R2'] * (5 * count))}, scene: s}}}}\n"
    ),
    "roles of a channel": lambda count: (
        GROUP + f"channels: {{1: {{role: {' & '.join(['R1', 'R2'] * (5 * count))}}}}}\n"
    ),
    "pairs": lambda count: GROUP + f"channels: {{1: {{shared: '{', '.join(['R1: P1'] * (10 * count))}'}}}}\n",
}
"""Where a group of ten is named so many times, or so many times ten names are."""


@pytest.mark.parametrize("way", NAMED)
def test_what_is_named_counts_wherever_it_is(way, tmp_path, monkeypatch):
    monkeypatch.setattr(limits, "ITEMS", 400)
    within = reading_of(NAMED[way](18), tmp_path).findings
    assert "items-many" not in {one.code for one in within}
    (beyond,) = reading_of(NAMED[way](42), tmp_path).findings
    assert beyond.code == "items-many" and beyond.place.line > 1


def test_groups_are_live_up_to_the_cells_of_the_grid(tmp_path, monkeypatch):
    monkeypatch.setattr(limits, "GRID_CELLS", 120)
    for count, is_refused in ((10, False), (13, True)):
        text = (
            GROUP.replace(ROLES, ROLES[: len(ROLES) // 10 * 8])
            + OWN.split("  9")[0]
            + rows("scenes", count, "{n}: {{live: 'ALL'}}")
        )
        assert ("items-many" in {one.code for one in reading_of(text, tmp_path).findings}) == is_refused


def test_roles_that_alternate_have_room_for_as_many_performances_as_a_grid_has(tmp_path, monkeypatch):
    monkeypatch.setattr(limits, "GRID_CELLS", 60)
    for count, is_refused in ((6, False), (7, True)):
        alternates = GROUP.replace("{by: P", "{alternates: Q, by: P")
        text = f"{alternates}{OWN}{rows('performances', count, 'p{n}: {{curtain: 19:30}}')}"
        assert ("grid-large" in {one.code for one in reading_of(text, tmp_path).findings}) == is_refused


STEPS = {
    "every channel in one slot": lambda count: (
        rows("channels", count, "{n}: {{slot: R.1}}") + "racks: {R: {slots: 9}}\n"
    ),
    "racks and desks": lambda count: (
        "channels: {1: {}}\n"
        + rows("racks", count, "R{n}: {{slots: 1, digital 1: C{n} 1, rate: 48 kHz, clock: own}}")
        + rows("consoles", count, "C{n}: {{inputs: 2, rate: 96 kHz}}")
    ),
    "one role on every channel": lambda count: rows("channels", count, "{n}: {{role: A, by: Ann}}"),
    "names of two words": lambda count: (
        "roles:\n"
        + "".join(f"  OLD R{n}: {{by: P{n}}}\n" for n in range(count))
        + "channels: {1: {role: OLD R1}}\nscenes: {s: {live: '"
        + " & ".join(f"OLD R{n}" for n in range(count))
        + "'}}\n"
    ),
    "antenna parts": lambda count: (
        "channels: {1: {}}\nracks: {R: {channels: 1}}\n"
        + rows("antennas", count, "A{n}: {{feeds: 'A{next}, R'}}").replace(f"A{count + 1}", "R")
    ),
}
"""Shows that grow in one way."""


@pytest.mark.parametrize("way", STEPS)
def test_it_is_read_in_steps_in_proportion(way, tmp_path):
    reading_of(STEPS[way](1), tmp_path)  # what is loaded once
    steps = [count_steps(lambda count=count: reading_of(STEPS[way](count), tmp_path)) for count in (30, 60, 240)]
    assert steps[2] - steps[1] < 10 * (steps[1] - steps[0]) + 2_000, steps


def test_one_body_in_scenes_that_all_overlap_is_looked_at_once(tmp_path):
    def steps(count: int) -> int:
        text = "channels: {1: {role: A, by: Ann}}\n" + rows("scenes", count, "{n}: {{live: A, at: 0:01, until: 9:00}}")
        return count_steps(lambda: reading_of(text, tmp_path))

    counted = [steps(count) for count in (1, 50, 100)]
    assert counted[2] - counted[1] < 3 * (counted[1] - counted[0]), counted


def overlapping_sessions(count: int, length: int) -> str:
    """Sessions of a day that begin a minute after each other, each with a carrier of its own in a row of equal steps."""
    clock = [f"{9 + at // 60}:{at % 60:02}" for at in range(count + length)]
    scenes = "".join(
        f'  s{n}: {{name: Session {n}, at: "{clock[n]}", until: "{clock[n + length]}"}}\n' for n in range(count)
    )
    channels = "".join(f"  {n + 1}: {{by: P{n}, mhz: {470 + n * 0.025:.3f}, bill: s{n}}}\n" for n in range(count))
    return f"day: {{times: clock}}\nscenes:\n{scenes}channels:\n{channels}"


@pytest.mark.parametrize("length", [1, 20, 400], ids=["one after the other", "twenty at a time", "all at one moment"])
def test_sessions_that_overlap_take_steps_and_memory_in_proportion(length, tmp_path, monkeypatch):
    """What all meet at one moment is one family; what is scattered over the day is not counted, and looked at coarsely."""
    monkeypatch.setattr("paperwork.coordinate.carriers.HITS_LISTED", 500)
    monkeypatch.setattr("paperwork.coordinate.carriers.PAIRS_LISTED", 500)
    monkeypatch.setattr(limits, "CARRIERS_SCATTERED", 30)
    monkeypatch.setattr("paperwork.radio.board.coarse.MOST_EQUATIONS", 2_000)
    reading_of(overlapping_sessions(40, length), tmp_path)
    steps = [count_steps(lambda n=n: reading_of(overlapping_sessions(n, length), tmp_path)) for n in (40, 80, 160)]
    assert steps[2] - steps[1] < 8 * max(steps[1] - steps[0], steps[0]), steps
    tracemalloc.start()
    try:
        reading_of(overlapping_sessions(160, length), tmp_path)
        assert tracemalloc.get_traced_memory()[1] < 100_000_000
    finally:
        tracemalloc.stop()
