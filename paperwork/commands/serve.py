"""`paperwork serve`: the local page, for those who never type a command again."""

from pathlib import Path

import click

from paperwork.terminal import Outcome, name_extra
from paperwork.terminal.options import PRINTERS
from paperwork.terminal.printers import list_printers


@click.command(epilog="Examples:  paperwork serve  |  paperwork serve shows/lantern --no-open")
@click.argument("folder", type=click.Path(exists=True, file_okay=False), default=".")
@click.option("--port", type=click.IntRange(0, 65535), default=0, help="The port to use.  [default: one that is free]")
@PRINTERS
@click.option("--no-open", "closed", is_flag=True, help="Print the address, and open no browser.")
def command(folder: str, port: int, printers: str | None, closed: bool) -> Outcome:
    """Open a page on this machine where shows are dropped, questions answered, and papers looked at and printed.

    It is served to this machine alone, and ends some minutes after its last tab is closed. Nothing leaves the machine. Shows of
    FOLDER are listed; answers and papers go there and nowhere else.
    """
    try:
        from paperwork.serve.run import serve
    except ModuleNotFoundError as missing:
        return Outcome(aside=name_extra(missing, "page", "the local page"), code=2)

    def show_address(address: str, leading: Path) -> None:
        click.echo(
            f"the page opens once, for one browser, at {address}\nit ends some minutes after its last tab is closed, or with Ctrl-C here"
        )
        if not closed:
            click.launch(str(leading))

    try:
        serve(Path(folder).resolve(), show_address, port=port, printers=list_printers(printers))
    except OSError as error:
        return Outcome(aside=f"port {port} cannot be used: {error.strerror or error}\n", code=2)
    return Outcome("the page is closed\n")
