"""Findings as text for people, as JSON for programs, as SARIF for editors and services that show them in place."""

from collections import Counter
from collections.abc import Sequence
from typing import Any

from paperwork.checks.scope import describe_scope
from paperwork.finding import Finding
from paperwork.model import Show
from paperwork.place import Place

FORMATS = ("text", "json", "sarif")

FEW = 5
"""Of findings that one long name can raise on every sheet, so many of a code are printed one by one."""


def format_findings(findings: Sequence[Finding], form: str, data: bytes = b"", *, show: Show | None = None) -> str:
    """All findings in one of the formats, ending in a line break. The text ends in what was found, and in what was
    looked at in the show. `data` is the show file, for the formats that show what a fix changes in it."""
    if form != "text":
        import json
    if form == "json":
        return json.dumps([_plain(finding) for finding in findings], ensure_ascii=False, indent=2) + "\n"
    if form == "sarif":
        from paperwork.terminal.sarif import write_sarif

        return json.dumps(write_sarif(findings, data), ensure_ascii=False, indent=2) + "\n"
    lines, floods = [], Counter[str]()
    for finding in findings:
        floods[finding.code] += finding.row.floods
        if floods[finding.code] <= FEW:
            lines += format_finding(finding)
    more = [
        f"{floods[code] - FEW} more like it [{code}]: index.html lists them"
        for code in sorted(floods)
        if floods[code] > FEW
    ]
    return "\n".join([*lines, *more, conclude(findings, show)]) + "\n"


def format_finding(finding: Finding) -> list[str]:
    """A finding as lines: place, severity, what is wrong, code; then what would fix it; then the other places."""
    text, fix, place = (" ".join(words.splitlines()) for words in (finding.text, finding.fix, str(finding.place)))
    where = f"{place}: " if finding.place.file else ""
    lines = [f"{where}{finding.severity}: {text} [{finding.code}]", f"    fix: {fix}"]
    others = [
        " ".join(str(other).splitlines())
        for other in dict.fromkeys(finding.others)
        if other.file and other != finding.place
    ]
    if others:
        more = f" and {len(others) - 4} more" if len(others) > 4 else ""
        lines.append(f"    see: {', '.join(others[:4])}{more}")
    return lines


def summarise(findings: Sequence[Finding]) -> str:
    """`2 errors, 1 warning`, or `no problems found`."""
    counts = [(sum(f.severity == severity for f in findings), severity) for severity in ("error", "warning")]
    counted = [f"{count} {word}{'s' if count > 1 else ''}" for count, word in counts if count]
    return ", ".join(counted) or "no problems found"


def conclude(findings: Sequence[Finding], show: Show | None) -> str:
    """`No problems found. Checked: 32 channels. Not checked: swaps (no moves).` Without a show the counts alone."""
    counted = summarise(findings)
    return f"{counted[0].upper()}{counted[1:]}. {describe_scope(show)}" if show else counted


def _plain(finding: Finding) -> dict[str, Any]:
    return {
        "code": finding.code,
        "severity": finding.severity,
        "stage": finding.stage,
        "place": plain_place(finding.place),
        "text": finding.text,
        "fix": finding.fix,
        "edits": [str(edit) for edit in finding.edits],
        "decide": finding.row.decides,
        "subjects": [{"section": subject.section, "id": subject.id} for subject in finding.subjects],
        "others": [plain_place(place) for place in finding.others],
    }


def plain_place(place: Place) -> dict[str, Any]:
    """A place for JSON: its file, and the sheet and cell, or the line and column."""
    if place.sheet:
        return {"file": place.file, "sheet": place.sheet, "cell": place.cell}
    return {"file": place.file, "line": place.line, "column": place.column}
