"""A show from a few lines of text, the way a test reads best: the show and what is expected stand on one screen."""

from pathlib import Path
from textwrap import dedent

from paperwork.files import read_bytes
from paperwork.finding import Finding
from paperwork.model import Show
from paperwork.raw import Map
from paperwork.reading import Reading, read_show

EXAMPLES = Path(__file__).resolve().parent.parent / "example_show"


def raw_of(text: str) -> Map:
    """The Raw of a show in YAML; the reader must have found nothing."""
    raw, findings = read_bytes(dedent(text).encode("utf-8"), "show.yaml")
    assert raw is not None and not findings, findings
    return raw


def reading_of(text: str, tmp_path: Path, name: str = "show.yaml") -> Reading:
    """The reading of a show in YAML, through a file."""
    path = tmp_path / name
    path.write_text(dedent(text), encoding="utf-8")
    return read_show(path, name)


def show_of(text: str, tmp_path: Path) -> Show:
    """The show, which must be clean."""
    reading = reading_of(text, tmp_path)
    assert reading.show is not None and not reading.findings, reading.findings
    return reading.show


def told(findings: tuple[Finding, ...]) -> list[str]:
    """Findings as `line code`, the form in which tests compare them."""
    return [f"{finding.place.line} {finding.code}" for finding in findings]
