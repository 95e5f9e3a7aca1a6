"""Values put into YAML text by splicing: no byte changes that is not part of an edit."""

import re
from collections.abc import Iterator, Sequence
from typing import Any

from paperwork.files.decode import BOM, Lines, clean_text
from paperwork.files.refusal import Refused, refuse_edit
from paperwork.files.yaml.style import restyle, write_field, write_inner, write_key, write_pair
from paperwork.files.yaml.write import quote_text
from paperwork.finding import Edit
from paperwork.model.fields import SECTIONS, SINGLES
from paperwork.place import Place

_REST = re.compile(r"[^\r\n]*")
_BREAK = re.compile(r"\r\n|\r|\n")

Splice = tuple[int, int, str]
"""What replaces a range of code points."""

_Pair = tuple[Any, Any]


def edit_yaml(text: str, name: str, edits: Sequence[Edit]) -> str:
    """The text with the edits, in their order; whether it then says the right thing is for the caller to see."""
    import yaml

    shift = 1 if text.startswith(BOM) else 0
    body = text[shift:]
    left = list(edits)
    while left:
        try:
            root = yaml.compose(body, getattr(yaml, "CSafeLoader", yaml.SafeLoader))
        except (yaml.YAMLError, RecursionError):
            raise refuse_edit(name, "it is not one plain document of YAML") from None
        editor = _Editor(body, name, root, shift)
        count = editor.count_apart(left)
        splices = ((*splice[:2], at, splice[2]) for at, splice in enumerate(editor.list_splices(left[:count])))
        for start, end, _, new in sorted(splices, reverse=True):
            body = body[:start] + new + body[end:]
        del left[:count]
    return text[:shift] + body


