"""The patch sheet: every slot, every output of it, down to connector and destination. Hangs behind the rack."""

from collections.abc import Iterator, Sequence

from paperwork.document import (
    Blank,
    Block,
    Cell,
    Column,
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
from paperwork.document.styles import RACK_NUMBER, RACK_PLUG, RACK_SLOT, RACK_SMALL, RACK_STRONG, SMALL_PRINT
from paperwork.finding import Subject
from paperwork.model import Channel, Console, Output, OutputKind, Rack, Show
from paperwork.plan.patch import jack_of, outputs_of
from paperwork.plan.spares import is_backed
from paperwork.sheets.forms import number_cell, role_cell
from paperwork.sheets.frame import frame_sheet, phrase, split_sheets, subjects_of_channel, title_fact_of, title_of
from paperwork.text.words import list_words

NAME = "patch-sheet"

ROW_UM = 12_600
COLUMNS = 4
"""Outputs side by side on one landscape page at sizes that are read from 1 m; more go on a second sheet."""

SHARES = {"analogue": 22, "digital": 19, "network": 13}
"""How wide the outputs are, by how much there is to say of their far end."""

Copy = tuple[OutputKind, int]


def make_sheets(show: Show) -> tuple[Sheet, ...]:
    """One sheet for up to four outputs a slot, a second for the next four; each rack on a page with its procedures."""
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
    columns = (
        Column(phrase(show, "head slot"), 21_000),
        Column(phrase(show, "head channel"), 26_000, spares=True),
        Column(phrase(show, "head role only"), share=20),
        *(Column(phrase(show, f"head {kind}", copy=copy), share=SHARES[kind]) for kind, copy in copies),
    )
    for index, rack in enumerate(rack for rack in show.racks.values() if rack.outputs):
        group = RowGroup(
            tuple(_rows(show, rack, copies)),
            phrase(show, "rack", rack=rack.id),
            _note_of(show, rack),
            new_page=index > 0,
            facts=(rack.id, rack.clock, rack.rate, *(f"{kind} {copy}" for kind, copy in copies)),
        )
        yield Table(columns, (group,), row_um=ROW_UM)
        yield Panels(_panels(show, rack), tied=True)


def _note_of(show: Show, rack: Rack) -> str:
    return "  ·  ".join(filter(None, (phrase(show, "clock", clock=rack.clock) if rack.clock else "", rack.rate)))


def _rows(show: Show, rack: Rack, copies: list[Copy]) -> Iterator[TableRow]:
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
                *(_output_cells(show, rack, copy, slots) for copy in copies),
                subjects=(Subject("racks", rack.id), *subjects),
                where=rack.where.record,
            )
        first += size


def _channel_cell(channels: tuple[Channel, ...]) -> Cell:
    """The number; a dash for an empty slot, a blank for a disputed one."""
    if len(channels) > 1:
        return cell(Blank("00", RACK_NUMBER), key=True)
    return number_cell(channels[0]) if channels else cell(words("–", RACK_NUMBER), key=True)


def _role_cell(show: Show, channels: tuple[Channel, ...]) -> Cell:
    if not channels:
        return cell(words(phrase(show, "empty"), RACK_SMALL))
    if len(channels) > 1:
        pairs = [(f"{one.id} {title_of(show, one)}?", f"{one.id} {title_fact_of(one)}") for one in channels]
        return cell(*(fact(text, RACK_SMALL, of=of) for text, of in pairs))
    return role_cell(show, channels[0], big=RACK_STRONG)


def _output_cells(show: Show, rack: Rack, copy: Copy, slots: range) -> tuple[Cell, ...]:
    """The cells of one output column: one box for a whole pair on one connector, else a cell for each slot."""
    feeds = [
        [output for output in rack.outputs if (output.kind, output.copy) == copy and output.slot == slot]
        for slot in slots
    ]
    pair = [feed[0] for feed in feeds if len(feed) == 1]
    if copy[0] == "digital" and len(pair) == 2 and pair[0].console == pair[1].console:
        return (_pair_cell(show, pair[0], pair[1]),)
    return tuple(_feed_cell(show, rack, feed) for feed in feeds)


