"""Codes of channels, slots and packs."""

from paperwork.codes.row import Code

TABLE: tuple[Code, ...] = (
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
)
