"""What a search is asked: channels that want places, carriers that stay, blocks and rules, on one lattice."""

from collections import Counter
from collections.abc import Iterable, Sequence

from paperwork.frozen import frozen
from paperwork.radio.bands import BlockedRange, Range
from paperwork.radio.board.coarse import make_board
from paperwork.radio.board.equations import CAUSES, Meter
from paperwork.radio.board.lattice import Comb, Lattice, Places, Want, choose_lattice
from paperwork.radio.board.occupancy import Occupancy
from paperwork.radio.carrier import Carrier, Rules

# A margin wider than this helps nobody. Common practice, no source.
ENOUGH_HZ = 1_000_000


@frozen
class WantGroup:
    """Channels that are alike in everything but name: `wants` are their indices, `allowed` the places where
    they may go before any carrier is placed."""

    comb: int
    allowed: int
    wants: tuple[int, ...]


class Problem:
    """Wants, fixed carriers and blocks on one lattice, for any extra margin. `guests` may be placed too. `is_exact`:
    nothing was rounded or made coarser, so that what is forbidden here is forbidden in truth."""

    def __init__(
        self,
        wants: Sequence[Want],
        fixed: Sequence[Carrier],
        blocks: Sequence[BlockedRange],
        rules: Rules,
        guests: Sequence[Carrier] = (),
    ) -> None:
        self.wants, self.fixed, self.rules = tuple(wants), tuple(fixed), rules
        self.meter = Meter()
        self.most_margin_hz = self._find_most_margin_hz()
        self.lattice: Lattice = choose_lattice(wants, [*fixed, *guests], self._widest_reach_hz())
        targets = [self.lattice.comb(want.carrier.family, want.origin_hz) for want in wants]
        theirs = (self.lattice.comb(carrier.family, carrier.hz) for carrier in (*fixed, *guests))
        exact = tuple(dict.fromkeys([*targets, *theirs]))
        board = make_board(exact, len(set(targets)), self.lattice, rules)
        self.rules = board.rules
        numbers = {comb: number for number, comb in enumerate(dict.fromkeys(board.combs))}
        self.combs: tuple[Comb, ...] = tuple(numbers)
        self._numbers = {comb: numbers[one] for comb, one in zip(exact, board.combs, strict=True)}
        self.targets = [self._numbers[comb] for comb in targets]
        self.target_count = len(set(self.targets))
        self.is_exact = board.is_same and not any(comb.slack_hz for comb in self.combs)
        self.places = self._find_places(blocks)
        self.groups = self._gather()

    def _find_places(self, blocks: Sequence[BlockedRange]) -> list[Places]:
        """Where each want may go. Alike wants, as most are, share it."""
        known: dict[tuple[object, ...], Places] = {}
        found = []
        for want in self.wants:
            key = want.ranges, want.step_hz, want.origin_hz, want.spots, want.carrier.bandwidth_hz
            if key not in known:
                known[key] = Places(want, blocks, self.lattice)
            found.append(known[key])
        return found

    def _widest_reach_hz(self) -> int:
        """No guard or distance reaches further, whatever margin is tried: a product weighs six carriers at
        most, its victim included, and each adds half its width."""
        rules = self.rules
        everyone = [want.carrier for want in self.wants] + [*self.fixed]
        widest = max([carrier.bandwidth_hz for carrier in everyone], default=0)
        wished = max([0, rules.apart_hz, *rules.apart.values(), *rules.guards.values()])
        return 3 * widest + wished + rules.extra_hz + self.most_margin_hz

    def _find_most_margin_hz(self) -> int:
        """Channels that all meet and are placed in one stretch cannot all be further apart than twice their share."""
        edges = [hz for want in self.wants for pair in want.ranges for hz in pair]
        edges += [carrier.hz for carrier in self.fixed if self.wants]
        return max(ENOUGH_HZ, 2 * (max(edges, default=0) - min(edges, default=0)) // max(1, len(self.wants)))

    def _gather(self) -> tuple[WantGroup, ...]:
        alike: dict[tuple[int, int, tuple[Range, ...]], list[int]] = {}
        for i, want in enumerate(self.wants):
            alike.setdefault((self.targets[i], self.places[i].allowed, want.avoid), []).append(i)
        return tuple(WantGroup(key[0], key[1], tuple(members)) for key, members in alike.items())

    def occupancy(self, extra_hz: int = 0) -> Occupancy:
        """An occupancy with the fixed carriers alone."""
        return self.place(self.empty_occupancy(extra_hz), self.fixed)

    def empty_occupancy(self, extra_hz: int = 0) -> Occupancy:
        """An occupancy without any carrier."""
        return Occupancy(self.rules.with_extra(extra_hz), self.combs, self.target_count, self.lattice, self.meter)

    def place(self, occupancy: Occupancy, carriers: Iterable[Carrier]) -> Occupancy:
        """The occupancy with these carriers too: fixed ones, or wanted ones on one of their frequencies."""
        for carrier in carriers:
            comb = self.lattice.comb(carrier.family, carrier.hz)
            occupancy.add(self._numbers[comb], self.lattice.position(carrier.hz))
        return occupancy

    def is_avoided_at(self, number: int, place: int) -> bool:
        """Whether a place is second choice for a group."""
        want = self.groups[number].wants[0]
        return self.is_avoided(want, self.places[want].hz_at(place))

    def is_avoided(self, want: int, hz: int) -> bool:
        """Whether a frequency is second choice for a channel."""
        return any(low_hz <= hz < high_hz for low_hz, high_hz in self.wants[want].avoid)

    def list_clean_hz(self, want: int, occupancy: Occupancy) -> list[int]:
        """The frequencies, from the lowest, at which a channel would be clean and make no hit."""
        places = self.places[want]
        return places.list_hz(places.allowed & ~occupancy.total[self.targets[want]])

    def count_causes(self, want: int, occupancy: Occupancy) -> tuple[tuple[str, int], ...]:
        """How many candidates of a channel each cause takes away, commonest first. A candidate counts once,
        under its first cause: blocks in the order given, then spacing, then the product kinds."""
        left, counts = self.places[want].every, Counter[str]()
        masks = zip(CAUSES, occupancy.list_forbidden(self.targets[want]), strict=True)
        for cause, bits in (*self.places[want].blocked.items(), *masks):
            if gone := left & bits:
                counts[cause] += gone.bit_count()
                left &= ~bits
        return tuple(counts.most_common())
