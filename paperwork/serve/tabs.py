"""Whether anybody looks at the page: it ends once nobody does."""

import anyio
from starlette.types import ASGIApp, Receive, Scope, Send


class Tabs:
    """Whether anybody is there: each page holds one request under way for as long as it is shown.

    `asked` counts all requests so far, `under_way` those without an end yet.
    """

    def __init__(self) -> None:
        self.asked = 0
        self.under_way = 0
        self.stopped = anyio.Event()

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

    async def hold(self, scope: Scope, receive: Receive, send: Send) -> None:
        """One page's request: answered with a beat a second until the page goes."""
        headers = [(b"content-type", b"text/event-stream")]
        try:
            await send({"type": "http.response.start", "status": 200, "headers": headers})
            while not self.stopped.is_set():
                await send({"type": "http.response.body", "body": b": here\n\n", "more_body": True})
                with anyio.move_on_after(1):
                    while (await receive())["type"] != "http.disconnect":
                        pass
                    return
        except OSError:
            return


class Beat:
    """A route wants an endpoint that is no function to hand it the bare request."""

    def __init__(self, tabs: Tabs) -> None:
        self._tabs = tabs

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        await self._tabs.hold(scope, receive, send)
