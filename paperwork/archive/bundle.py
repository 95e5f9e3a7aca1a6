"""A revision as one file: inputs, facts, tables, papers, findings, versions, digests, a page about itself."""

import hashlib
import json
import platform
import zlib
from collections.abc import Iterable, Iterator, Mapping, Sequence
from contextlib import suppress
from importlib.metadata import PackageNotFoundError, requires, version
from typing import Any

from paperwork import __version__
from paperwork.archive import sums
from paperwork.archive.container import pack_files
from paperwork.archive.inputs import FOLDER
from paperwork.archive.prints import describe_print
from paperwork.archive.readme import write_readme
from paperwork.archive.tables import write_tables
from paperwork.document.printed import Printed
from paperwork.finding import Finding
from paperwork.frozen import frozen
from paperwork.model import Show
from paperwork.model.facts import canonical_facts
from paperwork.text.fingerprint import fingerprint
from paperwork.text.glyphs import script_of

PROJECT = "show-paperwork"
"""What the program is called where it is installed from."""

FORM = 1
"""The form of archives that this program writes; a later one that reads otherwise counts on."""

VERSIONS = "libraries.txt"
"""The file in an archive that names the versions of everything that shaped its papers, as pip takes it."""


@frozen
class Edition:
    """All that goes into one archive.

    `inputs` are the files that the show was read from, the show file first, by paths below its folder; empty for a
    public archive, whose `removed` says what was left out. `history` is what earlier archives said of themselves,
    `dated` the date that its papers carry where that is not its revision's.
    """

    show: Show
    findings: tuple[Finding, ...]
    papers: Mapping[str, bytes]
    printed: tuple[Printed, ...]
    missing: tuple[tuple[str, str], ...]
    inputs: Mapping[str, bytes]
    venue: str = ""
    public: bool = False
    removed: tuple[str, ...] = ()
    history: tuple[Mapping[str, str], ...] = ()
    dated: str = ""


def make_archive(record: Edition) -> bytes:
    """The archive's bytes: a zip that any tool opens, the same for one record and one set of libraries."""
    files = list_files(record)
    return pack_files({**files, sums.NAME: sums.write_sums(files)})


def list_files(record: Edition) -> dict[str, bytes]:
    """The files of an archive by path, without their digests."""
    facts = canonical_facts(record.show)
    files = {
        sums.ABOUT: _json(_describe(record, facts)),
        VERSIONS: _write_versions(list_versions(_list_extras(record.show))),
        "facts.json": facts + b"\n",
        "findings.json": _json([_plain(finding) for finding in record.findings]),
        **write_tables(json.loads(facts)),
        **{FOLDER + path: data for path, data in record.inputs.items()},
        **{f"papers/{path}": data for path, data in sorted(record.papers.items())},
    }
    readme = write_readme(record.show, sorted(files), public=record.public, removed=record.removed)
    return {"README.txt": readme, **files}


def _describe(record: Edition, facts: bytes) -> dict[str, Any]:
    """What the archive says of itself."""
    production = record.show.production
    return {
        "made by": "paperwork",
        "form": FORM,
        "public": record.public,
        "removed": list(record.removed),
        "title": production.title,
        "venue": production.venue,
        "revision": production.revision,
        "revised": production.revised,
        "reason": production.reason,
        "replaces": production.replaces,
        "revisions": [one for one in production.revisions if one != production.revision],
        "fingerprint": fingerprint(facts),
        "facts sha256": hashlib.sha256(facts).hexdigest(),
        "venue chosen": record.venue,
        "show file": next(iter(record.inputs), ""),
        "inputs": list(record.inputs),
        "papers": [describe_print(one) for one in record.printed],
        "not printed": [{"paper": name, "needs": needs} for name, needs in record.missing],
        "history": [dict(one) for one in record.history],
        "dated": record.dated,
        "versions": list_versions(_list_extras(record.show)),
    }


def list_versions(extras: Iterable[str] = ()) -> dict[str, str]:
    """The versions that a paper's bytes depend on: the program, Python, its packing library, and each library with what
    it needs itself. `extras` are those whose faces the show needs."""
    found = {"paperwork": __version__, "python": platform.python_version(), "zlib": zlib.ZLIB_RUNTIME_VERSION}
    libraries: dict[str, str] = {}
    waiting = list(_list_needs(PROJECT, extras))
    while waiting:
        name = waiting.pop()
        with suppress(PackageNotFoundError):
            if name not in libraries:
                libraries[name] = version(name)
                waiting += _list_needs(name)
    return found | dict(sorted(libraries.items()))


def _list_needs(name: str, extras: Iterable[str] = ()) -> Iterator[str]:
    """The names of the libraries that one needs on this Python and system, in lower case, without those of extras that
    are not wanted."""
    from packaging.requirements import Requirement  # 10 ms that only an archive or a book has to pay

    for line in requires(name) or ():
        need = Requirement(line)
        if need.marker is None or any(need.marker.evaluate({"extra": extra}) for extra in ("", *extras)):
            yield need.name.lower()


def _list_extras(show: Show) -> frozenset[str]:
    """The extras whose faces the texts of a show need."""
    facts = canonical_facts(show).decode("utf-8")
    return frozenset(script.extra for sign in {*facts} if (script := script_of(sign)))


def _write_versions(versions: Mapping[str, str]) -> bytes:
    """The versions as pip's requirements."""
    named = {PROJECT if name == "paperwork" else name: number for name, number in versions.items()}
    lines = (f"{name}=={number}" for name, number in named.items() if name not in ("python", "zlib"))
    return (f"# Python {versions['python']}\n" + "\n".join(lines) + "\n").encode()


def _plain(finding: Finding) -> dict[str, Any]:
    place = finding.place
    return {
        "code": finding.code,
        "severity": finding.severity,
        "place": str(place),
        "text": finding.text,
        "fix": finding.fix,
        "subjects": [f"{subject.section} {subject.id}" for subject in finding.subjects],
    }


def _json(value: dict[str, Any] | Sequence[Any]) -> bytes:
    return (json.dumps(value, ensure_ascii=False, indent=1) + "\n").encode("utf-8", "backslashreplace")
