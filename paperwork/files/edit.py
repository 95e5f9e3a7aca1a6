"""A show file with single values changed in place, everything else as it was: comments, order, styles, stored results.

What the edited file must say is worked out first, from what the old one says. Then the file is edited, in the way of
its kind, and read again: it must say just that, and hold no fault that it did not hold before. Else nothing is handed
out.
"""

import codecs
import re
from collections import Counter
from collections.abc import Sequence
from dataclasses import replace
from typing import Any

from paperwork import limits
from paperwork.files.decode import clean_text, decode_text
from paperwork.files.read import read_kind
from paperwork.files.refusal import refuse_edit
from paperwork.files.sniff import Kind
from paperwork.files.xlsx.numbers import format_number
from paperwork.finding import Edit, Finding
from paperwork.model.fields import SINGLES
from paperwork.place import Place
from paperwork.raw import List, Map, Node, Text

_UNSAFE = "it is written in a way that cannot be changed safely"

_Plain = dict[str, Any]


def edit_fields(data: bytes, kind: Kind, edits: Sequence[Edit], name: str = "the show") -> bytes:
    """The bytes of a show file with the edits, made in their order. `name` is how the file is shown in places.

    Raises Refused, located and worded for the file's author, where they cannot all be made with certainty.
    """
    if kind == "csv":
        raise refuse_edit(name, "it is not a show file of ours")
    before, found = read_kind(data, name, kind)
    if before is None:
        raise refuse_edit(name, f"it cannot be read: {found[-1].text}", found[-1].place)
    made = FieldEdits(data, kind, edits, name, before, found)
    made.prove(*read_kind(made.data, name, kind))
    return made.data


class FieldEdits:
    """Edits of a show file that was read: the bytes with them, to be handed out once reading those has proved them.

    `before` and `found` are what the file says and what was found in reading it. Raises Refused.
    """

    def __init__(
        self, data: bytes, kind: Kind, edits: Sequence[Edit], name: str, before: Map, found: Sequence[Finding]
    ) -> None:
        for finding in found:
            if finding.code == "yaml-repeat":
                raise refuse_edit(
                    name, f"{finding.text}, and what is written once for many cannot be changed", finding.place
                )
        self._edits = [_clean(edit, name) for edit in edits]
        self._wanted = _Expected(before, name).make(self._edits)
        self._name = name
        self._is_exact = kind == "yaml"
        self._before, self._found = before, found
        if kind == "xlsx":
            from paperwork.files.xlsx.edit import edit_workbook

            self.data = edit_workbook(data, name, self._edits)
        else:
            from paperwork.files.yaml.edit import edit_yaml

            self.data = encode_like(edit_yaml(decode_text(data, name), name, self._edits), data)

    def prove(self, after: Map | None, left: Sequence[Finding]) -> None:
        """Whether `data`, read again, says what it must and has no fault that was not there. Raises Refused."""
        is_said = after is not None and self._settle(_plain(after)) == self._settle(self._wanted)
        if not is_said or _count_errors(left) - _count_errors(self._found):
            raise refuse_edit(self._name, _UNSAFE, _place_of(self._before, self._edits[0]))

    def _settle(self, said: _Plain) -> _Plain:
        return _settle(said, self._edits, self._is_exact)


def _clean(edit: Edit, name: str) -> Edit:
    """The edit with its text as it can be printed; what cannot be is refused, and so is a text without end."""
    text, removed = clean_text(edit.value)
    if removed:
        raise refuse_edit(name, f"the value holds signs that cannot be printed ({removed})")
    if len(text) > limits.TEXT_LENGTH:
        raise refuse_edit(name, f"the value is longer than {limits.TEXT_LENGTH:,} characters")
    return replace(edit, value=text)


def encode_like(text: str, like: bytes) -> bytes:
    """A text in the encoding of a file."""
    if like.startswith(codecs.BOM_UTF16_LE):
        return text.encode("utf-16-le")
    return text.encode("utf-16-be" if like.startswith(codecs.BOM_UTF16_BE) else "utf-8")


