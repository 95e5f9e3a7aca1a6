"""An archive's two pages about itself: their names, and the list of digests in the form that `sha256sum -c` reads."""

import hashlib
import re
from collections.abc import Mapping

from paperwork import limits

NAME = "SHA256SUMS"
ABOUT = "archive.json"

_LINE = re.compile(r"([0-9a-f]{64})  ([^\n\r\\]+)")


def write_sums(files: Mapping[str, bytes]) -> bytes:
    """A line for each file, in their order: the SHA-256, two spaces, the path."""
    return "".join(f"{hashlib.sha256(data).hexdigest()}  {path}\n" for path, data in files.items()).encode("utf-8")


def read_sums(data: bytes) -> tuple[dict[str, str], tuple[int, ...]]:
    """The digests by path in their order, and the numbers of the lines that cannot be read or name a path again."""
    found: dict[str, str] = {}
    bad: list[int] = []
    for number, line in enumerate(data.decode("utf-8", "replace").removesuffix("\n").split("\n", limits.ZIP_PARTS), 1):
        match = _LINE.fullmatch(line)
        if match and match[2] not in found:
            found[match[2]] = match[1]
        else:
            bad.append(number)
    return found, tuple(bad)
