"""What a list says of those who wear packs: rooms, belts, colours, teams, pouches, where things sit, and who is a child."""

from collections.abc import Sequence

from paperwork.intake.ledger import Ledger
from paperwork.intake.reading import quote, say_place
from paperwork.intake.records.draft import DraftRecord, Fact, ShowDraft
from paperwork.intake.tables.rows import DataRow
from paperwork.intake.tables.versions import SortedTable
from paperwork.intake.texts.names import is_blank, key_of_name, split_roles
from paperwork.intake.texts.scenes import read_mark
from paperwork.place import Place
from paperwork.raw import Text
from paperwork.text.headings import fold_heading, mean
from paperwork.text.vocabulary import fold_word, is_nobody, listed_words

PERSONS = ("room", "belt", "colour", "team", "pouch", "child")
"""Columns that are fields of a person."""

SITS = {"sits": "sits", "placement": "capsule"}
"""Columns that say where something sits on a body, and the field of a look that holds it."""


def place_wearers(draft: ShowDraft, ledger: Ledger) -> None:
    """Move what rows say of the one who wears a pack into people and looks; a pack of nobody keeps it in its notes."""
    for record in draft.channels:
        if record.mirrors:
            continue
        for fact in [fact for fact in record.facts if fact.field in (*PERSONS, *SITS)]:
            if (name := _find_wearer(record, fact)) and enter_person(name, fact, draft, ledger):
                record.settle(fact)


def _find_wearer(record: DraftRecord, fact: Fact) -> str:
    """The one whom a fact is about: the performer of its row, or the only one of the pack; "" for nobody or several."""
    names = list(dict.fromkeys(user.by for user in record.users if user.by))
    own = [name for name in names if fact.who and key_of_name(name) == key_of_name(fact.who)]
    return own[0] if own else names[0] if len(names) == 1 else ""


def enter_person(name: str, fact: Fact, draft: ShowDraft, ledger: Ledger) -> bool:
    """Enter a fact of a person where its field has no value yet, and say whether it is there now."""
    if fact.field == "pouch" and set(fold_word(fact.text).split()) & listed_words("body"):
        fact = fact._replace(field="sits")  # `Pouch: small of back` says where it is, not which
    if fact.field in SITS:
        record, field = draft.add("looks", name, fact.place), SITS[fact.field]
        record.fields.setdefault("by", Text(name, fact.place))
    else:
        record, field = draft.add("people", name, fact.place), fact.field
    text = _read_child(fact.text) if field == "child" else fact.text
    if not text:
        return False
    known = record.fields.setdefault(field, Text(text, fact.place))
    if not isinstance(known, Text) or fold_word(known.text) == fold_word(text):
        return True
    because = f"the {field} of {name} at {say_place(known.place)}"
    ledger.repair("facts of one person given differently", fact.place, text, known.text, because)
    return False


def _read_child(text: str) -> str:
    """`yes` or `no` of a mark, or of a word that says child."""
    mark = {"live": "yes", "idle": "no"}.get(read_mark(text), "")
    return mark or ("yes" if set(fold_word(text).split()) & listed_words("child") else "")


def read_people(table: SortedTable, draft: ShowDraft, ledger: Ledger) -> None:
    """Enter the people of a table that says something of them, and who they play where it says so."""
    for row in table.rows:
        name, role = row.cell("performer"), row.cell("role") if not table.columns.scenes else None
        text = ledger.text(name) if name else ""
        if not name or is_nobody(text):
            continue
        draft.add("people", text, name.place)
        for field in (*PERSONS, *SITS):
            cell = row.cell(field)
            if cell and not is_blank(said := ledger.text(cell)) and said:
                enter_person(text, Fact(field, "", said, cell.place), draft, ledger)
        for part in split_roles(ledger.text(role)) if role else ():
            entry = draft.add("roles", part, name.place)
            if "by" not in entry.fields:
                entry.put("by", text, name.place)


