"""Changes as the lines of a list: who must act, what it is about, what was and what is; facts that
changed places."""

from collections import Counter
from collections.abc import Iterable, Iterator, Mapping, Sequence
from itertools import chain, zip_longest
from typing import Any, Literal, TypeAlias

from paperwork.changes.diff import Change
from paperwork.changes.records import facts_of, records_of
from paperwork.changes.reprint import LabelPrint, Reprint
from paperwork.frozen import frozen
from paperwork.model import Output, Show, Slot
from paperwork.model.facts import NOT_FACTS
from paperwork.model.fields import SECTIONS, SINGLES, fields_by_attr
from paperwork.model.row import Field
from paperwork.text.names import natural_key
from paperwork.text.units import Range, format_range
from paperwork.text.words import words_of

NOTHING = "\u2013"
"""Printed where a fact is not given."""


def format_fact(field: Field, value: Any, w: Mapping[str, str]) -> str:
    """A field's value in words: a frequency in MHz, a time as `h:mm`, a list with commas; a dash where it is empty."""
    if isinstance(value, bool):
        return w["yes"] if value else w["no"]
    if value is None or value == "" or value == ():
        return NOTHING
    if isinstance(value, Range):
        return f"{format_range(value)} MHz"
    if isinstance(value, tuple) and field.kind.reads == "pairs":
        return ", ".join(map(": ".join, value))
    if isinstance(value, tuple):
        return ", ".join(format_fact(field, item, w) for item in value)
    return field.kind.format(value) if isinstance(value, int) else str(value)


def split_list(old: tuple[Any, ...], new: tuple[Any, ...]) -> tuple[tuple[Any, ...], tuple[Any, ...]]:
    """What only the old list and what only the new one holds."""
    return tuple(item for item in old if item not in new), tuple(item for item in new if item not in old)


def is_plain_list(value: Any) -> bool:
    """Whether a value is a list of ids or names, best said by what joined and what left."""
    return isinstance(value, tuple) and bool(value) and all(isinstance(item, str | Slot) for item in value)


Sign: TypeAlias = Literal["new", "gone", "name", "moved", "changed"]

ACTS = ("pack", "label", "patch", "wardrobe", "coordinator", "know")
"""Who must act, in the order of the list: as in the table of fields, and whoever sticks labels."""


@frozen
class Entry:
    """One line of a change list. `what` names the record and `field` the fact, "" where the record is the fact.

    `name` is the field in the model, for programs.
    """

    sign: Sign
    section: str
    id: str
    what: str
    field: str
    old: str
    new: str
    acts: tuple[str, ...]
    name: str = ""


def acts_of(section: str, attr: str = "") -> tuple[str, ...]:
    """Who must act when an attribute changes; without one, when a record comes, goes or is renamed."""
    if section == "show" and attr in NOT_FACTS:
        return ()
    stated = SECTIONS[section]
    return tuple(((attr and fields_by_attr(section)[attr].acts) or stated.acts).split())


def word_of(section: str, attr: str, w: Mapping[str, str]) -> str:
    """What a change list calls an attribute: its word, or the title of its field where a language lacks that."""
    return w.get(f"field {attr}") or fields_by_attr(section)[attr].title.lower()


def list_changes(old: Show, new: Show, changes: Sequence[Change], language: str = "en") -> tuple[Entry, ...]:
    """The changes from the old show to the new one as lines, those of one record together, in the order of the show."""
    writer = _Writer(old, new, words_of(language), changes)
    lines = chain.from_iterable(map(writer.write, changes))
    order = {section: number for number, section in enumerate(SECTIONS)}
    return tuple(sorted(lines, key=lambda entry: order[entry.section]))


def list_label_changes(reprint: Reprint, language: str = "en") -> tuple[Entry, ...]:
    """A line for each label and cut-out card to be stuck on or taken off, with the codes by which to know them."""
    w = words_of(language)
    lines = []
    for paper in reprint.label_sheets:
        came, gone = (_by_number(held.get(paper.name, ())) for held in (reprint.labels, reprint.bin_labels))
        for number in sorted({**gone, **came}, key=natural_key):
            for old, new in zip_longest(gone.get(number, ()), came.get(number, ())):
                sign: Sign = "changed" if old and new else "new" if new else "gone"
                what = w["change label"].format(number=number, role=(new or old).role).strip()
                was, now = (label.code if label else NOTHING for label in (old, new))
                lines.append(Entry(sign, "labels", number, what, paper.title, was, now, ("label",)))
    return tuple(lines)


def _by_number(labels: Iterable[LabelPrint]) -> dict[str, list[LabelPrint]]:
    """The labels of each number, in their order: two bodies on one pack have a card each."""
    found: dict[str, list[LabelPrint]] = {}
    for label in labels:
        found.setdefault(label.number, []).append(label)
    return found


