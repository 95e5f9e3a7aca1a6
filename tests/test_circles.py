"""Records that refer to themselves, round every reference that there is: each ends at once, and what is wrong is said."""

import pytest

from paperwork import limits
from paperwork.model.fields import list_references
from paperwork.model.row import Field
from paperwork.reading import Reading
from paperwork.sheets import SHEETS
from tests.shows_text import reading_of
from tests.test_field_bounds import count_steps

OWN = sorted((section, field.name) for section, field, to in list_references() if section == to)

MEANT = {
    ("racks", "clock", 1): "a device that follows itself leads",
    ("consoles", "clock", 1): "a device that follows itself leads",
    ("channels", "backs", 2): "each is a spare of the other: whichever fails",
    ("channels", "backs", 3): "the same",
    ("channels", "backs", 300): "the same",
    ("channels", "alternate", 2): "two that share one desk input name each other",
    ("channels", "alternate", 3): "so do three",
    ("channels", "alternate", 300): "and as many as there are",
}
"""Circles of so many records that are no mistake, and why."""


def circle(section: str, field: str, count: int) -> str:
    """A show in which each record refers to the next one, and the last to the first."""
    rows = "".join(f"  X{n:03d}: {{{field}: X{(n + 1) % count:03d}}}\n" for n in range(count))
    return f"{section}:\n{rows}" + ("" if section == "channels" else "channels: {1: {by: Ann}}\n")


def read(section: str, field: str, count: int, tmp_path) -> Reading:
    return reading_of(circle(section, field, count), tmp_path)


def test_there_are_such_references():
    assert {("roles", "group"), ("channels", "doubles"), ("antennas", "feeds"), ("radios", "like")} < set(OWN)
    assert {(section, field) for section, field, _ in MEANT} < set(OWN)


@pytest.mark.parametrize("count", (1, 2, 3, 300))
@pytest.mark.parametrize(("section", "field"), OWN)
def test_a_circle_is_an_error_at_one_of_its_lines_or_means_something(section, field, count, tmp_path):
    found = read(section, field, count, tmp_path).findings
    if (section, field, count) in MEANT:
        assert found == ()
        return
    assert found and all(one.severity == "error" for one in found)
    assert all(1 < one.place.line <= count + 1 and one.fix for one in found)


@pytest.mark.parametrize(("section", "field"), OWN)
def test_a_chain_that_leads_into_a_circle_ends_too(section, field, tmp_path):
    lead = f"  A: {{{field}: B}}\n  B: {{{field}: X000}}\n"
    text = circle(section, field, 3).replace(f"{section}:\n", f"{section}:\n{lead}", 1)
    found = reading_of(text, tmp_path).findings
    assert all(one.place.line for one in found) and (found or (section, field, 3) in MEANT)


def lattice(section: str, field: str, layers: int) -> str:
    """A show in which two records refer to both of the next two, and so on: each layer doubles the ways through it."""
    refers = [f"{{{field}: 'X{n + 1}a, X{n + 1}b'}}" for n in range(layers - 1)] + ["{}"]
    rows = "".join(f"  X{n}{side}: {refer}\n" for n, refer in enumerate(refers) for side in "ab")
    return f"{section}:\n{rows}" + ("" if section == "channels" else "channels: {1: {by: Ann}}\n")


def chain(section: str, field: str, count: int) -> str:
    """A show in which each record refers to the next one, and the last to none."""
    return circle(section, field, count).replace(f"X{count - 1:03d}: {{{field}: X000}}", f"X{count - 1:03d}: {{}}")


def make_sheets(text: str, tmp_path) -> int:
    """The steps that reading takes, and every sheet where there is a show."""

    def act() -> None:
        show = reading_of(text, tmp_path).show
        for paper in SHEETS if show is not None else ():
            paper.make(show)

    return count_steps(act)


