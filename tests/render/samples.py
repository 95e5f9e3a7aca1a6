"""Sheets made by hand, with an invented show: what the layout tests print."""

from dataclasses import replace

from paperwork.document import (
    Blank,
    Column,
    Label,
    Labels,
    Note,
    Panel,
    Panels,
    RowGroup,
    Sheet,
    SheetDoubt,
    Table,
    Tag,
    WriteIn,
    cell,
    fact,
    row,
    words,
)  # fmt: skip
from paperwork.document.styles import (
    RACK_FREQUENCY,
    RACK_NUMBER,
    RACK_PLUG,
    RACK_ROLE,
    RACK_SLOT,
    RACK_SMALL,
    RACK_STRONG,
)  # fmt: skip
from paperwork.finding import Subject
from paperwork.place import Place

PEOPLE = (
    ("VERA", "Mara Lind"), ("TOM", "Ben Arlo"), ("NURSE", "Ida Voss"), ("PILOT", "Łukasz Żółcik"),
    ("SAILOR / WIDOW", "Max Ried  ·  Ana Cole from 1.5"), ("COOK", "Sam Dunn"), ("MAYOR", "Tia Boyd"),
    ("GIRL", "Kit Ross"), ("SINGER", "Nguyễn Thị Ánh"), ("HOST", "Raj Sen"), ("ÁNH", "Ελένη Παππά"),
    ("Quartermaster", "Юрий Їжак"), ("THE HARBOURMASTER'S DAUGHTER", "Maximiliane Sommerfeldt-Oppenheimer"),
)  # fmt: skip
KHZ = (486_200, 486_700, 487_375, 488_025, 488_900, 490_150, 491_475, 493_300, 494_850, 497_125, 499_500, 501_350)


