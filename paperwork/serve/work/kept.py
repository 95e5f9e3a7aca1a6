"""Which archives lie beside a show, and what its own would be called."""

from typing import Any

from paperwork.archive.sums import ABOUT
from paperwork.editions import name_archive
from paperwork.serve.shows import Opened
from paperwork.text.names import fold

HEAD_BYTES = 65_536
"""How much of a zip says whether it is an archive of ours: what it says of itself is first in it."""


def describe_archive(opened: Opened) -> dict[str, Any]:
    """Its name, whether it is there, and the archives whose history it may carry on. No archive is read whole for it."""
    show, stem = opened.reading.show, opened.name.rpartition(".")[0]
    name = name_archive(stem, show) if show else ""
    names = sorted(_list_names(opened, stem), key=fold)
    return {"name": name, "is_there": name in names, "earlier": [one for one in names if one != name]}


def _list_names(opened: Opened, stem: str) -> list[str]:
    if opened.folder is None:
        return []
    found = []
    for path in opened.folder.glob("*.zip"):
        if path.name.startswith(f"{stem}-") and not path.stem.endswith("-public") and path.is_file():
            with path.open("rb") as file:
                head = file.read(HEAD_BYTES)
            found += [path.name] * (head.startswith(b"PK") and ABOUT.encode() in head)
    return found
