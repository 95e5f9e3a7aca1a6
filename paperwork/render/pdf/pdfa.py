"""A PDF that lasts: the metadata, colours and attachments of PDF/A-3b (ISO 19005-3:2012), written in the same pass.

    canvas = Canvas(..., initialFontName=an embedded face)
    archive_canvas(canvas, files, made)      after title and subject are set, before the canvas is saved
    canvas.save()

Checked with an independent validator of PDF/A-1b, which knows all but the attachments; part 3 itself is not certified.
"""

from collections.abc import Sequence
from hashlib import md5
from html import escape
from typing import TYPE_CHECKING, Any, Literal, TypeAlias

from paperwork.frozen import frozen
from paperwork.render.pdf.icc import make_srgb
from paperwork.render.pdf.packing import add_stream

if TYPE_CHECKING:
    from reportlab.pdfgen.canvas import Canvas

Relationship: TypeAlias = Literal["Source", "Data", "Supplement"]
"""What a file is to the document (ISO 32000-2:2020, 7.11.3): what it was made from, what was read beside, or more."""


@frozen
class Attachment:
    """A file carried in the PDF: its name, a path with `/`; its bytes, its media type and what it is, in words."""

    name: str
    data: bytes
    mime: str
    about: str
    relationship: Relationship = "Source"


_XMP = """<?xpacket begin="\ufeff" id="W5M0MpCehiHzreSzNTczkc9d"?>
<x:xmpmeta xmlns:x="adobe:ns:meta/"><rdf:RDF xmlns:rdf="http://www.w3.org/1999/02/22-rdf-syntax-ns#">
<rdf:Description rdf:about="" xmlns:dc="http://purl.org/dc/elements/1.1/" xmlns:xmp="http://ns.adobe.com/xap/1.0/"
 xmlns:pdf="http://ns.adobe.com/pdf/1.3/" xmlns:pdfuaid="http://www.aiim.org/pdfua/ns/id/">
<pdfuaid:part>1</pdfuaid:part>
<dc:title><rdf:Alt><rdf:li xml:lang="x-default">{title}</rdf:li></rdf:Alt></dc:title>
<dc:creator><rdf:Seq><rdf:li>{author}</rdf:li></rdf:Seq></dc:creator>
<dc:description><rdf:Alt><rdf:li xml:lang="x-default">{subject}</rdf:li></rdf:Alt></dc:description>
<xmp:CreateDate>{moment}</xmp:CreateDate><xmp:ModifyDate>{moment}</xmp:ModifyDate>
<xmp:CreatorTool>{creator}</xmp:CreatorTool>
<pdf:Keywords>{keywords}</pdf:Keywords><pdf:Producer>{producer}</pdf:Producer>
</rdf:Description>{archive}</rdf:RDF></x:xmpmeta>
<?xpacket end="w"?>"""
"""The properties that must say the same as the document's information dictionary (ISO 19005-1:2005, 6.7.3), and that the
document is one for everybody (ISO 14289-1:2014, clause 5)."""

_ARCHIVE = """
<rdf:Description rdf:about="" xmlns:pdfaid="http://www.aiim.org/pdfa/ns/id/">
<pdfaid:part>{part}</pdfaid:part><pdfaid:conformance>B</pdfaid:conformance></rdf:Description>
<rdf:Description rdf:about="" xmlns:pdfaExtension="http://www.aiim.org/pdfa/ns/extension/"
 xmlns:pdfaSchema="http://www.aiim.org/pdfa/ns/schema#" xmlns:pdfaProperty="http://www.aiim.org/pdfa/ns/property#">
<pdfaExtension:schemas><rdf:Bag><rdf:li rdf:parseType="Resource">
<pdfaSchema:schema>PDF/UA identification schema</pdfaSchema:schema>
<pdfaSchema:namespaceURI>http://www.aiim.org/pdfua/ns/id/</pdfaSchema:namespaceURI>
<pdfaSchema:prefix>pdfuaid</pdfaSchema:prefix>
<pdfaSchema:property><rdf:Seq><rdf:li rdf:parseType="Resource">
<pdfaProperty:name>part</pdfaProperty:name><pdfaProperty:valueType>Integer</pdfaProperty:valueType>
<pdfaProperty:category>internal</pdfaProperty:category>
<pdfaProperty:description>Part of ISO 14289 that the document keeps to</pdfaProperty:description>
</rdf:li></rdf:Seq></pdfaSchema:property></rdf:li></rdf:Bag></pdfaExtension:schemas></rdf:Description>"""
"""What a lasting document says more, and that the property above is one of a schema (ISO 19005-1:2005, 6.7.8)."""


