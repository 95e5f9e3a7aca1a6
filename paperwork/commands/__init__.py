"""The commands, one file each. A command returns an `Outcome` of `terminal`; only `cli` prints it and exits."""

COMMANDS = {
    "check": "find what is wrong with a show, and where",
    "set": "change values of a show, into a new file; comments and order stay",
    "build": "print every paper that the show has facts for",
    "tonight": "print one page of what is different tonight: who is on, swaps, packs, values",
    "changes": "list what changed between two revisions, who has to know, and what to print again",
    "archive": "keep a revision in one file, to verify and rebuild years later",
    "verify": "list every altered file of an archive",
    "restore": "put back the files that an archive or a show book was made from",
    "new": "start a show: a workbook or a text to fill in",
    "convert": "write a show as YAML, as a workbook, or its channels as .csv",
    "answer": "answer what a list from somebody else leaves open",
    "assign": "find a clean frequency for every channel without one",
    "request": "write the frequency request as a table for the coordinator to fill in",
    "reply": "read the coordinator's answers into a new file, and list what they change",
    "survey": "show for each window what is free, how many channels fit, and what takes the rest",
    "launcher": "write a file to double-click that opens the page",
    "serve": "open a page on this machine to edit, check and print shows",
    "watch": "print the papers again whenever the show is saved",
    "audit": "read photographs of the mic table: which packs are there, which labels are out of date",
    "explain": "explain a finding by its code, a section or a field",
}
"""Every command and what it does, in the order of `--help`. The module of each is loaded only when it is called."""
