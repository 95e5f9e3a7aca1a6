"""The lowest version of every library that pyproject.toml allows, as pip's constraints.

python -m tests.tools.lower_bounds > lowest.txt && pip install -c lowest.txt -e '.[test]'
"""

import re
import tomllib
from pathlib import Path

_BOUND = re.compile(r"([A-Za-z0-9_.-]+)(?:\[[a-z,]+\])?[>=]=([0-9.]+)")


def list_lower_bounds(pyproject: str) -> list[str]:
    """A line `name==version` for each library of the project and its extras, each once. ValueError for one without a bound."""
    project = tomllib.loads(pyproject)["project"]
    lines: dict[str, None] = {}
    for wanted in (
        *project["dependencies"],
        *(one for extra in project["optional-dependencies"].values() for one in extra),
    ):
        if wanted.startswith(project["name"]):
            continue
        match = _BOUND.fullmatch(wanted)
        if match is None:
            raise ValueError(f"{wanted} has no lower bound of the form name>=version")
        lines[f"{match[1]}=={match[2]}"] = None
    return sorted(lines)


if __name__ == "__main__":
    print("\n".join(list_lower_bounds((Path(__file__).parents[2] / "pyproject.toml").read_text("utf-8"))))