def archive_canvas(
    canvas: "Canvas", files: Sequence[Attachment], made: str, *, keywords: str = "", part: int = 3
) -> None:
    """Makes the canvas save itself as PDF/A with these attachments. Title, subject and producer must be set before.

    `made` is ISO 8601 text, taken as UTC. `part` 1 is for a validator that knows no other, and takes no attachments.
    Raises ValueError for two attachments of one name, or any with part 1.
    """
    if len({file.name for file in files}) < len(files) or (files and part == 1):
        raise ValueError("attachments need names of their own, and PDF/A-3")
    canvas.setKeywords(keywords)
    document = canvas._doc
    document._pdfVersion = (1, 7) if part == 3 else (1, 4)
    document.Catalog.__NoDefault__ = [*document.Catalog.__NoDefault__, "OutputIntents", "AF"]
    _add_colours(document)
    add_metadata(document, made, part)
    if files:
        _attach(document, files, digits_of(made))


def digits_of(made: str) -> str:
    """The 14 digits of a moment as ISO 8601 text, nought where it says less."""
    return "".join(sign for sign in made if sign.isdigit()).ljust(14, "0")[:14]


def _add_colours(document: Any) -> None:
    from reportlab.pdfbase.pdfdoc import PDFArray

    profile = add_stream(document, "sRGB", make_srgb(), "/N 3")
    intent = "<</Type/OutputIntent/S/GTS_PDFA1/OutputConditionIdentifier(sRGB)/Info(sRGB IEC61966-2.1)"
    document.Catalog.OutputIntents = PDFArray([f"{intent}/DestOutputProfile {profile} 0 R>>"])


def add_metadata(document: Any, made: str, part: int = 0) -> None:
    """The metadata stream, unpacked so that any tool finds it; with the `part` of PDF/A that the document keeps to, if any."""
    info, digits = document.info, digits_of(made)
    year, month, day, hour, minute, second = digits[:4], *(digits[at : at + 2] for at in range(4, 14, 2))
    known = {
        "title": info.title,
        "author": info.author,
        "subject": info.subject,
        "creator": info.creator,
        "keywords": info.keywords,
        "producer": info.producer,
    }
    text = _XMP.format(
        archive=_ARCHIVE.format(part=part) if part else "",
        moment=f"{year}-{month}-{day}T{hour}:{minute}:{second}Z",
        **{name: escape(str(value)) for name, value in known.items()},
    )
    data = text.encode("utf-8", "replace")
    number = add_stream(document, "metadata", data, "/Type/Metadata/Subtype/XML", packed=False)
    document.Catalog.Metadata = f"{number} 0 R"


def _attach(document: Any, files: Sequence[Attachment], digits: str) -> None:
    """The files, listed both for people (in the viewer) and as associated with the whole document."""
    from reportlab.pdfbase.pdfdoc import PDFArray, PDFDictionary, PDFName, PDFString

    listed = []
    for place, file in enumerate(files):
        kind = file.mime.replace("/", "#2F")
        check = md5(file.data, usedforsecurity=False).hexdigest()
        about = f"/Params<</Size {len(file.data)}/ModDate(D:{digits}Z)/CheckSum<{check}>>>"
        number = add_stream(document, f"attachment {place}", file.data, f"/Type/EmbeddedFile/Subtype/{kind}{about}")
        held = f"{number} 0 R"
        spec = {
            "Type": PDFName("Filespec"),
            "F": PDFString(file.name),
            "UF": PDFString(file.name),
            "Desc": PDFString(file.about),
            "AFRelationship": PDFName(file.relationship),
            "EF": PDFDictionary({"F": held, "UF": held}),
        }
        listed.append((file.name, document.Reference(PDFDictionary(spec), f"file {place}")))
    names = [entry for name, reference in sorted(listed) for entry in (PDFString(name), reference)]
    document.Catalog.Names = PDFDictionary({"EmbeddedFiles": PDFDictionary({"Names": PDFArray(names)})})
    document.Catalog.AF = PDFArray([reference for _, reference in listed])