def read_remarks(table: SortedTable, draft: ShowDraft, ledger: Ledger) -> None:
    """Keep what a table of people or roles says in columns of no field in the notes of the channels that they wear."""
    for row in table.rows:
        names = {key_of_name(cell.text) for field in ("performer", "role") if (cell := row.cell(field))}
        worn = [record for record in draft.channels if names & {key_of_name(n) for n in (record.by, *record.roles)}]
        worn = worn or [record for record in draft.channels if any(key_of_name(u.by) in names for u in record.users)]
        who = row.stated("performer") or row.stated("role")
        for column, name in row.columns.fields.items():
            cell, heading = row.cells.get(column), table.table.headings[column]
            if name == "notes" and worn and cell and not is_blank(cell.text) and ledger.uses.get(cell.place) is None:
                is_plain = heading is None or mean(heading.text).fields[:1] == ("notes",)
                title = "" if is_plain or heading is None else f"{' '.join(heading.text.split())}: "
                for record in worn:
                    several = len({user.by or user.roles[0] for user in record.users}) > 1
                    record.notes.append(
                        (f"{who}, {title}{cell.text}" if several else f"{title}{cell.text}", cell.place)
                    )
                ledger.text(cell)


def ask_children(tables: Sequence[SortedTable], draft: ShowDraft, ledger: Ledger) -> None:
    """Ask whether those are children whom a list speaks of as such; until it is answered they are, so that no paper names
    them."""
    listed = {key_of_name(user.by): user.by for user in draft.users if user.by}
    named = [*draft.records("roles"), *draft.records("covers")]
    played = [by.text for record in named if isinstance(by := record.fields.get("by"), Text)]
    listed |= {key_of_name(name): name for name in (*played, *(record.id for record in draft.records("people")))}
    for reason, words, found in (
        ("notes", "notes speak of a child", _find_noted(draft)),
        ("pupils", "the list is one of pupils or children", _find_pupils(tables)),
        ("guardians", "somebody is named who looks after them", _find_guarded(tables)),
    ):
        names = {name: place for one, place in found if (name := listed.get(key_of_name(one)))}
        names = {name: place for name, place in names.items() if not _is_known(name, draft)}
        if not names:
            continue
        place = next(iter(names.values()))
        more = f" and {len(names) - 3} more" if len(names) > 3 else ""
        text = f"{words}: {', '.join(map(quote, [*names][:3]))}{more}"
        choices = {"yes": "children: papers name them by their initials", "no": "no children"}
        others = tuple(dict.fromkeys(names.values()))[1:]
        answer = ledger.ask("child", reason, place, text, choices, others=others, default="yes", stops=False)
        for name, at in names.items() if answer == "yes" else ():
            draft.add("people", name, at).put("child", "yes", at)


def _is_known(name: str, draft: ShowDraft) -> bool:
    record = draft.find("people", name)
    return record is not None and "child" in record.fields


def _find_noted(draft: ShowDraft) -> list[tuple[str, Place]]:
    """Those who alone wear a channel whose notes begin with a word for a child, or name one who looks after it."""
    words = listed_words("child")
    found = []
    for record in draft.channels:
        names = {user.by for user in record.users if user.by}
        for text, place in record.notes if len(names) == 1 else ():
            said = fold_word(text).split()
            if set(said[:1]) & words or set(said) & listed_words("guardian"):
                found.append((next(iter(names)), place))
    return found


def _find_pupils(tables: Sequence[SortedTable]) -> list[tuple[str, Place]]:
    """The names of tables that are headed as children's, or have a column of their classes."""
    found = []
    for table in tables:
        heads = {column: fold_heading(cell.text) for column, cell in table.table.headings.items() if cell}
        column = table.columns.of("performer")
        is_headed = column is not None and bool(set(heads.get(column, "").split()) & listed_words("pupil"))
        if column is not None and (is_headed or set(heads.values()) & listed_words("class")):
            found += [*_names_of(table.rows), *_names_of(table.rows, "understudy")]
    return found


def _find_guarded(tables: Sequence[SortedTable]) -> list[tuple[str, Place]]:
    """The names of rows that have somebody in a column of those who look after children."""
    found = []
    for table in tables:
        heads = {column: fold_heading(cell.text) for column, cell in table.table.headings.items() if cell}
        columns = [column for column, head in heads.items() if set(head.split()) & listed_words("guardian")]
        rows = [row for row in table.rows if any(c in row.cells and not is_blank(row.cells[c].text) for c in columns)]
        found += _names_of(rows)
    return found


def _names_of(rows: Sequence[DataRow], field: str = "performer") -> list[tuple[str, Place]]:
    cells = [cell for row in rows if (cell := row.cell(field))]
    return [(cell.text, cell.place) for cell in cells if not is_nobody(cell.text)]
