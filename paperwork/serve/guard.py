"""Who may ask: only the page itself. Other origins, other host names and requests without the token are refused.

A page of another origin can make a browser send requests here (cross-site request forgery), and a name that it owns
can be made to point at 127.0.0.1 (DNS rebinding). So the Host must be ours by number and port, an Origin must be ours
wherever one is given, whatever changes something must give one, and every address begins with a secret.

Other users of the machine can reach the port too, and read command lines. So the browser is handed a private file that
leads to an address with a ticket, which is good once and is answered with a cookie; without the cookie there is no
page. The cookie is for addresses below the secret alone, since browsers send cookies to every port of a machine
(RFC 6265, 8.5).
"""

from dataclasses import dataclass
from hmac import compare_digest
from urllib.parse import parse_qsl

from starlette.exceptions import HTTPException
from starlette.requests import Request
from starlette.responses import PlainTextResponse
from starlette.types import ASGIApp, Message, Receive, Scope, Send

from paperwork import limits

HEADERS = {
    "cache-control": "no-store",
    "content-security-policy": "frame-ancestors 'none'",
    "cross-origin-opener-policy": "same-origin",
    "cross-origin-resource-policy": "same-origin",
    "referrer-policy": "same-origin",
    "x-content-type-options": "nosniff",
    "x-frame-options": "DENY",
}
"""On every answer. Not `no-referrer`: with it browsers send forms with the origin `null` (Fetch standard, 3.2)."""


COOKIE = "paperwork"


@dataclass
class Keys:
    """What lets a browser in: the secret in every address, the cookie, and the tickets that are good for one each, and
    how many of them were taken."""

    token: str
    cookie: str
    tickets: set[str]
    taken: int = 0

    def take(self, path: str) -> bool:
        """Whether an address enters with a ticket, which is then used up."""
        head, _, ticket = path.rpartition("/")
        is_good = head == f"/{self.token}/enter" and ticket in self.tickets
        self.tickets.discard(ticket if is_good else "")
        self.taken += is_good
        return is_good

    @property
    def header(self) -> tuple[bytes, bytes]:
        """What hands the cookie over: to this browser's own requests alone, and to no script."""
        return b"set-cookie", f"{COOKIE}={self.cookie}; Path=/{self.token}/; HttpOnly; SameSite=Strict".encode("ascii")

    def is_held(self, cookies: bytes) -> bool:
        """Whether the cookies of a request hold ours."""
        own = f"{COOKIE}={self.cookie}".encode("ascii")
        return any(compare_digest(one.strip(), own) for one in cookies.split(b";"))


class Guard:
    """Lets through what the page itself asks, and adds the headers that keep it to itself. `host` is what it is asked
    by, number and port; one that only `reads` takes nothing that is sent."""

    def __init__(self, app: ASGIApp, host: str, keys: Keys, *, reads: bool = False) -> None:
        self._app = app
        self._host = host
        self._keys = keys
        self._methods = ("GET", "HEAD") if reads else ("GET", "HEAD", "POST")

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """One request."""
        if scope["type"] == "lifespan":
            await self._app(scope, receive, send)
            return
        reason = self._refusal(scope) if scope["type"] == "http" else "only plain requests"
        enters = not reason and scope["method"] == "GET" and self._keys.take(scope["path"])
        reason = reason or ("" if enters else self._doubt(dict(scope["headers"])))

        async def answer(message: Message) -> None:
            if message["type"] == "http.response.start":
                given = {name.lower() for name, _ in message.get("headers", ())}
                more = [(n.encode(), v.encode()) for n, v in HEADERS.items() if n.encode() not in given]
                more += [self._keys.header] if enters else []
                message = {**message, "headers": [*message.get("headers", ()), *more]}
            await send(message)

        if reason:
            if scope["type"] == "http":
                await PlainTextResponse(f"refused: {reason}\n", 403)(scope, receive, answer)
            else:
                await send({"type": "websocket.close", "code": 1008})
            return
        await self._app(scope, receive, answer)

    def _refusal(self, scope: Scope) -> str:
        headers = [(name.lower(), value) for name, value in scope["headers"]]
        given = dict(headers)
        own = f"http://{self._host}".encode("ascii")
        if [value for name, value in headers if name == b"host"] != [self._host.encode("ascii")]:
            return "another host"
        if scope["method"] not in self._methods:
            return "only reading" if "POST" not in self._methods else "another method"
        if given.get(b"origin", own) != own:
            return "another origin"
        if scope["method"] not in ("GET", "HEAD") and b"origin" not in given:
            return "no origin"
        token = self._keys.token.encode("ascii")
        first = scope["path"].split("/")[1] if "/" in scope["path"] else ""
        return "" if compare_digest(first.encode("utf-8", "replace"), token) else "no token"

    def _doubt(self, given: dict[bytes, bytes]) -> str:
        """Why a browser without a ticket is not let in. The private file is another site: it may come with one."""
        if given.get(b"sec-fetch-site", b"none") not in (b"none", b"same-origin"):
            return "another site"
        return "" if self._keys.is_held(given.get(b"cookie", b"")) else "this browser did not open the page"


async def read_body(request: Request, most: int) -> bytes:
    """The body, at most so many bytes. Raises HTTPException 413 as soon as there are more."""
    length = request.headers.get("content-length", "0")
    parts, size = [], int(length) if length.isascii() and length.isdigit() else 0
    if size > most:
        raise HTTPException(413, f"that is more than {most:,} bytes")
    size = 0
    async for part in request.stream():
        size += len(part)
        if size > most:
            raise HTTPException(413, f"that is more than {most:,} bytes")
        parts.append(part)
    return b"".join(parts)


async def read_form(request: Request) -> list[tuple[str, str]]:
    """The fields of a form, in order."""
    body = await read_body(request, limits.FORM_BYTES)
    try:
        return parse_qsl(
            body.decode("utf-8"), keep_blank_values=True, max_num_fields=limits.FORM_FIELDS, errors="strict"
        )
    except ValueError:
        raise HTTPException(400, "that form cannot be read") from None
