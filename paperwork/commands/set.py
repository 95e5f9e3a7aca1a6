"""`paperwork set SHOW EDIT... -o NEW`: values of a show changed in place of a text editor, into a new file."""

from dataclasses import replace
from pathlib import Path

import click

from paperwork.files.refusal import Refused
from paperwork.finding import Edit, Finding, parse_edit
from paperwork.model.fields import SECTIONS
from paperwork.raw import Map, Node
from paperwork.terminal import Outcome
from paperwork.terminal.options import choose_new
from paperwork.terminal.report import format_finding, format_findings, summarise
from paperwork.text.names import fold, hint, id_key, join_words


@click.command(
    epilog="Examples:  paperwork set show.yaml channels/08/mhz=516.750 -o show-d.yaml  |  paperwork set show.yaml "
    "channels/08/mhz= spectrum/region=Europe -o new.yaml  |  paperwork set show.xlsx channels/1/=01 -o new.xlsx"
)
@click.argument("show", type=click.Path())
@click.argument("edits", nargs=-1, required=True)
@click.option("-o", "--output", "new", required=True, type=click.Path(), help="The new file; it must not be there yet.")
@click.option("--venue", default="", help="Write the values for this venue only, if they may differ there.")
def command(show: str, edits: tuple[str, ...], new: str, venue: str) -> Outcome:
    """Change values of SHOW, into a new file; comments, order and formatting stay.

    An EDIT is section/record/field=value; in show, day and spectrum section/field=value. Without a value it deletes the
    field. section/record/=name renames a record everywhere; section/record/= deletes it. In names write %2F for / and
    %3D for =.
    """
    from paperwork.editing.edited import list_gone, open_show
    from paperwork.output import OutputError, write_new
    from paperwork.reading import has_errors, read_show

    if wrong := choose_new(show, new):
        return Outcome(aside=wrong, code=2)
    try:
        opened = open_show(Path(show), show, venue)
        wanted = [_settle(opened.raw, parse_edit(text)) for text in edits]
        made = opened.make(_list_rows(opened.raw, venue, wanted) if venue else wanted)
        write_new(Path(new), made.data)
    except ValueError as error:
        return Outcome(aside=f"{error}\n", code=2)
    except Refused as refused:
        return Outcome(aside=format_findings([refused.finding], "text") + "nothing was written\n", code=2)
    except OutputError as error:
        return Outcome(aside=f"{error}\n", code=2)
    lines = [*made.lines]
    lines += _list_findings("gone", list_gone(opened.reading, made.reading))
    # read again as what it is now: places are those of the new file
    written = read_show(Path(new), new, venue=venue).findings
    came = {(one.code, one.place[1:]) for one in list_gone(made.reading, opened.reading)}
    lines += _list_findings("new", [one for one in written if (one.code, one.place[1:]) in came])
    lines.append(f"{new} written; {summarise(written)}")
    return Outcome("".join(f"{line}\n" for line in lines), code=int(has_errors(written)))


def _list_findings(word: str, findings: "list[Finding] | tuple[Finding, ...]") -> list[str]:
    return [
        line if number else f"{word}: {line}" for one in findings for number, line in enumerate(format_finding(one))
    ]


def _settle(raw: Map, edit: Edit) -> Edit:
    """The edit with section, record and field spelled as the file and the table have them. Raises ValueError, with the
    nearest name, for what is neither in the file nor in the table."""
    section = _spell(edit.section, [*SECTIONS, *(key.text for key, _ in raw.items)], "there is no section")
    edit = replace(edit, section=section)
    if not edit.record and not edit.field:
        return edit
    held = raw.get(section)
    is_single = section in SECTIONS and SECTIONS[section].is_single
    if edit.record and is_single and not edit.field:
        raise ValueError(f"{section} has no records: write {section}/{edit.record}={edit.value}")
    if not edit.record and not is_single and not edit.renames:
        raise ValueError(f"{section} has records: write {section}/record/{edit.field}={edit.value}")
    if edit.record:
        edit = replace(edit, record=_spell(edit.record, _list_keys(held), f"{section} has no"))
    if edit.field and section in SECTIONS and (edit.record or not edit.renames):
        record = held.get(edit.record) if edit.record and isinstance(held, Map) else held
        fields = [*SECTIONS[section].fields, *_list_keys(record if edit.record or is_single else None)]
        edit = replace(edit, field=_spell(edit.field, fields, f"{section} has no field"))
    return edit


def _list_keys(node: Node | None) -> list[str]:
    return [key.text for key, _ in node.items] if isinstance(node, Map) else []


def _spell(word: str, known: list[str], missing: str) -> str:
    same = [one for one in known if one == word] or [one for one in known if id_key(one) == id_key(word)]
    if not same:
        raise ValueError(f"{missing} {word}{hint(word, known) or (f' (it has {join_words(known)})' if known else '')}")
    return same[0]


def _list_rows(raw: Map, venue: str, wanted: list[Edit]) -> list[Edit]:
    """The values as rows of the venue. Raises ValueError for what is the same in every house."""
    from paperwork.overlay import VENUE, read_rows, state_in_venue

    rows = read_rows(raw)
    venues = [row.venue for row in rows]
    if fold(venue) not in map(fold, venues):
        raise ValueError(f"there is no venue {venue}{hint(venue, venues)}")
    for one in wanted:
        if one.field not in VENUE.get(one.section, ()) or not one.value or one.renames:
            may = f"; of {one.section} it can change {join_words(VENUE[one.section])}" if one.section in VENUE else ""
            raise ValueError(f"{one.path} is the same in every house{may}")
    return state_in_venue(rows, venue, wanted)
