"""The patch sheet: every slot, every output of it, down to connector and destination. Hangs behind the rack."""

from collections.abc import Iterator, Sequence
from dataclasses import replace
from itertools import groupby

from paperwork.document import (
    Blank,
    Block,
    Cell,
    Column,
    Line,
    Panel,
    Panels,
    RowGroup,
    Sheet,
    Table,
    TableRow,
    cell,
    fact,
    row,
    words,
)
from paperwork.document.sheet import WALL_PAPERS
from paperwork.document.styles import PATCH_NUMBER, RACK_PLUG, RACK_SLOT, RACK_SMALL, RACK_STRONG, SMALL_PRINT
from paperwork.finding import Subject
from paperwork.model import Channel, Console, Output, OutputKind, Rack, Show
from paperwork.plan.patch import jack_of, outputs_of
from paperwork.plan.spares import is_backed
from paperwork.sheets.forms import number_cell
from paperwork.sheets.frame import (
    frame_sheet,
    phrase,
    split_sheets,
    subjects_of_channel,
    title_fact_of,
    title_line,
    title_of,
)
from paperwork.text.words import list_words

NAME = "patch-sheet"

ROW_UM = 8_000
COLUMNS = 4
"""Outputs side by side on one landscape page at sizes that are read from 1 m; more go on a second sheet."""

SHARES = {"analogue": 36, "digital": 60, "network": 27}
"""How wide the outputs are, by how much there is to say of their far end."""

BESIDE_UM = 150_000
"""So wide is a rack where two are side by side on paper for a wall, their shared spares once under both."""

ROLE_UM, FAR_UM = 45_000, {"analogue": 33_000, "digital": 46_000, "network": 27_000}
"""What a role and each output need there; racks with more outputs stand one under the other."""

Copy = tuple[OutputKind, int]


def make_sheets(show: Show) -> tuple[Sheet, ...]:
    """One sheet for four outputs a slot, a second for the next four; the procedures of shared spares once, below."""
    order: list[Copy] = [(kind, copy) for kind in ("analogue", "digital", "network") for copy in (1, 2, 3, 4)]
    used = {(output.kind, output.copy) for rack in show.racks.values() for output in rack.outputs}
    copies = [copy for copy in order if copy in used]
    sheets = []
    for first in range(0, len(copies), COLUMNS):
        blocks = tuple(_blocks(show, copies[first : first + COLUMNS]))
        sheets.append(
            frame_sheet(
                show, NAME, "patch sheet", blocks, order="patch order", cautions=("patch caution",), landscape=True
            )
        )
    return split_sheets(sheets)


def _blocks(show: Show, copies: list[Copy]) -> Iterator[Block]:
    fixed = Column("", 15_500), Column("", 19_000, spares=True)
    far = tuple(Column("", share=SHARES[kind]) for kind, _ in copies)
    least = sum(column.width_um for column in fixed) + ROLE_UM + sum(FAR_UM[kind] for kind, _ in copies)
    racks = [rack for rack in show.racks.values() if rack.outputs]
    for panels, alike in groupby(racks, key=lambda rack: _panels(show, rack)):
        groups = [_group(show, rack, copies) for rack in alike]
        if show.production.paper in WALL_PAPERS and len(groups) > 1 and least <= BESIDE_UM:
            columns = *fixed, Column("", share=55), *far
            for left, *right in (groups[at : at + 2] for at in range(0, len(groups), 2)):
                beside = (left, *(replace(one, new_page=True) for one in right))
                yield Table(columns, beside, row_um=ROW_UM, least_um=BESIDE_UM)
        else:
            yield Table((*fixed, Column("", share=78), *far), tuple(groups), row_um=ROW_UM)
        yield Panels(panels, tied=True)


def _group(show: Show, rack: Rack, copies: list[Copy]) -> RowGroup:
    """A rack under a bar that says where each of its outputs goes, and what is the same for all of its slots."""
    own = {copy: _Far(show, rack, copy) for copy in copies}
    return RowGroup(
        tuple(_rows(show, rack, own)),
        phrase(show, "rack", rack=rack.id),
        facts=(
            *(rack.id, rack.clock, rack.rate),
            *(f"{kind} {copy} {' '.join(own[kind, copy].facts)}".strip() for kind, copy in copies),
        ),
        columns=(("", ""), ("", ""), (_note_of(show, rack) or " ", ""), *(own[copy].head for copy in copies)),
    )


