"""Two files that began as one, put together: what differs in one alone is taken, what differs in both is asked."""

from collections.abc import Collection, Iterator, Mapping

from paperwork.files.references import write_value
from paperwork.finding import Edit
from paperwork.frozen import frozen
from paperwork.model.fields import SECTIONS, SINGLES
from paperwork.raw import Map

Key = tuple[str, str, str]
"""Section, record and field, "" where there is none. A record without a field is whether it is there."""

THERE = "there"


@frozen
class MergeClash:
    """A value that differs in both: as it was, as it is here and as it is in the file; "" is none."""

    key: Key
    was: str
    ours: str
    theirs: str


@frozen
class Merge:
    """What differs from the common beginning. `ours` and `theirs` are changes that no other change touches."""

    ours: tuple[Edit, ...]
    theirs: tuple[Edit, ...]
    clashes: tuple[MergeClash, ...]

    def list_edits(self, kept: Collection[Key], own: Map) -> tuple[Edit, ...]:
        """The edits of the file as it is now: ours, and each clash of which our side, which is in `own`, is kept."""
        values = flatten(own)
        edits = list(self.ours)
        for clash in self.clashes:
            if clash.key not in kept:
                continue
            section, record, field = clash.key
            if field or not clash.ours:
                edits.append(Edit(section, record, field, clash.ours))
            else:  # a record that is gone in the file and is to be there again
                fields = {key: value for key, value in values.items() if key[:2] == (section, record) and key[2]}
                edits += [Edit(*key, value) for key, value in fields.items()]
                if not any(fields.values()):  # it is there again once it has a field, and stays when that goes
                    edits += [Edit(section, record, "notes", value) for value in (THERE, "")]
        return tuple(edits)


def flatten(raw: Map) -> dict[Key, str]:
    """Every value by its section, record and field, as one text, and every record as being there."""
    found: dict[Key, str] = {}
    for section, held in raw.items:
        if not isinstance(held, Map):
            continue
        if section.text in SINGLES:
            found.update({(section.text, "", name.text): write_value(value) for name, value in held.items})
            continue
        for id, record in held.items:
            found[section.text, id.text, ""] = THERE
            if isinstance(record, Map):
                found.update({(section.text, id.text, name.text): write_value(value) for name, value in record.items})
    return found


def merge(base: Map, own: Map, other: Map) -> Merge:
    """What became of a show in two places; `base` is what it said before."""
    was, ours, theirs = flatten(base), flatten(own), flatten(other)
    mine, foreign = list_edits(was, ours), list_edits(was, theirs)
    clashes: dict[Key, MergeClash] = {}
    settled: set[Key] = set()
    for edit, against in [*((one, foreign) for one in mine), *((one, mine) for one in foreign)]:
        key = (edit.section, edit.record, edit.field)
        touching = [one for one in against if _touch(edit, one)]
        if not touching:
            continue
        if any((one.section, one.record, one.field) == key and one.value == edit.value for one in touching):
            settled.add(key)  # both say the same
            continue
        whole = min((key, *((one.section, one.record, one.field) for one in touching)), key=len_of)
        clashes[whole] = MergeClash(whole, was.get(whole, ""), ours.get(whole, ""), theirs.get(whole, ""))
    taken = [*settled, *clashes]

    def is_free(edit: Edit) -> bool:
        return not any(_touch(edit, Edit(*key, "")) for key in taken)

    return Merge(tuple(filter(is_free, mine)), tuple(filter(is_free, foreign)), tuple(clashes.values()))


def len_of(key: Key) -> int:
    """How many parts of a key there are: a whole record goes before its fields."""
    return sum(map(bool, key))


def _touch(one: Edit, other: Edit) -> bool:
    """Whether two edits are of one value, or one of them is of the whole record of the other."""
    if (one.section, one.record) != (other.section, other.record):
        return False
    return one.field == other.field or "" in (one.field, other.field)


def list_edits(before: Mapping[Key, str], after: Mapping[Key, str]) -> tuple[Edit, ...]:
    """The edits that make the one of the other, as far as values say it; the order of records is not among them."""
    return tuple(_list_edits(before, after))


def _list_edits(before: Mapping[Key, str], after: Mapping[Key, str]) -> Iterator[Edit]:
    gone = {key[:2] for key in before if key[1] and not key[2] and key not in after}
    for section, record in sorted(gone):
        yield Edit(section, record, "", "")
    for key, value in before.items():
        if key not in after and key[:2] not in gone and value:
            yield Edit(*key, "")
    filled = {key[:2] for key in after if key[2]}
    for key, value in after.items():
        if key[2] and value != before.get(key, "") and value:
            yield Edit(*key, value)
        elif key[1] and not key[2] and key not in before and key[:2] not in filled:
            yield from add_record(key[0], key[1])


def add_record(section: str, record: str) -> tuple[Edit, Edit]:
    """The edits that add a record without fields: one that is set, and taken out again."""
    field = next(iter(SECTIONS[section].fields)) if section in SECTIONS else "name"
    return Edit(section, record, field, "x"), Edit(section, record, field, "")
