"""Broken shows mark their own guilty lines: a line that ends in `# ! code@12 see 3:24` must be found guilty of just that
code in just that column, and its finding must refer to just those other places of the file.

Each file of tests/shows is read as a user's show; the findings must be those that it marks, no more and no fewer.
"""

import re
from collections import Counter
from pathlib import Path

import pytest

from paperwork.codes import CODES
from paperwork.reading import read_show

HERE = Path(__file__).parent
SHOWS = sorted((HERE / "shows").glob("*.yaml"))
MARK = re.compile(r"# ! ([a-z-]+)@(\d+)(?: see ([\d:, ]+))?")


def marked(path: Path) -> Counter:
    """Line, column, code and other places of every mark."""
    lines = path.read_text(encoding="utf-8").splitlines()
    return Counter(
        (number, int(column), code, see.strip())
        for number, line in enumerate(lines, 1)
        for code, column, see in MARK.findall(line)
    )


def found(path: Path) -> Counter:
    """The same of every finding."""
    return Counter(
        (one.place.line, one.place.column, one.code, name_places({*one.others} - {one.place}, path.name))
        for one in read_show(path, path.name).findings
    )


def name_places(places, name: str) -> str:
    return ", ".join(
        f"{line}:{column}" for line, column in sorted((p.line, p.column) for p in places if p.file == name)
    )


@pytest.mark.parametrize("path", SHOWS, ids=lambda path: path.stem)
def test_broken_show_is_guilty_of_just_what_it_marks(path):
    assert found(path) == marked(path)


@pytest.mark.parametrize("path", SHOWS, ids=lambda path: path.stem)
def test_every_mark_names_a_code_and_a_column(path):
    text = path.read_text(encoding="utf-8")
    assert len(MARK.findall(text)) == text.count("# ! ") and all(mark[0] in CODES for mark in MARK.findall(text))


@pytest.mark.parametrize("path", SHOWS, ids=lambda path: path.stem)
def test_every_finding_says_what_is_wrong_and_what_would_fix_it(path):
    for finding in read_show(path, path.name).findings:
        assert finding.text and finding.fix
        assert not re.search(r"[{}]|None|Subject\(|Place\(", finding.text + finding.fix), finding


def test_no_code_lacks_a_broken_show_or_a_test():
    """Codes of damaged files and of printing cannot be shown by a show in text; a test has to name them."""
    shown = {code for path in SHOWS for _, _, code, _ in marked(path)}
    files = [*HERE.rglob("test_*.py"), HERE / "limit_cases.py"]
    tested = "".join(path.read_text(encoding="utf-8") for path in files)
    lacking = [code for code in CODES if code not in shown and not re.search(rf"(?<![a-z-]){code}(?![a-z-])", tested)]
    assert not lacking
