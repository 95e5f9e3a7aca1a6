"""Golomb rulers: channel numbers whose differences all differ, so that no third-order product hits.

Three algebraic constructions give a set modulo m whose differences all differ even modulo m; multiplied by
a unit, turned and cut, each yields many rulers. Short rulers are found by exhaustion.

- J. Singer, A theorem in finite projective geometry and some applications to number theory, Transactions
  of the American Mathematical Society 43, 1938: q+1 marks modulo q^2+q+1, q a power of a prime.
- R. C. Bose, An affine analogue of Singer's theorem, Journal of the Indian Mathematical Society 6, 1942:
  q marks modulo q^2-1, q a power of a prime (with S. Chowla in 1962 for more than two summands).
- I. Z. Ruzsa, Solving a linear equation in a set of integers I, Acta Arithmetica 65, 1993: p-1 marks
  modulo p(p-1).

References and statements from memory; the tests check every ruler by its differences.
"""

from collections.abc import Iterator
from functools import cache, reduce
from itertools import pairwise
from math import gcd, isqrt
from operator import or_

# Up to this length the shortest ruler is searched for outright: 11 marks need 72 (OEIS A003022).
EXHAUSTIVE_LENGTH = 72

# Lengths of the shortest rulers of 1, 2, 3... marks, OEIS A003022 (repository oeis/oeisdata).
SHORTEST_LENGTHS = (
    0, 1, 3, 6, 11, 17, 25, 34, 44, 55, 72, 85, 106, 127, 151, 177, 199, 216, 246, 283,
    333, 356, 372, 425, 480, 492, 553, 585,
)  # fmt: skip

Ruler = tuple[int, ...]


@cache
def prime_factors(number: int) -> tuple[int, ...]:
    """The different primes that divide a number, found by dividing them out."""
    found, left, divisor = [], number, 2
    while divisor * divisor <= left:
        if left % divisor == 0:
            found.append(divisor)
            while left % divisor == 0:
                left //= divisor
        divisor += 1
    return tuple(found + [left] if left > 1 else found)


