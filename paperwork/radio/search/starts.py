"""Good places to begin: sets of the algebraic constructions laid over the places that are allowed.

A set whose differences all differ, each mark a guard's width from the next unit, has no third-order hit.
Laid over a window with holes, turned and multiplied in every way, it loses only what falls in the holes.
"""

from math import isqrt

from paperwork.radio.search.lattice import bits_of, positions_of
from paperwork.radio.search.rulers import find_ruler, iterate_cuts, modular_sets

# Turning a set by every residue is worth its time in short spans only.
_TURNS = 600
_RULER_SPAN = 700
_KEPT = 12


def list_starts(allowed: int, stride: int, unit: int, least_gap: int) -> list[list[int]]:
    """Up to `_KEPT` lists of allowed places, the fullest first.

    `stride`: lattice places between neighbouring candidates. `unit`: lattice places a mark must stand for,
    so that unequal sums differ by the guard. `least_gap`: lattice places between neighbours.
    """
    unit = -(-unit // stride) * stride
    places = positions_of(allowed)
    if not places:
        return []
    found: list[tuple[int, list[int]]] = []
    for offset in range(0, unit, max(stride, unit // 2 // stride * stride)):
        first = places[0] + offset
        marks = [(place - first) // unit for place in places if place >= first and (place - first) % unit == 0]
        if not marks:
            continue
        if marks[-1] <= _RULER_SPAN and len(marks) == marks[-1] + 1:
            chosen = [list(find_ruler(marks[-1], -(-least_gap // unit)))]
        else:
            chosen = _lay_over(bits_of(marks), marks[-1] + 1)
        found.extend((len(some), [first + mark * unit for mark in some]) for some in chosen)
    found.sort(key=lambda item: -item[0])
    return [some for _, some in found[:_KEPT]]


def _lay_over(allowed: int, span: int) -> list[list[int]]:
    size = isqrt(min(span, allowed.bit_count() * 2)) + 2
    found: list[tuple[int, int]] = []
    for residues, modulus in modular_sets(max(2, size - 3), size + 6):
        whole = (1 << modulus) - 1
        for cut in iterate_cuts(residues, modulus):
            bits = bits_of(cut)
            for turn in range(0, modulus, max(1, modulus * 20 // _TURNS)):
                marks = bits >> turn & whole & allowed
                found.append((marks.bit_count(), marks))
            if len(found) > 5000:
                found = sorted(found, reverse=True)[:_KEPT]
    return [positions_of(marks) for _, marks in sorted(found, reverse=True)[:_KEPT]]
