"""Sockets and servers: one address, one port, no log, and what a request may be at most."""

import ipaddress
import socket
from collections.abc import Iterator
from contextlib import contextmanager

import uvicorn
from starlette.types import ASGIApp

from paperwork import limits

LOCAL = "127.0.0.1"
"""This machine alone."""

_NOWHERE = ("192.0.2.1", 9)
"""An address for documentation (RFC 5737): asking which way leads there sends nothing."""


class SideServer(uvicorn.Server):
    """A server beside the page's own, which alone listens to the signals of the system."""

    @contextmanager
    def capture_signals(self) -> Iterator[None]:
        """Leaves them to the other."""
        yield


def listen(address: str, port: int) -> socket.socket:
    """A listening socket. Raises OSError where the address is not of this machine or the port is taken."""
    listener = socket.socket(socket.AF_INET, socket.SOCK_STREAM)
    try:
        listener.bind((address, port))
        listener.listen()
    except OSError:
        listener.close()
        raise
    return listener


def make_config(app: ASGIApp) -> uvicorn.Config:
    """How both servers run."""
    return uvicorn.Config(
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


def read_address(text: str) -> str:
    """An address of one network of this machine; `auto` is that of the way out. Raises ValueError for another word,
    OSError where there is no way out."""
    if text == "auto":
        with socket.socket(socket.AF_INET, socket.SOCK_DGRAM) as asked:
            asked.connect(_NOWHERE)
            return str(asked.getsockname()[0])
    address = ipaddress.IPv4Address(text)
    if address.is_unspecified or address.is_multicast:
        raise ValueError(f"{text} is not an address of one network")
    return str(address)
