"""The printers of a house, as a small TOML text: how far each is off, and how fine its dots are."""

import tomllib
from collections.abc import Mapping
from decimal import Decimal
from typing import Any

from paperwork.document.labels import Printer

LENGTHS = {
    "right": ("right_um", -20, 20),
    "down": ("down_um", -20, 20),
    "across": ("across_um", 90, 110),
    "along": ("along_um", 90, 110),
}
"""Each key in millimetres, its field, its least and greatest value: more is not an offset but a wrong sheet."""

DPI_LEAST, DPI_MOST = 100, 2_400


def parse_printers(text: str) -> dict[str, Printer]:
    """The printers by name.

        [stage-left]
        dpi = 300
        right = 0.4      # move the ink 0.4 mm to the right
        down = -0.2
        across = 99.4    # what the 100 mm ruler measured on paper
        along = 99.8     # what 100 mm down the page measured

    Raises ValueError, in words for whoever wrote the file.
    """
    try:
        tables = tomllib.loads(text, parse_float=Decimal)
    except tomllib.TOMLDecodeError as error:
        raise ValueError(f"not TOML: {error}") from None
    return {name: _printer(name, table) for name, table in tables.items()}


def _printer(name: str, table: Any) -> Printer:
    if not isinstance(table, Mapping):
        raise ValueError(f"{name} is not a table: write [{name}] over its lines")
    fields: dict[str, int] = {}
    for key, value in table.items():
        if isinstance(value, bool) or not isinstance(value, int | Decimal) or not Decimal(value).is_finite():
            raise ValueError(f"{name}: {key} is not a number")
        if key == "dpi":
            fields["dpi"] = _whole(name, key, Decimal(value), DPI_LEAST, DPI_MOST)
        elif key in LENGTHS:
            field, least, most = LENGTHS[key]
            fields[field] = _whole(name, key, Decimal(value) * 1000, least * 1000, most * 1000, f"{least} to {most} mm")
        else:
            raise ValueError(f"{name}: there is no {key}; it can hold dpi, {', '.join(LENGTHS)}")
    return Printer(**fields)


def _whole(name: str, key: str, value: Decimal, least: int, most: int, span: str = "") -> int:
    if not least <= value <= most:
        raise ValueError(f"{name}: {key} must be {span or f'{least} to {most}'}")
    return int(value.to_integral_value())
