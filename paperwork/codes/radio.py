"""Codes of frequencies and of the air around them."""

from paperwork.codes.row import Code

_RETUNE = "{at}/{field}={clean}"

_CARRIERS: tuple[Code, ...] = (
    Code(
        "frequency-unreadable",
        "error",
        "the frequency of {record}: {reason}",
        "write it in MHz with its decimals, for example 518.200; until then it is printed as a blank and gets no label",
        "The value is not a frequency, or can be read as more than one. A frequency that is not certain is never "
        "printed: the paper shows a blank to write in, and the label is withheld.",
        topics=("frequency",),
        doubts=True,
    ),
    Code(
        "carrier-doubled",
        "error",
        "{first} and {second} are both on {mhz} MHz",
        "retune one of them, or put both in one exclusive group if they are never powered together{nearest}",
        "Two transmitters on one frequency are on the air at once. Packs transmit from power-up to the bows, not only "
        "in their scenes, so being live in different scenes does not help.",
        topics=("frequency",),
        doubts=True,
        edit=_RETUNE,
    ),
    Code(
        "frequency-out-of-tune",
        "error",
        "{name} is on {mhz} MHz, but radio {radio} tunes {tunes} MHz",
        "choose a frequency inside the range, or another radio{nearest}",
        "The carrier with its whole bandwidth has to be inside the tuning range of its radio type.",
        topics=("frequency",),
        doubts=True,
        edit=_RETUNE,
    ),
    Code(
        "frequency-off-step",
        "error",
        "{name} is on {mhz} MHz, which is not on the {step} kHz steps of radio {radio}",
        "the nearest steps are {below} and {above} MHz{nearest}",
        "A transmitter can only be set to multiples of its tuning step, counted from 0 MHz or from the frequency in "
        "`step from`.",
        advice="choose a frequency on a step of the radio",
        topics=("frequency",),
        doubts=True,
        edit=_RETUNE,
    ),
    Code(
        "frequency-off-spot",
        "error",
        "{name} is on {mhz} MHz, which is not one of the spot frequencies of radio {radio}",
        "the nearest of them: {around} MHz{nearest}",
        "The radio type can be set to the frequencies in `spots` and to nothing between them.",
        advice="choose one of the spot frequencies of the radio",
        topics=("frequency",),
        doubts=True,
        edit=_RETUNE,
    ),
    Code(
        "neighbour-too-near",
        "error",
        "{first} and {second} {apart}; at least {wanted} kHz needed",
        "move one of them by {missing} kHz or more{nearest}",
        "The free spectrum between the edges of two carriers (their distance minus half of each bandwidth) is smaller "
        "than the larger of the distances that the two need.",
        advice="move one of them away from the other",
        topics=("frequency",),
        edit=_RETUNE,
    ),
    Code(
        "neighbours-too-near",
        "error",
        "{other} needs {wanted} kHz of free spectrum on either side, and {names} are nearer; nearest is {first}, which {apart}",
        "move {other}, or delete mhz of the others: `paperwork assign` finds them another place{nearest}",
        "One carrier that is not a microphone needs so much distance that several channels are too near to it. They are one "
        "finding, because one move can solve it.",
        advice="move that carrier, or the channels around it",
        topics=("frequency",),
        edit=_RETUNE,
        decides=True,
    ),
    Code(
        "intermodulation",
        "error",
        "the product {product} of {makers} falls {offset} kHz from {victim}{more}",
        "retune {culprit}{nearest}",
        "Transmitters near each other make products: of third order 2a-b of two and a+b-c of three carriers. A "
        "product nearer to a carrier than its guard disturbs it. a+b-c that falls on c itself is the same as 2c-a on "
        "b: three evenly spaced carriers, reported once.",
        advice="retune the channel at this line",
        topics=("frequency",),
        edit=_RETUNE,
    ),
    Code(
        "intermodulation-many",
        "error",
        "this plan cannot work: {count} products fall on {struck} of the {all} carriers, {share} of them on {worst}",
        "delete the frequencies from the show and let `paperwork assign` place them",
        "With so many hits, as in any long row of equal steps, a list of them helps nobody. The count is exact. Fewer "
        "than ten thousand are listed one by one.",
        topics=("frequency",),
    ),
    Code(
        "intermodulation-uncounted",
        "error",
        "more than ten thousand products fall on the {all} carriers, which share no common raster, so they are not "
        "counted",
        "put the frequencies on the steps of the radios, for example 25 kHz, or let `paperwork assign` place them",
        "Products are counted exactly at any size on a raster of 1 kHz or more. Off any raster the sums of all pairs "
        "would have to be held, which is too much for so many carriers.",
        topics=("frequency",),
    ),
    Code(
        "backup-too-near",
        "error",
        "the backup of channel {channel} is on {mhz} MHz, {apart} kHz from its own {own} MHz; at least {wanted} kHz needed",
        "choose a backup away from it{nearest}",
        "A channel goes to its backup when its own frequency is lost. If the two touch, whatever blocks one blocks the other.",
        advice="choose a backup that does not touch the channel's own frequency",
        topics=("frequency",),
        edit=_RETUNE,
    ),
    Code(
        "carrier-uneven",
        "error",
        "channels {first} and {second} are inside carrier {carrier}, but are on {mhz} and {other} MHz",
        "give the frequency of the carrier once, on one of its channels",
        "A wide carrier that holds several channels is one carrier on one frequency.",
        topics=("frequency",),
        doubts=True,
        edit="channels/{second}/mhz=",
        decides=True,
    ),
    Code(
        "spare-untunable",
        "error",
        "spare {spare} is on {mhz} MHz, but channel {channel} that it backs has radio {radio}, which tunes {tunes} MHz",
        "give the spare a frequency that every channel that it backs can be set to, or let another spare back {channel}",
        "A spare frequency is for the day when a channel's own goes bad: its pack is then set to the spare's. A spare "
        "that the pack cannot tune to is useless.",
        advice="give the spare a frequency that every channel that it backs can be set to, or let another spare back the channel",
        topics=("frequency",),
    ),
    Code(
        "spare-beside",
        "warning",
        "spare {spare} is in TV channel {tv}, like everything that it backs",
        "{mhz} MHz in TV channel {other} is clean for it",
        "One new transmitter on a TV channel takes all frequencies in it at once. A spare in another TV channel "
        "survives that. Reported only where another TV channel has a clean frequency for the spare.",
        advice="move the spare to a clean frequency in another TV channel",
        edit="channels/{spare}/mhz={clean}",
    ),
)

