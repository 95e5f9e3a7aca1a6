"""Codes of outputs, desks and patch."""

from functools import partial

from paperwork.codes.row import Code

_reference = partial(Code, stage="reference")

TABLE: tuple[Code, ...] = (
    Code(
        "jack-doubled",
        "error",
        "{both} are both plugged into {jacks} of {box}",
        "write the jacks of each (jacks), or correct box",
        "A jack takes one cable. Two destinations name one box, or one names a jack twice. Where jacks are not given, jack and "
        "input have one number.",
        topics=("output",),
    ),
    Code(
        "input-doubled",
        "error",
        "{console} {input} gets both {first} and {second}",
        "give one of them a free input, or declare alternate on the channel that is only powered instead of the other",
        "Two outputs are patched to one input of one desk. Declared alternates, and channels of one exclusive group, "
        "may share an input, since only one of them sends.",
        topics=("output",),
    ),
    _reference(
        "output-count",
        "error",
        "{name} of rack {rack} gives {given} inputs for {slots} slots",
        "give one input for each slot, for example `FOH 1-{slots}`, and a dash for a slot that goes nowhere; or "
        "correct slots or units, if the rack has {given}",
        "An output list is in slot order, so it needs as many entries as the rack has slots. A digital output has two "
        "slots on a connector, and still needs one input for each slot.",
        advice="give one input for each slot, for example `FOH 1-6`, and a dash for a slot that goes nowhere; or correct "
        "slots or units",
    ),
    Code(
        "input-beyond-console",
        "error",
        "{console} has {inputs} inputs, but rack {rack} is patched to {beyond}",
        "correct inputs of {console}, or patch the rack to inputs that it has",
        "An output is patched to an input that its destination does not have.",
        advice="correct inputs of the desk, or patch the rack to inputs that it has",
        topics=("output",),
    ),
    Code(
        "spare-goes-nowhere",
        "warning",
        "spare channel {channel} in slot {slot} is not patched",
        "patch the slot to a free input, so that the spare can be heard when it is needed",
        "The rack's other slots are patched and the spare's is not. A spare that nobody can hear is useless.",
    ),
    Code(
        "desk-name-doubled",
        "warning",
        "{console} shows {letters} letters per name, so channels {channels} all read {shown} there ({names})",
        "give the roles short names that differ in their first {letters} letters, or set letters of the desk if it "
        "shows more",
        "Many desks show six to eight letters of a channel's name. These channels look the same on this one.",
        advice="give the roles short names that differ in their first letters, or set letters of the desk if it shows more",
    ),
    Code(
        "pair-split",
        "error",
        "connector {connector} of digital {copy} of rack {rack} has left going to {left} and right to {right}",
        "send both halves of the pair to one destination, or use another copy for one of them",
        "An AES3 connector carries two channels on one cable, so both halves arrive at the same box.",
        topics=("output",),
    ),
    Code(
        "pair-to-many",
        "warning",
        "{connector} of digital {copy} of rack {rack}: one connector, but patched to {consoles}",
        "use a copy of the outputs for each destination, or a distribution amplifier that the patch sheet then names",
        "An AES3 line goes from point to point. It cannot be split with a cable as an analogue output can.",
    ),
    Code(
        "pair-from-two-units",
        "error",
        "{console} {first} and {second} are one pair, but slots {one} and {two} of rack {rack} are in two units",
        "leave a gap in digital {copy} so that every pair of inputs is fed by one unit, or correct units of the rack",
        "A pair is made inside one receiver unit. In a unit with an odd number of slots the last connector carries "
        "one channel, and the next unit starts a new connector.",
        advice="leave a gap in the outputs so that every pair of inputs is fed by one unit, or correct units of the rack",
        topics=("output",),
    ),
    Code(
        "pair-flipped",
        "warning",
        "CHANNEL {channel} CHANGED SIDES: digital {copy} to {console} {input} was {was} and is now {side}",
        "inform whoever is at {console}, or move the channel to a slot of the same side",
        "Two slots share a connector, the odd one left and the even one right. A channel that moved to a slot of the "
        "other side arrives on the other side at the far end, and nobody notices until it is heard.",
        advice="inform the people at the desk, or move the channel to a slot of the same side",
    ),
)
