"""The structure of a document as its objects: elements, parent tree, links, and what says that it is tagged.

ISO 32000-1:2008, 14.7 and 14.8, as ISO 14289-1:2014 asks for them. Elements are written as text: a book has thousands.
"""

from collections.abc import Sequence
from typing import TYPE_CHECKING, Any

from paperwork.render.boxes import Layout, Page, Room
from paperwork.render.pdf.operators import POINTS_PER_UM
from paperwork.render.pdf.packing import add_objects
from paperwork.render.pdf.structure import Element, Structure

if TYPE_CHECKING:
    from reportlab.pdfgen.canvas import Canvas


def tag_document(canvas: "Canvas", layout: Layout, structure: Structure) -> None:
    """Writes the structure into the document, whose pages are all shown and which is not saved yet."""
    from reportlab.pdfbase.pdfdoc import PDFArray, PDFDictionary, PDFName, PDFString

    document = canvas._doc
    catalog, pages = document.Catalog, document.Pages.pages
    catalog.Lang = PDFString(layout.language)
    catalog.MarkInfo = PDFDictionary({"Marked": "true"})
    canvas.setViewerPreference("DisplayDocTitle", "true")
    sheets = [document.idToObjectNumberAndVersion[f"Page{number}"][0] for number in range(1, len(pages) + 1)]
    notes = _add_links(document, structure.links, layout, sheets)
    for number, page in enumerate(pages):
        page.__NoDefault__ = [*page.__NoDefault__, "StructParents", "Tabs"]
        page.StructParents, page.Tabs = number, PDFName("S")
        page.Annots = PDFArray(notes[number]) if number in notes else None
    catalog.StructTreeRoot = _add_tree(document, structure, layout.pages, sheets)


def _add_links(document: Any, links: Sequence[Element], layout: Layout, sheets: Sequence[int]) -> dict[int, list[Any]]:
    """An annotation for each link, by the page that it is on. Their keys in the parent tree follow those of the pages."""
    targets, found = dict(layout.targets), dict[int, list[Any]]()
    for key, link in enumerate(links, len(sheets)):
        for number, room in list(link.rooms.items())[:1]:
            page = layout.pages[number]
            text = (
                f"<</Type/Annot/Subtype/Link/F 4/Border[0 0 0]/Rect[{_rect(room, page)}]/Contents {_say(link.said)}"
                f"/Dest[{sheets[targets[link.opening.link]]} 0 R/Fit]/StructParent {key}>>"
            )
            found.setdefault(number, []).append(document.Reference(text, f"link {key}"))
            link.note = document.objectcounter
    return found


def _add_tree(document: Any, structure: Structure, pages: Sequence[Page], sheets: Sequence[int]) -> Any:
    """All elements, and the tree that leads from what is marked to them; returns what refers to the root."""
    reference = document.Reference("", "structure")
    top = document.objectcounter
    elements: list[Element] = []
    _list_said(structure.root, elements)
    for number, element in enumerate(elements, top + 1):
        element.number = number
    texts = []
    for element in elements:
        parent = element.parent.number if element.parent else top
        texts.append(f"<</S/{_kind(element)}/P {parent} 0 R{_attributes(element, pages)}{_kids(element, sheets)}>>")
    add_objects(document, "element", texts)
    rows = [
        f"{page}[{' '.join(f'{own.number} 0 R' for own in owners)}]" for page, owners in enumerate(structure.owners)
    ]
    rows += (f"{key} {link.number} 0 R" for key, link in enumerate(structure.links, len(sheets)))
    document.Reference(f"<</Nums[{' '.join(rows)}]>>", "parents")
    document.idToObject["structure"] = (
        f"<</Type/StructTreeRoot/K {structure.root.number} 0 R/ParentTree {document.objectcounter} 0 R"
        f"/ParentTreeNextKey {len(rows)}>>"
    )
    return reference


def _list_said(element: Element, found: list[Element]) -> None:
    """All that is said in an element, in the order in which it is."""
    found.append(element)
    for kid in element.kids:
        if isinstance(kid, Element) and kid.is_said:
            _list_said(kid, found)


def _kind(element: Element) -> str:
    return element.opening.kind if element.parent else "Document"


def _attributes(element: Element, pages: Sequence[Page]) -> str:
    opening = element.opening
    said = f"/Alt {_say(opening.alt)}" if opening.alt else ""
    table = f"/Scope/{opening.scope}" if opening.scope else ""
    table += f"/ColSpan {opening.columns}" if opening.columns > 1 else ""
    table += f"/RowSpan {opening.rows}" if opening.rows > 1 else ""
    said += f"/A<</O/Table{table}>>" if table else ""
    if opening.kind == "Figure":
        number, room = next(iter(element.rooms.items()))
        said += f"/A<</O/Layout/BBox[{_rect(room, pages[number])}]>>"
    return said


def _kids(element: Element, sheets: Sequence[int]) -> str:
    """The kids, and the page that a bare number is of."""
    page = next((kid[0] for kid in element.kids if not isinstance(kid, Element)), None)
    said = []
    for kid in element.kids:
        if isinstance(kid, Element):
            said += [f"{kid.number} 0 R"] if kid.is_said else []
        elif kid[0] == page:
            said.append(str(kid[1]))
        else:
            said.append(f"<</Type/MCR/Pg {sheets[kid[0]]} 0 R/MCID {kid[1]}>>")
    if element.note and page is not None:
        said.append(f"<</Type/OBJR/Obj {element.note} 0 R/Pg {sheets[page]} 0 R>>")
    where = f"/Pg {sheets[page]} 0 R" if page is not None else ""
    return f"{where}/K[{' '.join(said)}]" if said else where


def _rect(room: Room, page: Page) -> str:
    edges = (room.x, page.height - room.bottom, room.right, page.height - room.y)
    return " ".join(f"{edge * POINTS_PER_UM:.2f}" for edge in edges)


def _say(text: str) -> str:
    """A text string (7.9.2.2)."""
    return f"<FEFF{text.encode('utf-16-be').hex().upper()}>"
