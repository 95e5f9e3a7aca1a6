"""Files as answers: what kind they are, what a browser may do with them, and what they are called when they are kept."""

from urllib.parse import quote

from anyio import to_thread
from starlette.exceptions import HTTPException
from starlette.requests import Request
from starlette.responses import Response

from paperwork.render.text.faces import read_face
from paperwork.resources import read_text

_MEDIA = {"pdf": "application/pdf", "svg": "image/svg+xml", "html": "text/html; charset=utf-8"}


_OURS = {"content-security-policy": "frame-ancestors 'self'", "x-frame-options": "SAMEORIGIN"}
"""What the page itself may hold in a frame, to print it."""

_HEADERS = {"pdf": _OURS, "svg": {"content-security-policy": "default-src 'none'; style-src 'unsafe-inline'"}}


async def give_face(request: Request) -> Response:
    """A face of the papers, which is the page's too, or the style that names them. They never change while it runs."""
    name = request.path_params["name"]
    kept = {"cache-control": "private, max-age=86400, immutable"}
    if name == "faces.css":
        return Response(read_text("templates", name), media_type="text/css", headers=kept)
    weight = name.removesuffix(".ttf")
    if weight not in ("regular", "semibold", "bold") or weight == name:
        raise HTTPException(404, "There is no such face.")
    data = await to_thread.run_sync(read_face, f"text-{weight}")
    return Response(data, media_type="font/ttf", headers=kept)


def make_reply(data: bytes, path: str, name: str = "") -> Response:
    """A file to be looked at, and to be kept under a name, or its own."""
    kind = path.rpartition(".")[2]
    named = {"content-disposition": f"inline; filename*=UTF-8''{quote(name or path.rpartition('/')[2])}"}
    headers = {**_HEADERS.get(kind, {}), **(named if kind == "pdf" else {})}
    return Response(data, media_type=_MEDIA.get(kind, "application/octet-stream"), headers=headers)


def make_download(data: bytes, name: str, media: str) -> Response:
    """A file to be kept."""
    return Response(
        data, media_type=media, headers={"content-disposition": f"attachment; filename*=UTF-8''{quote(name)}"}
    )
