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
        fix="name one input for each slot, with a dash for a slot that goes nowhere",
        explains=(
            "An output list stands in slot order, so it has to have as many entries as the rack has slots. Digital "
            "outputs carry two slots on a connector, and still name one input for each slot."
        ),
    ),
)
