"""The server: this machine only, a port that the system picks, a secret in every address, ended with the last page."""

import os
import secrets
import signal
import socket
import tempfile
from collections.abc import Callable, Iterator, Mapping
from contextlib import contextmanager
from pathlib import Path

import anyio
import uvicorn

from paperwork import limits
from paperwork.document import Printer
from paperwork.serve.app import make_app
from paperwork.serve.guard import Guard, Keys
from paperwork.serve.pages import render_way
from paperwork.serve.shelf import Shelf
from paperwork.serve.tabs import Tabs

GRACE_S = 600
"""How long nothing may be asked before the server ends: somebody who closed the last tab comes back. Our own choice."""

UNSAVED_GRACE_S = 12 * 3600
"""The same while answers are in no file: until the next day's work. Our own choice."""

BEAT_S = 0.25

SECRET_BYTES = 24
"""192 random bits: not to be guessed."""


def serve(
    folder: Path, announce: Callable[[str, Path], None], *, port: int = 0, printers: Mapping[str, Printer] | None = None
) -> None:
    """Serves the page for the shows of a folder until its last page has been closed for a while. `announce` is given an address to type,
    good once, and a private file that leads there: other users of the machine can read what is on command lines.

    `printers` are those that labels can be set right for, by name.

    Raises OSError if the port is taken.
    """
    signal.signal(signal.SIGTERM, signal.default_int_handler)  # asked to end, it takes the private file along
    try:
        anyio.run(_serve, folder, announce, port, printers or {})
    except* KeyboardInterrupt:
        pass


async def _serve(
    folder: Path, announce: Callable[[str, Path], None], port: int, printers: Mapping[str, Printer]
) -> None:
    listener = socket.socket(socket.AF_INET, socket.SOCK_STREAM)
    listener.bind(("127.0.0.1", port))
    listener.listen()
    token, cookie, typed, opened = (secrets.token_urlsafe(SECRET_BYTES) for _ in range(4))
    tabs = Tabs()
    taken = listener.getsockname()[1]
    shelf = Shelf(folder, lambda: secrets.token_urlsafe(SECRET_BYTES), printers)
    app = Guard(tabs.count(make_app(shelf, token, tabs)), taken, Keys(token, cookie, {typed, opened}))
    config = uvicorn.Config(
        app,
        log_config=None,
        log_level="critical",
        access_log=False,
        server_header=False,
        lifespan="off",
        ws="none",
        timeout_graceful_shutdown=2,
        h11_max_incomplete_event_size=limits.HEAD_BYTES,
    )
    server = uvicorn.Server(config)
    async with anyio.create_task_group() as tasks:
        tasks.start_soon(_watch, server, tabs, shelf)
        enter = f"http://127.0.0.1:{taken}/{token}/enter/"
        with _private_file(render_way(enter + opened)) as path:
            announce(enter + typed, path)
            await server.serve(sockets=[listener])
        tasks.cancel_scope.cancel()


@contextmanager
def _private_file(text: str) -> Iterator[Path]:
    """A page that this user alone can read, in a folder that this user alone can enter, gone at the end."""
    with tempfile.TemporaryDirectory(prefix="paperwork-") as folder:
        path = Path(folder) / "open.html"
        with open(os.open(path, os.O_WRONLY | os.O_CREAT | os.O_EXCL, 0o600), "w", encoding="utf-8") as file:
            file.write(text)
        yield path


async def _watch(server: uvicorn.Server, tabs: Tabs, shelf: Shelf) -> None:
    """Ends the server once a page was asked for and nothing has been for a while, or once it was asked to stop."""
    alone_s, asked = 0.0, 0
    while not tabs.stopped.is_set() and alone_s < (UNSAVED_GRACE_S if shelf.unsaved else GRACE_S):
        await anyio.sleep(BEAT_S)
        tabs.beat()
        is_alone = tabs.asked and not tabs.under_way and tabs.asked == asked
        alone_s, asked = alone_s + BEAT_S if is_alone else 0.0, tabs.asked
    tabs.stopped.set()
    server.should_exit = True
