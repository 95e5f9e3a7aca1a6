"""A revision as one file: inputs, facts, tables, papers, findings, versions, digests, and a page for whoever opens it."""

import hashlib
import json
import platform
import zlib
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from importlib.metadata import PackageNotFoundError, version
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
from paperwork.model import Show
from paperwork.model.facts import canonical_facts
from paperwork.text.fingerprint import fingerprint

FORM = 1
"""The form of archives that this program writes; a later one that reads otherwise counts on."""

LIBRARIES = (
    "click",
    "defusedxml",
    "fontpkg-fira-sans-condensed",
    "fontpkg-ibm-plex-sans-condensed",
    "jinja2",
    "openpyxl",
    "pypdf",
    "pyyaml",
    "qrcode",
    "reportlab",
)
"""What the papers were made with; a test holds the list to the project's own."""


@dataclass(frozen=True, slots=True)
class Edition:
    """All that goes into one archive.

    `inputs` are the files that the show was read from, the show file first, by paths below its folder; empty for a
    public archive, whose `removed` says what was left out. `history` is what earlier archives said of themselves.
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


def make_archive(record: Edition) -> bytes:
    """The archive's bytes: a zip that any tool opens, the same for one record and one set of libraries."""
    facts = canonical_facts(record.show)
    files = {
        sums.ABOUT: _json(_describe(record, facts)),
        "facts.json": facts + b"\n",
        "findings.json": _json([_plain(finding) for finding in record.findings]),
        **write_tables(json.loads(facts)),
        **{FOLDER + path: data for path, data in record.inputs.items()},
        **{f"papers/{path}": data for path, data in sorted(record.papers.items())},
    }
    readme = write_readme(record.show, sorted(files), public=record.public, removed=record.removed)
    files = {"README.txt": readme, **files}
    return pack_files({**files, sums.NAME: sums.write_sums(files)})


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
        "versions": list_versions(),
    }


def list_versions() -> dict[str, str]:
    """The versions that a paper's bytes depend on: the program, Python, its packing library, the libraries and fonts."""
    found = {"paperwork": __version__, "python": platform.python_version(), "zlib": zlib.ZLIB_RUNTIME_VERSION}
    for name in LIBRARIES:
        try:
            found[name] = version(name)
        except PackageNotFoundError:
            found[name] = "not installed"
    return found


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