@pytest.mark.parametrize(("section", "field"), OWN)
def test_ways_that_part_and_meet_again_are_each_followed_once(section, field, tmp_path):
    """Sixteen layers of a text that lists others have 65,536 ways through them; what takes one reference has one."""
    make_sheets(lattice(section, field, 2), tmp_path)  # what is loaded once
    steps = [make_sheets(lattice(section, field, layers), tmp_path) for layers in (4, 8, 16)]
    assert steps[2] - steps[1] < 4 * (steps[1] - steps[0]) + 2_000, steps


@pytest.mark.parametrize(("section", "field"), OWN)
def test_a_chain_as_long_as_a_section_ends(section, field, tmp_path):
    """Whatever is said of it, it is said: no chain is followed deeper than Python goes, and none without end."""
    found = reading_of(chain(section, field, limits.RECORDS), tmp_path).findings
    assert all(one.place.line or one.code == "findings-many" for one in found)


@pytest.mark.parametrize(("section", "field"), OWN)
def test_papers_of_a_long_chain_and_of_a_long_circle_are_made(section, field, tmp_path):
    for text in (chain(section, field, 1_200), circle(section, field, 1_200)):
        make_sheets(text, tmp_path)


def list_rounds() -> list[tuple[tuple[str, Field], ...]]:
    """Every way through the references of the table from a section through others and back, each section once."""
    found, ways = [], [((section, field), (to,)) for section, field, to in list_references() if section != to]
    ways = [([step], to) for step, to in ways]
    while ways:
        steps, (*_, at) = ways.pop()
        for section, field, to in list_references():
            if section != at or section == to:
                continue
            if to == steps[0][0] and to == min(one for one, _ in [*steps, (section, field)]):
                found.append((*steps, (section, field)))
            elif to not in {one for one, _ in steps}:
                ways.append(([*steps, (section, field)], (to,)))
    return found


ROUNDS = list_rounds()

BETWEEN = {
    ("slot", "channels"): "a channel in a slot, and the rack that lists it there, say one thing",
    ("clock", "output"): "sound goes one way and the clock the other",
}
"""Rounds between two sections that are no mistake, and why: what a reference says twice, or says of two things."""


def show_round(steps, count: int = 1) -> str:
    """A show in which a record of each section refers to one of the next, and the last to the first, `count` times round."""
    lines: dict[str, list[str]] = {}
    for turn in range(count):
        for place, (section, field) in enumerate(steps):
            following = steps[(place + 1) % len(steps)][0]
            number = turn if place + 1 < len(steps) else (turn + 1) % count
            target = f"{following[0].upper()}{number}"
            value = {"slot": f"{target}.1", "output": f"{target} 1"}.get(field.kind.reads or field.kind.shape, target)
            inputs = "inputs: 4, " if section == "consoles" else ""
            lines.setdefault(section, []).append(f"  {section[0].upper()}{turn}: {{{inputs}{field.name}: {value}}}\n")
    rows = "".join(f"{section}:\n{''.join(records)}" for section, records in lines.items())
    return rows if "channels" in lines else rows + "channels: {1: {by: Ann}}\n"


def name_round(steps) -> str:
    return "-".join(f"{section}.{field.name}" for section, field in steps)


def is_meant(steps) -> bool:
    ways = {field.kind.shape if field.kind.shape == "output" else field.name for _, field in steps}
    return any(ways == set(names) for names in BETWEEN)


def test_there_are_rounds_between_sections():
    named = set(map(name_round, ROUNDS))
    assert {"channels.slot-racks.channels", "consoles.clock-racks.clock"} <= named
    assert any(map(is_meant, ROUNDS)) and not all(map(is_meant, ROUNDS))


@pytest.mark.parametrize("count", (1, 2, 150))
@pytest.mark.parametrize("steps", ROUNDS, ids=name_round)
def test_a_round_between_sections_is_an_error_at_one_of_its_lines_or_means_something(steps, count, tmp_path):
    found = reading_of(show_round(steps, count), tmp_path).findings
    circles = [one for one in found if "circle" in one.code or "round" in one.code or "loop" in one.code]
    assert bool(circles) != is_meant(steps), [one.text for one in found]
    assert all(one.severity == "error" and one.place.line and one.fix for one in circles)
