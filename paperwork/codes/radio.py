"""Codes of frequencies, of the air around them, and of sweeps."""

from paperwork.codes.row import Code

_CARRIERS: tuple[Code, ...] = (
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
        fix="the nearest steps are {below} and {above} MHz{nearest}",
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
        says="the product {product} of {makers} falls {offset} kHz from {victim}{more}",
        fix="retune {culprit}{nearest}",
        explains=(
            "Transmitters near each other make products. Of third order are 2a-b of two and a+b-c of three carriers. "
            "A product nearer to a carrier than its guard disturbs it. a+b-c that falls on c itself is the same as "
            "2c-a on b: three evenly spaced carriers, told once."
        ),
    ),
    Code(
        name="intermodulation-many",
        severity="error",
        stage="sense",
        says="{count} products fall on {struck} of the {all} carriers, {share} of them on {worst}: this is no plan",
        fix="take the frequencies out of the show and let `paperwork assign` place them",
        explains=(
            "With so many hits, as in any long row of equal steps, naming them one by one helps nobody. The count is "
            "exact. Fewer than ten thousand are named one by one."
        ),
    ),
    Code(
        name="intermodulation-uncounted",
        severity="error",
        stage="sense",
        says="more than ten thousand products fall on the {all} carriers, which stand on no common raster, so they are not counted",
        fix="put the frequencies on the steps of the radios, as 25 kHz, or let `paperwork assign` place them",
        explains=(
            "Products are counted exactly at any size on a raster of 1 kHz or more. Off any raster the sums of all pairs "
            "would have to be held, which so many carriers do not allow."
        ),
    ),
    Code(
        name="carrier-uneven",
        severity="error",
        stage="sense",
        says="channels {first} and {second} are inside carrier {carrier} and tell {mhz} and {other} MHz",
        fix="tell the frequency of the carrier once, on one of its channels",
        explains="A wide carrier that holds several channels is one carrier on one frequency.",
    ),
    Code(
        name="spare-untunable",
        severity="error",
        stage="sense",
        says="spare {spare} is on {mhz} MHz, and channel {channel} that it backs has radio {radio}, which tunes {tunes} MHz",
        fix="give the spare a frequency that every channel behind it can be set to, or let another spare back {channel}",
        explains=(
            "A spare frequency is for the day when a channel's own goes bad: its pack must then be set to the spare's. "
            "A spare that the pack cannot be tuned to is none."
        ),
    ),
    Code(
        name="spare-beside",
        severity="warning",
        stage="sense",
        says="spare {spare} is in TV channel {tv}, as is everything that it backs",
        fix="{mhz} MHz in TV channel {other} is clean for it",
        explains=(
            "One new transmitter on a TV channel takes all frequencies in it at once. A spare in another TV channel "
            "survives that. Told only where another TV channel holds a clean frequency for the spare."
        ),
    ),
)

_AIR: tuple[Code, ...] = (
    Code(
        name="frequency-out-of-window",
        severity="error",
        stage="sense",
        says="{mhz} MHz of channel {channel} is outside the window of rack {rack}, {window}",
        fix="choose a frequency inside the window, or put the channel into another rack{nearest}",
        explains=(
            "What is in front of the receivers passes one window. Racks that hang one behind the other on an antenna "
            "pass only what all windows before them pass. The whole bandwidth has to lie inside."
        ),
    ),
    Code(
        name="tv-in-use",
        severity="error",
        stage="sense",
        says="{mhz} MHz of {name} is in TV channel {tv}, which is in use",
        fix="choose another frequency, or move the TV channel to `weak tv` if it can be lived with{nearest}",
        explains="The carrier with its bandwidth overlaps a TV channel that the show says is on the air at the venue.",
    ),
    Code(
        name="keep-clear-touched",
        severity="error",
        stage="sense",
        says="{mhz} MHz of {name} touches {range} MHz, which is to be kept clear",
        fix="choose another frequency{nearest}",
        explains="The carrier with its bandwidth overlaps a range of `keep clear`.",
    ),
    Code(
        name="region-closed",
        severity="warning",
        stage="sense",
        says="{mhz} MHz of {name} is in {range} MHz, which {why} (data for {region} of {dated})",
        fix="{caution}{nearest}",
        explains=(
            "The table of regions holds a few ranges that a published source keeps for others. It is dated sample data "
            "and no legal advice: who transmits checks the rules where they are."
        ),
    ),
    Code(
        name="tv-crowded",
        severity="warning",
        stage="sense",
        says="{mhz} MHz of {name} is in TV channel {tv}, which land mobile radio uses around {city}",
        fix="check locally ({source}){nearest}",
        explains=(
            "In some cities land mobile radio has television channels between 14 and 20, which no list of television "
            "stations shows. The venue of the show names such a city."
        ),
    ),
    Code(
        name="region-unknown",
        severity="error",
        stage="sense",
        says="there is no region {region} in the table",
        fix="the regions are {known}{hint}",
        explains="The region says whose television raster counts: 21 is 470-478 MHz in Europe and 512-518 in the United States.",
    ),
    Code(
        name="region-untold",
        severity="error",
        stage="sense",
        says="TV channels are named, and not whose raster counts",
        fix="add `region` to spectrum: {known}",
        explains="A TV channel number alone is ambiguous: 21 is 470-478 MHz in Europe, 512-518 in the United States.",
    ),
    Code(
        name="tv-unknown",
        severity="error",
        stage="sense",
        says="{tv} is no TV channel of {region}",
        fix="write its number ({runs}), or the centre of its transmitter in MHz",
        explains=(
            "A TV channel is named by its number in the region's raster, or by the centre frequency of a transmitter, "
            "which may stand off the middle by the fractions that the region uses."
        ),
    ),
)

