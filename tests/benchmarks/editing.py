"""One edit of a big event on the page: the file spliced and read again, the table with its findings; against reading it once."""

import tempfile
from collections.abc import Iterator
from pathlib import Path

from paperwork.finding import Edit
from paperwork.reading import read_show
from paperwork.render.pdf.svg import paint_svg
from paperwork.serve.edit.acts import make_edits, try_edits
from paperwork.serve.edit.tables import describe_state, describe_table
from paperwork.serve.shelf import Shelf
from paperwork.serve.work.previews import lay_out_one
from paperwork.sheets import SHEETS
from tests.benchmarks.table import Row, compare, milliseconds
from tests.big_events import big_event

SIZES = (50, 200, 600)


def measure() -> Iterator[Row]:
    """Edits of growing events, as the page makes them while somebody types and when a cell is left."""
    with tempfile.TemporaryDirectory() as place:
        for size in SIZES:
            folder = Path(place) / str(size)
            folder.mkdir()
            path = folder / "show.yaml"
            path.write_text(big_event(size), encoding="utf-8")
            opened = Shelf(folder, lambda: "show").open("show.yaml")
            ids = list(opened.reading.show.channels)
            step = iter(range(1_000_000))

            def edit(opened=opened, ids=ids, step=step) -> Edit:
                return Edit("channels", ids[5], "notes", f"word {next(step)}")

            def leave(opened=opened, edit=edit) -> None:
                make_edits(opened, [edit()])
                describe_table(opened.open_edited(), "channels")
                describe_state(opened)

            def type_on(opened=opened, edit=edit) -> None:
                try_edits(opened, [edit()])

            def read(path=path) -> None:
                read_show(path, "show.yaml")

            def look(opened=opened, leave=leave) -> None:
                leave()
                ((title, page), *_) = lay_out_one(opened, SHEETS[0])
                paint_svg(page, title)

            for what, act, most in (
                ("an edit with its table and findings", leave, "300 ms"),
                ("a word tried while one types", type_on, "300 ms"),
                ("an edit, and the picture of the first paper after it", look, "1 s"),
            ):
                own, ratio = compare(act, read, 5)
                aim = most if size == 200 else ""
                yield Row(f"{what}, {size} channels", milliseconds(own), ratio, "reading the file once", aim)
