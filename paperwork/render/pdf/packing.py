"""The objects of a document as a file in which all but streams are packed (ISO 32000-1:2008, 7.5.7 and 7.5.8).

The library writes each object by itself, with 20 bytes to say where it is: that is more than most elements of a structure
hold. PDF/A-1 allows no packed objects, so the part for its validator is written by the library.
"""

import re
import struct
import zlib
from typing import Any

_MOST = 400
"""So many objects are packed together: enough to be packed well, and a reader that wants one unpacks no more."""

_WIDTHS = (1, 4, 2)

LINE_END = b"\r\n"
"""Before `endstream`: both signs, since content that ends in the first of them would seem a byte shorter before the second."""


def write_document(document: Any) -> bytes:
    """The file of a document that is ready to be written; packed unless its version is one that knows no packed objects."""
    _name_nothing(document)
    return _pack_document(document) if document._pdfVersion >= (1, 5) else type(document).format(document)


def _name_nothing(document: Any) -> None:
    """Takes out what the library says of the sign that is not there: it names it U+0000, which is no sign (ISO 14289-1:2014,
    7.21.7)."""
    for name, one in document.idToObject.items():
        if name.startswith("toUnicodeCMap:") and "\n<00> <0000>\n" in one.content:
            head, count, rest = re.split(
                r"(\d+)(?= beginbfchar)", one.content.replace("\n<00> <0000>\n", "\n"), maxsplit=1
            )
            one.content = f"{head}{int(count) - 1}{rest}"


def _pack_document(document: Any) -> bytes:
    from reportlab.pdfbase.pdfdoc import PDFStream

    file = bytearray(b"%%PDF-%d.%d\n%%\xe2\xe3\xcf\xd3\n" % document._pdfVersion)
    rows: dict[int, tuple[int, int, int]] = {0: (0, 0, 65_535)}
    loose: list[tuple[int, bytes]] = []
    number = 1
    while number in document.numberToId:  # what is written may ask for more objects
        one = document.idToObject[document.numberToId[number]]
        text = one.encode("ascii") if isinstance(one, str) else one.format(document)
        if isinstance(one, PDFStream):
            rows[number] = (1, len(file), 0)
            file += b"%d 0 obj\n%bendobj\n" % (number, text)
        else:
            loose.append((number, text))
        number += 1
    for first in range(0, len(loose), _MOST):
        held = loose[first : first + _MOST]
        rows[number] = (1, len(file), 0)
        rows.update((own, (2, number, place)) for place, (own, _) in enumerate(held))
        file += _pack(number, held)
        number += 1
    rows[number] = (1, len(file), 0)
    start = len(file)
    about = b"/Type/XRef/Size %d/W[%d %d %d]/Root %b/Info %b/ID%b/DecodeParms<</Predictor 12/Columns %d>>" % (
        number + 1, *_WIDTHS, *(document.Reference(one).format(document) for one in (document.Catalog, document.info)),
        document.ID(), sum(_WIDTHS),
    )  # fmt: skip
    file += _stream(number, about, _tabulate([rows[own] for own in range(number + 1)]))
    return bytes(file + b"startxref\n%d\n%%%%EOF\n" % start)


def _pack(number: int, held: list[tuple[int, bytes]]) -> bytes:
    """The objects as one stream: numbers and offsets, then the objects."""
    places, body = [], bytearray()
    for own, text in held:
        places.append(b"%d %d" % (own, len(body)))
        body += text.strip() + b"\n"
    head = b" ".join(places) + b"\n"
    return _stream(number, b"/Type/ObjStm/N %d/First %d" % (len(held), len(head)), head + bytes(body))


def _tabulate(rows: list[tuple[int, int, int]]) -> bytes:
    """Each row as what it is more than the one before it, byte by byte (7.4.4.4): rows that count up are alike then."""
    pack, width = struct.Struct(">BIH").pack, sum(_WIDTHS)
    table = b"".join(pack(*row) for row in rows)
    more = bytes((one - two) % 256 for one, two in zip(table, bytes(width) + table, strict=False))
    return b"".join(b"\2" + more[at : at + width] for at in range(0, len(more), width))


def _stream(number: int, about: bytes, data: bytes) -> bytes:
    packed = zlib.compress(data, 9)
    head = b"%d 0 obj\n<<%b/Filter/FlateDecode/Length %d>>\nstream\n" % (number, about, len(packed))
    return head + packed + LINE_END + b"endstream\nendobj\n"
