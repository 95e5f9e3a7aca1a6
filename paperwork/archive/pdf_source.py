"""The files that a show book carries. The one home of pypdf, which is loaded here and nowhere else."""

import zlib
from collections.abc import Iterable
from typing import Any

from paperwork import limits
from paperwork.files.refusal import Refused
from paperwork.finding import find
from paperwork.place import Place

AT_VENUE = "the show file, at "
"""How a show book describes the show file that it carries; the name of a venue follows, of the home venue nothing."""


def read_attachments(data: bytes, name: str) -> tuple[str, dict[str, bytes], str]:
    """The path of the show file that a PDF was made from, its attachments, and the venue. Raises Refused without one.

    The streams are unpacked here, up to a limit, and held against their own digests.
    """
    import io
    import logging

    import pypdf

    logging.getLogger("pypdf").setLevel(logging.CRITICAL)  # what is wrong is said once, by us
    try:
        root: Any = pypdf.PdfReader(io.BytesIO(data)).trailer["/Root"]
        specs = [one.get_object() for one in root.get("/AF", ())]
        files = _unpack_all(((str(spec["/UF"]), spec["/EF"]["/F"].get_object()) for spec in specs), name)
        sources = [spec for spec in specs if str(spec.get("/AFRelationship", "")) == "/Source"]
        show = str(sources[0]["/UF"]) if sources else ""
        source = str(sources[0].get("/Desc", "")) if sources else ""
    except Refused:
        raise
    except Exception as error:  # noqa: BLE001  the library lets through whatever a strange part makes Python raise
        raise Refused(find("book-unreadable", Place(name), name=name, reason=type(error).__name__)) from None
    venue = source.removeprefix(AT_VENUE) if source.startswith(AT_VENUE) else ""
    if not show:
        raise Refused(find("book-without-inputs", Place(name), name=name))
    return show, files, venue


def read_text(data: bytes) -> str:
    """What a PDF of ours says: its pages, its head, its bookmarks."""
    import io

    import pypdf

    reader = pypdf.PdfReader(io.BytesIO(data))
    pieces: list[str] = []
    for page in reader.pages:  # text by text: set behind each other, a number and a name would be one word
        page.extract_text(visitor_text=lambda text, *_: pieces.append(text))
    marks = [str(one.get("/Title", "")) for one in _flatten(reader.outline)]
    return "\n".join((*pieces, *map(str, (reader.metadata or {}).values()), *marks))


def _flatten(outline: Any) -> Iterable[Any]:
    for one in outline:
        if isinstance(one, list):
            yield from _flatten(one)
        else:
            yield one


def _unpack_all(held: Iterable[tuple[str, Any]], name: str) -> dict[str, bytes]:
    files: dict[str, bytes] = {}
    for path, stream in held:
        files[path] = _unpack(stream, path, name)
        if len(files) > limits.ZIP_PARTS or sum(map(len, files.values())) > limits.ARCHIVE_BYTES:
            raise Refused(find("archive-unsafe", Place(name), name=name, reason="it unpacks to more than any show"))
    return files


def _unpack(stream: Any, path: str, name: str) -> bytes:
    """The bytes of one attachment, held against the book's digest of them (ISO 32000-1:2008, table 46)."""
    from hashlib import md5

    packed = stream._data
    filters = stream.get("/Filter", [])
    if filters in ("/FlateDecode", ["/FlateDecode"]):
        data = zlib.decompressobj().decompress(packed, limits.ARCHIVE_BYTES + 1)
    elif not filters:
        data = packed
    else:
        raise Refused(find("book-unreadable", Place(name), name=name, reason=f"{path} is packed in another way"))
    if len(data) > limits.ARCHIVE_BYTES:
        raise Refused(find("archive-unsafe", Place(name), name=name, reason="it unpacks to more than any show"))
    stated = stream["/Params"]["/CheckSum"]
    wanted = stated if isinstance(stated, bytes) else stated.original_bytes
    if md5(data, usedforsecurity=False).digest() != wanted:
        raise Refused(find("archive-altered", Place(f"{name}/{path}"), file=path))
    return data
