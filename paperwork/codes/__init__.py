"""Every finding's code: its severity, the stage that finds it, its words, its fix and its explanation.

Codes are words and are never renamed or reused: scripts and people quote them.
"""

from paperwork.codes import archive, channels, day, file, intake, outputs, people, printing, racks, radio, shape
from paperwork.codes.row import Code, Severity, Stage

__all__ = ["CODES", "Code", "Severity", "Stage"]


def _collect(*tables: tuple[Code, ...]) -> dict[str, Code]:
    codes: dict[str, Code] = {}
    for table in tables:
        for code in table:
            if code.name in codes:
                raise ValueError(f"code {code.name} is in the table twice")
            codes[code.name] = code
    return codes


CODES: dict[str, Code] = _collect(
    file.TABLE,
    intake.TABLE,
    shape.TABLE,
    channels.TABLE,
    people.TABLE,
    radio.TABLE,
    outputs.TABLE,
    racks.TABLE,
    day.TABLE,
    printing.TABLE,
    archive.TABLE,
)
