"""The server: this machine only, a port that the system picks, a secret in every address, ended with the last page."""

import os
import secrets
import signal
import tempfile
from collections.abc import Callable, Iterator, Mapping
from contextlib import contextmanager
from pathlib import Path
from typing import NamedTuple

import anyio
import uvicorn

from paperwork.document import Printer
from paperwork.serve.app import make_app
from paperwork.serve.aside.bench import Bench
from paperwork.serve.guard import Guard, Keys
from paperwork.serve.pages import render_way
from paperwork.serve.share.lending import Lending
from paperwork.serve.share.listening import LOCAL, listen, make_config
from paperwork.serve.shelf import Shelf
from paperwork.serve.tabs import Tabs

GRACE_S = 600
"""How long nothing may be asked before the server ends: somebody who closed the last tab comes back. Our own choice."""

UNSAVED_GRACE_S = 12 * 3600
"""The same while answers are in no file: until the next day's work. Our own choice."""

BEAT_S = 0.25

SECRET_BYTES = 24
"""192 random bits: not to be guessed."""


class Share(NamedTuple):
    """Where papers may be lent to telephones, "" for nowhere, and for how many minutes."""

    address: str
    minutes: int


NO_SHARE = Share("", 0)


def serve(
    folder: Path,
    announce: Callable[[str, Path], None],
    read_clock: Callable[[], str],
    *,
    port: int = 0,
    printers: Mapping[str, Printer] | None = None,
    share: Share = NO_SHARE,
) -> None:
    """Serves the page for the shows of a folder until its last page has been closed for a while. `announce` is given an address to type,
    good once, and a private file that leads there: other users of the machine can read what is on command lines.

    `read_clock` gives the time as `2027-03-01-1620`, `printers` are those that labels can be set right for, by name. `share`
    says at which address papers may be lent to telephones, and for how long.

    Raises OSError if the port is taken.
    """
    signal.signal(signal.SIGTERM, signal.default_int_handler)  # asked to end, it takes the private file along
    try:
        anyio.run(_serve, folder, announce, read_clock, port, printers or {}, share)
    except* KeyboardInterrupt:
        pass


async def _serve(
    folder: Path,
    announce: Callable[[str, Path], None],
    read_clock: Callable[[], str],
    port: int,
    printers: Mapping[str, Printer],
    share: Share,
) -> None:
    listener = listen(LOCAL, port)
    token, cookie, typed, opened = (secrets.token_urlsafe(SECRET_BYTES) for _ in range(4))
    tabs, bench = Tabs(), Bench()
    taken = listener.getsockname()[1]
    shelf = Shelf(folder, lambda: secrets.token_urlsafe(SECRET_BYTES), printers, read_clock)
    shelf.bench = bench
    bench.prepare()
    lending = Lending(share.address, share.minutes, read_clock, shelf.name_next, round(1 / BEAT_S))
    page = make_app(shelf, token, tabs, lending)
    app = Guard(tabs.count(page), f"{LOCAL}:{taken}", Keys(token, cookie, {typed, opened}))
    server = uvicorn.Server(make_config(app))
    async with anyio.create_task_group() as lending.tasks:
        lending.tasks.start_soon(_watch, server, tabs, shelf, lending, bench)
        enter = f"http://127.0.0.1:{taken}/{token}/enter/"
        with _private_file(render_way(enter + opened)) as path:
            announce(enter + typed, path)
            await server.serve(sockets=[listener])
        lending.stop()
        lending.tasks.cancel_scope.cancel()


@contextmanager
def _private_file(text: str) -> Iterator[Path]:
    """A page that this user alone can read, in a folder that this user alone can enter, gone at the end."""
    with tempfile.TemporaryDirectory(prefix="paperwork-") as folder:
        path = Path(folder) / "open.html"
        with open(os.open(path, os.O_WRONLY | os.O_CREAT | os.O_EXCL, 0o600), "w", encoding="utf-8") as file:
            file.write(text)
        yield path


async def _watch(server: uvicorn.Server, tabs: Tabs, shelf: Shelf, lending: Lending, bench: Bench) -> None:
    """Ends the server once a page was asked for and nothing has been for a while, or once it was asked to stop."""
    alone_s, asked = 0.0, 0
    while not tabs.stopped.is_set() and alone_s < (UNSAVED_GRACE_S if shelf.unsaved else GRACE_S):
        await anyio.sleep(BEAT_S)
        tabs.beat()
        lending.beat()
        is_alone = tabs.asked and not tabs.under_way and tabs.asked == asked
        alone_s, asked = alone_s + BEAT_S if is_alone else 0.0, tabs.asked
    tabs.stopped.set()
    bench.close()
    server.should_exit = True
