"""Whether anybody looks at the page: each tab says now and then that it is there, and when it goes.

It asks, and holds nothing open: a browser makes six connections to one address, and a seventh tab would wait for ever.
"""

import anyio
from starlette.types import ASGIApp, Receive, Scope, Send

BEATS_AWAY = 400
"""A tab that has said nothing for so many beats is gone: 100 s, because browsers let hidden pages act once a minute."""

MOST = 100
"""Tabs that are counted one by one; a choice of this project."""


class Tabs:
    """Who is there. `asked` counts all requests so far, `under_way` those without an end yet.

    Time is counted in beats, given by whoever runs the server.
    """

    def __init__(self) -> None:
        self.asked = 0
        self.under_way = 0
        self.stopped = anyio.Event()
        self._beats = 0
        self._seen: dict[str, int] = {}

    def beat(self) -> None:
        """A moment has passed."""
        self._beats += 1

    def note(self, tab: str) -> None:
        """This tab is there."""
        self._seen[tab] = self._beats
        while len(self._seen) > MOST:
            del self._seen[min(self._seen, key=self._seen.__getitem__)]

    def leave(self, tab: str) -> None:
        """This tab has gone."""
        self._seen.pop(tab, None)

    def count_others(self, tab: str) -> int:
        """How many tabs are there besides this one."""
        return sum(one != tab and self._beats - seen <= BEATS_AWAY for one, seen in self._seen.items())

    def count(self, app: ASGIApp) -> ASGIApp:
        """The application with its requests counted."""

        async def counted(scope: Scope, receive: Receive, send: Send) -> None:
            self.asked += 1
            self.under_way += 1
            try:
                await app(scope, receive, send)
            finally:
                self.under_way -= 1

        return counted