@cache
def ruzsa_set(p: int) -> tuple[Ruler, int]:
    """p-1 residues and their modulus p(p-1), for a prime p."""
    root = next(g for g in range(1, p) if all(pow(g, (p - 1) // f, p) != 1 for f in prime_factors(p - 1)))
    modulus = p * (p - 1)
    return tuple(sorted((p * i + (p - 1) * pow(root, i, p)) % modulus for i in range(1, p))), modulus


@cache
def bose_set(q: int) -> tuple[Ruler, int]:
    """q residues and their modulus q^2-1, for a power q of a prime: the logarithms of x + a, for all a of the field of
    q elements, to the base of a primitive element x of the field of q^2."""
    modulus = q * q - 1
    return tuple(i for i, power in enumerate(_powers_of_x(q, 2, modulus)) if power[1] == 1), modulus


@cache
def singer_set(q: int) -> tuple[Ruler, int]:
    """q+1 residues and their modulus q^2+q+1, for a power q of a prime: the logarithms, in the field of q^3 elements
    and modulo q^2+q+1, of the points on a line of the projective plane: of those without x^2."""
    modulus = q * q + q + 1
    return tuple(i for i, power in enumerate(_powers_of_x(q, 3, modulus)) if not power[2]), modulus


def _powers_of_x(q: int, degree: int, count: int) -> list[tuple[int, ...]]:
    """x^0, x^1, ... as coefficients from the constant up, numbers of elements of the field of q (0 and 1 are its own),
    by a polynomial of the degree for which x^`count` is the first that is 1, or for degree 3 the first in the field of
    q: then x goes through all points of the plane."""
    plus, times = _tables(q)
    end, is_plane = (0,) * (degree - 1), count < q**degree - 1
    for number in range(1, q**degree):
        tail = tuple(number // q**i % q for i in range(degree))  # x^degree = this polynomial
        powers: list[tuple[int, ...]] = []
        power: tuple[int, ...] = (1, *end)
        while tail[0] and len(powers) <= count:
            powers.append(power)
            row = times[power[-1]]
            power = tuple(plus[below][row[add]] for below, add in zip((0, *power[:-1]), tail, strict=True))
            if power[1:] == end and (is_plane or power[0] == 1):
                if len(powers) == count:
                    return powers
                break
    raise AssertionError("every finite field has a primitive element")


@cache
def _tables(q: int) -> tuple[list[list[int]], list[list[int]]]:
    """Sums and products in the field of q elements, a power of a prime, by their numbers: for a prime they are the
    numbers modulo it, else the digits to its base are coefficients."""
    (p,) = prime_factors(q)
    if p == q:
        return [[(a + b) % p for b in range(p)] for a in range(p)], [[a * b % p for b in range(p)] for a in range(p)]
    degree = next(n for n in range(1, q) if p**n == q)
    digits = [tuple(number // p**i % p for i in range(degree)) for number in range(q)]
    number_of = {each: number for number, each in enumerate(digits)}
    plus = [[number_of[tuple((a + b) % p for a, b in zip(one, two, strict=True))] for two in digits] for one in digits]
    powers = [number_of[power] for power in _powers_of_x(p, degree, q - 1)]
    logs = {power: i for i, power in enumerate(powers)}
    times = [[powers[(logs[a] + logs[b]) % (q - 1)] if a and b else 0 for b in range(q)] for a in range(q)]
    return plus, times


@cache
def modular_sets(least: int, most: int) -> tuple[tuple[Ruler, int], ...]:
    """The sets of all three constructions with `least` to `most` residues."""
    sets = []
    for q in range(2, most + 2):
        factors = prime_factors(q)
        constructs = (singer_set, bose_set, ruzsa_set) if factors == (q,) else (singer_set, bose_set)
        for construct in constructs if len(factors) == 1 and q + 1 >= least else ():
            residues, modulus = construct(q)
            if least <= len(residues) <= most:
                sets.append((residues, modulus))
    return tuple(sets)


def iterate_cuts(residues: Ruler, modulus: int) -> Iterator[Ruler]:
    """For every multiplication by a unit the residues in order, twice around, the second round lifted by the
    modulus: any run of up to as many as there are residues is a ruler."""
    for unit in range(1, modulus // 2 + 1):
        if gcd(unit, modulus) == 1:
            turned = sorted(residue * unit % modulus for residue in residues)
            yield tuple(turned + [residue + modulus for residue in turned])


def longest_cut(length: int, least_gap: int) -> Ruler:
    """The most marks that the constructions fit into `length`, none nearer than `least_gap`; from 0."""
    best: Ruler = (0,)
    size = isqrt(length) + 2
    for residues, modulus in modular_sets(max(2, size // 2), size + size // 2 + 4):
        for cut in iterate_cuts(residues, modulus):
            found = _fit(cut, len(residues), length, least_gap, len(best))
            if found:
                best = found
    return best


def _fit(cut: Ruler, size: int, length: int, least_gap: int, at_least: int) -> Ruler | None:
    """The best run of a cut inside the length, if it has more marks than `at_least`."""
    for start in range(size):
        end = start + at_least
        if end >= start + size or cut[end] - cut[start] > length:
            continue
        while end + 1 < start + size and cut[end + 1] - cut[start] <= length:
            end += 1
        marks = _thin(tuple(mark - cut[start] for mark in cut[start : end + 1]), least_gap)
        if len(marks) > at_least:
            return _fit(cut, size, length, least_gap, len(marks)) or marks
    return None


def _thin(marks: Ruler, least_gap: int) -> Ruler:
    """The marks from the lowest, those left out that are too near the last one kept."""
    if least_gap < 2 or all(upper - lower >= least_gap for lower, upper in pairwise(marks)):
        return marks
    kept = [marks[0]]
    for mark in marks[1:]:
        if mark - kept[-1] >= least_gap:
            kept.append(mark)
    return tuple(kept)


def search_ruler(count: int, length: int, least_gap: int = 1) -> Ruler | None:
    """A ruler of `count` marks no longer than `length`, found by trying everything; None when there is none.

    Marks are placed from 0 up. `seen` holds the differences in use and `reach` the marks that would repeat
    one, as bit sets. The rest of a ruler with k marks to come is at least as long as the shortest with
    k + 1 marks. The second mark lies in the lower half, or else it does in the mirror image.
    """

    def place(marks: list[int], seen: int, reach: int) -> list[int] | None:
        if len(marks) == count:
            return marks
        to_come = count - len(marks) - 1
        last = length - (SHORTEST_LENGTHS[to_come] if to_come < len(SHORTEST_LENGTHS) else to_come)
        if len(marks) == 1 and count > 2:
            last = min(last, length // 2)
        room = ~reach & (1 << last + 1) - 1
        room = room >> marks[-1] + least_gap << marks[-1] + least_gap
        while room:
            low = room & -room
            room ^= low
            mark = low.bit_length() - 1
            fresh = reduce(or_, (1 << mark - other for other in marks), seen)
            # A later mark z is barred when z - w is an old difference for any mark w.
            barred = reduce(or_, (fresh << other for other in (*marks, mark)))
            found = place([*marks, mark], fresh, barred)
            if found:
                return found
        return None

    return tuple(place([0], 0, 0) or ()) or None


@cache
def find_ruler(length: int, least_gap: int = 1) -> Ruler:
    """The most marks found within `length`, from 0: the best there is up to `EXHAUSTIVE_LENGTH`."""
    best = longest_cut(length, least_gap)
    bound = sum(shortest <= length for shortest in SHORTEST_LENGTHS)
    if least_gap == 1 and (length <= EXHAUSTIVE_LENGTH):
        while len(best) < bound:
            better = search_ruler(len(best) + 1, length)
            if better is None:
                return best
            best = better
    return best