def _pair_cell(show: Show, left: Output, right: Output) -> Cell:
    console = show.consoles.get(left.console)
    text = "  ·  ".join(filter(None, (left.connector, _rate_words(show, console))))
    return cell(
        fact(f"{left.console} {left.input} + {right.input}", RACK_PLUG),
        fact(text, RACK_SMALL, of=_far_fact(console, left)),
        frame=True,
        beside=(words(phrase(show, "left"), SMALL_PRINT), words(phrase(show, "right"), SMALL_PRINT)),
    )


def _feed_cell(show: Show, rack: Rack, feeds: list[Output]) -> Cell:
    """Where one connector goes, each destination with its jack and what the far end wants."""
    if not feeds:
        return cell(words(phrase(show, "goes nowhere"), RACK_PLUG))
    if len(feeds) > 1:
        return cell(*(fact(f"{feed.console} {feed.input}", RACK_STRONG) for feed in feeds))
    feed = feeds[0]
    return cell(
        fact(f"{feed.console} {feed.input}", RACK_PLUG),
        fact(_far_end(show, rack, feed), RACK_SMALL, of=_far_fact(show.consoles.get(feed.console), feed)),
    )


def _far_fact(console: Console | None, feed: Output) -> str:
    """What the far end is, without the words of a language."""
    texts = [feed.kind, feed.connector, feed.side, str(feed.slot)]
    if console:
        texts += [console.box, jack_of(console, feed.input), console.level, console.pad, console.phantom, console.rate]
        texts += [str(console.isolated), str(console.converts)]
    return " ".join(texts)


def _far_end(show: Show, rack: Rack, feed: Output) -> str:
    console = show.consoles.get(feed.console)
    if feed.kind == "network":
        return phrase(show, "stream", rack=rack.id, slot=feed.slot)
    parts = [feed.connector and f"{feed.connector} {phrase(show, feed.side)}"]
    if console:
        parts += [phrase(show, "jack", box=console.box, jack=jack_of(console, feed.input))] if console.box else []
        parts += _wants(show, console) if feed.kind == "analogue" else [_rate_words(show, console)]
    return ", ".join(filter(None, parts))


def _wants(show: Show, console: Console) -> list[str]:
    return [
        phrase(show, console.level) if console.level else "",
        phrase(show, "pad in") if console.pad == "in" else "",
        phrase(show, "phantom on") if console.phantom == "on" else "",
        phrase(show, "isolated") if console.isolated else "",
    ]


def _rate_words(show: Show, console: Console | None) -> str:
    if console is None:
        return ""
    return ", ".join(filter(None, (console.rate, phrase(show, "converts") if console.converts else "")))


def _panels(show: Show, rack: Rack) -> tuple[Panel, ...]:
    """What to do when a pack dies, and when a frequency goes bad, with the names and numbers of this rack's spares."""
    served = [channel for channel in show.occupants_of(rack).values() if not channel.spare]
    spares = [one for one in show.channels.values() if one.spare and any(is_backed(one, other) for other in served)]
    radios = {channel.radio for channel in served}
    same = [spare.pack for spare in spares if spare.radio in radios]
    dead = phrase(show, "dead pack 2", pack=" / ".join(same)) if same else phrase(show, "dead pack 2 any")
    steps = (phrase(show, "dead pack 1"), dead, phrase(show, "dead pack 3"))
    return Panel(phrase(show, "dead pack"), steps, facts=tuple(same)), _bad_frequency(show, spares[:1])


def _bad_frequency(show: Show, spares: Sequence[Channel]) -> Panel:
    """How the first spare takes over, or that there is none."""
    title = phrase(show, "bad frequency")
    if not spares:
        return Panel(title, (phrase(show, "no spare"),), numbered=False, facts=("no spare",))
    spare = spares[0]
    inputs = [f"{output.console} {output.input}" for output in outputs_of(show, spare) if output.kind == "analogue"]
    lines = [phrase(show, "bad frequency 1", pack=spare.pack, channel=spare.id, slot=spare.slot or "–")]
    if inputs:
        lines.append(phrase(show, "bad frequency 2", inputs=list_words(inputs, show.production.language)))
    lines.append(phrase(show, "bad frequency 3"))
    return Panel(title, tuple(lines), facts=(spare.pack, spare.id, str(spare.slot), *inputs))
