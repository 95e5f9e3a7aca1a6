"""Sizes of paper."""

PAPERS: dict[str, tuple[int, int]] = {
    "A4": (210_000, 297_000),
    "A3": (297_000, 420_000),
    "Letter": (215_900, 279_400),
    "Tabloid": (279_400, 431_800),
}
"""Width and height upright, in micrometres. ISO 216:2007; ANSI/ASME Y14.1 sizes A and B."""