_AIR: tuple[Code, ...] = (
    Code(
        "frequency-out-of-window",
        "error",
        "{name} is on {mhz} MHz, outside the window of rack {rack}, {window}",
        "choose a frequency inside the window, or put the channel into another rack{nearest}",
        "The filters in front of the receivers pass one window. Racks that are chained on an antenna pass only what "
        "all windows before them pass. The whole bandwidth has to be inside.",
        topics=("frequency",),
        edit=_RETUNE,
    ),
    Code(
        "tv-in-use",
        "error",
        "{name} on {mhz} MHz is in TV channel {tv}, which is in use",
        "choose another frequency, or move the TV channel to `weak tv` if you can live with it{nearest}",
        "The carrier with its bandwidth overlaps a TV channel that is on the air at the venue.",
        topics=("frequency",),
        edit=_RETUNE,
    ),
    Code(
        "keep-clear-touched",
        "error",
        "{name} on {mhz} MHz touches {range} MHz, which must be kept clear",
        "choose another frequency{nearest}",
        "The carrier with its bandwidth overlaps a range of `keep clear`.",
        topics=("frequency",),
        edit=_RETUNE,
    ),
    Code(
        "frequency-near-refused",
        "error",
        "{name} on {mhz} MHz touches {refused} MHz, which the coordinator refused",
        "choose another frequency, or ask for this one{nearest}",
        "The carrier with its bandwidth overlaps the 200 kHz around a frequency of `refused` in the section spectrum, and "
        "was not granted. What was refused there to one radio is refused to all.",
        advice="choose another frequency, or ask for this one",
        topics=("frequency",),
        edit=_RETUNE,
    ),
    Code(
        "region-closed",
        "warning",
        "{name} on {mhz} MHz is in {range} MHz, which {why} (data for {region} of {dated})",
        "{caution}{nearest}",
        "The table of regions has a few ranges that a published source reserves for others. It is dated sample data "
        "and not legal advice: check the rules where you transmit.",
        advice="check the rules where you are, or choose another frequency",
        edit=_RETUNE,
        decides=True,
    ),
    Code(
        "tv-crowded",
        "warning",
        "{name} on {mhz} MHz is in TV channel {tv}, which land mobile radio uses around {city}",
        "check locally ({source}){nearest}",
        "In some cities land mobile radio uses TV channels between 14 and 20, which no list of television stations "
        "shows. The venue of the show names such a city; where it names none, the check says that it did not look.",
        advice="check locally, or choose another frequency",
        edit=_RETUNE,
        decides=True,
    ),
    Code(
        "region-unknown",
        "error",
        "there is no region {region} in the table",
        "the regions are {known}{hint}",
        "The region decides whose TV channels count: 21 is 470-478 MHz in Europe and 512-518 in the United States.",
        advice="use a region of the table, as the message lists them",
        topics=("frequency", "air"),
        edit="spectrum/region={near}",
    ),
    Code(
        "region-untold",
        "error",
        "TV channels are listed, but region is missing",
        "add region to spectrum: {known}; or the place's own channels, as `raster: 21-48 at 470-694`",
        "A TV channel number alone is ambiguous: 21 is 470-478 MHz in Europe, 512-518 in the United States.",
        advice="add region or raster to spectrum",
        topics=("frequency", "air"),
        edit="spectrum/region={near}",
        decides=True,
    ),
    Code(
        "tv-unknown",
        "error",
        "{tv} is not a TV channel in {region}",
        "write its number ({runs}), or the centre of its transmitter in MHz{elsewhere}",
        "A TV channel is given by its number in the region's raster, or by the centre frequency of a transmitter, "
        "which may be off the middle by the offsets that the region uses.",
        advice="write its number, or the centre of its transmitter in MHz",
        topics=("frequency", "air"),
    ),
    Code(
        "region-suspected",
        "warning",
        "{count} channels are in TV channels in use as {region} counts them, and none is as {rasters} counts them",
        "check whether region is right, and whether the numbers in tv are of its raster",
        "A plan that was made around the TV channels of another raster looks like this: 24 is 494-502 MHz in Europe, "
        "530-536 in the United States.",
    ),
    Code(
        "power-over-limit",
        "warning",
        "{who} transmits with {power}; the most in {region} is {most} ({source}; as of {dated})",
        "turn it down, or make sure that your licence allows it: {caution}",
        "A published limit of transmit power for the range is exceeded. The table holds only what a source that was read "
        "says, and it says nothing of antennas; local rules and the licence decide.",
        advice="turn it down, or make sure that your licence allows it",
    ),
    Code(
        "searches-many",
        "error",
        "{count} kinds of radio in windows are too many to survey at once",
        "name the windows with --window, so that there are at most {most}",
        "How many channels fit is found by a search for each kind of radio in each window, which takes about a second.",
        advice="name the windows with --window",
    ),
)

TABLE: tuple[Code, ...] = (*_CARRIERS, *_AIR)