class _Writer:
    """The two shows and the words, for one list."""

    def __init__(self, old: Show, new: Show, w: Mapping[str, str], changes: Sequence[Change]) -> None:
        self.old, self.new, self.w = old, new, w
        self._added = {(change.section, change.id) for change in changes if change.kind == "added"}

    def write(self, change: Change) -> Iterator[Entry]:
        match change.kind:
            case "renamed":
                yield self._entry(change, "name", self.w["field name"], change.old, change.new)
            case "removed":
                yield self._entry(change, "gone", "", self._sum_up(change.section, change.old), NOTHING)
            case "added":
                yield self._entry(change, "new", "", NOTHING, self._sum_up(change.section, change.new))
            case "ordered":
                yield from self._write_order(change)
            case "changed" if change.field == "outputs":
                yield from self._write_outputs(change)
            case "changed" if acts_of(change.section, change.field):
                yield self._write_field(change)

    def _entry(self, change: Change, sign: Sign, field: str, old: str, new: str) -> Entry:
        what = self._name(change.section, change.id, gone=change.kind == "removed")
        acts = acts_of(change.section, change.field)
        return Entry(sign, change.section, change.id, what, field, old, new, acts, change.field)

    def _write_field(self, change: Change) -> Entry:
        old, new, w = change.old, change.new, self.w
        row = fields_by_attr(change.section)[change.field]
        is_move = row.is_marked("place") and old not in (None, (), "") and new not in (None, (), "")
        if is_plain_list(old) and is_plain_list(new) and len(old) + len(new) > 2:
            left, came = split_list(old, new)
            if left or came:
                old, new = left, came
        word = word_of(change.section, change.field, w)
        was, now = format_fact(row, old, w), format_fact(row, new, w)
        return self._entry(change, "moved" if is_move else "changed", word, was, now)

    def _write_outputs(self, change: Change) -> Iterator[Entry]:
        """One line for each slot and copy whose destination differs."""
        before, after = _legs(change.old), _legs(change.new)
        for leg in sorted({*before, *after}):
            old, new = before.get(leg, NOTHING), after.get(leg, NOTHING)
            if old != new:
                slot, kind, copy = leg
                field = f"{change.id}.{slot}  {self.w[f'field {kind}']} {copy}"
                yield self._entry(change, "moved" if NOTHING not in (old, new) else "changed", field, old, new)

    def _write_order(self, change: Change) -> Iterator[Entry]:
        """One line for each record that must be moved, fewest first: the others keep their order."""
        kept = _longest_rising([change.old.index(id) for id in change.new])
        stay = {change.old[index] for index in kept}
        section, acts = change.section, tuple(SECTIONS[change.section].order.split())
        for id in change.new:
            if id not in stay and (section, id) not in self._added:
                what, word = self._name(section, id), self.w["field order"]
                before, after = (self._place(section, ids, id) for ids in (change.old, change.new))
                yield Entry("moved", section, id, what, word, before, after, acts, "order")

    def _place(self, section: str, ids: Sequence[str], id: str) -> str:
        """Behind which record another one is."""
        number = ids.index(id)
        return self.w["behind"].format(name=self._name(section, ids[number - 1])) if number else self.w["first"]

    def _name(self, section: str, id: str, *, gone: bool = False) -> str:
        """How a record is called: `channel 05 VERA`, `scene 1.4 The inn`."""
        if section in SINGLES:
            return self.w[f"record {section}"]
        show = self.old if gone else self.new
        record = records_of(show, section).get(id)
        more = ""
        if section == "channels" and record is not None:
            more = " / ".join(show.roles_on(record)) or record.by or (self.w["spare"] if record.spare else "")
        if section in ("moves", "covers") and record is not None:
            more = record.role
        if section == "looks" and record is not None:
            more = record.by
        if section == "scenes" and record is not None and record.name:
            id = record.name
        return self.w[f"record {section}"].format(id=id).strip() + (f"  {more}" if more else "")

    def _sum_up(self, section: str, record: Any) -> str:
        """What a new or former record says, its first few facts: enough to know it by."""
        blank = facts_of(type(record)(id=record.id))
        rows = fields_by_attr(section)
        brief = [
            f"{word_of(section, attr, self.w)} {format_fact(rows[attr], value, self.w)}"
            for attr, value in facts_of(record).items()
            if value != blank[attr] and rows[attr].is_marked("brief")
        ]
        return ", ".join(brief) or self.w["record stated"]


def _legs(outputs: Iterable[Output]) -> dict[tuple[int, str, int], str]:
    """Where each slot's copies go: by slot, kind and copy the inputs, with the side of a pair."""
    found: dict[tuple[int, str, int], list[str]] = {}
    for output in outputs:
        side = f" {output.connector}" if output.connector else ""
        found.setdefault((output.slot, output.kind, output.copy), []).append(f"{output.console} {output.input}{side}")
    return {leg: " + ".join(inputs) for leg, inputs in found.items()}


def _longest_rising(numbers: Sequence[int]) -> tuple[int, ...]:
    """The longest rising part of a sequence of different numbers (patience sorting; the last such part)."""
    tails: list[tuple[int, ...]] = []
    for number in numbers:
        place = next((index for index, tail in enumerate(tails) if tail[-1] >= number), len(tails))
        tails[place : place + 1] = [(*(tails[place - 1] if place else ()), number)]
    return tails[-1] if tails else ()


FEWEST = 3
"""Two that change places are an exchange, which is often meant. Choice of this project."""


@frozen
class Shuffle:
    """One fact, by its printed `field`, of some records of a section: each has now what another of them had."""

    section: str
    field: str
    ids: tuple[str, ...]


def list_shuffles(entries: Sequence[Entry]) -> tuple[Shuffle, ...]:
    """Every fact that at least three records passed on among each other. Where a column slipped by a row, one value is
    gone and one is new: then it takes one more."""
    held: dict[tuple[str, str, str], list[Entry]] = {}
    for entry in entries:
        if entry.sign in ("changed", "moved") and NOTHING not in (entry.old, entry.new) and entry.name != "order":
            held.setdefault((entry.section, entry.name, entry.field), []).append(entry)
    found = []
    for (section, _, field), several in held.items():
        shared = (Counter(one.old for one in several) & Counter(one.new for one in several)).total()
        is_lively = len({one.old for one in several}) >= FEWEST
        if is_lively and shared >= FEWEST and shared >= len(several) - 1:
            found.append(Shuffle(section, field, tuple(one.id for one in several)))
    return tuple(found)
