"""A show that holds a hostile text in every field and as every id: on paper and on the page it is only text."""

import io
import re
from functools import cache
from html.parser import HTMLParser
from pathlib import Path
from tempfile import TemporaryDirectory
from xml.etree import ElementTree

import pypdf
import pytest

from paperwork.pipeline import Papers
from paperwork.reading import read_show
from paperwork.text.names import is_file_name
from tests.few import few_of
from tests.injection.hostile import (
    FORMULAS,
    HEADS,
    MARKUP,
    OPERATORS,
    PLACES,
    TEXTS,
    print_hostile,
    read_hostile,
    show_text,
)

FEW = {FORMULAS[0], MARKUP[1], MARKUP[8], OPERATORS[0], PLACES[1], PLACES[7], HEADS[3]}
"""Those of every run; the others are a sweep."""

EACH = [
    pytest.param(text, id=ascii(text)[:40], marks=() if text in FEW else pytest.mark.sweep)
    for text in TEXTS
    if not text.startswith("\u202e")
]

ACTIONS = (
    "/OpenAction",
    "/AA",
    "/JavaScript",
    "/JS",
    "/Launch",
    "/URI",
    "/GoToR",
    "/GoToE",
    "/SubmitForm",
    "/ImportData",
    "/RichMedia",
    "/XFA",
    "/AcroForm",
    "/Movie",
    "/Sound",
)
"""What makes a reader of PDF act, or reach out (ISO 32000-1, 12.6.4)."""


@cache
def papers_of(text: str) -> Papers | None:
    with TemporaryDirectory() as folder:
        return print_hostile(text, Path(folder))


def printed(text: str) -> Papers:
    papers = papers_of(text)
    if papers is None:  # a comma or a semicolon parts a list: the show is refused, and nothing is printed
        assert re.search("[,;]", text)
        papers = papers_of("plain")
    assert papers is not None
    return papers


class Page(HTMLParser):
    """What a browser makes of a page: its elements with their attributes, and its text."""

    def __init__(self, text: str) -> None:
        super().__init__()
        self.elements: list[tuple[str, dict[str, str | None]]] = []
        self.words = ""
        self.feed(text)

    def handle_starttag(self, tag, attrs):
        self.elements.append((tag, dict(attrs)))

    def handle_data(self, data):
        self.words += data


def keys_of(node, seen: set[int]) -> set[str]:
    """Every key of every dictionary that a PDF holds."""
    node = node.get_object()
    if id(node) in seen:
        return set()
    seen.add(id(node))
    if isinstance(node, pypdf.generic.DictionaryObject):
        return {*node.keys(), *(key for value in node.values() for key in keys_of(value, seen))}
    if isinstance(node, pypdf.generic.ArrayObject):
        return {key for value in node for key in keys_of(value, seen)}
    return {str(node)} if isinstance(node, pypdf.generic.NameObject) else set()


@pytest.mark.parametrize("text", EACH)
def test_no_pdf_acts_or_reaches_out(text):
    for path, data in printed(text).files.items():
        if path.endswith(".pdf"):
            assert keys_of(pypdf.PdfReader(io.BytesIO(data)).trailer, set()).isdisjoint(ACTIONS), path


@pytest.mark.parametrize("text", EACH)
def test_the_index_holds_the_elements_of_a_plain_show_and_no_others(text):
    page, plain = (
        Page(papers_of(one).files["index.html"].decode() if papers_of(one) else "") for one in (text, "plain")
    )
    if not page.elements:
        return
    assert {tag for tag, _ in page.elements} <= {tag for tag, _ in plain.elements} | {"ol", "li", "em", "strong"}
    assert sum(tag == "script" for tag, _ in page.elements) == sum(tag == "script" for tag, _ in plain.elements)
    for _, attributes in page.elements:
        assert not any(name.startswith("on") for name in attributes)
        for name in ("href", "src", "data"):
            assert not re.match(r"\s*(?:[a-z][a-z0-9+.-]*:|//)", attributes.get(name) or "", re.IGNORECASE), attributes


@pytest.mark.parametrize("text", EACH)
def test_no_picture_holds_anything_but_shapes(text):
    for path, data in printed(text).files.items():
        if path.endswith(".svg"):
            elements = list(ElementTree.fromstring(data).iter())
            assert {element.tag.rpartition("}")[2] for element in elements} <= {
                "svg",
                "title",
                "defs",
                "path",
                "g",
                "use",
                "rect",
                "clipPath",
            }, path
            assert not any(name.startswith("on") for element in elements for name in element.attrib)
            assert all(element.get("href", "#").startswith("#") for element in elements)


@pytest.mark.parametrize("text", EACH)
def test_files_are_named_by_us_alone(text):
    files = printed(text).files
    for path in files:
        assert re.fullmatch(r"[a-z0-9.-]+(?:/[a-z0-9.-]+)*", path) and len(path) < 100, path
        assert all(map(is_file_name, path.split("/")))
    assert len({path.casefold() for path in files}) == len(files)


@pytest.mark.parametrize("text", few_of(PLACES, among=(PLACES[1], PLACES[7])))
def test_placeholders_are_printed_as_they_are_written(text):
    papers = printed(text)
    words = Page(papers.files["index.html"].decode()).words
    assert text in words
    chart = pypdf.PdfReader(io.BytesIO(papers.files["rack/channel-chart.pdf"]))
    assert text.replace(" ", "") in "".join(page.extract_text() for page in chart.pages).replace(" ", "").replace(
        "\n", ""
    )


@pytest.mark.parametrize("text", (*PLACES, *MARKUP))
def test_findings_hold_a_text_as_it_is_written(text, tmp_path):
    (tmp_path / "show.yaml").write_text(
        show_text(text).replace('"radio": ', '"radio": "no ", "x": ', 1), encoding="utf-8"
    )
    findings = read_show(tmp_path / "show.yaml", "show.yaml").findings
    assert any(text.replace("-", "_").strip() in finding.text for finding in findings)


def test_the_title_of_a_pdf_is_the_title_whatever_it_holds():
    for text in (OPERATORS[0], "((((", "\\101\\102", "🎭 x"):
        papers = print_hostile_title(text)
        info = pypdf.PdfReader(io.BytesIO(papers.files["rack/channel-chart.pdf"])).metadata
        assert text in f"{info.title} {info.subject} {info.author}"


def print_hostile_title(text: str) -> Papers:
    with TemporaryDirectory() as folder:
        papers = print_hostile(text, Path(folder), "channel-chart")
        assert papers is not None
        return papers


def test_a_name_that_turns_text_around_is_not_read(tmp_path):
    reading = read_hostile("\u202egnp.exe", tmp_path)
    assert reading.show is None and {finding.code for finding in reading.findings} == {"yaml-control"}
