"""A show file with edits, read again: what they did to it, and what became of its findings."""

from collections import Counter
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import replace
from pathlib import Path

from paperwork.files.edit import FieldEdits
from paperwork.files.references import follow_renames
from paperwork.files.refusal import Refused, refuse_edit
from paperwork.files.sniff import Kind, load_file, sniff
from paperwork.files.sweep import SweepLoader, read_sweep
from paperwork.finding import Edit, Finding, order_findings
from paperwork.frozen import frozen
from paperwork.intake import Source, read_source_bytes
from paperwork.place import Place
from paperwork.raw import Map, Node, Text
from paperwork.reading import Reading, judge_source, list_unknown_air


@frozen
class EditedShow:
    """A show file of ours, its bytes and what came of reading it. `lines` say what every edit so far did.

    `load_sweep` reads the sweep files that the show names.
    """

    data: bytes
    kind: Kind
    name: str
    load_sweep: SweepLoader
    source: Source
    reading: Reading
    venue: str = ""
    lines: tuple[str, ...] = ()

    @property
    def raw(self) -> Map:
        """What the file says."""
        return self.source.raw or Map((), Place(self.name))

    def make(self, edits: Sequence[Edit]) -> "EditedShow":
        """The show with the edits, and with whatever names a record that they rename. Raises Refused, also where
        something would be left that names nothing."""
        edits = follow_renames(self.raw, edits)
        spliced = FieldEdits(self.data, self.kind, edits, self.name, self.raw, self.source.findings)
        source = _read(spliced.data, self.name)
        spliced.prove(source.raw, source.findings)
        made = _judge(spliced.data, self.name, source, self.load_sweep, self.venue)
        if any(edit.is_rename and edit.record and not edit.field for edit in edits):
            known, left = (
                [one for one in each.findings if one.stage == "reference"] for each in (self.reading, made.reading)
            )
            if len(left) > len(known) and "reference" not in _list_hidden(self.reading):
                lost = next(one for one in left if one.text not in {other.text for other in known})
                raise refuse_edit(self.name, f"it would leave a name that is nowhere: {lost.text}", lost.place)
        return replace(made, lines=(*self.lines, *_word(self.raw, edits)))

    def take(self, data: bytes) -> "EditedShow":
        """The show of other bytes of the same file. Raises Refused where nothing of a show would be left."""
        return read_edited(data, self.name, self.load_sweep, self.venue)


def open_show(path: Path, name: str, venue: str = "") -> EditedShow:
    """A show file that can be edited. Raises Refused for one that cannot be read, and for somebody's own list."""
    return read_edited(
        load_file(path, name), name, lambda sweep, stated: read_sweep(path.parent / sweep, sweep, stated), venue
    )


def read_edited(data: bytes, name: str, load_sweep: SweepLoader, venue: str = "") -> EditedShow:
    """The same for a file whose bytes are at hand."""
    return _judge(data, name, _read(data, name), load_sweep, venue)


def _read(data: bytes, name: str) -> Source:
    return read_source_bytes(data, name, lambda: ({}, ()))


def _judge(data: bytes, name: str, source: Source, load_sweep: SweepLoader, venue: str) -> EditedShow:
    kind, _ = sniff(data, name)
    if kind == "csv" or source.understanding is not None:
        raise refuse_edit(name, "it is somebody's own list; `paperwork convert` makes a show file of it")
    if source.raw is None:
        raise Refused(source.findings[-1])
    reading = judge_source(source, load_sweep, venue=venue)
    return EditedShow(data, kind, name, load_sweep, source, reading, venue)


def _word(raw: Map, edits: Iterable[Edit]) -> Iterator[str]:
    """What each edit changes, a line each, as `channels 08 mhz: was 516.725, is 516.750`."""
    for edit in edits:
        if edit.is_rename:
            yield f"{edit.path}: is called {edit.value}"
            continue
        held = _held(raw, edit)
        before = f"was {held}" if held else "was not there"
        yield f"{edit.path}: {before}, is {edit.value or 'gone'}"


def _held(raw: Map, edit: Edit) -> str:
    node: Node | None = raw
    for part in (edit.section, edit.record, edit.field):
        if part:
            node = node.get(part) if isinstance(node, Map) else None
    return node.text if isinstance(node, Text) else "there" if node is not None else ""


def list_new(before: Reading, after: Reading, mended: Sequence[Finding] = ()) -> list[Finding]:
    """The findings that were not there before, in words or about their record, without those that came to light
    because a slip that hid them is gone. `mended` are gone, so that another of their kind counts as new."""
    hidden = _list_hidden(before)
    is_air_known = not list_unknown_air(before.findings)
    # What a field of no known name holds is not looked at before it has one.
    renames = (edit for one in before.findings for edit in one.edits if edit.is_rename)
    named = {(edit.section, edit.record) for edit in renames if edit.field}
    known = {(one.code, one.text) for one in before.findings} | {
        (one.code, *one.subjects[:1]) for one in before.findings
    }
    risen = Counter(one.code for one in after.findings)
    risen.subtract(one.code for one in before.findings)
    risen.update({(one.code, one.text): one.code for one in mended}.values())
    return [
        one
        for one in after.findings
        if not {(one.code, one.text), (one.code, *one.subjects[:1])} & known
        and risen[one.code] > 0
        and one.stage not in hidden
        and not (one.stage == "shape" and any((of.section, id) in named for of in one.subjects for id in ("", of.id)))
        and (is_air_known or "frequency" not in one.row.topics)
    ]


def _list_hidden(reading: Reading) -> frozenset[str]:
    """The stages that a reading did not come to."""
    stages = {one.stage for one in reading.findings if one.severity == "error"}
    if stages & {"read", "shape"}:
        # Nor is what a section of no known name holds, which may have no records that a finding could be about.
        is_unread = any(not edit.record and not edit.field for one in reading.findings for edit in one.edits)
        return frozenset({"reference", "sense", *(("shape",) if is_unread else ())})
    return frozenset({"sense"} if "reference" in stages else ())


def list_gone(before: Reading, after: Reading) -> tuple[Finding, ...]:
    """The findings that are there no more."""
    left = {(one.code, one.text) for one in after.findings}
    return order_findings([one for one in before.findings if (one.code, one.text) not in left])
