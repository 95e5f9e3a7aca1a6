"""XML from a file of somebody else: a document type is refused, so nothing in it unfolds or is fetched from elsewhere.

Entities exist only where a document type declares them (XML 1.0, 4.1 and 4.2), and the parser stops before it reads
one.
"""

from collections.abc import Callable, Iterator
from typing import Any
from xml.etree.ElementTree import Element, TreeBuilder
from xml.parsers import expat

_CHUNK = 1 << 16


def parse_xml(data: bytes) -> Element:
    """The root element; names carry their namespace as `uri}name`. Raises ValueError for what is not plain XML."""
    builder = TreeBuilder()
    parser = _make_parser(builder.start, builder.end, builder.data)
    _feed(parser, data, True)
    return builder.close()


def walk_xml(data: bytes, wanted: frozenset[str]) -> Iterator[Element]:
    """The elements of some names as they end, in order; what was in one is given up once it was seen."""
    builder = TreeBuilder()
    ended: list[Element] = []

    def end(tag: str) -> None:
        element = builder.end(tag)
        if local(element) in wanted:
            ended.append(element)

    parser = _make_parser(builder.start, end, builder.data)
    for at in range(0, len(data), _CHUNK):
        _feed(parser, data[at : at + _CHUNK], False)
        for element in ended:
            yield element
            element.clear()
        ended.clear()
    _feed(parser, b"", True)


def local(element: Element) -> str:
    """The name of an element without its namespace."""
    return element.tag.rpartition("}")[2]


def child(element: Element, name: str) -> Element | None:
    """The first child of a name, or None."""
    return next((one for one in element if local(one) == name), None)


def children(element: Element, name: str) -> tuple[Element, ...]:
    """What is in the first child of a name."""
    found = child(element, name)
    return tuple(found) if found is not None else ()


def _make_parser(start: Callable[..., Any], end: Callable[..., Any], data: Callable[..., Any]) -> Any:
    parser = expat.ParserCreate(namespace_separator="}")
    parser.buffer_text = True
    parser.StartElementHandler = start
    parser.EndElementHandler = end
    parser.CharacterDataHandler = data
    parser.StartDoctypeDeclHandler = _refuse_doctype
    return parser


def _refuse_doctype(*_: object) -> None:
    raise ValueError("a document type is declared")


def _feed(parser: Any, data: bytes, is_last: bool) -> None:
    try:
        parser.Parse(data, is_last)
    except expat.ExpatError as error:
        raise ValueError(str(error)) from None
