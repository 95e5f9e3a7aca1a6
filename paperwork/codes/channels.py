"""Codes of channels, slots and packs."""

from functools import partial

from paperwork.codes.row import Code

_reference = partial(Code, stage="reference")

TABLE: tuple[Code, ...] = (
    Code(
        "channel-is-total",
        "warning",
        "channel {channel} looks like a total, and would be printed as a channel",
        "delete the line, or give the channel a number",
        "A line of totals below a list is read as one more channel. It has no frequency and no slot. Keep totals on a "
        "hidden sheet.",
        edit="channels/{channel}/=",
        decides=True,
    ),
    Code(
        "frequency-not-granted",
        "error",
        "{name} is on {mhz} MHz, but {granted} MHz was granted",
        "set the pack and the receiver to the granted frequency{nearest}",
        "The frequency on the radios (`mhz`) must be the one that the coordinator granted (`granted`).",
        advice="write the granted frequency as mhz, then set the pack and the receiver to it",
        topics=("frequency",),
        edit="{at}/mhz={clean}",
    ),
    Code(
        "frequency-refused",
        "error",
        "{name} is on {mhz} MHz, which was refused",
        "switch {off}, delete mhz, and ask for another frequency, which `paperwork assign --answered` finds",
        "The coordinator refused this frequency (`granted: no`), so it must not be on the air.",
        advice="switch the pack off, take its batteries out, delete mhz, and ask for another frequency",
        topics=("frequency",),
        edit="{at}/mhz=",
        decides=True,
    ),
    _reference(
        "performer-twice-told",
        "error",
        "role {role} is played by {by} here, and by {other} at {first}",
        "name one performer; others who alternate go into alternates of the role or cast of a performance, covers into "
        "the section covers",
        "A role has one performer on a day. Alternates go into the role or into the cast of a performance, covers into "
        "the section covers. A part of the bill says when a channel is on, not who plays.",
    ),
    Code(
        "slot-doubled",
        "error",
        "slot {slot} holds channel {first} and channel {second}",
        "move one of them to a free slot{free}",
        "A receiver slot takes one channel. This one has two, from racks or from slot of the channels.",
        topics=("slot",),
    ),
    Code(
        "slot-beyond-rack",
        "error",
        "rack {rack} has {slots} slots: no slot for {channels}",
        "correct slots or units of the rack, or move the channel",
        "A channel has a slot that its rack does not have.",
        topics=("slot",),
    ),
    Code(
        "channel-in-two-slots",
        "error",
        "channel {channel} is in slot {first} and in slot {second}",
        "keep one; a second receiver on the same frequency needs a channel of its own",
        "A channel has one place in the racks. With two, the chart cannot say which receiver to look at.",
        topics=("slot",),
    ),
    Code(
        "pack-doubled",
        "error",
        "channel {first} and channel {second} both use pack {pack}",
        "give one of them another pack, or put both roles on one channel with shared",
        "A pack is on one frequency at a time. Alternates, and channels of one exclusive group, may share it: only one "
        "of them is on.",
        topics=("pack",),
    ),
    Code(
        "transmitter-id-unfit",
        "warning",
        "transmitter {id} {fault}",
        "give it an id of at most {limit} letters and figures, no accents",
        "The id is printed on the transmitter and shown on its display, so it has to be short and plain.",
        advice="give it a short id of letters and figures, no accents",
    ),
    Code(
        "pack-of-other-radio",
        "error",
        "channel {channel} is of radio type {radio}, but its pack {pack} is of type {other}",
        "give channel {channel} a pack of type {radio}{otherwise}",
        "The channel and its transmitter are different radio types. The pack may not reach the frequency, or the "
        "receiver may not hear it. A channel without a radio type has that of its pack.",
        advice="give the channel a pack of its own radio type, or correct radio",
        topics=("pack",),
        edit="channels/{channel}/{field}={other}",
        decides=True,
    ),
    Code(
        "serial-doubled",
        "warning",
        "{first} and {second} both have serial {serial}",
        "read both serial numbers again",
        "A serial number belongs to one thing. With one number on two, the hire return is wrong.",
    ),
    Code(
        "capsule-short",
        "error",
        "{used} channels ({channels}) use capsule {capsule}, but you have {owned}",
        "get more, give some channels another capsule, or correct owned",
        "More packs use this capsule than there are. Spares do not count: a spare takes the capsule of the pack that "
        "it replaces. Of channels that are never on together, one counts.",
        topics=("capsule",),
    ),
    Code(
        "battery-short",
        "error",
        "the batteries of {packs} last {hours} h, but {on} h are needed, from {start} to {end}",
        "change them in between ({between}), use longer-lasting batteries, or power up later",
        "A pack is on from power-up to the bows, on stage and off. Here the time between two changes of batteries is "
        "longer than they last, so the pack will die.",
        topics=("cells",),
        advice="change them in between, use longer-lasting batteries, or power up later",
    ),
    Code(
        "battery-tight",
        "warning",
        "the batteries of {packs} last {hours} h: enough for {on} h, from {start} to {end}, but not with the margin of "
        "{margin} ({needed} h)",
        "change them in between ({between}), use longer-lasting batteries, or set day: margin to what you have "
        "measured",
        "The batteries last to the next change, but without your margin (1.25 unless the day says otherwise; common "
        "practice, no source). Cold, age or one bad battery will use that up.",
        advice="change them in between, use longer-lasting batteries, or set day: margin to what you have measured",
    ),
    Code(
        "cells-mixed",
        "warning",
        "pack {pack} {fault}",
        "keep one kind of battery in each marked set, and every rechargeable pack in a set",
        "Rechargeable batteries are kept in marked sets, charged and used together. Two kinds or two sets in one pack "
        "run down unevenly, and the weaker one is damaged.",
    ),
    Code(
        "example-left",
        "warning",
        "the example of the new file is still in the show",
        "type your own title, role, performer and notes over it",
        "`paperwork new` writes an example to type over. What is left of it would be printed as your show.",
    ),
    Code(
        "channel-unlike-others",
        "warning",
        "{channels} no {what}, but {count}",
        "{remedy}",
        "Other channels have a frequency, or most have a slot, and these do not. Their papers show a blank instead. "
        "Without a slot a channel has no receiver and no way to a desk.",
        advice="add the frequency or the slot",
    ),
    Code(
        "channel-of-itself",
        "error",
        "{what}",
        "{remedy}",
        "A second pack, a spare or a shared desk input belongs to another channel. This one leads back to itself, and "
        "papers would send somebody round in a circle.",
        advice="name another channel, or delete the field",
        topics=("pack", "output"),
        decides=True,
    ),
    Code(
        "role-in-no-scene",
        "warning",
        "{roles} a channel ({channels}) but {live} live in no scene; {rest}",
        "add it to live of its scenes, {ways}",
        "Most roles on channels are live in some scene, and this one is not. Perhaps its last scene was cut, or its "
        "name was left out of live. A channel with notes is not reported, unless a cut took its last scene.",
        advice="add it to live of its scenes, free the channel, or say in notes of the channel when it is used",
    ),
)
