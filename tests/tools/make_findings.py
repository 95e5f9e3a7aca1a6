"""Write what is said and held of every code, for a person to read: `python -m tests.tools.make_findings`.

`tests/data/codes.txt` has each code with its severity, stage, topics and marks; `tests/data/findings.txt` has one real finding of
each as it is printed, with its edits: from the broken shows, and for what no show in text can bring, from
`tests/data/facts.yaml`, the facts that a reader or a printer filled in once.
"""

from pathlib import Path

import yaml

from paperwork.codes import CODES
from paperwork.codes.row import Code
from paperwork.finding import Finding, find
from paperwork.place import Place
from paperwork.reading import read_show
from paperwork.terminal.report import format_finding

TESTS = Path(__file__).parents[1]
TABLE, FINDINGS, FACTS = (TESTS / "data" / name for name in ("codes.txt", "findings.txt", "facts.yaml"))
MARKS = ("doubts", "asks", "asked_first", "floods", "stops", "decides")


def describe_codes() -> str:
    """One line a code."""
    return "".join(f"{_describe(code)}\n" for _, code in sorted(CODES.items()))


def _describe(code: Code) -> str:
    marks = [name for name in MARKS if getattr(code, name)]
    topics = [f"topics: {' '.join(code.topics)}"] if code.topics else []
    return "; ".join([f"{code.name}: {code.severity} {code.stage}", *topics, *marks])


def list_findings() -> dict[str, Finding]:
    """A finding of every code: the first of the broken shows, else one with facts that were written down."""
    found: dict[str, Finding] = {}
    for path in sorted((TESTS / "shows").glob("*.yaml")):
        for finding in read_show(path, path.name).findings:
            if len(finding.edits) > len(getattr(found.get(finding.code), "edits", ())) or finding.code not in found:
                found[finding.code] = finding
    for code, facts in yaml.safe_load(FACTS.read_text(encoding="utf-8")).items():
        found.setdefault(code, find(code, Place(facts.pop("at", "show.yaml")), **facts))
    return found


def describe_findings() -> str:
    """Every code's finding as `paperwork check` prints it, and below it the edits that would correct the show."""
    found = list_findings()
    blocks = []
    for code in sorted(found):
        decides = " (to be decided)" if CODES[code].decides else ""
        edits = [f"    edit{decides}: {edit}" for edit in found[code].edits]
        blocks.append("\n".join([*format_finding(found[code]), *edits]))
    return "\n\n".join(blocks) + "\n"


if __name__ == "__main__":
    TABLE.write_text(describe_codes(), encoding="utf-8")
    FINDINGS.write_text(describe_findings(), encoding="utf-8")