class _Expected:
    """What the edited file must say, worked out from what the old one says. Refuses what makes no sense in any file."""

    def __init__(self, raw: Map, name: str) -> None:
        self._raw = raw
        self._name = name
        self._said: _Plain = _plain(raw)

    def make(self, edits: Sequence[Edit]) -> _Plain:
        for edit in edits:
            if edit.is_rename:
                self._rename(edit)
            elif edit.renames:
                raise self._refuse(edit, f"{edit.path} needs a name")
            elif not edit.field:
                self._remove(edit)
            else:
                self._set(edit)
        return self._said

    def _set(self, edit: Edit) -> None:
        if not edit.section:
            raise self._refuse(edit, "an edit names a section and a field")
        if (edit.section in SINGLES) == bool(edit.record):
            what = "describes one thing, without records" if edit.record else "holds records, and none is named"
            raise self._refuse(edit, f"the section {edit.section} {what}")
        for path in (edit.section,), ((edit.section, edit.record) if edit.record else (edit.section,)):
            if not isinstance(self._at(path, {}), dict):
                raise self._refuse(edit, f"{' '.join(path)} is not a record with fields")
        if edit.value:
            section = self._said.setdefault(edit.section, {})
            fields = section.setdefault(edit.record, {}) if edit.record else section
            fields[edit.field] = _spread(fields.get(edit.field), edit.value)
        elif edit.field not in self._at((edit.section, edit.record) if edit.record else (edit.section,), {}):
            raise self._refuse(edit, f"{edit.path} has no value that could be removed")
        else:
            section = self._said[edit.section]
            del (section[edit.record] if edit.record else section)[edit.field]

    def _remove(self, edit: Edit) -> None:
        parent = self._at((edit.section,), {}) if edit.record else self._said
        if not isinstance(parent, dict) or (edit.record or edit.section) not in parent:
            raise self._refuse(edit, f"there is no {edit.path}")
        del parent[edit.record or edit.section]

    def _rename(self, edit: Edit) -> None:
        renamed = False
        for parent, key in self._list_renamed(edit):
            if key not in parent:
                continue
            if edit.value in parent and edit.value != key:
                raise self._refuse(edit, f"{edit.value} is there already, beside {key}")
            items = [(edit.value if one == key else one, value) for one, value in parent.items()]
            parent.clear()
            parent.update(items)
            renamed = True
        if not renamed:
            raise self._refuse(edit, f"there is no {edit.path}")
        if not edit.record and not edit.field and edit.value in SINGLES:  # there an empty value is no record
            single = self._said[edit.value]
            if isinstance(single, dict):
                self._said[edit.value] = {key: value for key, value in single.items() if value != {}}

    def _list_renamed(self, edit: Edit) -> list[tuple[_Plain, str]]:
        """The groups in which a name is looked for, and the name."""
        if not edit.record and not edit.field:
            return [(self._said, edit.section)]
        section = self._at((edit.section,), {})
        if not edit.field:
            groups: list[Any] = [section]
        elif edit.record:
            groups = [self._at((edit.section, edit.record), {})]
        else:
            groups = (
                [section] if edit.section in SINGLES else list(section.values()) if isinstance(section, dict) else []
            )
        return [(group, edit.field or edit.record) for group in groups if isinstance(group, dict)]

    def _at(self, path: tuple[str, ...], default: Any) -> Any:
        node: Any = self._said
        for key in path:
            node = node.get(key, default) if isinstance(node, dict) else node
        return node

    def _refuse(self, edit: Edit, reason: str) -> Exception:
        return refuse_edit(self._name, reason, _place_of(self._raw, edit))


def _place_of(raw: Map, edit: Edit) -> Place:
    """Where an edit is to be made, as near as the file has it."""
    node: Node = raw
    place = Place(raw.place.file)
    for part in (edit.section, edit.record, edit.field):
        if part and isinstance(node, Map):
            found = next(((key, value) for key, value in node.items if key.text == part), None)
            if found is None:
                break
            place, node = found[0].place, found[1]
    return place


def _spread(held: Any, value: str) -> Any:
    """A text that names as many things as the list or the group that is there, as one: it then stays what it is."""
    parts = value.split(", ")
    if isinstance(held, list) and len(parts) == len(held) and all(isinstance(one, str) for one in held):
        return parts
    pairs = [part.split(": ") for part in parts]
    if isinstance(held, dict) and len(pairs) == len(held) and all(isinstance(one, str) for one in held.values()):
        return dict(pairs) if all(len(pair) == 2 for pair in pairs) else value
    return value


def _plain(node: Node) -> Any:
    if isinstance(node, Text):
        return node.text
    if isinstance(node, List):
        return [_plain(item) for item in node.items]
    return {key.text: _plain(value) for key, value in node.items}


def _settle(said: _Plain, edits: Sequence[Edit], is_exact: bool) -> _Plain:
    """What is compared: a section without records is none, and a workbook may hold 486.200 as 486.2."""
    for edit in () if is_exact else edits:
        if edit.field and not edit.renames:
            section = said.get(edit.section, {})
            fields = section.get(edit.record, {}) if edit.record else section
            if isinstance(fields.get(edit.field), str):
                fields[edit.field] = shorten_number(fields[edit.field])
    return {section: records for section, records in said.items() if records != {}}


def shorten_number(value: str) -> str:
    """A number as a workbook holds it, without zeros at its end; any other text as it is."""
    return format_number(float(value)) if re.fullmatch(r"[0-9]+\.[0-9]+", value) else value


def _count_errors(findings: Sequence[Finding]) -> Counter[str]:
    """The errors of a reading by their codes; a workbook may lose its last value."""
    return Counter(one.code for one in findings if one.severity == "error" and one.code != "workbook-blank")
