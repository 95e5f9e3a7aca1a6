"""Work that takes all it can get, or that fails: for the processes that it is given to, so that little is imported."""

import itertools

from paperwork.files.refusal import Refused
from paperwork.finding import find
from paperwork.output import OutputError
from paperwork.place import Place


def hang(*_: object) -> None:
    """Never ends, in Python or out of it."""
    sum(itertools.repeat(1, 10**15))


def hoard(*_: object) -> int:
    """Takes what it can get."""
    held = []
    while True:
        held.append(bytes(10_000_000))


def refuse(name: str) -> None:
    raise Refused(find("file-missing", Place(name), name=name, nearest=""))


def fill(_: str) -> None:
    raise OutputError("the disk is full", "free some")


def chat(_: str) -> str:
    """Prints, as a library might."""
    print("hello")
    return "done"


def hang_for_slow(opened):
    from paperwork.serve.shows import _read_anew

    if opened.name == "slow.yaml":
        hang()
    return _read_anew(opened)
