"""YAML text to Raw: every scalar the text that was written, with its place and span.

Read from the parser's events, so that what a show file has no need of (anchors, aliases, merge keys, tags, a
second document) is refused before it could unfold, and depth and number are bounded while reading.
"""

import re
from collections.abc import Iterator
from typing import Any

from paperwork import limits
from paperwork.files.decode import BOM, Lines, clean_text, find_unprintable, name_character
from paperwork.files.refusal import Refused
from paperwork.finding import Finding, find
from paperwork.model.fields import SINGLES
from paperwork.place import Place, Span
from paperwork.raw import List, Map, Node, Text

_COMMENT = re.compile(r"[ \t]+(#[^\r\n]*)")
_OTHERS = 20
"""Further places that one finding names."""


def read_yaml(text: str, name: str, *, pure: bool = False) -> tuple[Map | None, tuple[Finding, ...]]:
    """The sections of a decoded YAML file, and what is wrong with it.

    Spans count code points of `text`, a byte-order mark included. The map is None if the text cannot be taken
    apart. `pure` takes the parser written in Python, which is also the fallback where the C one is missing.
    """
    reader = _EventReader(text, name)
    try:
        return reader.read(pure), tuple(reader.findings)
    except Refused as refused:
        root = refused.finding
        return None, (*(finding for finding in reader.findings if finding.place != root.place), root)


