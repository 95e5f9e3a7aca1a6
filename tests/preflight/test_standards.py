"""The papers held against PDF/UA-1, and the show book against PDF/A, by two validators that are not ours.

PyPI's page-validation judges PDF/UA-1 (ISO 14289-1) and PDF/A-3b: every paper as it is. Debian's PDFBox preflight knows
PDF/A-1b only, which allows neither attachments nor packed objects. So the book is judged there without them and with `part=1`;
then with them, where it may complain of nothing but what part 1 forbids by design. Needs page-validation, Java and
libpdfbox2-java: run with -m preflight.
"""

import subprocess
from dataclasses import replace
from pathlib import Path

import pytest

from paperwork.pipeline import make_papers
from paperwork.reading import read_show
from paperwork.render.pdf import drawing, painting, pdfa
from paperwork.render.pdf.pdfa import Attachment
from tests.big_shows import big_show
from tests.shows_text import EXAMPLES

pytestmark = pytest.mark.preflight

JARS = ("preflight", "pdfbox2", "fontbox2", "xmpbox", "commons-io", "commons-logging", "javax.activation", "jaxb-api")
"""The validator and what it asks for, by their names in Debian's libpdfbox2-java, libactivation-java, libjaxb-api-java."""

FOLDER = Path("/usr/share/java")
SHOW = Attachment("show.yaml", (EXAMPLES / "show.yaml").read_bytes(), "application/yaml", "The show file")


def judge(pdf: bytes, folder: Path) -> str:
    """What the validator says of a document."""
    path = folder / "book.pdf"
    path.write_bytes(pdf)
    classes = ":".join(str(FOLDER / f"{jar}.jar") for jar in JARS)
    done = subprocess.run(
        ["java", "-cp", classes, "org.apache.pdfbox.preflight.Validator_A1b", str(path)],
        capture_output=True,
        text=True,
        check=False,
    )
    return done.stdout + done.stderr


SHOWS = (EXAMPLES / "show.yaml", Path(__file__).parents[1] / "data" / "many_scripts.yaml")
"""The example, and a show that needs the faces of every other script."""


def book_of(show: Path) -> bytes:
    reading = read_show(show, "show.yaml")
    papers = make_papers(reading.show, reading.findings, only=frozenset({"show-book"}), attached=(SHOW,))
    return papers.files["production/show-book.pdf"]


@pytest.mark.parametrize("show", SHOWS, ids=lambda path: path.stem)
def test_the_book_without_its_attachments_is_valid(show, tmp_path, monkeypatch):
    whole = pdfa.archive_canvas
    monkeypatch.setattr(
        painting,
        "archive_canvas",
        lambda canvas, files, made, keywords="": whole(canvas, (), made, keywords=keywords, part=1),
    )
    assert "is a valid PDF/A-1b file" in judge(book_of(show), tmp_path)


@pytest.mark.parametrize("show", SHOWS, ids=lambda path: path.stem)
def test_with_them_only_what_part_one_forbids_is_complained_of(show, tmp_path):
    told = judge(book_of(show), tmp_path)
    codes = {line.split()[0] for line in told.splitlines() if " : " in line and line.strip()[:1].isdigit()}
    assert codes == {"1.4.7", "1.2.9", "1.4", "7.11.2"} and "/XRef cross reference streams" in told, told


def list_failures(pdf: bytes, profile: str) -> list[str]:
    """What the other validator finds against a profile, `ua1` or `3b`."""
    import page

    return [f"{one.rule_id}: {one.message}" for one in page.validate_pdf_bytes(pdf, profile=profile).failures]


@pytest.mark.parametrize("language", ["en", "de", "fr", "es"])
def test_every_paper_of_the_example_is_for_everybody(language):
    reading = read_show(EXAMPLES / "show.yaml", "show.yaml")
    show = replace(reading.show, production=replace(reading.show.production, language=language))
    files = make_papers(show, reading.findings, attached=(SHOW,), pictured=False, blank=language == "en").files
    papers = [path for path in files if path.endswith(".pdf")]
    assert len(papers) > 40
    assert {path: found for path in papers if (found := list_failures(files[path], "ua1"))} == {}
    assert list_failures(files["production/show-book.pdf"], "3b") == []


def test_every_paper_in_every_script_is_for_everybody():
    reading = read_show(SHOWS[1], "show.yaml")
    files = make_papers(reading.show, reading.findings, attached=(SHOW,), pictured=False).files
    papers = [path for path in files if path.endswith(".pdf")]
    assert {path: found for path in papers if (found := list_failures(files[path], "ua1"))} == {}
    assert list_failures(files["production/show-book.pdf"], "3b") == []


@pytest.mark.parametrize("seed", range(0, 60, 12))
def test_every_paper_of_a_random_show_is_for_everybody(seed):
    files = make_papers(big_show(seed), (), pictured=False).files
    papers = [path for path in files if path.endswith(".pdf")]
    assert {path: found for path in papers if (found := list_failures(files[path], "ua1"))} == {}


def test_the_validator_is_one_that_finds_fault(monkeypatch):
    reading = read_show(EXAMPLES / "show.yaml", "show.yaml")
    monkeypatch.setattr(drawing, "ARTIFACT", "/P BMC")
    monkeypatch.setattr(painting, "tag_document", lambda *_: None)
    files = make_papers(reading.show, reading.findings, only=frozenset({"channel-chart"}), pictured=False).files
    found = " ".join(list_failures(files["rack/channel-chart.pdf"], "ua1"))
    assert "STRUCT-TREE-ROOT" in found and "CONTENT-TAGGING" in found