_SWEEPS: tuple[Code, ...] = (
    Code(
        name="sweep-loud",
        severity="warning",
        stage="sense",
        says="the sweep shows {level} dBm under {name} on {mhz} MHz, and {limit} dBm is the limit",
        fix="find out what is there, or choose another frequency{nearest}",
        explains=(
            "Somewhere under the carrier's own bandwidth the sweep is louder than the limit, which is -85 dBm unless "
            "`sweep limit` says otherwise. Told only where our own transmitters were off during the sweep."
        ),
    ),
    Code(
        name="sweep-short",
        severity="warning",
        stage="sense",
        says="no sweep covers {missing} MHz of {what}",
        fix="sweep it too: what was not measured is not known to be clean",
        explains="A part of a window, or of a carrier outside all windows, was not measured. It is not taken for clean.",
    ),
    Code(
        name="sweep-own-untold",
        severity="warning",
        stage="sense",
        says="the show does not say whether our own transmitters were on during the sweeps",
        fix="add `own transmitters: off` to spectrum, or on",
        explains="With them off, a level under a carrier is somebody else. With them on, it may be ourselves, and is left out.",
    ),
    Code(
        name="sweep-line",
        severity="warning",
        stage="read",
        says="{which} no part of a sweep",
        fix="write frequency and level, as in 486.200,-97.3; the other lines are used",
        explains=(
            "A line of a sweep file is a frequency and a level, or a row of date, time, lowest and highest hertz, width "
            "of a bin, number of samples, and levels. Lines that are neither are left out, and told."
        ),
    ),
    Code(
        name="sweep-empty",
        severity="error",
        stage="read",
        says="{name} holds no sweep",
        fix="save the sweep as lines of frequency and level, as in 486.200,-97.3",
        explains="Not one line of the file is a frequency and a level.",
    ),
    Code(
        name="searches-many",
        severity="error",
        stage="sense",
        says="{count} kinds of radio in windows are too many to survey at once",
        fix="name the windows to look at with --window, so that there are at most {most}",
        explains="How many channels fit is found by a search for each kind of radio in each window, which takes about a second.",
    ),
    Code(
        name="sweep-outside",
        severity="error",
        stage="sense",
        says="the sweep {name} lies outside of the show's folder, so it is not read",
        fix="move it beside the show file, or below, and name it by its path from there",
        explains=(
            "A show names only files below its own folder. One that came from somebody else could name any file of this "
            "machine, or of a server; and an archive could not put such a file back."
        ),
    ),
    Code(
        name="sweeps-many",
        severity="error",
        stage="sense",
        says="the show names more than {most} sweeps; the rest is not read",
        fix="name those of this venue and this week",
        explains="Sweeps are held at their loudest together, so a few of the venue say all. The number is bounded.",
    ),
    Code(
        name="sweep-large",
        severity="error",
        stage="read",
        says="{name} holds more than {most} levels",
        fix="sweep the bands in use only, or with wider bins",
        explains="A sweep is held in memory as levels; more than this is no sweep of one venue.",
    ),
)

TABLE = (*_CARRIERS, *_AIR, *_SWEEPS)
