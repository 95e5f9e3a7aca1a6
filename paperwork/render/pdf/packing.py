"""The objects of a document as a file in which all but streams are packed (ISO 32000-1:2008, 7.5.7 and 7.5.8).

The library writes each object by itself, with 20 bytes to say where it is: that is more than most elements of a structure
hold. PDF/A-1 allows no packed objects, so the part for its validator is written by the library.
"""

import struct
import zlib
from collections.abc import Sequence
from itertools import repeat
from operator import and_, sub
from typing import Any

_MOST = 400
"""So many objects are packed together: enough to be packed well, and a reader that wants one unpacks no more."""

_WIDTHS = (1, 4, 2)

_LEVEL = 6
"""Of zlib: what a stream is packed to is within a hundredth of what 9 makes of it, in two thirds of the time (measured)."""

LINE_END = b"\r\n"
"""Before `endstream`: both signs, since content that ends in the first of them would seem a byte shorter before the second."""


def add_object(document: Any, name: str, text: str | bytes) -> int:
    """Adds an object as it is written, text or a stream; its number."""
    document.Reference(text, name)
    number: int = document.objectcounter
    return number


def add_objects(document: Any, name: str, texts: Sequence[str]) -> None:
    """Adds objects as they are written, many at once, under the numbers that come next."""
    first = document.objectcounter + 1
    numbers = range(first, first + len(texts))
    names = [f"{name} {number}" for number in numbers]
    document.objectcounter += len(texts)
    document.numberToId.update(zip(numbers, names, strict=True))
    document.idToObject.update(zip(names, texts, strict=True))
    document.idToObjectNumberAndVersion.update(zip(names, ((number, 0) for number in numbers), strict=True))


def add_stream(document: Any, name: str, data: bytes, about: str = "", *, packed: bool = True) -> int:
    """Adds a stream with what is said of it; its number."""
    return add_object(document, name, make_stream(data, about, packed=packed))


def make_stream(data: bytes, about: str = "", *, packed: bool = True) -> bytes:
    """A stream as an object of any document. Objects that are bytes are streams."""
    data = zlib.compress(data, _LEVEL) if packed else data
    how = "/Filter/FlateDecode" if packed else ""
    head = f"<<{about}{how}/Length {len(data)}>>\nstream\n".encode("ascii")
    return head + data + LINE_END + b"endstream\n"


def write_document(document: Any) -> bytes:
    """The file of a document that is ready to be written; packed unless its version is one that knows no packed objects."""
    return _pack_document(document) if document._pdfVersion >= (1, 5) else type(document).format(document)


def _pack_document(document: Any) -> bytes:
    file = bytearray(b"%%PDF-%d.%d\n%%\xe2\xe3\xcf\xd3\n" % document._pdfVersion)
    rows: dict[int, tuple[int, int, int]] = {0: (0, 0, 65_535)}
    loose: list[tuple[int, bytes]] = []
    number = 1
    while number in document.numberToId:  # what is written may ask for more objects
        one = document.idToObject[document.numberToId[number]]
        if isinstance(one, bytes):
            rows[number] = (1, len(file), 0)
            file += _number(number, one)
        else:
            loose.append((number, one.encode("ascii") if isinstance(one, str) else one.format(document)))
        number += 1
    for first in range(0, len(loose), _MOST):
        held = loose[first : first + _MOST]
        rows[number] = (1, len(file), 0)
        rows.update((own, (2, number, place)) for place, (own, _) in enumerate(held))
        file += _pack(number, held)
        number += 1
    rows[number] = (1, len(file), 0)
    start = len(file)
    root, info = (document.Reference(one).format(document) for one in (document.Catalog, document.info))
    about = b"/Type/XRef/Size %d/W[%d %d %d]/Root %b/Info %b/ID%b/DecodeParms<</Predictor 12/Columns %d>>" % (
        number + 1, *_WIDTHS, root, info, document.ID(), sum(_WIDTHS),
    )  # fmt: skip
    table = make_stream(_tabulate([rows[own] for own in range(number + 1)]), about.decode("latin-1"))
    return bytes(file + _number(number, table) + b"startxref\n%d\n%%%%EOF\n" % start)


def _number(number: int, text: bytes) -> bytes:
    return b"%d 0 obj\n%bendobj\n" % (number, text)


def _pack(number: int, held: list[tuple[int, bytes]]) -> bytes:
    """The objects as one stream: numbers and offsets, then the objects."""
    places, body = [], bytearray()
    for own, text in held:
        places.append(b"%d %d" % (own, len(body)))
        body += text.strip() + b"\n"
    head = b" ".join(places) + b"\n"
    return _number(number, make_stream(head + bytes(body), f"/Type/ObjStm/N {len(held)}/First {len(head)}"))


def _tabulate(rows: list[tuple[int, int, int]]) -> bytes:
    """Each row as what it is more than the one before it, byte by byte (7.4.4.4): rows that count up are alike then."""
    pack, width = struct.Struct(">BIH").pack, sum(_WIDTHS)
    table = b"".join(pack(*row) for row in rows)
    more = bytes(map(and_, map(sub, table, bytes(width) + table), repeat(0xFF)))
    return b"".join(b"\2" + more[at : at + width] for at in range(0, len(more), width))
