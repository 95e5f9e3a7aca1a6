"""The channel list as comma-separated values for other programs, with nothing in it that they would run."""

import re
from collections.abc import Iterable, Sequence

from paperwork.files.xlsx.write import format_value
from paperwork.raw import Map

_RUNS = re.compile(r"[=+@\t\r]|-(?!\Z)")
"""What a spreadsheet program would take as the start of a formula; a lone hyphen is an empty place."""


def write_csv(records: Map, fields: Sequence[str]) -> bytes:
    """The records as UTF-8 with a byte-order mark, a heading row `id` and the fields, CRLF line ends (RFC 4180).

    A text that a spreadsheet program would run is put behind a tab, which our own reader takes off again.
    """
    rows = [["id", *fields]]
    for key, record in records.items:
        values = record.items if isinstance(record, Map) else ()
        texts = {name.text: format_value(name, value) for name, value in values}
        rows.append([key.text, *(texts.get(field, "") for field in fields)])
    return write_rows(rows)


def write_rows(rows: Iterable[Sequence[str]]) -> bytes:
    """Any rows of texts, in the same way."""
    lines = (",".join(map(_quote, row)) for row in rows)
    return ("\ufeff" + "".join(line + "\r\n" for line in lines)).encode("utf-8")


def _quote(text: str) -> str:
    if _RUNS.match(text):
        text = "\t" + text
    elif re.match(r"'+[=+\-@0-9]", text):
        text = "'" + text
    return '"' + text.replace('"', '""') + '"' if re.search(r'[",;|\r\n\t]|^\s|\s$', text) else text
