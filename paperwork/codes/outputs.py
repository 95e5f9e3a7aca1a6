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
        "A jack takes one cable. Two desks name one box, or one names a jack twice. Without jacks, input 1 is jack 1.",
        topics=("output",),
    ),
    Code(
        "input-doubled",
        "error",
        "{console} {input} gets both {first} and {second}",
        "move one of them to a free input, or write alternate at the channel that is only on instead of the other",
        "Two outputs go to one desk input. Alternates, and channels of one exclusive group, may share an input: only "
        "one of them is on.",
        topics=("output",),
    ),
    _reference(
        "output-count",
        "error",
        "{name} of rack {rack} gives {given} inputs for {slots} slots",
        "give one input per slot, for example `FOH 1-{slots}`, with a dash for a slot that goes nowhere; or correct "
        "slots or units, if the rack has {given}",
        "Inputs are in slot order, one for each slot. A digital connector carries two slots and still needs two "
        "inputs.",
        advice="give one input per slot, for example `FOH 1-6`, with a dash for a slot that goes nowhere; or correct "
        "slots or units",
    ),
    Code(
        "input-beyond-console",
        "error",
        "{console} has {inputs} inputs, but rack {rack} is patched to {beyond}",
        "correct inputs of {console}, or patch the rack to inputs that are there",
        "An output goes to an input that the desk does not have.",
        advice="correct inputs of the desk, or patch the rack to inputs that are there",
        topics=("output",),
    ),
    Code(
        "spare-goes-nowhere",
        "warning",
        "spare {channel} in slot {slot} is not patched",
        "patch the slot to a free input, or nobody will hear the spare",
        "The other slots of the rack are patched, and the spare is not. A spare that nobody can hear is useless.",
    ),
    Code(
        "desk-name-doubled",
        "warning",
        "{console} shows {letters} letters of a name, so channels {channels} {all_} read {shown} ({names})",
        "give the roles short names that differ in the first {letters} letters, or correct letters of the desk",
        "Many desks show six to eight letters of a name. These channels look the same there.",
        advice="give the roles short names that differ in their first letters, or correct letters of the desk",
    ),
    Code(
        "pair-split",
        "error",
        "connector {connector} of digital {copy} of rack {rack} goes left to {left} and right to {right}",
        "send both halves of the pair to one desk, or use another copy for one of them",
        "An AES3 connector carries two channels on one cable, so both arrive at the same box.",
        topics=("output",),
    ),
    Code(
        "pair-to-many",
        "warning",
        "{connector} of digital {copy} of rack {rack} is one connector, but goes to {consoles}",
        "use another copy of the outputs for each, or patch to a distribution amplifier and name that here",
        "An AES3 line goes from one box to one box. It cannot be split with a Y cable.",
    ),
    Code(
        "pair-from-two-units",
        "error",
        "{console} {first} and {second} are one pair, but slots {one} and {two} of rack {rack} are in two units",
        "leave a gap in digital {copy} so that one unit feeds both inputs of each pair, or correct units of the rack",
        "A pair comes out of one receiver unit. In a unit with an odd number of slots the last connector carries one "
        "channel, and the next unit starts a new one.",
        advice="leave a gap in the outputs so that one unit feeds both inputs of each pair, or correct units of the "
        "rack",
        topics=("output",),
    ),
    Code(
        "pair-flipped",
        "warning",
        "CHANNEL {channel} CHANGED SIDES: digital {copy} to {console} {input} was {was}, now {side}",
        "let whoever is at {console} know, or move the channel to a slot of the same side",
        "Two slots share a connector, odd left and even right. A channel moved to the other side comes out on the "
        "other side of the desk, and nobody notices until they hear it.",
        advice="let the people at the desk know, or move the channel to a slot of the same side",
    ),
)
