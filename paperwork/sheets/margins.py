"""What each carrier of a plan has to spare, as a table on the papers that show the plan."""

from itertools import combinations

from paperwork import limits
from paperwork.coordinate import OnAir
from paperwork.coordinate.margins import CarrierMargins, list_margins, name_kind
from paperwork.coordinate.swept import Heard
from paperwork.document import Cell, Column, RowGroup, Table, TableRow, cell, fact, row, words
from paperwork.document.styles import HAND, HAND_STRONG
from paperwork.model import Show
from paperwork.radio.carrier import are_together
from paperwork.radio.products.margins import NEIGHBOUR, Margin
from paperwork.sheets.frame import headed, phrase
from paperwork.text.names import shorten_ids
from paperwork.text.units import format_level, format_mhz
from paperwork.text.words import decimal

FIGURE_UM = 18_000
ROW_UM = 5_000


def list_margin_tables(on_air: OnAir) -> tuple[Table, ...]:
    """One table, the weakest carrier first; none where no two meet, or more than a paper can be made of in time."""
    carriers = on_air.carriers
    if len(carriers) > limits.CARRIERS_MARGINS or not any(map(are_together, combinations(carriers, 2))):
        return ()
    found = list_margins(on_air)
    kinds = [
        kind for kind in on_air.rules.kinds if any(one.kind == kind for margins in found for one in margins.products)
    ]
    has_edge = any(margins.edge_hz is not None for margins in found)
    is_swept = any(margins.heard for margins in found)
    show = on_air.show
    figures = [phrase(show, "margins head neighbour"), *map(name_kind, kinds)]
    figures += [phrase(show, "margins head edge")] * has_edge + [phrase(show, "margins head sweep")] * is_swept
    columns = (
        *headed(show, Column("margins head carrier", 20_000), Column("margins head mhz", 22_000, align="point")),
        *headed(show, Column("margins head least", share=1)),
        *(Column(figure, FIGURE_UM, align="point") for figure in figures),
    )
    rows = tuple(_row_of(on_air, margins, kinds, has_edge, is_swept) for margins in found)
    title, note = phrase(show, "margins"), phrase(show, "margins note")
    return (Table(columns, (RowGroup(rows, title, note, facts=("margins",)),), row_um=ROW_UM),)


def _level_cell(show: Show, heard: Heard | None) -> Cell:
    if heard is None:
        return _figure_cell("", is_strong=False)
    level = format_level(heard.level_cdbm)
    return cell(fact(decimal(level, show.production.language), HAND_STRONG if heard.is_loud else HAND, of=level))


def _row_of(on_air: OnAir, margins: CarrierMargins, kinds: list[str], has_edge: bool, is_swept: bool) -> TableRow:
    products = {one.kind: one for one in margins.products}
    weakest, heard, show = margins.weakest, margins.heard, on_air.show
    figures = [_spare_cell(one, weakest) for one in (margins.neighbour, *map(products.get, kinds))]
    if has_edge:
        figures.append(
            _figure_cell("" if margins.edge_hz is None else _whole_khz(margins.edge_hz), _is_low(margins.edge_hz))
        )
    if is_swept:
        figures.append(_level_cell(show, heard))
    return row(
        cell(fact(_name(on_air, (margins.carrier.id,)), HAND_STRONG)),
        cell(fact(format_mhz(margins.carrier.hz), HAND_STRONG)),
        cell(fact(_word(on_air, weakest), HAND) if weakest else words("–", HAND)),
        *figures,
        mark="!" if margins.is_wrong else "",
        subjects=on_air.subjects[margins.carrier.id],
        where=on_air.places[margins.carrier.id],
    )


def _is_low(edge_hz: int | None) -> bool:
    return edge_hz is not None and edge_hz < 0


def _spare_cell(margin: Margin | None, weakest: Margin | None) -> Cell:
    """Bold where it is the least of its row."""
    return _figure_cell(_whole_khz(margin.spare_hz) if margin else "", margin is weakest)


def _whole_khz(hz: int) -> str:
    """Whole kilohertz, rounded down: less than one more or less decides nothing, and 0 stays clean."""
    return str(hz // 1_000)


def _figure_cell(text: str, is_strong: bool) -> Cell:
    style = HAND_STRONG if is_strong else HAND
    return cell(fact(text.replace("-", "\u2212"), style, of=text) if text else words("–", HAND))


def _word(on_air: OnAir, margin: Margin) -> str:
    """What the least distance is to: `05`, or `2a-b: 01, 04`."""
    names = _name(on_air, margin.names)
    return names if margin.kind == NEIGHBOUR else f"{margin.text}: {names}"


def _name(on_air: OnAir, names: tuple[str, ...]) -> str:
    """Carriers as papers call them: by the numbers of their channels."""
    return ", ".join(shorten_ids([subject.id for subject in on_air.subjects[name]]) for name in names)
