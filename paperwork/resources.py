"""What ships beside the code: templates, schemas, the tables of data, and the example show.

Plain paths, because the library for packaged resources takes longer to import than a small show takes to check.
"""

from functools import cache
from pathlib import Path
from typing import Any, Literal, TypeAlias

Kind: TypeAlias = Literal["templates", "schemas", "data", "example_show"]

_PACKAGE = Path(__file__).resolve().parent


@cache
def find_folder(kind: Kind) -> Path:
    """The folder of one kind: inside the installed package, else at the root of the checkout it runs from.

    Raises FileNotFoundError if it is in neither: the installation is broken.
    """
    for folder in (_PACKAGE / kind, _PACKAGE.parent / kind):
        if folder.is_dir() and (folder.parent == _PACKAGE or (_PACKAGE.parent / "pyproject.toml").is_file()):
            return folder
    raise FileNotFoundError(f"the {kind} folder is missing; install the package again")


@cache
def read_text(kind: Kind, name: str) -> str:
    """The text of one shipped file, as `read_text("schemas", "show.schema.json")`."""
    return (find_folder(kind) / name).read_text(encoding="utf-8")


@cache
def read_toml(name: str) -> dict[str, Any]:
    """One table of data, as `read_toml("stocks.toml")`. Shared between callers: do not alter it."""
    import tomllib

    return tomllib.loads(read_text("data", name))
