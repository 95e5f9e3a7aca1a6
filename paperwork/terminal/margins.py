"""The margins of a plan, as a table for people and as records for programs."""

from collections.abc import Sequence
from typing import Any

from paperwork.coordinate.margins import CarrierMargins, name_kind
from paperwork.radio.carrier import FIFTH2, FIFTH3, THIRD2, THIRD3
from paperwork.radio.products.margins import NEIGHBOUR, Margin
from paperwork.text.names import join_words
from paperwork.text.units import format_khz, format_level, format_mhz

KINDS = (THIRD2, THIRD3, FIFTH2, FIFTH3)
NONE = "-"


def format_margins(found: Sequence[CarrierMargins]) -> str:
    """A line a carrier, the weakest first, ending in a line break."""
    if not found:
        return "Margins: no carrier has a frequency.\n"
    kinds = [kind for kind in KINDS if any(kind == one.kind for margins in found for one in margins.products)]
    swept = any(margins.heard for margins in found)
    head = ["carrier", "MHz", NEIGHBOUR, *map(name_kind, kinds), "window", *["dBm"] * swept, "tightest"]
    rows = [head, *(_format_row(margins, kinds, swept) for margins in found)]
    widths = [max(len(row[at]) for row in rows) for at in range(len(head) - 1)]
    lines = ["Margins, the tightest first: kHz more than needed, below 0 too near; window: kHz to its edge."]
    if swept:
        lines.append("dBm: the most that a sweep shows under the carrier; ! is over the limit.")
    for row in rows:
        cells = [
            row[0].ljust(widths[0]),
            *(cell.rjust(width) for cell, width in zip(row[1:-1], widths[1:], strict=True)),
        ]
        lines.append("  ".join((*cells, row[-1])).rstrip())
    return "\n".join(lines) + "\n"


def _format_row(margins: CarrierMargins, kinds: Sequence[str], swept: bool) -> list[str]:
    products = {one.kind: one for one in margins.products}
    spares = [margins.neighbour, *(products.get(kind) for kind in kinds)]
    heard = margins.heard
    level = f"{format_level(heard.level_cdbm)}{'!' if heard.is_loud else ''}" if heard else NONE
    return [
        margins.carrier.id,
        format_mhz(margins.carrier.hz),
        *(format_khz(one.spare_hz) if one else NONE for one in spares),
        NONE if margins.edge_hz is None else format_khz(margins.edge_hz),
        *[level] * swept,
        _word(margins.weakest) if margins.weakest else "alone on the air",
    ]


def _word(margin: Margin) -> str:
    """`2a-b of channel 01 and channel 04 is 112.5 kHz away, wanted 100 kHz`."""
    what = margin.names[0] if margin.kind == NEIGHBOUR else f"{margin.text} of {join_words(margin.names)}"
    return f"{what} is {format_khz(margin.distance_hz)} kHz away, needed {format_khz(margin.wanted_hz)} kHz"


def plain_margins(found: Sequence[CarrierMargins]) -> list[dict[str, Any]]:
    """The same for programs, in whole hertz and hundredths of a dBm."""
    return [
        {
            "carrier": margins.carrier.id,
            "hz": margins.carrier.hz,
            "wrong": margins.is_wrong,
            "neighbour": _plain(margins.neighbour) if margins.neighbour else None,
            "products": [_plain(one) for one in margins.products],
            "window_edge_hz": margins.edge_hz,
            "heard_cdbm": margins.heard.level_cdbm if margins.heard else None,
            "limit_cdbm": margins.heard.limit_cdbm if margins.heard else None,
        }
        for margins in found
    ]


def _plain(margin: Margin) -> dict[str, Any]:
    return {
        "kind": margin.kind,
        "text": margin.text,
        "names": list(margin.names),
        "distance_hz": margin.distance_hz,
        "wanted_hz": margin.wanted_hz,
        "spare_hz": margin.spare_hz,
    }
