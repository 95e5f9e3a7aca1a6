"""Each finding of the broken shows to the letter: its column, how severe, about whom, which other places, its words.

`findings.txt` holds them as a person reviewed them. After a change that is meant, write it anew and read the difference:
python -m tests.checks.test_findings
"""

from pathlib import Path

import pytest

from paperwork.reading import read_show
from tests.test_broken_shows import SHOWS

HERE = Path(__file__).parent
KEPT = HERE / "findings.txt"


def lines_of(path: Path) -> list[str]:
    """The findings of a show, two lines each."""
    lines = []
    for finding in read_show(path, path.name).findings:
        about = ", ".join(f"{one.section} {one.id}" for one in finding.subjects)
        also = ", ".join(f"{place.line}:{place.column}" for place in finding.others)
        at = f"{finding.place.line}:{finding.place.column}"
        lines.append(f"{path.stem} {at} {finding.severity} {finding.code} | {about} | {also}".rstrip(" |"))
        lines.append(f"    {finding.text} | {finding.fix}")
    return lines


@pytest.mark.parametrize("path", SHOWS, ids=lambda path: path.stem)
def test_a_finding_says_to_the_letter_what_it_said(path):
    kept = KEPT.read_text(encoding="utf-8").splitlines()
    pairs = zip(kept[::2], kept[1::2], strict=True)
    assert lines_of(path) == [line for pair in pairs if pair[0].split(" ", 1)[0] == path.stem for line in pair]


if __name__ == "__main__":
    KEPT.write_text("".join(f"{line}\n" for path in SHOWS for line in lines_of(path)), encoding="utf-8")