class _Editor:
    """One parse of the text, and the splices that edits make in it."""

    def __init__(self, body: str, name: str, root: Any, shift: int) -> None:
        self._body = body
        self._name = name
        self._root = root
        self._shift = shift
        match = _BREAK.search(body)
        self._break = match[0] if match else "\n"

    def count_apart(self, edits: Sequence[Edit]) -> int:
        """How many of the edits, from the first, touch places apart, so that one parse serves for all of them."""
        seen: set[tuple[str, str]] = set()
        first_kind = ""
        for count, edit in enumerate(edits):
            section = self._find(self._root, edit.section)[1]
            if edit.is_rename or not edit.field or not _pairs(section):
                return max(count, 1)
            kind = "there" if not edit.record or self._find(section, edit.record)[1] is not None else "new"
            first_kind = first_kind or kind
            if kind != first_kind or (edit.section, edit.record) in seen:
                return count
            seen.add((edit.section, edit.record))
        return len(edits)

    def list_splices(self, edits: Sequence[Edit]) -> Iterator[Splice]:
        for edit in edits:
            if edit.is_rename:
                yield from self._rename(edit)
            else:
                yield from self._edit(edit) if edit.field else self._drop(edit)

    def _edit(self, edit: Edit) -> Iterator[Splice]:
        """The value set, or removed, or added with what must be around it."""
        key, node = self._find(self._root, edit.section)
        if edit.record and key is not None and _pairs(node):
            parent, (key, node) = node, self._find(node, edit.record)
            if key is None:
                yield self._append(parent, edit.record, edit)
                return
        elif key is None:
            yield self._append(self._root, edit.section, edit)
            return
        elif edit.record or not _pairs(node):
            yield self._fill(key, node, edit, of_section=True)
            return
        if not _pairs(node):
            yield self._fill(key, node, edit, of_section=False)
            return
        at = next((at for at, (one, _) in enumerate(node.value) if _text(one) == edit.field), None)
        if at is None:
            yield self._add_field(node, edit)
        elif edit.value:
            field, held = node.value[at]
            parts = _list_parts(held, edit.value)
            if parts is None:
                yield self._replace(node, field, held, edit.value)
            for part, value in parts or ():
                yield part.start_mark.index, part.end_mark.index, restyle(part, part.style, value, block=False)
        else:
            yield from self._remove(key, node, at)

    def _rename(self, edit: Edit) -> Iterator[Splice]:
        parents = [self._root]
        if edit.record or edit.field:
            parents = [self._find(self._root, edit.section)[1]]
        if edit.record and edit.field:
            parents = [self._find(parents[0], edit.record)[1]]
        elif edit.field and edit.section not in SINGLES:
            parents = [node for _, node in _pairs(parents[0])]
        for parent in parents:
            key, _ = self._find(parent, edit.field or edit.record or edit.section)
            if key is not None:
                yield key.start_mark.index, key.end_mark.index, restyle(key, key.style, edit.value, block=False)

    def _drop(self, edit: Edit) -> Iterator[Splice]:
        """A record or a section taken out with all that it holds."""
        key, parent = self._find(self._root, edit.section) if edit.record else (None, self._root)
        at = next(at for at, (one, _) in enumerate(parent.value) if _text(one) == (edit.record or edit.section))
        if key is None and len(parent.value) == 1:
            raise self._refuse(0, "it is the only section of the file")
        yield from self._remove(key, parent, at)

    def _replace(self, parent: Any, key: Any, node: Any, value: str) -> Splice:
        """Another value in the place and in the style of the one that is there."""
        start, end, block = node.start_mark.index, self._end_of(node), not parent.flow_style
        if type(node).__name__ != "ScalarNode":
            new = quote_text(value, block=block)
            if block and not node.flow_style and node.start_mark.column <= key.start_mark.column:
                between = self._body[key.end_mark.index : start]  # a list whose hyphens are below the key itself
                if "#" in between:
                    raise self._refuse(start, "a comment is between the name and its list")
                return key.end_mark.index + between.index(":") + 1, end, f" {new}"
            return start, end, new
        if node.style in ("|", ">"):
            return self._replace_block(node, value)
        new = restyle(node, key.style, value, block=block)
        if start == end:
            colon = "" if ":" in self._body[key.end_mark.index : start] else ":"
            new = colon + (new if not colon and self._body[start - 1 : start].isspace() else f" {new}")
        return start, end, new

    def _replace_block(self, node: Any, value: str) -> Splice:
        """The lines of a text behind `|` or `>`, indented as those that were there."""
        start, end = node.start_mark.index, node.end_mark.index
        whole = self._body[start:end]
        header = _REST.match(whole)[0]  # type: ignore[index]  # it matches nothing too
        first = re.search(r"[\r\n]([ ]*)[^\s]", whole)
        if first is None:
            return start, start + len(header), quote_text(value, block=True)
        kept = whole[len(whole.rstrip()) :]
        apart = self._break * (1 if node.style == "|" else 2)
        lines = apart.join(first[1] + line if line else "" for line in value.split("\n"))
        return start, end, f"{header}{self._break}{lines}{kept}"

    def _remove(self, record_key: Any, record: Any, at: int) -> Iterator[Splice]:
        """An entry taken out: with its lines, or from between the commas. A group without entries stays one."""
        key, node = record.value[at]
        start, end = key.start_mark.index, self._end_of(node)
        if record.flow_style:
            yield self._remove_between(record.value, at, start, end)
            return
        line = start - key.start_mark.column
        if self._body[line:start].strip(" "):
            raise self._refuse(start, "something is before the name on its line")
        if len(record.value) == 1:
            colon = self._body.index(":", record_key.end_mark.index) + 1
            yield colon, colon, " {}"
        stop = _BREAK.match(self._body, self._end_of_line(end))
        yield line, stop.end() if stop else len(self._body), ""

    def _remove_between(self, pairs: Sequence[_Pair], at: int, start: int, end: int) -> Splice:
        """The range goes up to the next field, or from the one before; comments on the way stay."""
        if at + 1 < len(pairs):
            following = pairs[at + 1][0].start_mark.index
            between = self._body[end:following]
            if between.strip() == ",":
                return start, following, ""
            return start, end + between.index(",") + 1, ""
        before = self._end_of(pairs[at - 1][1]) if at else start
        if self._body[before:start].strip() == ",":
            return before, end, ""
        comma = re.compile(r"\s*,").match(self._body, end)
        return start, comma.end() if comma else end, ""

    def _add_field(self, record: Any, edit: Edit) -> Splice:
        """A new field before the first of those that the table of fields has behind it, else behind the last."""
        pairs = record.value
        new = write_pair(edit.field, edit.value, pairs[0][0].style, block=not record.flow_style)
        fields = [*SECTIONS[edit.section].fields] if edit.section in SECTIONS else []
        behind = fields[fields.index(edit.field) + 1 :] if edit.field in fields else []
        later = next((key for key, _ in pairs if _text(key) in behind), None)
        if later is not None:
            at = later.start_mark.index
            apart = ", " if record.flow_style else self._break + " " * later.start_mark.column
            return at, at, new + apart
        return self._put_behind(record, new)

    def _append(self, parent: Any, name: str, edit: Edit) -> Splice:
        """A new record behind the last of its section, or a new section behind the last."""
        if not _pairs(parent):
            if type(parent).__name__ != "MappingNode":
                raise self._refuse(0, "it holds no section")
            return self._put_inside(parent, f"{quote_text(name)}: {{{write_inner(edit, '')}}}")
        style = parent.value[0][0].style
        if parent is not self._root or self._root.flow_style:
            inner = write_field(edit, style) if edit.record == name else write_inner(edit, style)
            return self._put_behind(parent, f"{write_key(name, style)}: {{{inner}}}")
        indent = " " * (parent.value[0][0].start_mark.column + 2)
        at, _, new = self._put_behind(parent, f"{write_key(name, style)}:")
        return at, at, f"{self._break}{new}{self._break}{indent}{write_inner(edit, style)}"

    def _put_behind(self, parent: Any, new: str) -> Splice:
        """An entry behind the last of a group, within its braces or on a line of its own."""
        key, value = parent.value[-1]
        end = max(self._end_of(value), key.end_mark.index)
        if parent.flow_style:
            return end, end, f", {new}"
        at = self._end_of_line(end)
        return at, at, f"{self._break}{' ' * key.start_mark.column}{new}"

    def _fill(self, key: Any, node: Any, edit: Edit, *, of_section: bool) -> Splice:
        """The first entry of a section or a record that is empty: `{}`, `~` or nothing."""
        new = write_inner(edit, key.style) if of_section else write_field(edit, key.style)
        if type(node).__name__ == "MappingNode":
            return self._put_inside(node, new)
        start, end = node.start_mark.index, node.end_mark.index
        if type(node).__name__ != "ScalarNode" or node.style or node.value not in ("", "~"):
            raise self._refuse(start, f"{_text(key)} is not a group of fields")
        if of_section and start == end and not self._root.flow_style:
            at = self._end_of_line(key.end_mark.index)
            return at, at, f"{self._break}{' ' * (key.start_mark.column + 2)}{new}"
        colon = "" if ":" in self._body[key.end_mark.index : start] or start != end else ":"
        blank = "" if self._body[start - 1 : start].isspace() and not colon else " "
        return start, end, f"{colon}{blank}{{{new}}}"

    def _put_inside(self, node: Any, new: str) -> Splice:
        at = self._body.index("{", node.start_mark.index) + 1
        return at, at, new

    def _find(self, node: Any, name: str) -> tuple[Any, Any]:
        return next(((key, value) for key, value in _pairs(node) if _text(key) == name), (None, None))

    def _end_of(self, node: Any) -> int:
        """Behind the last written sign of a node. The parser gives the end of a block only where the next thing begins."""
        kind = type(node).__name__
        start, end = int(node.start_mark.index), int(node.end_mark.index)
        if kind == "ScalarNode":
            return start + len(self._body[start:end].rstrip()) if node.style in ("|", ">") else end
        if node.flow_style or not node.value:
            return end
        last = node.value[-1]
        return max(map(self._end_of, last)) if isinstance(last, tuple) else self._end_of(last)

    def _end_of_line(self, index: int) -> int:
        match = _REST.match(self._body, index)
        return match.end() if match else index

    def _refuse(self, index: int, reason: str) -> Refused:
        lines = Lines(BOM * self._shift + self._body)
        return refuse_edit(self._name, reason, Place(self._name, *lines.locate(index + self._shift)))


def _pairs(node: Any) -> Sequence[_Pair]:
    return node.value if type(node).__name__ == "MappingNode" else ()


def _text(key: Any) -> str:
    return clean_text(key.value)[0] if type(key).__name__ == "ScalarNode" else ""


def _list_parts(node: Any, value: str) -> list[tuple[Any, str]] | None:
    """The names in a list or a group that a text with as many changes, each with its new text; None for any other text."""
    parts = value.split(", ")
    if _pairs(node):
        nodes, texts = [one for pair in node.value for one in pair], [one for part in parts for one in part.split(": ")]
    else:
        nodes, texts = node.value if type(node).__name__ == "SequenceNode" else [], parts
    if not nodes or len(nodes) != len(texts) or any(type(one).__name__ != "ScalarNode" for one in nodes):
        return None
    return [(one, text) for one, text in zip(nodes, texts, strict=True) if _text(one) != text]
