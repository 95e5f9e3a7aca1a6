"""Several papers as one PDF, to be printed in one go and to be read out as each of them is."""

import io
import re
from collections.abc import Sequence
from typing import TYPE_CHECKING, Any, cast
from xml.sax.saxutils import escape

if TYPE_CHECKING:
    import pypdf
    from pypdf.generic import DecodedStreamObject, DictionaryObject

_TITLE = re.compile("<dc:title>.*?</dc:title>", re.DOTALL)

PLACE = "/StructParents"
"""A page's number in the tree that leads from what is marked to its part (ISO 32000-1:2008, 14.7.4.4)."""


def join_papers(title: str, papers: Sequence[tuple[str, bytes]]) -> bytes:
    """Papers by their titles as one PDF, in order, each an entry of its outline. The same papers give the same bytes.

    What is tagged in them is tagged in it. Raises pypdf's errors for bytes that are not a PDF.
    """
    import pypdf
    from pypdf.generic import BooleanObject, DictionaryObject, NameObject

    writer = pypdf.PdfWriter()
    readers = [pypdf.PdfReader(io.BytesIO(data)) for _, data in papers]
    for (name, _), reader in zip(papers, readers, strict=True):
        writer.append(reader, outline_item=name, import_outline=False)
    trees = [reader.root_object.get("/StructTreeRoot") for reader in readers]
    if trees and all(tree is not None for tree in trees):
        root = writer.root_object
        root[NameObject("/StructTreeRoot")] = writer._add_object(_join_trees(writer, readers))
        root[NameObject("/MarkInfo")] = DictionaryObject({NameObject("/Marked"): BooleanObject(True)})
        root[NameObject("/Lang")] = readers[0].root_object["/Lang"].clone(writer)
        root[NameObject("/Metadata")] = writer._add_object(_name_metadata(title, readers[0]))
    shown = writer.create_viewer_preferences()
    shown[NameObject("/DisplayDocTitle")] = BooleanObject(True)
    writer.metadata = {**(readers[0].metadata or {} if readers else {}), "/Title": title, "/Producer": "paperwork"}
    joined = io.BytesIO()
    writer.write(joined)
    return joined.getvalue()


def _name_metadata(title: str, reader: "pypdf.PdfReader") -> "DecodedStreamObject":
    """The metadata of a paper under another title: the document is tagged for everybody (ISO 14289-1:2014, 5)."""
    from pypdf.generic import DecodedStreamObject, NameObject

    own = f'<dc:title><rdf:Alt><rdf:li xml:lang="x-default">{escape(title)}</rdf:li></rdf:Alt></dc:title>'
    said: Any = reader.root_object["/Metadata"]
    text = said.get_data().decode("utf-8")
    stream = DecodedStreamObject()
    stream.set_data(_TITLE.sub(lambda _: own, text).encode("utf-8"))
    stream[NameObject("/Type")], stream[NameObject("/Subtype")] = NameObject("/Metadata"), NameObject("/XML")
    return stream


def _join_trees(writer: "pypdf.PdfWriter", readers: Sequence["pypdf.PdfReader"]) -> "DictionaryObject":
    """One tree over those of all papers, whose documents are its parts; what leads to them counts on."""
    from pypdf.generic import ArrayObject, DictionaryObject, NameObject, NumberObject

    root = DictionaryObject({NameObject("/Type"): NameObject("/StructTreeRoot")})
    top = writer._add_object(root)
    whole = DictionaryObject({NameObject("/S"): NameObject("/Document"), NameObject("/P"): top})
    parts, leads = ArrayObject(), ArrayObject()
    place = writer._add_object(whole)
    first, sheet = 0, 0
    for reader in readers:
        tree: Any = reader.root_object["/StructTreeRoot"]
        part = tree["/K"].clone(writer)
        own = part.get_object()
        own[NameObject("/S")], own[NameObject("/P")] = NameObject("/Sect"), place
        parts.append(part.indirect_reference or part)
        numbers = tree["/ParentTree"]["/Nums"]
        for key, value in zip(numbers[::2], numbers[1::2], strict=True):
            leads += [NumberObject(first + int(key)), value.clone(writer)]
        for page, was in zip(writer.pages[sheet : sheet + len(reader.pages)], reader.pages, strict=True):
            page[NameObject(PLACE)] = NumberObject(first + int(cast("NumberObject", was[PLACE])))
            page[NameObject("/Tabs")] = NameObject("/S")
        first, sheet = first + int(tree["/ParentTreeNextKey"]), sheet + len(reader.pages)
    whole[NameObject("/K")] = parts
    root[NameObject("/K")] = place
    root[NameObject("/ParentTree")] = writer._add_object(DictionaryObject({NameObject("/Nums"): leads}))
    root[NameObject("/ParentTreeNextKey")] = NumberObject(first)
    return root
