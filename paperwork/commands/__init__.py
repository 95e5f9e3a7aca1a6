"""The commands, one file each. A command returns an `Outcome` of `terminal`; only `cli` prints it and exits."""

COMMANDS = {
    "check": "find everything that is wrong with a show, and where",
    "set": "change values of a show into a new file; comments and order stay",
    "build": "print every paper that the show has the facts for",
    "tonight": "print one page of what differs tonight: who is on, which swaps, which pack, which values",
    "changes": "say what changed between two revisions, who must act, and what to print again",
    "archive": "keep a revision in one file that can be verified and rebuilt years later",
    "verify": "list every changed file in an archive",
    "restore": "put back the files that an archive or a show book was made from",
    "new": "start a show: a workbook or a text to fill in",
    "convert": "write a show as YAML, as a workbook, or its channels as .csv",
    "answer": "answer what somebody else's list leaves open",
    "assign": "find a clean frequency for every channel that has none",
    "request": "write the frequency request as a table for a coordinator to fill in",
    "reply": "read the coordinator's answers from a table into a new revision, and say what they change",
    "survey": "say for each window what is free, what fits and what takes the rest",
    "launcher": "write a file to double-click that opens the page",
    "serve": "open a page on this machine where a show is dropped, edited and printed",
    "watch": "print the papers again whenever the show is saved",
    "audit": "read photographs of the mic table: which packs are there, which labels are out of date",
    "explain": "explain the code of a finding, a section or a field",
}
"""Every command and what it does, in the order of `--help`. The module of each is loaded only when it is called."""
