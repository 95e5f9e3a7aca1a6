"""Independent twins, published figures and strategies for the radio tests."""

from collections.abc import Iterator, Sequence
from functools import cache
from itertools import combinations, permutations
from pathlib import Path
from typing import Any

import yaml
from hypothesis import strategies as st

from paperwork.radio.carrier import FIFTH2, FIFTH3, THIRD2, THIRD3, Carrier, Rules
from paperwork.radio.products.forms import Form, product_hz

BASE_HZ = 500_000_000
RASTER_HZ = 25_000
PRODUCT_KINDS = (THIRD2, THIRD3, FIFTH2, FIFTH3)
FIGURES = Path(__file__).parents[1] / "data" / "radio_check_values.yaml"

# One raster step of guard and no width: the integer theory.
STEP_RULES = Rules(kinds=("third2", "third3"), guards={("", kind): 1 for kind in PRODUCT_KINDS}, apart_hz=0)


@cache
def figures() -> dict[str, Any]:
    """The published figures."""
    return yaml.safe_load(FIGURES.read_text(encoding="utf-8"))


def on_channels(channels: Sequence[int], bandwidth_hz: int = RASTER_HZ) -> list[Carrier]:
    """Carriers on these channel numbers, named after them."""
    return [Carrier(str(number), BASE_HZ + number * RASTER_HZ, bandwidth_hz) for number in channels]


def radiate_together(carriers: Sequence[Carrier]) -> bool:
    """Said again in other words: no two in a group, no two in unlike zones, one time common to all."""
    for one, two in combinations(carriers, 2):
        if one.exclusive and one.exclusive == two.exclusive:
            return False
        if one.zone and two.zone and one.zone != two.zone:
            return False
    timed = [carrier.times for carrier in carriers if carrier.times]
    return not timed or any(all(moment in times for times in timed) for moment in timed[0])


def brute_hits(carriers: Sequence[Carrier], rules: Rules) -> list[tuple[str, tuple[str, ...], str]]:
    """(kind, makers, victim) of every hit, by making every product of every choice of makers and comparing it
    with every carrier. Only for rules whose guards are all set and carriers that are narrow."""
    makes = [c for c in carriers if c.makes or rules.close_quarters]
    products = []
    for a, b in permutations(makes, 2):
        products.append(("third2", (a, b), 2 * a.hz - b.hz))
        products.append(("fifth2", (a, b), 3 * a.hz - 2 * b.hz))
    for a, b, c in permutations(makes, 3):
        if a.id < b.id:
            products.append(("third3", (a, b, c), a.hz + b.hz - c.hz))
        if b.id < c.id:
            products.append(("fifth3", (a, b, c), 3 * a.hz - b.hz - c.hz))
        products.append(("fifth3", (a, b, c), 2 * a.hz + b.hz - 2 * c.hz))
    found = []
    for kind, makers, hz in products:
        if kind not in rules.kinds:
            continue
        for victim in carriers:
            own = kind == "third3" and victim is makers[2]
            if (victim in makers and not own) or not victim.listens:
                continue
            guard = rules.guards[victim.kind, kind]
            if guard and abs(hz - victim.hz) < guard + rules.extra_hz and radiate_together({*makers, victim}):
                found.append((kind, tuple(maker.id for maker in makers), victim.id))
    return sorted(found)


def canonical(kind: str, text: str, makers: tuple[str, ...], victim: str) -> tuple[str, tuple[str, ...], str]:
    """A hit with makers that may be swapped in order of their names."""
    if text == "a+b-c":
        makers = (*sorted(makers[:2]), makers[2])
    if text == "3a-b-c":
        makers = (makers[0], *sorted(makers[1:]))
    return kind, makers, victim


@st.composite
def rules_with_all_guards(draw: st.DrawFn) -> Rules:
    """Rules with a guard for each kind and each of the types "" and "x"; some guards are off."""
    guards = {
        (kind, product): draw(st.sampled_from([0, 1, 25_000, 50_001, 110_000]))
        for kind in ("", "x")
        for product in PRODUCT_KINDS
    }
    kinds = tuple(kind for kind in PRODUCT_KINDS if draw(st.booleans()))
    return Rules(
        kinds=kinds, guards=guards, close_quarters=draw(st.booleans()), extra_hz=draw(st.sampled_from([0, 0, 7_000]))
    )


@st.composite
def carrier_sets(draw: st.DrawFn, most: int = 8, raster_hz: int | None = None) -> list[Carrier]:
    """Up to `most` carriers of two types, with exclusive groups, zones and times, on a raster or off it."""
    raster = raster_hz or draw(st.sampled_from([25_000, 12_500, 137]))
    settings = draw(st.booleans())
    groups = st.sampled_from(["", "", "g", "h"]) if settings else st.just("")
    zones = st.sampled_from(["", "", "north", "south"]) if settings else st.just("")
    moments = st.sampled_from([frozenset(), frozenset(), frozenset("ab"), frozenset("bc"), frozenset("ca")])
    times = moments if settings else st.just(frozenset())
    return [
        Carrier(
            f"c{number}",
            BASE_HZ + raster * draw(st.integers(0, 60)),
            200_000,
            draw(st.sampled_from(["", "x"])),
            draw(st.sampled_from([True, True, False])),
            draw(st.sampled_from([True, True, True, False])),
            draw(groups),
            draw(zones),
            draw(times),
        )
        for number in range(draw(st.integers(0, most)))
    ]


def iterate_products(form: Form, carriers: Sequence[Carrier]) -> Iterator[tuple[int, tuple[Carrier, ...]]]:
    """Every product of the form with where it lands, hit or not, whatever the types."""
    for slots in permutations(range(len(carriers)), len(form.weights)):
        if not form.alike or slots[form.alike[0]] < slots[form.alike[1]]:
            makers = tuple(carriers[i] for i in slots)
            yield product_hz(form, makers), makers


def is_ruler(marks: Sequence[int]) -> bool:
    """Whether all differences differ."""
    differences = [upper - lower for i, lower in enumerate(marks) for upper in marks[i + 1 :]]
    return len(set(differences)) == len(differences)