class _Far:
    """Where one output of a rack goes: what is said of the far end of every slot of it is said once."""

    def __init__(self, show: Show, rack: Rack, copy: Copy) -> None:
        self.show, self.copy = show, copy
        feeds = [output for output in rack.outputs if (output.kind, output.copy) == copy]
        said = [_far_end(show, feed) for feed in feeds]
        self.common = tuple(
            part for part in dict.fromkeys(p for parts in said for p in parts) if all(part in parts for parts in said)
        )
        consoles = dict.fromkeys(feed.console for feed in feeds)
        kind, number = copy
        name = phrase(show, f"head {kind}", copy=number)
        to = f"{name} \u2192 {next(iter(consoles))}" if len(consoles) == 1 else name
        self.head = (to, "  \u00b7  ".join(text for text, _ in self.common))
        self.facts = tuple(of for _, of in self.common)

    def rest_of(self, feed: Output) -> Line:
        """What is said of one slot alone."""
        parts = [part for part in _far_end(self.show, feed) if part not in self.common]
        return fact(", ".join(text for text, _ in parts), RACK_SMALL, of=" ".join(of for _, of in parts))


def _note_of(show: Show, rack: Rack) -> str:
    return "  ·  ".join(filter(None, (phrase(show, "clock", clock=rack.clock) if rack.clock else "", rack.rate)))


def _rows(show: Show, rack: Rack, copies: dict[Copy, _Far]) -> Iterator[TableRow]:
    """A row for each pair of slots of one unit, so that a digital connector is one box beside both."""
    claimants = show.claimants_of(rack)
    first = 1
    for size in rack.units:
        for slot in range(first, first + size, 2):
            slots = range(slot, min(slot + 2, first + size))
            channels = [claimants.get(number, ()) for number in slots]
            subjects = [s for several in channels for channel in several for s in subjects_of_channel(show, channel)]
            yield row(
                tuple(cell(fact(f"{rack.id}.{number}", RACK_SLOT), key=True) for number in slots),
                tuple(_channel_cell(channel) for channel in channels),
                tuple(_role_cell(show, channel) for channel in channels),
                *(_output_cells(show, rack, far, slots) for far in copies.values()),
                subjects=(Subject("racks", rack.id), *subjects),
                where=rack.where.record,
            )
        first += size


def _channel_cell(channels: tuple[Channel, ...]) -> Cell:
    """The number; a dash for an empty slot, a blank for a disputed one."""
    if len(channels) > 1:
        return cell(Blank("00", PATCH_NUMBER), key=True)
    return number_cell(channels[0], PATCH_NUMBER) if channels else cell(words("–", PATCH_NUMBER), key=True)


def _role_cell(show: Show, channels: tuple[Channel, ...]) -> Cell:
    """The role alone: who plays it is nothing that is patched."""
    if not channels:
        return cell(words(phrase(show, "empty"), RACK_SMALL))
    if len(channels) > 1:
        pairs = [(f"{one.id} {title_of(show, one)}?", f"{one.id} {title_fact_of(show, one)}") for one in channels]
        return cell(*(fact(text, RACK_SMALL, of=of) for text, of in pairs))
    return cell(title_line(show, channels[0], RACK_PLUG))


def _output_cells(show: Show, rack: Rack, far: _Far, slots: range) -> tuple[Cell, ...]:
    """The cells of one output column: one box for a whole pair on one connector, else a cell for each slot."""
    feeds = [
        [output for output in rack.outputs if (output.kind, output.copy) == far.copy and output.slot == slot]
        for slot in slots
    ]
    pair = [feed[0] for feed in feeds if len(feed) == 1]
    if far.copy[0] == "digital" and len(pair) == 2 and pair[0].console == pair[1].console:
        return (_pair_cell(show, pair[0], pair[1], far),)
    return tuple(_feed_cell(show, feed, far) for feed in feeds)


def _pair_cell(show: Show, left: Output, right: Output, far: _Far) -> Cell:
    return cell(
        fact(f"{left.console} {left.input} + {right.input}", RACK_PLUG),
        fact(left.connector, RACK_SMALL),
        far.rest_of(left),
        frame=True,
        beside=(words(phrase(show, "left"), SMALL_PRINT), words(phrase(show, "right"), SMALL_PRINT)),
    )


