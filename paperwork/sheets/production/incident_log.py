"""The incident log: what went wrong, what was done, and whether it is closed. Blank rows, filled in at the rack."""

from paperwork.document import Column, Panel, Panels, RowGroup, Sheet, Table, row
from paperwork.model import Show
from paperwork.sheets import forms
from paperwork.sheets.frame import frame_sheet, headed, phrase

NAME = "incident-log"
ROWS = 10
ROW_UM = 11_000


def make_sheets(show: Show) -> tuple[Sheet, ...]:
    """One page of rows for a pen; every show with channels has one."""
    if not show.channels:
        return ()
    names = ("show", "time", "channel", "what", "why", "done", "spare", "owner")
    widths = {"show": 31_000, "time": 28_000, "channel": 28_000, "spare": 28_000, "owner": 28_000}
    columns = headed(
        show,
        *(Column(f"log head {name}", widths.get(name, 0), share=1) for name in names),
        forms.tick_column("log head closed"),
    )
    line = row(*(forms.write_cell() for _ in names), forms.tick_cell())
    lists = (phrase(show, "log symptoms"), phrase(show, "log causes"))
    blocks = (
        Table(columns, (RowGroup((line,) * ROWS),), row_um=ROW_UM),
        Panels((Panel(phrase(show, "log words"), lists, numbered=False),), across=1),
    )
    return (forms.keep(frame_sheet(show, NAME, "log", blocks, order="log order", landscape=True)),)
