"""The server: this machine only, a port that the system picks, a secret in every address, ended with the last page."""

import secrets
import socket
from collections.abc import Callable, Mapping
from pathlib import Path

import anyio
import uvicorn

from paperwork import limits
from paperwork.document import Printer
from paperwork.serve.app import make_app
from paperwork.serve.guard import Guard
from paperwork.serve.shelf import Shelf
from paperwork.serve.tabs import Tabs

GRACE_S = 5
"""How long nothing may be asked before the server ends: a page that is loaded again needs a moment. Our own choice."""

SECRET_BYTES = 24
"""192 random bits: not to be guessed."""


def serve(
    folder: Path, announce: Callable[[str], None], *, port: int = 0, printers: Mapping[str, Printer] | None = None
) -> None:
    """Serves the page for the shows of a folder until its last page is closed. `announce` is given its address.

    `printers` are those that labels can be set right for, by name.

    Raises OSError if the port is taken.
    """
    anyio.run(_serve, folder, announce, port, printers or {})


async def _serve(folder: Path, announce: Callable[[str], None], port: int, printers: Mapping[str, Printer]) -> None:
    listener = socket.socket(socket.AF_INET, socket.SOCK_STREAM)
    listener.bind(("127.0.0.1", port))
    listener.listen()
    token, tabs = secrets.token_urlsafe(SECRET_BYTES), Tabs()
    taken = listener.getsockname()[1]
    shelf = Shelf(folder, lambda: secrets.token_urlsafe(SECRET_BYTES), printers)
    app = Guard(tabs.count(make_app(shelf, token, tabs)), taken, token)
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
        tasks.start_soon(_watch, server, tabs)
        announce(f"http://127.0.0.1:{taken}/{token}/")
        await server.serve(sockets=[listener])
        tasks.cancel_scope.cancel()


async def _watch(server: uvicorn.Server, tabs: Tabs) -> None:
    """Ends the server once a page was asked for and nothing has been for a while, or once it was asked to stop."""
    alone_s, asked = 0.0, 0
    while not tabs.stopped.is_set() and alone_s < GRACE_S:
        await anyio.sleep(0.25)
        is_alone = tabs.asked and not tabs.under_way and tabs.asked == asked
        alone_s, asked = alone_s + 0.25 if is_alone else 0.0, tabs.asked
    tabs.stopped.set()
    server.should_exit = True
