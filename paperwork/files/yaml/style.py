"""How names and values are written beside those that are there, in their quotes."""

import re
from typing import Any

from paperwork.files.yaml.write import is_plain, quote_double, quote_text
from paperwork.finding import Edit

_NUMBER = re.compile(r"-?(?:0|[1-9][0-9]*)(?:\.[0-9]+)?")


def restyle(node: Any, key_style: str | None, value: str, *, block: bool) -> str:
    """A value in the quotes of the one that it replaces; quotes that only the old one needed go."""
    if node.style == "'" and value.isprintable():
        return "'" + value.replace("'", "''") + "'"
    is_by_habit = key_style == '"' or (node.style == '"' and is_plain(node.value, block=block))
    is_number = not node.style and _NUMBER.fullmatch(value)
    return quote_double(value) if not is_plain(value, block=block) or (is_by_habit and not is_number) else value


def write_inner(edit: Edit, key_style: str | None) -> str:
    """What a new section holds: its record with the field, or the field alone."""
    field = write_field(edit, key_style)
    return f"{write_key(edit.record, key_style)}: {{{field}}}" if edit.record else field


def write_field(edit: Edit, key_style: str | None) -> str:
    """A field with its value, within braces."""
    return write_pair(edit.field, edit.value, key_style, block=False)


def write_pair(field: str, value: str, key_style: str | None, *, block: bool) -> str:
    """A field and its value; beside names in double quotes, as JSON has them, only a number goes without."""
    is_bare = key_style != '"' or _NUMBER.fullmatch(value)
    return f"{write_key(field, key_style)}: {quote_text(value, block=block) if is_bare else quote_double(value)}"


def write_key(name: str, key_style: str | None) -> str:
    """A name, quoted where those beside it are."""
    return quote_double(name) if key_style == '"' else quote_text(name)
