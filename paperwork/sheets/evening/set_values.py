"""Values that are set for tonight alone: per channel and person what was planned, what is tonight, and who must act."""

from collections.abc import Iterator, Sequence

from paperwork.changes import Entry, diff_shows, list_changes
from paperwork.document import Block, Column, Note, RowGroup, Table, TableRow, cell, fact, row
from paperwork.document.styles import HAND, HAND_STRONG, NOW, TONIGHT_NOTE, WAS
from paperwork.finding import Finding, Subject
from paperwork.model import Channel, Show
from paperwork.plan.covers import Tonight, channels_of
from paperwork.plan.evening import list_wearings_tonight
from paperwork.sheets.evening.swaps import ROW_UM
from paperwork.sheets.frame import headed, phrase, short_scene, subjects_of_channel


def list_set_values(usual: Show, show: Show, tonight: Tonight, findings: Sequence[Finding]) -> Iterator[Block]:
    """A row for each value that is not as planned, and what is found in the show by them; or that nothing differs."""
    entries = list_changes(usual, show, diff_shows(usual, show), show.production.language)
    if not entries:
        yield Note(phrase(show, "tonight same"), TONIGHT_NOTE)
        return
    headings = ("head what", "tonight head plan", "tonight", "tonight head acts", "tonight head scenes")
    columns = headed(show, *(Column(key, share=share) for key, share in zip(headings, (6, 4, 4, 5, 4), strict=True)))
    rows = tuple(_row(show, tonight, one) for one in entries)
    yield Table(columns, (RowGroup(rows, phrase(show, "tonight set")),), row_um=ROW_UM)
    for finding in findings:
        text = phrase(show, "tonight found", text=finding.text, fix=finding.fix, code=finding.code)
        yield Note(text, TONIGHT_NOTE, (finding.code, finding.text))


def _row(show: Show, tonight: Tonight, entry: Entry) -> TableRow:
    channels = _channels_of(show, entry)
    worn = [one for channel in channels for one in list_wearings_tonight(show, tonight)[channel.id]]
    people = [one.by for one in worn] or [name for channel in channels for name in show.performers_of(channel)]
    indexes = sorted({one.stint.index for one in worn})
    if indexes == list(range(len(show.scenes))) or any(not show.scenes[index].id for index in indexes):
        scenes = phrase(show, "tonight whole show") if indexes else ""
    else:
        scenes = ", ".join(short_scene(show.scenes[index]) for index in indexes)
    about = fact(", ".join(dict.fromkeys(people)), HAND)
    return row(
        cell(fact(entry.what, HAND_STRONG), fact(entry.field, HAND), about),
        cell(fact(entry.old, WAS)),
        cell(fact(entry.new, NOW)),
        cell(*(fact(phrase(show, f"act {act}"), HAND, of=act) for act in entry.acts)),
        cell(fact(scenes, HAND, of=" ".join(short_scene(show.scenes[index]) for index in indexes))),
        subjects=(
            *((Subject(entry.section, entry.id),) if entry.id else ()),
            *(subject for channel in channels for subject in subjects_of_channel(show, channel)),
        ),
    )


def _channels_of(show: Show, entry: Entry) -> tuple[Channel, ...]:
    """The channels that a changed value is about: its own, or those that carry its role."""
    if entry.section == "roles":
        return channels_of(show, entry.id)
    return tuple(channel for id, channel in show.channels.items() if entry.section == "channels" and id == entry.id)
