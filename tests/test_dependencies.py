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
