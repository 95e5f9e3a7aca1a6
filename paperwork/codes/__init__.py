"""Every finding's code, one row each: its severity, its words and fix, and whatever else follows from it (`row.Code`).

Codes are words and are never renamed or reused: scripts and people quote them.
"""

from paperwork.codes import (
    archive,
    channels,
    day,
    file,
    groups,
    intake,
    outputs,
    people,
    printing,
    racks,
    radio,
    shape,
    sweeps,
    workbook,
)
from paperwork.codes.row import Code, Severity, Stage, Topic

__all__ = ["CODES", "Code", "Severity", "Stage", "Topic"]

_TABLES = (
    file, workbook, intake, shape, channels, people, groups, radio, sweeps, outputs, racks, day, printing, archive
)  # fmt: skip


CODES: dict[str, Code] = {code.name: code for table in _TABLES for code in table.TABLE}
