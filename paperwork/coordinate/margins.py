"""The margins of a plan as it is: what each carrier has to spare, the weakest first."""

from paperwork.coordinate.carriers import OnAir
from paperwork.coordinate.swept import Heard
from paperwork.frozen import frozen
from paperwork.plan.windows import window_of
from paperwork.radio.bands import Range
from paperwork.radio.carrier import Carrier
from paperwork.radio.products.forms import FORMS
from paperwork.radio.products.margins import Margin, find_neighbours, find_products
from paperwork.radio.spacing import carrier_edges_hz


@frozen
class CarrierMargins:
    """What one carrier has to spare.

    `products`: of each kind that is looked at, in the order of the rules. `edge_hz`: from the carrier's edge to the
    nearer edge of its rack's window, below 0 outside; None without one. `heard`: what the sweeps show under it; None
    where nothing was swept, or where it may be ourselves.
    """

    carrier: Carrier
    neighbour: Margin | None
    products: tuple[Margin, ...]
    edge_hz: int | None = None
    heard: Heard | None = None

    @property
    def ordered(self) -> tuple[Margin, ...]:
        """The neighbour and the products, that with least to spare first."""
        margins = (*((self.neighbour,) if self.neighbour else ()), *self.products)
        return tuple(sorted(margins, key=lambda margin: margin.spare_hz))

    @property
    def weakest(self) -> Margin | None:
        """The neighbour or product with least to spare."""
        return next(iter(self.ordered), None)

    @property
    def is_wrong(self) -> bool:
        """Whether something is less than wanted: a distance, the window or the power under it."""
        weakest = self.weakest
        return (
            (weakest is not None and weakest.spare_hz < 0)
            or (self.edge_hz is not None and self.edge_hz < 0)
            or (self.heard is not None and self.heard.is_loud)
        )


def name_kind(kind: str) -> str:
    """The products of a kind: `2a-b`."""
    return ", ".join(dict.fromkeys(form.text for form in FORMS if form.kind == kind))


def list_margins(on_air: OnAir) -> tuple[CarrierMargins, ...]:
    """The margins of all carriers that are protected: those with something wrong first, then by what is least to spare.

    An edge of the window counts only outside: a receiver passes all of its window alike.
    """
    neighbours = find_neighbours(on_air.carriers, on_air.rules)
    products = find_products(on_air.carriers, on_air.rules)
    found = []
    for carrier in on_air.carriers:
        if carrier.listens:
            kinds = tuple(products[carrier.id, kind] for kind in on_air.rules.kinds if (carrier.id, kind) in products)
            heard = _hear(on_air, carrier)
            found.append(
                CarrierMargins(carrier, neighbours.get(carrier.id), kinds, _find_edge_hz(on_air, carrier), heard)
            )
    return tuple(sorted(found, key=_rank))


def _rank(margins: CarrierMargins) -> tuple[bool, bool, list[int]]:
    """Of equals the one whose next margin is less."""
    spares = [margin.spare_hz for margin in margins.ordered]
    return not margins.is_wrong, not spares, spares


def _hear(on_air: OnAir, carrier: Carrier) -> Heard | None:
    air = on_air.air
    if air.sweep is None or air.own_on or not on_air.is_channel(carrier.id):
        return None
    return air.sweep.hear(*carrier_edges_hz(carrier))


def _find_edge_hz(on_air: OnAir, carrier: Carrier) -> int | None:
    """Of a carrier in several racks' windows the least."""
    show, found = on_air.show, []
    for subject in on_air.subjects[carrier.id]:
        slot = show.channels[subject.id].slot if subject.section == "channels" else None
        rack = show.racks.get(slot.rack) if slot else None
        window = window_of(show, rack) if rack else None
        if window:
            found.append(max(_inside_hz(carrier, one) for one in window))
    return min(found, default=None)


def _inside_hz(carrier: Carrier, window: Range) -> int:
    low_hz, high_hz = carrier_edges_hz(carrier)
    return min(low_hz - window[0], window[1] - high_hz)
