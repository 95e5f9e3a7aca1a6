"""What is chosen on the page for a print."""

from paperwork.frozen import frozen


@frozen
class PrintChoice:
    """What is printed beside the papers, and how large what is cut out is; zeros keep the paper's own size."""

    blank: bool = False
    strip_mm: int = 0
    card_mm: tuple[int, int] = (0, 0)
