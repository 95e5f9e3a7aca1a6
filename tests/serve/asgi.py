"""One request to an application, without a server: what it answers."""

from typing import NamedTuple

import anyio

from paperwork.serve.guard import Keys

PORT = 40_000
COOKIE = "crumb"
KEYS = Keys("secret", COOKIE, set())
HOST = f"127.0.0.1:{PORT}"
OWN = f"http://{HOST}"


class Answer(NamedTuple):
    """Status, headers and body."""

    status: int
    headers: dict[str, str]
    body: bytes


def ask(app, path: str, *, method: str = "GET", body: bytes = b"", headers: dict[str, str] | None = None) -> Answer:
    """The answer to one request as the page's own browser sends it, unless headers say otherwise; None removes one."""
    told = {
        "host": f"127.0.0.1:{PORT}",
        "sec-fetch-site": "same-origin",
        "cookie": f"other=1; paperwork={COOKIE}",
        **({"origin": OWN} if method == "POST" else {}),
        **(headers or {}),
    }
    scope = {
        "type": "http",
        "asgi": {"version": "3.0", "spec_version": "2.4"},
        "http_version": "1.1",
        "method": method,
        "path": path.partition("?")[0],
        "raw_path": path.partition("?")[0].encode(),
        "query_string": path.partition("?")[2].encode(),
        "root_path": "",
        "scheme": "http",
        "server": ("127.0.0.1", PORT),
        "client": ("127.0.0.1", 1),
        "headers": [(k.encode(), v.encode()) for k, v in told.items() if v is not None],
    }
    parts = [body[i : i + 65_536] for i in range(0, len(body), 65_536)] or [b""]
    sent: list[dict] = []

    async def receive():
        if parts:
            part = parts.pop(0)
            return {"type": "http.request", "body": part, "more_body": bool(parts)}
        return {"type": "http.disconnect"}

    async def send(message):
        sent.append(message)

    anyio.run(app, scope, receive, send)
    start = next(message for message in sent if message["type"] == "http.response.start")
    data = b"".join(message.get("body", b"") for message in sent if message["type"] == "http.response.body")
    return Answer(start["status"], {k.decode(): v.decode() for k, v in start["headers"]}, data)
