"""The show book held against PDF/A-1b by a validator that is not ours: Debian's PDFBox preflight.

It knows part 1 only, which allows no attachments. So the book is judged without them and with `part=1`; then with them, where
it may complain of nothing but what part 1 forbids by design. Needs Java and libpdfbox2-java: run with -m preflight.
"""

import subprocess
from pathlib import Path

import pytest

from paperwork.pipeline import make_papers
from paperwork.reading import read_show
from paperwork.render.pdf import pdfa
from paperwork.render.pdf.pdfa import Attachment
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
        pdfa,
        "archive_canvas",
        lambda canvas, files, made, keywords="": whole(canvas, (), made, keywords=keywords, part=1),
    )
    assert "is a valid PDF/A-1b file" in judge(book_of(show), tmp_path)


@pytest.mark.parametrize("show", SHOWS, ids=lambda path: path.stem)
def test_with_them_only_what_part_one_forbids_is_complained_of(show, tmp_path):
    told = judge(book_of(show), tmp_path)
    codes = {line.split()[0] for line in told.splitlines() if " : " in line and line.strip()[:1].isdigit()}
    assert codes == {"1.4.7", "1.2.9", "7.11.2"}, told