def _feed_cell(show: Show, feeds: list[Output], far: _Far) -> Cell:
    """Where one connector goes, each destination with its jack and what the far end wants."""
    if not feeds:
        return cell(words(phrase(show, "goes nowhere"), RACK_PLUG))
    if len(feeds) > 1:
        return cell(*(fact(f"{feed.console} {feed.input}", RACK_STRONG) for feed in feeds))
    feed = feeds[0]
    plug = f"{feed.connector} {phrase(show, feed.side)}" if feed.connector and feed.side else feed.connector
    return cell(
        fact(f"{feed.console} {feed.input}", RACK_PLUG),
        fact(plug, RACK_SMALL, of=f"{feed.connector} {feed.side}"),
        far.rest_of(feed),
    )


def _far_end(show: Show, feed: Output) -> list[tuple[str, str]]:
    """What is said of the far end, beside its input: as it is printed, and without the words of a language.

    The jack of a box is its own where it is not the input's number. A stream of the network is called after its slot.
    """
    console = show.consoles.get(feed.console)
    if feed.kind == "network":
        return _rate_of(show, console)
    if console is None:
        return []
    parts = [(console.box, console.box)] if console.box else []
    jack = jack_of(console, feed.input)
    if console.box and jack != str(feed.input):
        parts = [(phrase(show, "jack", box=console.box, jack=jack), f"{console.box} {jack}")]
    wants = _wants(console) if feed.kind == "analogue" else []
    return [
        *parts,
        *((phrase(show, key), of) for key, of in wants),
        *(_rate_of(show, console) if feed.kind == "digital" else []),
    ]


def _wants(console: Console) -> Iterator[tuple[str, str]]:
    """The keys of the words for what the far end wants, and the same as facts."""
    if console.level:
        yield console.level, console.level
    if console.pad == "in":
        yield "pad in", "pad in"
    if console.phantom == "on":
        yield "phantom on", "phantom on"
    if console.isolated:
        yield "isolated", "isolated"


def _rate_of(show: Show, console: Console | None) -> list[tuple[str, str]]:
    if console is None:
        return []
    rate = [(console.rate, console.rate)] if console.rate else []
    return [*rate, *([(phrase(show, "converts"), "converts")] if console.converts else [])]


def _panels(show: Show, rack: Rack) -> tuple[Panel, ...]:
    """What to do when a pack dies, and when a frequency goes bad, with the names and numbers of this rack's spares."""
    served = [channel for channel in show.occupants_of(rack).values() if not channel.spare]
    spares = [one for one in show.channels.values() if one.spare and any(is_backed(one, other) for other in served)]
    radios = {channel.radio for channel in served}
    same = [spare.pack for spare in spares if spare.radio in radios]
    dead = phrase(show, "dead pack 2", pack=" / ".join(same)) if same else phrase(show, "dead pack 2 any")
    steps = (phrase(show, "dead pack 1"), dead, phrase(show, "dead pack 3"))
    return Panel(phrase(show, "dead pack"), steps, facts=tuple(same)), _bad_frequency(show, served, spares[:1])


def _bad_frequency(show: Show, served: Sequence[Channel], spares: Sequence[Channel]) -> Panel:
    """That some channels have a backup; then how the first spare takes over, or that there is none."""
    title = phrase(show, "bad frequency")
    first = [phrase(show, "bad frequency backup")] if any(one.backup_hz is not None for one in served) else []
    facts = ["backup"] if first else []
    if not spares:
        return Panel(title, (*first, phrase(show, "no spare")), numbered=bool(first), facts=(*facts, "no spare"))
    spare = spares[0]
    inputs = [f"{output.console} {output.input}" for output in outputs_of(show, spare) if output.kind == "analogue"]
    lines = [*first, phrase(show, "bad frequency 1", pack=spare.pack, channel=spare.id, slot=spare.slot or "–")]
    if inputs:
        lines.append(phrase(show, "bad frequency 2", inputs=list_words(inputs, show.production.language)))
    lines.append(phrase(show, "bad frequency 3"))
    return Panel(title, tuple(lines), facts=(*facts, spare.pack, spare.id, str(spare.slot), *inputs))
