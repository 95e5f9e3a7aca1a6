"""Raw to tidy YAML: one record a line where it fits, quotes only where a text would be read as something else."""

import re

from paperwork.raw import List, Map, Node, Text

_LINE = 140
"""Characters up to which a record stays on one line."""

_PLAIN = re.compile(
    r"[\w(/+.<=~$^;\u00a1-\uffff-](?:[\w ()/+.<>=~$^;&@*!?'%|\"\u00a1-\uffff-]|:(?=\S)(?![,\]}])|#(?<=\S#))*"
)
"""Texts that YAML takes as they stand, within braces too: no comma, bracket, colon with a blank, or hash behind one."""

_PLAIN_BLOCK = re.compile(_PLAIN.pattern.replace(r"\w ()", r"\w, ()"))
"""The same on a line of its own, where a comma parts nothing."""

_OTHERWISE = re.compile(
    r"(?:~|null|true|false|yes|no|on|off|y|n|-|\.+|=|<<|[-+]?[0-9][0-9_]*(?::[0-5]?[0-9])+(?:\.[0-9]*)?|0o?[0-7_]*[_o][0-7_]*|0x[0-9a-f_]+|\.inf|\.nan"
    r"|[0-9][0-9_]*_[0-9_]*)",
    re.IGNORECASE,
)
"""Texts that other readers of YAML make something else of: nothing, a truth, a time in base 60, a number."""


def write_yaml(raw: Map) -> str:
    """The text of a show file that reads back as an equal Raw. Sections stand apart by a blank line."""
    return "\n".join(_write_section(key, node) for key, node in raw.items)


def _write_section(key: Text, node: Node) -> str:
    if not isinstance(node, Map) or not node.items:
        return f"{quote_text(key.text)}: {_flow(node)}\n"
    lines = [f"{quote_text(key.text)}:\n"]
    for name, value in node.items:
        lines += _write_record(name, value)
    return "".join(lines)


def _write_record(name: Text, value: Node) -> list[str]:
    if isinstance(value, Text):
        return [f"  {quote_text(name.text)}: {quote_text(value.text, block=True)}\n"]
    line = f"  {quote_text(name.text)}: {_flow(value)}\n"
    if len(line) <= _LINE or not isinstance(value, Map):
        return [line]
    return [f"  {quote_text(name.text)}:\n", *(f"    {quote_text(k.text)}: {_block(v)}\n" for k, v in value.items)]


def _block(node: Node) -> str:
    return quote_text(node.text, block=True) if isinstance(node, Text) else _flow(node)


def _flow(node: Node) -> str:
    if isinstance(node, Text):
        return quote_text(node.text)
    if isinstance(node, List):
        return "[" + ", ".join(map(_flow, node.items)) + "]"
    return "{" + ", ".join(f"{quote_text(key.text)}: {_flow(value)}" for key, value in node.items) + "}"


def quote_text(text: str, *, block: bool = False) -> str:
    """The text as YAML takes it, bare where it can be, else in double quotes; `block` is for a line of its own."""
    return text if is_plain(text, block=block) and not _OTHERWISE.fullmatch(text) else quote_double(text)


def is_plain(text: str, *, block: bool = False) -> bool:
    """Whether our reader takes the text without quotes; other readers may take it as a number or a time."""
    return bool(
        (_PLAIN_BLOCK if block else _PLAIN).fullmatch(text)
        and text == text.strip()
        and text.isprintable()
        and text not in ("~", "<<")
        and not re.match(r"[-?:](?:\s|$)|---|\.\.\.", text)
        and " #" not in text
        and not text.endswith(":")
    )


def quote_double(text: str) -> str:
    """The text in double quotes."""
    escaped = text.replace("\\", "\\\\").replace('"', '\\"').replace("\n", "\\n").replace("\t", "\\t")
    return '"' + "".join(c if c.isprintable() or c == " " else _escape(c) for c in escaped) + '"'


def _escape(character: str) -> str:
    number = ord(character)
    return f"\\u{number:04x}" if number < 0x10000 else f"\\U{number:08x}"