class _EventReader:
    """One reading of one text: the events still to come, and the findings so far."""

    def __init__(self, text: str, name: str) -> None:
        self.findings: list[Finding] = []
        self._source = text
        self._name = name
        self._shift = 1 if text.startswith(BOM) else 0
        self._body = text[self._shift :]
        self._repeats: list[tuple[Place, str]] = []
        self._events: Iterator[Any] = iter(())
        self._count = 0

    def read(self, pure: bool) -> Map:
        self._refuse_control()
        self._events = self._each_event(pure)
        try:
            root = self._read_document()
        finally:
            self._report_repeats()
        if isinstance(root, Map):
            return root
        if root is None:
            raise Refused(find("file-empty", Place(self._name), name=self._name, detail=": no section in it"))
        what = "a list" if isinstance(root, List) else "one piece of text"
        raise Refused(find("yaml-top", root.place, what=what))

    def _read_document(self) -> Node | None:
        """The first document, or None; a second one is reported and left."""
        root = None
        documents = 0
        for event in self._events:
            kind = type(event).__name__
            if kind == "DocumentStartEvent":
                documents += 1
                if documents > 1:
                    self.findings.append(find("yaml-documents", self._place(event.start_mark)))
                    return root
            elif kind not in ("DocumentEndEvent", "StreamStartEvent", "StreamEndEvent"):
                root = self._read_node(event, 0)
        return root

    def _each_event(self, pure: bool) -> Iterator[Any]:
        """The parser's events; whatever it raises becomes a refusal with a place."""
        import yaml

        try:
            yield from yaml.parse(
                self._body, yaml.SafeLoader if pure else getattr(yaml, "CSafeLoader", yaml.SafeLoader)
            )
        except yaml.MarkedYAMLError as error:
            from paperwork.files.yaml.errors import explain_error

            index, problem, remedy = explain_error(error, self._body)
            raise Refused(find("yaml-syntax", self._locate(index), problem=problem, remedy=remedy)) from None
        except (yaml.YAMLError, RecursionError, ValueError):
            problem, remedy = "this file cannot be taken apart as YAML", "check its brackets"
            raise Refused(find("yaml-syntax", Place(self._name), problem=problem, remedy=remedy)) from None

    def _read_node(self, event: Any, depth: int, *, record: bool = False) -> Node | None:
        """The node that begins with `event`; None for an empty value, for `~` and for an alias."""
        self._count += 1
        place = self._place(event.start_mark)
        if self._count > limits.YAML_NODES:
            raise Refused(find("yaml-large", place, most=f"{limits.YAML_NODES:,}"))
        if depth > limits.YAML_DEPTH:
            raise Refused(find("yaml-deep", place, most=limits.YAML_DEPTH))
        self._note_extras(event, place)
        match type(event).__name__:
            case "MappingStartEvent":
                return self._read_map(event, place, depth)
            case "SequenceStartEvent":
                return self._read_list(place, depth)
            case "ScalarEvent":
                return self._read_scalar(event, place, record)
        return None

    def _note_extras(self, event: Any, place: Place) -> None:
        if type(event).__name__ == "AliasEvent":
            self._repeats.append((place, f"an alias (*{event.anchor}) is"))
            return
        if event.anchor is not None:
            self._repeats.append((place, f"an anchor (&{event.anchor}) is"))
        if event.tag is not None:
            tag = event.tag.replace("tag:yaml.org,2002:", "!!")
            self.findings.append(find("yaml-tag", place, tag=tag))

    def _report_repeats(self) -> None:
        """One finding for all anchors, aliases and merge keys: they are one habit, not many faults."""
        if self._repeats:
            (place, what), *rest = self._repeats
            others = tuple(other for other, _ in rest[:_OTHERS])
            self.findings.append(find("yaml-repeat", place, others=others, what=what))

    def _read_list(self, place: Place, depth: int) -> List:
        items = []
        for event in self._events:
            if type(event).__name__ == "SequenceEndEvent":
                break
            item = self._read_node(event, depth + 1)
            if item is not None:
                items.append(item)
        return List(tuple(items), place)

    def _read_map(self, start: Any, place: Place, depth: int, section: str = "") -> Map:
        items: list[tuple[Text, Node]] = []
        first: dict[str, Place] = {}
        strays: list[Text] = []
        for event in self._events:
            if type(event).__name__ == "MappingEndEvent":
                break
            key = self._read_key(event, depth)
            value_event = next(self._events)
            value = self._read_value(key, value_event, depth, section)
            if key is None:
                continue
            if start.flow_style and self._is_stray(event, value_event):
                strays.append(key)
                continue
            self._report_strays(items, strays)
            if key.text in first:
                line = f"line {first[key.text].line}"
                others = (first[key.text],)
                self.findings.append(find("key-doubled", key.place, others=others, key=key.text, first=line))
                continue
            first[key.text] = key.place
            if value is not None:
                items.append((key, value))
        self._report_strays(items, strays)
        return Map(tuple(items), place)

    def _read_value(self, key: Text | None, event: Any, depth: int, section: str) -> Node | None:
        if depth == 0 and key is not None and type(event).__name__ == "MappingStartEvent":
            self._count += 1
            place = self._place(event.start_mark)
            self._note_extras(event, place)
            return self._read_map(event, place, 1, key.text)
        is_record = depth == 1 and section not in SINGLES
        return self._read_node(event, depth + 1, record=is_record)

    def _read_key(self, event: Any, depth: int) -> Text | None:
        """The key as text, or None with a finding if it is a list, a group, a merge key or nothing."""
        place = self._place(event.start_mark)
        if type(event).__name__ != "ScalarEvent":
            self._read_node(event, depth + 1)
            if type(event).__name__ != "AliasEvent":
                problem = f"a {self._body[event.start_mark.index]} is where a name belongs"
                remedy = "delete it if it is a slip, or write a plain name and a colon before it"
                self.findings.append(find("yaml-key", place, problem=problem, remedy=remedy))
            return None
        if event.value == "<<" and not event.style:
            self._repeats.append((place, "a merge key (<<) is"))
            return None
        self._count += 1
        self._note_extras(event, place)
        key = self._make_text(event, place)
        if not key.text:
            problem, remedy = "a value without a name", "write a name before the colon"
            self.findings.append(find("yaml-key", place, problem=problem, remedy=remedy))
            return None
        return key

    def _read_scalar(self, event: Any, place: Place, record: bool) -> Text | Map | None:
        """The text; an empty value is absent, but a record without fields is still a record."""
        text = self._make_text(event, place)
        if not event.style:
            self._check_comment(event, text)
        if not text.text or (text.text == "~" and not event.style):
            return Map((), place) if record else None
        return text

    def _make_text(self, event: Any, place: Place) -> Text:
        text, removed = clean_text(event.value)
        if removed:
            self.findings.append(find("text-control", place, characters=removed))
        if len(text) > limits.TEXT_LENGTH:
            self.findings.append(find("text-long", place, most=f"{limits.TEXT_LENGTH:,}"))
            text = text[: limits.TEXT_LENGTH]
        start, end = event.start_mark.index + self._shift, event.end_mark.index + self._shift
        return Text(text, place, span=Span(start, end))

    def _check_comment(self, event: Any, text: Text) -> None:
        """A warning where a # most likely cut a value: a figure right behind it, or nothing before it.

        `518.200 # was 3`, `VERA #old` and `518.200 #2` are taken as comments: nothing shows that text was lost.
        """
        match = _COMMENT.match(self._body, event.end_mark.index)
        if not match:
            return
        comment = match[1]
        cut_off = comment[1:2].isdigit() and any(map(str.isalpha, text.text))
        emptied = not text.text and comment[1:2].isalnum()
        if cut_off or emptied:
            end = self._place(event.end_mark)
            where = end._replace(column=end.column + match.start(1) - match.start())
            self.findings.append(find("comment-in-value", where, lost=comment[:40].rstrip()))

    def _is_stray(self, key_event: Any, value_event: Any) -> bool:
        """Whether an entry within braces is a word alone, without a colon."""
        if type(value_event).__name__ != "ScalarEvent" or value_event.value:
            return False
        return ":" not in self._body[key_event.end_mark.index : value_event.end_mark.index]

    def _report_strays(self, items: list[tuple[Text, Node]], strays: list[Text]) -> None:
        """One finding for the words that stand alone behind an entry: most often its value was cut at a comma."""
        if strays:
            from paperwork.files.yaml.errors import explain_strays

            name, value = items[-1] if items else (None, None)
            before = (name.text, value.text) if name and isinstance(value, Text) else None
            problem, remedy = explain_strays(before, [stray.text for stray in strays])
            self.findings.append(find("yaml-key", strays[0].place, problem=problem, remedy=remedy))
            strays.clear()

    def _refuse_control(self) -> None:
        index = find_unprintable(self._body)
        if index is not None:
            character = name_character(self._body[index])
            raise Refused(find("yaml-control", self._locate(index), character=character))

    def _place(self, mark: Any) -> Place:
        """The place of a mark of the parser. It breaks lines as `Lines` does once what is unprintable is refused."""
        return Place(self._name, mark.line + 1, mark.column + 1)

    def _locate(self, index: int) -> Place:
        """The place of an index that counts from behind the byte-order mark."""
        return Place(self._name, *Lines(self._body).locate(index))
