"""The libraries that the project asks for: each with a lowest version, a licence and a reason."""

import re
import tomllib
from pathlib import Path

import pytest

from tests.tools.lower_bounds import list_lower_bounds

ROOT = Path(__file__).parents[1]
PYPROJECT = (ROOT / "pyproject.toml").read_text("utf-8")
PROJECT = tomllib.loads(PYPROJECT)["project"]
SHIPPED = (
    *PROJECT["dependencies"],
    *(
        one
        for name, extra in PROJECT["optional-dependencies"].items()
        if name not in ("test", "bench", "lint")
        for one in extra
    ),
)


def test_every_library_has_a_lowest_version():
    assert len(list_lower_bounds(PYPROJECT)) >= len(set(PROJECT["dependencies"]))


def test_a_library_without_a_lowest_version_is_refused():
    with pytest.raises(ValueError, match="click has no lower bound"):
        list_lower_bounds('[project]\nname = "x"\ndependencies = ["click"]\noptional-dependencies = {}\n')


@pytest.mark.parametrize("wanted", sorted(set(SHIPPED)))
def test_the_records_give_the_reason_for_each_library_and_its_bound(wanted):
    name, _, bound = wanted.partition(">=")
    text = (ROOT / "tests" / "RECORDS.md").read_text("utf-8")
    listed = " ".join(text[text.index("## Libraries") : text.index("## Long runs")].split())
    entry = re.escape(name) if name.startswith("fontpkg") else rf"{re.escape(name)} >= {re.escape(bound)}\b"
    assert re.search(entry, listed), f"{wanted} is not in the list of libraries"


def test_a_library_has_one_lowest_version_in_all_extras():
    names = [line.partition("==")[0] for line in list_lower_bounds(PYPROJECT)]
    assert len(set(names)) == len(names)


def test_the_lock_names_every_library_that_draws_and_the_least_that_is_allowed_or_more():
    from tests.tools.lock import LOCK, write_lock

    locked, here = (dict(line.split("==") for line in text.split()) for text in (LOCK.read_text("utf-8"), write_lock()))
    assert locked.keys() >= here.keys() - {"charset-normalizer", "chardet"}
    lowest = dict(line.split("==") for line in list_lower_bounds(PYPROJECT))
    numbers = {
        name: [[int(part) for part in re.findall(r"[0-9]+", each[name])] for each in (lowest, locked)]
        for name in lowest
        if name in locked
    }
    assert {name for name in locked if name in lowest} >= {"reportlab", "pypdf", "qrcode"}
    assert [name for name, (least, held) in numbers.items() if held < least] == []
