"""Codes of channels, slots and packs."""

from paperwork.codes.row import Code

TABLE: tuple[Code, ...] = (
    Code(
        name="channel-is-total",
        severity="warning",
        stage="sense",
        says="{channel} is called like a total, and would be printed as a channel",
        fix="delete the line, or give the channel a number",
        explains=(
            "A line that counts the others, below a list in a spreadsheet, is read as one more record. It has neither frequency "
            "nor slot. Keep sums on a sheet that is hidden."
        ),
    ),
    Code(
        name="frequency-not-granted",
        severity="error",
        stage="sense",
        says="channel {channel} is set to {mhz} MHz, and {granted} MHz was granted",
        fix="set mhz to {granted}, and the pack and its receiver too",
        explains="What is set on the radios (`mhz`) must be what the coordinator granted (`granted`).",
    ),
    Code(
        name="frequency-refused",
        severity="error",
        stage="sense",
        says="channel {channel} is set to {mhz} MHz, which was not granted",
        fix="take mhz out, take the cells out of pack {pack}, and ask for another frequency",
        explains="The coordinator granted nothing for this channel (`granted: no`), so it must not be on the air.",
    ),
    Code(
        name="performer-twice-told",
        severity="error",
        stage="reference",
        says="role {role} is played by {by} here and by {other} at {first}",
        fix="say it once; a second performer is a cover, or another role",
        explains="A role has one performer; who else can go on stands in the section covers.",
    ),
    Code(
        name="slot-doubled",
        severity="error",
        stage="sense",
        says="slot {slot} holds channel {first} and channel {second}",
        fix="move one of them to a free slot{free}",
        explains="A receiver slot receives one channel. Two claim it, in racks or in the channels' own slot fields.",
    ),
    Code(
        name="slot-beyond-rack",
        severity="error",
        stage="sense",
        says="rack {rack} has {slots} slots, and {channels} would sit beyond the last",
        fix="correct slots or units of the rack, or move the channel",
        explains="A channel is put into a slot that its rack does not have.",
    ),
    Code(
        name="channel-in-two-slots",
        severity="error",
        stage="sense",
        says="channel {channel} is in slot {first} and in slot {second}",
        fix="keep one; a second receiver for one frequency is a channel of its own",
        explains="Each channel has one place in the racks; the chart could not say which receiver to look at.",
    ),
    Code(
        name="pack-doubled",
        severity="error",
        stage="sense",
        says="pack {pack} is named by channel {first} and channel {second}",
        fix="give one of them its own pack, or put both roles on one channel as shared",
        explains=(
            "A transmitter sends one frequency. Two channels name the same one. Declared alternates (`exclusive`) may "
            "share it, since only one of them is powered."
        ),
    ),
    Code(
        name="transmitter-id-unfit",
        severity="warning",
        stage="sense",
        says="transmitter {id} {fault}",
        fix="give it an id of at most {limit} letters and figures, without accents",
        explains="The id of a transmitter is printed on it and set on its display, so it has to be short and plain.",
    ),
    Code(
        name="pack-of-other-radio",
        severity="error",
        stage="sense",
        says="channel {channel} plays with radio {radio}, and its pack {pack} is a {other}",
        fix="give channel {channel} a pack of type {radio}, or say radio: {other}",
        explains=(
            "The channel and the transmitter that it names are told to be of two radio types. Another type may not reach "
            "the frequency, or not be heard by the receiver. A channel that tells no type has that of its pack."
        ),
    ),
    Code(
        name="serial-doubled",
        severity="warning",
        stage="sense",
        says="serial {serial} belongs to {first} and to {second}",
        fix="read both serials again",
        explains="A serial number is the name of one thing. Two records with one serial make the hire return wrong.",
    ),
    Code(
        name="capsule-short",
        severity="error",
        stage="sense",
        says="{used} channels ({channels}) play with capsule {capsule}, and the house owns {owned}",
        fix="get more, give some channels another capsule, or correct owned:",
        explains=(
            "More packs play with this capsule than there are. Spares are not counted: a spare takes over the capsule of "
            "the pack that it replaces. Of channels that are never powered together, one counts."
        ),
    ),
    Code(
        name="battery-short",
        severity="error",
        stage="sense",
        says="the cells of {packs} last {hours} h and have to run {on} h, from {start} to {end}",
        fix="change cells in between (day: cells), use cells that last longer, or power up later",
        explains=(
            "The pack is on from power-up to the bows, in its scenes and out of them. Between two changes it is on for "
            "longer than its cells last, so it will die."
        ),
    ),
    Code(
        name="battery-tight",
        severity="warning",
        stage="sense",
        says=(
            "the cells of {packs} last {hours} h and have to run {on} h, from {start} to {end}; times {margin} that "
            "is {needed} h"
        ),
        fix=(
            "change cells in between (day: cells), use cells that last longer, or set day: margin to what you have "
            "measured"
        ),
        explains=(
            "The cells reach the next change, but not with the margin of the house (1.25 unless the day says otherwise; "
            "common practice, no source). Cold, age and a cell that came bad eat such a margin."
        ),
    ),
    Code(
        name="cells-mixed",
        severity="warning",
        stage="sense",
        says="pack {pack} {told}",
        fix="keep each marked set to one kind of cell, and every rechargeable pack in a set",
        explains=(
            "Rechargeable cells are kept in marked sets that are charged and used together. Cells of two kinds or two "
            "sets in one pack empty at different times, and the weaker one is harmed."
        ),
    ),
    Code(
        name="example-left",
        severity="warning",
        stage="sense",
        says="the example that a new file comes with is still in it",
        fix="type your own title, role, performer and notes over it",
        explains="`paperwork new` writes an example to be typed over. What is left of it is printed as if it were the show.",
    ),
    Code(
        name="channel-unlike-others",
        severity="warning",
        stage="sense",
        says="{channels} no {what}, and {count} others have one",
        fix="{remedy}",
        explains=(
            "Most channels have a frequency, or a receiver slot, and these have none. Their papers show a blank or no line "
            "for it, and a channel without a slot has no receiver and no way to a desk."
        ),
    ),
)
