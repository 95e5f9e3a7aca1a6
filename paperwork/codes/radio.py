"""Codes of frequencies."""

from paperwork.codes.row import Code

TABLE: tuple[Code, ...] = (
    Code(
        name="frequency-unreadable",
        severity="error",
        stage="sense",
        says="the frequency of {record}: {reason}",
        fix="write it in MHz with its decimals, as in 518.200; until then it is printed as a blank and gets no label",
        explains=(
            "The value is no frequency, or can be read as more than one. A frequency that is not certain is never "
            "printed: the paper shows a blank to write in, and the label is withheld."
        ),
    ),
    Code(
        name="carrier-doubled",
        severity="error",
        stage="sense",
        says="{first} and {second} are both on {mhz} MHz",
        fix="retune one of them, or put both in one exclusive group if they are never powered together{nearest}",
        explains=(
            "Two transmitters on one frequency are on the air at once. Packs radiate from power-up to the bows, not "
            "only in their scenes, so being live in different scenes does not help."
        ),
    ),
    Code(
        name="frequency-out-of-tune",
        severity="error",
        stage="sense",
        says="{mhz} MHz of channel {channel} is outside what radio {radio} can be tuned to, {tunes} MHz",
        fix="choose a frequency inside the range, or another radio{nearest}",
        explains="The carrier with its whole bandwidth has to lie inside the tuning range of its radio type.",
    ),
    Code(
        name="frequency-off-step",
        severity="error",
        stage="sense",
        says="{mhz} MHz of channel {channel} is not on the {step} kHz steps of radio {radio}",
        fix="the nearest steps are {below} and {above} MHz",
        explains="A transmitter can only be set to multiples of its tuning step, counted from 0 MHz.",
    ),
    Code(
        name="neighbour-too-near",
        severity="error",
        stage="sense",
        says="{first} and {second} are {gap} kHz apart edge to edge, and {wanted} kHz are wanted",
        fix="move one of them by {missing} kHz or more{nearest}",
        explains=(
            "The free spectrum between the edges of two carriers (their distance less half of each bandwidth) is "
            "smaller than the larger of the two wanted distances."
        ),
    ),
    Code(
        name="intermodulation",
        severity="error",
        stage="sense",
        says="{product} of {makers} falls {offset} kHz from {victim}{more}",
        fix="retune {culprit}{nearest}",
        explains=(
            "Transmitters near each other make products. Of third order are 2a-b of two and a+b-c of three carriers. "
            "A product nearer to a carrier than its guard disturbs it. a+b-c that falls on c itself is the same as "
            "2c-a on b: three evenly spaced carriers, told once."
        ),
    ),
)
