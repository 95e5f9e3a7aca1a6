"""A show file with edits, read again: what they did to it, and what became of its findings."""

from collections import Counter
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, field
from pathlib import Path

from paperwork.files.edit import edit_fields
from paperwork.files.read import read_kind
from paperwork.files.references import follow_renames
from paperwork.files.refusal import Refused, refuse_edit
from paperwork.files.sniff import Kind, load_file, sniff
from paperwork.files.sweep import read_sweep
from paperwork.finding import Edit, Finding, order_findings
from paperwork.intake import read_source, read_source_bytes
from paperwork.raw import Map, Node, Text
from paperwork.reading import Reading, judge_source, list_unknown_air

MOST_TRIES = 60
"""How often a show is edited and read again, at most, while its findings are corrected. Choice of this project, no source."""


@dataclass(frozen=True, slots=True)
class EditedShow:
    """A show file of ours, its bytes and what came of reading it. `lines` say what every edit so far did."""

    data: bytes
    kind: Kind
    name: str
    folder: Path
    raw: Map
    reading: Reading
    venue: str = ""
    lines: tuple[str, ...] = ()

    def make(self, edits: Sequence[Edit]) -> "EditedShow":
        """The show with the edits, and with whatever names a record that they rename. Raises Refused, also where
        something would be left that names nothing."""
        edits = follow_renames(self.raw, edits)
        data = edit_fields(self.data, self.kind, edits, self.name)
        made = _read(data, self.kind, self.name, self.folder, self.venue)
        if any(edit.is_rename and edit.record and not edit.field for edit in edits):
            known, left = (
                [one for one in each.findings if one.stage == "reference"] for each in (self.reading, made.reading)
            )
            if len(left) > len(known) and "reference" not in _list_hidden(self.reading):
                lost = next(one for one in left if one.text not in {other.text for other in known})
                raise refuse_edit(self.name, f"it would leave a name that is nowhere: {lost.text}", lost.place)
        return EditedShow(
            data,
            self.kind,
            self.name,
            self.folder,
            made.raw,
            made.reading,
            self.venue,
            (*self.lines, *_word(self.raw, edits)),
        )


def open_show(path: Path, name: str, venue: str = "") -> EditedShow:
    """A show file that can be edited. Raises Refused for one that cannot be read, and for somebody's own list."""
    data = load_file(path, name)
    kind, _ = sniff(data, name)
    if kind != "yaml":
        source = read_source(path, name)
        if kind == "csv" or source.understanding is not None:
            reason = "it is somebody's own list; `paperwork convert` makes a show file of it"
            raise refuse_edit(name, reason)
    raw, found = read_kind(data, name, kind)
    if raw is None:
        raise Refused(found[-1])
    return _read(data, kind, name, path.parent, venue)


def _read(data: bytes, kind: Kind, name: str, folder: Path, venue: str) -> EditedShow:
    source = read_source_bytes(data, name, lambda: ({}, ()))
    if source.raw is None or source.understanding is not None:
        raise refuse_edit(name, "nothing of a show would be left")
    reading = judge_source(source, lambda sweep, stated: read_sweep(folder / sweep, sweep, stated), venue=venue)
    return EditedShow(data, kind, name, folder, source.raw, reading, venue)


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
    """The findings that were not there before, in words or about their record, without those that came to light because a
    slip that hid them is gone. `mended` are gone, so that another of their kind counts as new."""
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


@dataclass(slots=True)
class Mending:
    """A show whose findings are corrected by their own edits, as far as nobody has to decide and nothing gets worse."""

    show: EditedShow
    made: list[Finding] = field(default_factory=list)
    refused: set[tuple[Edit, ...]] = field(default_factory=set)
    tries: int = 0

    def run(self) -> None:
        """Make edits until none is left that helps, or `MOST_TRIES` are spent."""
        while self.tries < MOST_TRIES:
            wanted = [
                one
                for one in self.show.reading.findings
                if one.edits and not one.row.decides and one.edits not in self.refused
            ]
            if not wanted:
                return
            self._adopt(wanted)

    def _adopt(self, wanted: Sequence[Finding]) -> None:
        """All of them at once, else each half by itself; one alone that does not help is never made."""
        if self.tries >= MOST_TRIES:
            return
        self.tries += 1
        edits = tuple(dict.fromkeys(edit for one in wanted for edit in one.edits))
        try:
            made = self.show.make(edits)
        except Refused:
            made = None
        if made and self._is_better(made.reading, wanted):
            self.show = made
            self.made += wanted
        elif len(wanted) == 1:
            self.refused.add(wanted[0].edits)
        else:
            self._adopt(wanted[: len(wanted) // 2])
            self._adopt(wanted[len(wanted) // 2 :])

    def _is_better(self, after: Reading, wanted: Sequence[Finding]) -> bool:
        left = {(one.code, one.text) for one in after.findings}
        is_gone = not any((one.code, one.text) in left for one in wanted)
        return is_gone and all(one.severity != "error" for one in list_new(self.show.reading, after, wanted))


def list_gone(before: Reading, after: Reading) -> tuple[Finding, ...]:
    """The findings that are there no more."""
    left = {(one.code, one.text) for one in after.findings}
    return order_findings([one for one in before.findings if (one.code, one.text) not in left])
