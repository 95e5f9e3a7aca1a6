"""Codes of channels, slots and packs."""

from functools import partial

from paperwork.codes.row import Code

_reference = partial(Code, stage="reference")

TABLE: tuple[Code, ...] = (
    Code(
        "channel-is-total",
        "warning",
        "channel {channel} is named like a total, and would be printed as a channel",
        "delete the line, or give the channel a number",
        "A line of totals below a list in a spreadsheet is read as one more record. It has neither frequency nor "
        "slot. Keep totals on a hidden sheet.",
        edit="channels/{channel}/=",
        decides=True,
    ),
    Code(
        "frequency-not-granted",
        "error",
        "{name} is on {mhz} MHz, but {granted} MHz was granted",
        "set pack and receiver to what was granted{nearest}",
        "The frequency that is set on the radios (`mhz`) must be the one that the coordinator granted (`granted`).",
        advice="write the granted frequency as mhz, then set pack and receiver to it",
        topics=("frequency",),
        edit="{at}/mhz={clean}",
    ),
    Code(
        "frequency-refused",
        "error",
        "{name} is on {mhz} MHz, which was refused",
        "switch {off}, delete mhz, and ask for another frequency",
        "The coordinator refused this frequency (`granted: no`), so it must not be on the air.",
        advice="switch the pack off, take its batteries out, delete mhz, and ask for another frequency",
        topics=("frequency",),
        edit="{at}/mhz=",
        decides=True,
    ),
    _reference(
        "performer-twice-told",
        "error",
        "role {role} is played by {by} here and by {other} at {first}",
        "name the performer once; who alternates with them belongs in alternates of the role or in the cast of a "
        "performance, who can go on for them in covers",
        "A role has one performer on a day. Those who play it on other days are its alternates, or are named in the cast of "
        "a performance; those who can go on belong in the section covers. A part of the bill says when a channel is "
        "powered, not who plays.",
    ),
    Code(
        "slot-doubled",
        "error",
        "slot {slot} holds channel {first} and channel {second}",
        "move one of them to a free slot{free}",
        "A receiver slot receives one channel. Two are given for it, in racks or in the channels' own slot fields.",
        topics=("slot",),
    ),
    Code(
        "slot-beyond-rack",
        "error",
        "rack {rack} has {slots} slots; there is no slot for {channels}",
        "correct slots or units of the rack, or move the channel",
        "A channel is put into a slot that its rack does not have.",
        topics=("slot",),
    ),
    Code(
        "channel-in-two-slots",
        "error",
        "channel {channel} is in slot {first} and in slot {second}",
        "keep one; a second receiver for one frequency is a channel of its own",
        "Each channel has one place in the racks. With two, the chart cannot say which receiver to look at.",
        topics=("slot",),
    ),
    Code(
        "pack-doubled",
        "error",
        "channel {first} and channel {second} both use pack {pack}",
        "give one of them its own pack, or put both roles on one channel as shared",
        "A transmitter sends one frequency, but two channels use the same one. Declared alternates (`exclusive`) may "
        "share it, since only one of them is powered.",
        topics=("pack",),
    ),
    Code(
        "transmitter-id-unfit",
        "warning",
        "transmitter {id} {fault}",
        "give it an id of at most {limit} letters and figures, without accents",
        "The id of a transmitter is printed on it and shown on its display, so it has to be short and plain.",
        advice="give it a short id of letters and figures, without accents",
    ),
    Code(
        "pack-of-other-radio",
        "error",
        "channel {channel} is of radio type {radio}, but its pack {pack} is of type {other}",
        "give channel {channel} a pack of type {radio}{otherwise}",
        "The channel and its transmitter are of two radio types. Another type may not reach the frequency, or its "
        "receiver may not pick it up. A channel without a radio type has that of its pack.",
        advice="give the channel a pack of its own radio type, or correct radio",
        topics=("pack",),
        edit="channels/{channel}/{field}={other}",
        decides=True,
    ),
    Code(
        "serial-doubled",
        "warning",
        "{first} and {second} both have serial {serial}",
        "read both serials again",
        "A serial number belongs to one thing. Two records with one serial make the hire return wrong.",
    ),
    Code(
        "capsule-short",
        "error",
        "{used} channels ({channels}) use capsule {capsule}, but there are only {owned}",
        "get more, give some channels another capsule, or correct owned",
        "More packs use this capsule than there are. Spares are not counted: a spare takes over the capsule of the "
        "pack that it replaces. Of channels that are never powered together, one counts.",
        topics=("capsule",),
    ),
    Code(
        "battery-short",
        "error",
        "the batteries of {packs} last {hours} h but are needed for {on} h, from {start} to {end}",
        "change them in between ({between}), use batteries that last longer, or power up later",
        "A pack is on from power-up to the bows, in its scenes and out of them. Between two changes of batteries it "
        "is on for longer than they last, so it will die.",
        topics=("cells",),
        advice="change them in between, use batteries that last longer, or power up later",
    ),
    Code(
        "battery-tight",
        "warning",
        "the batteries of {packs} last {hours} h: enough for {on} h, from {start} to {end}, but not with the margin "
        "of {margin} ({needed} h)",
        "change them in between ({between}), use batteries that last longer, or set day: margin to what you have "
        "measured",
        "The batteries reach the next change, but not with your margin (1.25 unless the day says "
        "otherwise; common practice, no source). Cold, age and a bad battery use up such a margin.",
        advice="change them in between, use batteries that last longer, or set day: margin to what you have measured",
    ),
    Code(
        "cells-mixed",
        "warning",
        "pack {pack} {fault}",
        "keep each marked set to one kind of battery, and every rechargeable pack in a set",
        "Rechargeable batteries are kept in marked sets that are charged and used together. Two kinds or two sets in "
        "one pack empty at different times, and the weaker one is harmed.",
    ),
    Code(
        "example-left",
        "warning",
        "the example from the new file is still in the show",
        "type your own title, role, performer and notes over it",
        "`paperwork new` writes an example to type over. What is left of it is printed as if it were the show.",
    ),
    Code(
        "channel-unlike-others",
        "warning",
        "{channels} no {what}, but {count}",
        "{remedy}",
        "Other channels have a frequency, or most have a receiver slot, and these do not. Their papers show a blank or no line "
        "for it, and a channel without a slot has no receiver and no way to a desk.",
        advice="add the frequency or the slot",
    ),
    Code(
        "channel-of-itself",
        "error",
        "{what}",
        "{remedy}",
        "A second pack, a spare or a shared desk input is of another channel. This one leads back to itself, so papers would "
        "send somebody in a circle.",
        advice="name another channel, or delete the field",
        topics=("pack", "output"),
        decides=True,
    ),
    Code(
        "role-in-no-scene",
        "warning",
        "{roles} a channel ({channels}) but {live} live in no scene; {rest}",
        "add it to live of its scenes, {ways}",
        "Most roles on channels are live in some scene, and this one is not. A cut may have taken its last scene, or its name "
        "was forgotten in live. A channel with notes is taken as explained, unless a cut took the last scene.",
        advice="add it to live of its scenes, free the channel, or say in notes of the channel when it is used",
    ),
)
