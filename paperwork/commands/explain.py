"""`paperwork explain CODE`: what a finding means."""

import click

from paperwork.codes import CODES, Code
from paperwork.names import hint
from paperwork.terminal import Outcome


@click.command(epilog="Example:  paperwork explain slot-doubled")
@click.argument("code", required=False)
def command(code: str | None) -> Outcome:
    """Explain the CODE of a finding; without a code, list them all."""
    if code is None:
        width = max(map(len, CODES))
        rows = [
            f"{name:<{width}}  {row.severity:<7}  {_first_sentence(row.explains)}"
            for name, row in sorted(CODES.items())
        ]
        return Outcome("\n".join(rows) + "\n")
    row = CODES.get(code)
    if row is None:
        return Outcome(aside=f"there is no code {code}{hint(code, CODES)}\n", code=2)
    return Outcome(f"{row.name} ({row.severity})\n\n{row.explains}\n{_word_effect(row)}\nfix: {_plain_fix(row.fix)}\n")


def _word_effect(row: Code) -> str:
    """What an error does to the papers; a warning does nothing to them."""
    if row.severity != "error" or row.stage == "read":
        return ""
    if row.stage == "sense":
        return "\nPapers that show it are printed with a stamp that names it; `build --strict` prints none.\n"
    return "\nNo papers are printed until it is settled.\n"


def _first_sentence(text: str) -> str:
    return text.split(". ")[0].rstrip(".")


def _plain_fix(fix: str) -> str:
    """The remedy with its places to fill in shown as such, and without the hints that only a case can give."""
    for slot in ("{hint}", "{nearest}", "{free}"):
        fix = fix.replace(slot, "")
    return fix.replace("{{", "{").replace("}}", "}") if "{{" in fix else fix.replace("{", "<").replace("}", ">")
