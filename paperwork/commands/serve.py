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
@click.option(
    "--share",
    default="",
    metavar="ADDRESS",
    help="Allow sharing papers with phones, at this address of the machine, or `auto`.  [default: no sharing]",
)
@click.option(
    "--minutes",
    type=click.IntRange(1, 720),
    default=30,
    show_default=True,
    help="How long papers are shared at a time.",
)
@click.option("--no-open", "closed", is_flag=True, help="Print the address without opening a browser.")
@click.pass_context
def command(
    context: click.Context, folder: str, port: int, printers: str | None, share: str, minutes: int, closed: bool
) -> Outcome:
    """Open a page on this machine to edit and check shows, answer questions, and look at papers and print them.

    Only this machine can open it, and it closes ten minutes after its last tab. It lists the shows of FOLDER; answers
    and papers go there and nowhere else. With --share you can share papers with phones for a while.
    """
    try:
        from paperwork.serve.run import Share, serve
        from paperwork.serve.share.listening import read_address
        from paperwork.serve.shelf import UNKNOWN_TIME
    except ModuleNotFoundError as missing:
        return Outcome(aside=name_extra(missing, "page", "the local page"), code=2)

    try:
        address = read_address(share) if share else ""
    except (ValueError, OSError):
        return Outcome(aside=f"--share {share}: give an address of this machine, as 192.0.2.17, or auto\n", code=2)

    def show_address(address: str, leading: Path) -> None:
        click.echo(
            f"the page opens once, in one browser, at {address}\nit closes ten minutes after its last tab, or with Ctrl-C here"
        )
        if not closed:
            click.launch(str(leading))

    try:
        serve(
            Path(folder).resolve(),
            show_address,
            (context.obj or {}).get("now", lambda: UNKNOWN_TIME),
            port=port,
            printers=list_printers(printers),
            share=Share(address, minutes),
        )
    except OSError as error:
        return Outcome(aside=f"port {port} cannot be used: {error.strerror or error}\n", code=2)
    return Outcome("the page is closed\n")
