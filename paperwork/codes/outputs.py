"""Codes of outputs, desks and patch."""

from paperwork.codes.row import Code

TABLE: tuple[Code, ...] = (
    Code(
        name="input-doubled",
        severity="error",
        stage="sense",
        says="{console} {input} gets {first} and {second}",
        fix="give one of them a free input, or declare alternate: on the channel that is only powered instead of the other",
        explains=(
            "Two outputs are patched to one input of one desk. Declared alternates, and channels of one exclusive "
            "group, may share an input, since only one of them sends."
        ),
    ),
    Code(
        name="output-count",
        severity="error",
        stage="reference",
        says="{name} of rack {rack} names {given} inputs for {slots} slots",
        fix=(
            "name one input for each slot, as in `FOH 1-{slots}`, and a dash for a slot that goes nowhere; or correct slots or "
            "units, if the rack has {given}"
        ),
        explains=(
            "An output list stands in slot order, so it has to have as many entries as the rack has slots. Digital "
            "outputs carry two slots on a connector, and still name one input for each slot."
        ),
    ),
    Code(
        name="input-beyond-console",
        severity="error",
        stage="sense",
        says="{console} has {inputs} inputs, and rack {rack} is patched to {beyond}",
        fix="correct inputs of {console}, or patch the rack to inputs that it has",
        explains="An output lands on an input that its destination does not have.",
    ),
    Code(
        name="spare-goes-nowhere",
        severity="warning",
        stage="sense",
        says="spare channel {channel} in slot {slot} has no output to anywhere",
        fix="patch the slot to a free input, so that the spare can be heard when it is wanted",
        explains="The rack's other slots are patched and the spare's is not. A spare that nobody can hear is no spare.",
    ),
    Code(
        name="desk-name-doubled",
        severity="warning",
        stage="sense",
        says="{console} shows {letters} letters of a name, so channels {channels} all read {shown} there ({names})",
        fix="give the roles short names that differ in their first {letters} letters, or tell the desk's letters: if it shows more",
        explains=(
            "Many desks show six to eight letters of a channel's name. These channels cannot be told apart on theirs."
        ),
    ),
    Code(
        name="pair-split",
        severity="error",
        stage="sense",
        says="connector {connector} of digital {copy} of rack {rack} has left at {left} and right at {right}",
        fix="send both halves of the pair to one destination, or use another copy for one of them",
        explains="An AES3 connector carries two channels on one cable, so both halves arrive at the same box.",
    ),
    Code(
        name="pair-to-many",
        severity="warning",
        stage="sense",
        says="{connector} of digital {copy} of rack {rack}: each one connector, and patched to {consoles}",
        fix=(
            "use a copy of the outputs for each destination, or a distribution amplifier that the patch sheet then should"
            " name"
        ),
        explains="An AES3 line goes from point to point: it cannot be split with a cable as an analogue output can.",
    ),
    Code(
        name="pair-from-two-units",
        severity="error",
        stage="sense",
        says=(
            "{console} {first} and {second} are one pair, and come from slots {one} and {two} of rack {rack}, which are "
            "in two units"
        ),
        fix=(
            "leave a gap in digital {copy} so that every pair of inputs is fed by one unit, or correct units: of the rack"
        ),
        explains=(
            "A pair is made inside one receiver unit. Where a unit has an odd number of slots, its last connector carries"
            " one channel, and the next unit starts a new connector."
        ),
    ),
    Code(
        name="pair-flipped",
        severity="warning",
        stage="sense",
        says="CHANNEL {channel} CHANGED SIDES: digital {copy} to {console} {input} was {was} and is now {side}",
        fix="tell {console}, or move the channel to a slot of the same side",
        explains=(
            "Two slots share a connector, the odd one left and the even one right. A channel that moved to a slot of the "
            "other side arrives on the other side at the far end, and nobody notices until they hear it."
        ),
    ),
)
