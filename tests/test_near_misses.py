"""Near misses: shows that look wrong at a glance and are not. Not one of them may draw a finding.

A tool that cries wolf is left. Each file is one false alarm, and says why it is none.
"""

from pathlib import Path

import pytest

from paperwork.reading import read_show

NEAR_MISSES = sorted((Path(__file__).parent / "near_misses").glob("*.yaml"))


@pytest.mark.parametrize("path", NEAR_MISSES, ids=lambda path: path.stem)
def test_a_near_miss_draws_no_finding(path):
    reading = read_show(path, path.name)
    assert [f"{finding.place} {finding.text}" for finding in reading.findings] == []
    assert reading.show is not None