def mhz(index: int) -> str:
    """An invented frequency, one with four decimals among them."""
    khz = KHZ[index % len(KHZ)] + 14_000 * (index // len(KHZ))
    return f"{khz // 1000}.{khz % 1000:03d}" + ("5" if index == 7 else "")


def chart_row(index: int, rack: str, slot: int):
    """One row of the channel chart."""
    number = f"{index + 1:02d}"
    spare = index % 12 >= 10
    role, person = ("SPARE", f"for {index - 9:02d} to {index - 5:02d}") if spare else PEOPLE[index % len(PEOPLE)]
    tags = (Tag("swap ×2"),) if "/" in role else ()
    frequency = Blank() if index == 3 else fact(mhz(index), RACK_FREQUENCY)
    return row(
        cell(fact(number, RACK_NUMBER), key=True, hatch=spare),
        cell(fact(role, RACK_ROLE, of="spare" if spare else ""), fact(person, RACK_SMALL)),
        cell(frequency, words("TV 23" if index < 8 else "TV 24", RACK_SMALL)),
        cell(fact(f"S{number}" if spare else number, RACK_SLOT), fact(f"{rack}.{slot}", RACK_SMALL)),
        cell(fact("Beige 2" if index % 3 else "Brown 1", RACK_STRONG), *tags),
        cell(fact(f"FOH {index + 1}", RACK_STRONG), WriteIn()),
        mark="new" if index == 5 else "",
        subjects=(Subject("channel", number),),
        where=Place("show.yaml", 20 + index, 3),
    )


def doubt(*numbers: str, text: str = "frequency refused") -> SheetDoubt:
    """What an error says of these channels of a chart."""
    return SheetDoubt("frequency-refused", text, tuple((Subject("channel", number), number) for number in numbers))


def chart(channels: int = 18, **changes) -> Sheet:
    """A channel chart of so many channels in racks of six."""
    groups = []
    for first in range(0, channels, 6):
        rack = f"R{first // 6 + 1}"
        rows = tuple(chart_row(i, rack, i - first + 1) for i in range(first, min(first + 6, channels)))
        groups.append(RowGroup(rows, f"Rack {rack}", "window 486 to 508 MHz  ·  antenna main"))
    columns = (
        Column("Channel", 25_000, spares=True),
        Column("Role, on tonight", share=3),
        Column("Frequency, MHz", 37_000, align="point"),
        Column("Pack, slot", 17_000),
        Column("Capsule", 22_000),
        Column("Desk, notes", 25_000),
    )
    sheet = Sheet(
        name="channel-chart",
        title="Channel chart",
        show="Glass Ferry",
        venue="Harbour Hall",
        subtitle=("in rack order",),
        revision="C",
        replaces="B",
        dated="2 March 2027, 17:40",
        returns="sound, stage left",
        cautions=(
            (
                "A clear plan is not a permission: use only frequencies licensed for this place and these dates "
                "(licence H-0001, to 20 March 2027). Check local rules."
            ),
        ),
        blocks=(Table(columns, tuple(groups), row_um=14_800),),
    )
    return replace(sheet, **changes)


def patch_row(pair: int):
    """Two slots that share one digital connector."""
    first, second = 2 * pair, 2 * pair + 1

    def both(make):
        return make(first), make(second)

    return row(
        both(lambda i: cell(fact(f"R1.{i + 1}", RACK_SLOT), key=True)),
        both(lambda i: cell(fact(f"{i + 1:02d}", RACK_NUMBER), key=True)),
        both(lambda i: cell(fact(PEOPLE[i % 13][0], RACK_STRONG), fact(PEOPLE[i % 13][1], RACK_SMALL))),
        both(lambda i: cell(fact(f"FOH {i + 1}", RACK_PLUG), fact(f"box SL, jack {i + 1}", RACK_SMALL))),
        both(lambda i: cell(fact(f"MON {i + 1}", RACK_PLUG), fact(f"jack {i + 25}, line", RACK_SMALL))),
        cell(
            fact(f"TRUCK {first + 1} + {second + 1}", RACK_PLUG),
            fact(f"connector D{pair + 1}  ·  48 kHz", RACK_SMALL),
            frame=True,
            beside=(words("left", RACK_SMALL), words("right", RACK_SMALL)),
        ),
        both(lambda i: cell(fact(f"REC {i + 1}", RACK_STRONG), fact(f"stream R1, {i + 1}", RACK_SMALL))),
        subjects=(Subject("slot", f"R1.{first + 1}"),),
    )


def patch(pairs: int = 3, **changes) -> Sheet:
    """A patch sheet with both emergency procedures."""
    columns = (
        Column("Slot", 22_000),
        Column("Channel", 23_000),
        Column("Role", share=3),
        Column("Analogue 1", share=3),
        Column("Analogue 2", share=3),
        Column("Digital 1 (pairs, one connector)", 62_000),
        Column("Network", share=2),
    )
    rows = tuple(patch_row(pair) for pair in range(pairs))
    panels = Panels(
        (
            Panel(
                "Dead pack",
                (
                    "Switch the dead pack off, cells out.",
                    "Load its frequency into spare pack S1, check the display.",
                    "Nothing moves at the rack or the desk. Write it in the log.",
                ),
            ),
            Panel(
                "Bad frequency",
                (
                    "Give the performer spare pack S1 on channel 11 (R2.5).",
                    (
                        "Desk: route FOH 31 to the strip of the role, and leave the strip of the old channel muted until the "
                        "interval."
                    ),
                    "Leave the old receiver muted; tell the truck: pair D6.",
                ),
            ),
        )
    )
    sheet = chart(
        name="patch-sheet",
        title="Patch sheet",
        subtitle=("rack R1, rear, connector by connector",),
        orientation="landscape",
        cautions=("Phantom off before patching. Never lift a safety earth to cure hum: isolate the leg.",),
        blocks=(Table(columns, (RowGroup(rows, "Rack R1", "clock: FOH leads, R1 follows"),), row_um=13_000), panels,
                Note("Write every change made tonight on this sheet, and hand it back.")),
    )  # fmt: skip
    return replace(sheet, **changes)


def label(index: int, **changes) -> Label:
    """One pack label."""
    role, person = PEOPLE[index % len(PEOPLE)]
    made = Label(
        number=f"{index + 1:02d}",
        role=role,
        performers=tuple(person.split("  ·  ")),
        frequency=mhz(index),
        pack=f"{index + 1:02d}",
        capsule="Beige 2" if index % 3 else "Brown 1",
        mark="swap" if "/" in role else "",
        short_role=role.split(" ")[0],
        copies=2,
        subjects=(Subject("channel", f"{index + 1:02d}"),),
    )
    return replace(made, **changes)


def labels(stock: str = "a4-21-63.5x38.1", count: int = 12, **changes) -> Sheet:
    """Pack labels, two copies each."""
    block = Labels(stock, tuple(label(i) for i in range(count)))
    return chart(name="pack-labels", title="Pack labels", blocks=(replace(block, **changes),))
