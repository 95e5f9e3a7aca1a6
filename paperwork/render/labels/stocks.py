"""Label stocks: where the labels lie on a sheet of them."""

from functools import lru_cache

from paperwork.document.sheet import PAPERS
from paperwork.frozen import frozen
from paperwork.render.boxes import Room
from paperwork.resources import read_toml

TAPE = "tape"


@frozen
class Stock:
    """One layout of labels on a paper, in micrometres. `compared` and `spread` say how sure the figures are."""

    id: str
    paper: str
    columns: int
    rows: int
    width_um: int
    height_um: int
    left_um: int
    top_um: int
    pitch_x_um: int
    pitch_y_um: int
    compared: int
    spread: str
    edge_um: int = 2_000
    """Kept clear inside every label: sheets and printers are off by up to a millimetre, and dies wander."""

    @property
    def on_tape(self) -> bool:
        """Whether a page is one label cut from a tape."""
        return self.paper == TAPE

    @property
    def page_um(self) -> tuple[int, int]:
        """Width and height of the page."""
        return (self.width_um, self.height_um) if self.on_tape else PAPERS[self.paper]

    @property
    def cells(self) -> int:
        """How many labels a sheet has."""
        return self.columns * self.rows

    def room(self, cell: int) -> Room:
        """The rectangle of a label, counted from 0 across and then down."""
        row, column = divmod(cell, self.columns)
        x = self.left_um + column * self.pitch_x_um
        return Room(x, self.top_um + row * self.pitch_y_um, self.width_um, self.height_um)

    @property
    def bottom_um(self) -> int:
        """The lower edge of the last label."""
        return self.top_um + (self.rows - 1) * self.pitch_y_um + self.height_um


@lru_cache(maxsize=1)
def load_stocks() -> dict[str, Stock]:
    """All stocks by id, in the order of the table."""
    return {row["id"]: Stock(**row) for row in read_toml("stocks.toml")["stock"]}
