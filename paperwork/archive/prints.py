"""What an archive says that it printed: the codes of pages, labels and cards, to hold a wall against."""

from collections.abc import Mapping
from pathlib import PurePosixPath
from typing import TYPE_CHECKING, Any

from paperwork.changes import LabelPrint, PaperPrint

if TYPE_CHECKING:
    from paperwork.document.printed import Printed


def describe_print(one: "Printed") -> dict[str, Any]:
    """One paper as the archive lists it."""
    return {
        "path": f"papers/{one.path}",
        "title": one.title,
        "pages": len(one.pages),
        "codes": [code for code in one.codes if code],
        "stamped": list(one.stamped),
        "labels": [list(label) for label in one.labels],
    }


def read_prints(about: Mapping[str, Any]) -> tuple[PaperPrint, ...]:
    """The papers that an archive lists with the codes of all their pages (the book has none); none where the list does
    not have the form that we write."""
    listed = about.get("papers")
    try:
        prints = [_read_print(one) for one in listed] if isinstance(listed, list) else []
    except (KeyError, TypeError, ValueError, AttributeError):
        return ()
    return tuple(one for one in prints if one)


def _read_print(one: Mapping[str, Any]) -> PaperPrint | None:
    path = PurePosixPath(str(one["path"]).removeprefix("papers/"))
    codes = tuple(map(str, one["codes"]))
    labels = tuple(LabelPrint(str(number), str(role), str(code)) for number, role, code in one["labels"])
    title = str(one["title"])
    return PaperPrint(str(path.parent), path.stem, title, codes, labels) if len(codes) == one["pages"] else None
