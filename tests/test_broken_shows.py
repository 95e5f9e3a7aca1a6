"""Broken shows mark their own guilty lines: a line that ends in `# ! code` must be found guilty of just that code.

Each file of tests/shows is read as a user's show; the set of (line, code) found must be the set that it marks.
"""

import re
from collections import Counter
from pathlib import Path

import pytest

from paperwork.codes import CODES
from paperwork.reading import read_show

HERE = Path(__file__).parent
SHOWS = sorted((HERE / "shows").glob("*.yaml"))
MARK = re.compile(r"# ! ([a-z-]+)")


def marked(path: Path) -> Counter:
    lines = path.read_text(encoding="utf-8").splitlines()
    return Counter((number, code) for number, line in enumerate(lines, 1) for code in MARK.findall(line))


@pytest.mark.parametrize("path", SHOWS, ids=lambda path: path.stem)
def test_broken_show_is_guilty_of_just_what_it_marks(path):
    found = Counter((finding.place.line, finding.code) for finding in read_show(path, path.name).findings)
    assert found == marked(path)


@pytest.mark.parametrize("path", SHOWS, ids=lambda path: path.stem)
def test_every_finding_says_what_is_wrong_and_what_would_fix_it(path):
    for finding in read_show(path, path.name).findings:
        assert finding.text and finding.fix
        assert not re.search(r"[{}]|None|Subject\(|Place\(", finding.text + finding.fix), finding


def test_no_code_lacks_a_broken_show_or_a_test():
    """Codes of damaged files and of printing cannot be shown by a show in text; a test has to name them."""
    shown = {code for path in SHOWS for _, code in marked(path)}
    files = [*HERE.rglob("test_*.py"), HERE / "limit_cases.py"]
    tested = "".join(path.read_text(encoding="utf-8") for path in files)
    lacking = [code for code in CODES if code not in shown and not re.search(rf"(?<![a-z-]){code}(?![a-z-])", tested)]
    assert not lacking
