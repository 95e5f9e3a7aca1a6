"""Findings as SARIF 2.1.0 (OASIS standard, 27 March 2020), with what their fixes change in the show file."""

import difflib
from collections.abc import Iterator, Sequence
from typing import Any
from urllib.parse import quote

from paperwork import __version__
from paperwork.codes import CODES
from paperwork.files.decode import BOM, Lines, decode_text
from paperwork.files.refusal import Refused
from paperwork.finding import Edit, Finding
from paperwork.place import Place

MOST_FIXES = 50
"""Fixes of one report that are worked out in the text: each is an edit and a reading of the file. Choice of this
project, no source; the rest is in words."""


def write_sarif(findings: Sequence[Finding], data: bytes) -> dict[str, Any]:
    """One run, the codes met as its rules. Without the bytes of a show in YAML there are no fixes but in words."""
    codes = sorted({finding.code for finding in findings})
    rules = [
        {"id": code, "fullDescription": {"text": CODES[code].explains}, "help": {"text": CODES[code].plain_fix}}
        for code in codes
    ]
    fixes = _list_fixes(findings, data)
    results = [
        {
            "ruleId": finding.code,
            "level": finding.severity,
            "message": {"text": f"{finding.text}. Fix: {finding.fix}"},
            "locations": [_locate(finding.place)],
            "relatedLocations": [_locate(place) for place in finding.others if place.file],
            **({"fixes": fixes[finding.edits]} if finding.edits in fixes else {}),
            **({"properties": {"edits": [str(edit) for edit in finding.edits]}} if finding.edits else {}),
        }
        for finding in findings
    ]
    driver = {"name": "paperwork", "version": __version__, "rules": rules}
    invocation = {"executionSuccessful": not any(finding.row.stops for finding in findings)}
    return {
        "$schema": "https://json.schemastore.org/sarif-2.1.0.json",
        "version": "2.1.0",
        "runs": [
            {
                "tool": {"driver": driver},
                "invocations": [invocation],
                "columnKind": "unicodeCodePoints",
                "results": results,
            }
        ],
    }


def _list_fixes(findings: Sequence[Finding], data: bytes) -> dict[tuple[Edit, ...], list[dict[str, Any]]]:
    """By edits the one fix that they are; what cannot be edited in place has none."""
    from paperwork.files.edit import edit_fields

    found: dict[tuple[Edit, ...], list[dict[str, Any]]] = {}
    wanted = {one.edits: one for one in findings if one.edits}
    for edits, one in list(wanted.items())[:MOST_FIXES]:
        try:
            old = decode_text(data, one.place.file) if data and not one.place.sheet else ""
            new = decode_text(edit_fields(data, "yaml", edits, one.place.file), one.place.file) if old else ""
        except Refused:
            continue
        if old and old != new:
            artifact = {"uri": _uri(one.place)}
            change = {"artifactLocation": artifact, "replacements": list(_list_replacements(old, new))}
            found[edits] = [{"description": {"text": one.fix}, "artifactChanges": [change]}]
    return found


def _list_replacements(old: str, new: str) -> Iterator[dict[str, Any]]:
    """The lines that differ, each run of them cut down to the signs that do."""
    lines = Lines(old)
    was, now = (text.splitlines(keepends=True) for text in (old, new))
    starts = [0]
    for line in was:
        starts.append(starts[-1] + len(line))
    for kind, low, high, first, last in difflib.SequenceMatcher(None, was, now, autojunk=False).get_opcodes():
        if kind != "equal":
            gone, come = "".join(was[low:high]), "".join(now[first:last])
            shared = next(
                (n for n, (a, b) in enumerate(zip(gone, come, strict=False)) if a != b), min(len(gone), len(come))
            )
            most = min(len(gone), len(come)) - shared
            behind = next((n for n in range(most) if gone[-1 - n] != come[-1 - n]), most)
            begin, end = starts[low] + shared, starts[high] - behind
            region = dict(zip(("startLine", "startColumn"), lines.locate(begin), strict=True))
            region |= dict(zip(("endLine", "endColumn"), lines.locate(end), strict=True))
            yield {
                "deletedRegion": region,
                "insertedContent": {"text": come[shared : len(come) - behind].removeprefix(BOM)},
            }


def _locate(place: Place) -> dict[str, Any]:
    location: dict[str, Any] = {"physicalLocation": {"artifactLocation": {"uri": _uri(place)}}}
    if place.sheet:
        location["logicalLocations"] = [{"fullyQualifiedName": f"{place.sheet}!{place.cell}"}]
    elif place.line:
        location["physicalLocation"]["region"] = {"startLine": place.line, "startColumn": max(1, place.column)}
    return location


def _uri(place: Place) -> str:
    return quote(place.file.replace("\\", "/").encode("utf-8", "surrogateescape"), safe="/:")
