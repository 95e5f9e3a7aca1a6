"""The line of revisions, read off what archives say of themselves."""

import hashlib
from collections.abc import Iterable, Mapping
from typing import TypeAlias

from paperwork.archive.inputs import read_about
from paperwork.frozen import frozen


@frozen
class Revision:
    """One revision as its archive describes it. `replaces` is the one before, "" for none; `file` the archive."""

    title: str
    revision: str
    revised: str
    reason: str
    fingerprint: str
    replaces: str
    earlier: tuple[str, ...]
    is_public: bool
    digest: str
    file: str


def read_revision(data: bytes, name: str) -> Revision:
    """What an archive says of its revision. Raises Refused where it says nothing."""
    about = read_about(data, name)
    stated: Mapping[str, str] = {
        key: str(about.get(key, "")) for key in ("title", "revision", "revised", "reason", "fingerprint", "replaces")
    }
    listed, digest = about.get("revisions"), hashlib.sha256(data).hexdigest()
    earlier = tuple(map(str, listed)) if isinstance(listed, list) else ()
    return Revision(**stated, earlier=earlier, is_public=bool(about.get("public")), digest=digest, file=name)


History: TypeAlias = tuple[dict[str, str], ...]
"""What each earlier revision says of itself, the oldest first."""


def carry_on(data: bytes, name: str) -> History:
    """What an archive says of the revisions up to its own. Raises Refused where it says nothing."""
    listed = read_about(data, name).get("history", [])
    earlier = [entry for entry in listed if isinstance(entry, dict)] if isinstance(listed, list) else []
    one = read_revision(data, name)
    own = {key: getattr(one, key) for key in ("revision", "revised", "reason", "fingerprint")} | {"sha256": one.digest}
    return (*({key: str(value) for key, value in entry.items()} for entry in earlier), own)


def line_up(revisions: Iterable[Revision]) -> tuple[tuple[Revision, str], ...]:
    """The revisions of each show from the first to the last, each with what is odd about its place, "" where nothing
    is.

    One comes after those that it lists as earlier; where that says nothing, by date, then by file. Public archives
    stand beside the full ones and have no place of their own in the line.
    """
    ordered = sorted(
        revisions, key=lambda one: (one.title, len(one.earlier), one.revised, one.revision, one.is_public, one.file)
    )
    lined: list[tuple[Revision, str]] = []
    before: Revision | None = None
    for one in ordered:
        before = before if before and before.title == one.title else None
        lined.append((one, "" if one.is_public else _describe_gap(before, one)))
        before = before if one.is_public else one
    return tuple(lined)


def _describe_gap(before: Revision | None, one: Revision) -> str:
    if before is None:
        return f"revision {one.replaces}, which it replaces, is not here" if one.replaces else ""
    if before.revision == one.revision:
        same = before.fingerprint == one.fingerprint
        return "" if same else "a second archive of this revision, with other facts: one of them needs a new revision"
    if one.replaces and one.replaces != before.revision:
        return f"revision {one.replaces}, which it replaces, is not here"
    return ""
