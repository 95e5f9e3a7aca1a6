"""Codes of frequencies and of the air around them."""

from paperwork.codes.row import Code

_RETUNE = "{at}/{field}={clean}"

_CARRIERS: tuple[Code, ...] = (
    Code(
        "frequency-unreadable",
        "error",
        "the frequency of {record}: {reason}",
        "write it in MHz with its decimals, for example 518.200; until then it is printed as a blank and gets no label",
        "This is not a frequency, or could be more than one. A frequency in doubt is never printed: the paper has a "
        "blank to write in, and the label is withheld.",
        topics=("frequency",),
        doubts=True,
    ),
    Code(
        "carrier-doubled",
        "error",
        "{first} and {second} are both on {mhz} MHz",
        "retune one of them, or put both into one exclusive group if they are never on together{nearest}",
        "Two transmitters are on one frequency at once. Packs transmit from power-up to the bows, so being live in "
        "different scenes does not help.",
        topics=("frequency",),
        doubts=True,
        edit=_RETUNE,
    ),
    Code(
        "frequency-out-of-tune",
        "error",
        "{name} is on {mhz} MHz, but radio {radio} tunes {tunes} MHz",
        "choose a frequency inside the range, or another radio{nearest}",
        "The whole bandwidth of a carrier has to be inside the tuning range of its radio type.",
        topics=("frequency",),
        doubts=True,
        edit=_RETUNE,
    ),
    Code(
        "frequency-off-step",
        "error",
        "{name} is on {mhz} MHz, off the {step} kHz steps of radio {radio}",
        "the nearest steps are {below} and {above} MHz{nearest}",
        "A transmitter tunes in steps, counted from 0 MHz or from the frequency in `step from`.",
        advice="choose a frequency on a step of the radio",
        topics=("frequency",),
        doubts=True,
        edit=_RETUNE,
    ),
    Code(
        "frequency-off-spot",
        "error",
        "{name} is on {mhz} MHz, not a spot frequency of radio {radio}",
        "the nearest: {around} MHz{nearest}",
        "This radio type tunes to the frequencies in `spots` and to nothing between.",
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
        "The gap between the edges of two carriers (their distance less half of each bandwidth) is smaller than they "
        "need.",
        advice="move one of them away from the other",
        topics=("frequency",),
        edit=_RETUNE,
    ),
    Code(
        "carriers-crowded",
        "error",
        "this plan cannot work: {crowded} of {all} carriers are too near another; more than {pairs} pairs are",
        "delete the frequencies and let `paperwork assign` place them",
        "So many carriers in so little spectrum, or a distance or bandwidth of the wrong unit. Below ten thousand, pairs are "
        "listed one by one.",
        topics=("frequency",),
    ),
    Code(
        "neighbours-too-near",
        "error",
        "{other} needs {wanted} kHz of free spectrum on either side; {names} are nearer, the nearest is {first}, which "
        "{apart}",
        "move {other}, or delete mhz of the others: `paperwork assign` finds them another place{nearest}",
        "One carrier that is not a microphone needs a wide gap, and several channels are in it. It is one finding, "
        "because one move may settle it.",
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
        "Transmitters close together make products: 2a-b of two carriers, a+b-c of three. A product that falls within "
        "the guard of a carrier disturbs it. Three evenly spaced carriers hit each other this way, and are reported "
        "once.",
        advice="retune the channel at this line",
        topics=("frequency",),
        edit=_RETUNE,
    ),
    Code(
        "intermodulation-many",
        "error",
        "this plan cannot work: {count} products fall on {struck} of {all} carriers, {share} of them on {worst}",
        "delete the frequencies and let `paperwork assign` place them",
        "Any long row of equal steps gives this many hits, and a list of them helps nobody. The count is exact. Below "
        "ten thousand they are listed one by one.",
        topics=("frequency",),
    ),
    Code(
        "intermodulation-uncounted",
        "error",
        "more than ten thousand products fall on the {all} carriers, {why}, so they are not counted",
        "{first}let `paperwork assign` place them",
        "On a raster of 1 kHz or more, products are counted exactly for any number of carriers. Off any raster, or where "
        "nearly every carrier is on at times of its own, this many are too many to count.",
        advice="put the frequencies on the steps of the radios, for example 25 kHz, or let `paperwork assign` place them",
        topics=("frequency",),
    ),
    Code(
        "backup-too-near",
        "error",
        "the backup of channel {channel} is on {mhz} MHz, {apart} kHz from its own {own} MHz; at least {wanted} kHz needed",
        "choose a backup farther from it{nearest}",
        "A channel goes to its backup when its own frequency is lost. If the two touch, whatever blocks one blocks the "
        "other.",
        advice="choose a backup that does not touch its own frequency",
        topics=("frequency",),
        edit=_RETUNE,
    ),
    Code(
        "carrier-uneven",
        "error",
        "channels {first} and {second} are in carrier {carrier}, but on {mhz} and {other} MHz",
        "give the frequency once, on one of its channels",
        "A wide carrier with several channels has one frequency.",
        topics=("frequency",),
        doubts=True,
        edit="channels/{second}/mhz=",
        decides=True,
    ),
    Code(
        "spare-untunable",
        "error",
        "spare {spare} is on {mhz} MHz, but channel {channel}, which it backs, has radio {radio} and tunes {tunes} MHz",
        "choose a frequency that everything it backs can tune to, or let another spare back {channel}",
        "When the frequency of a channel goes bad, its pack is set to that of the spare. If the pack cannot tune "
        "there, the spare is useless.",
        advice="choose a frequency that everything it backs can tune to, or let another spare back the channel",
        topics=("frequency",),
    ),
    Code(
        "spare-beside",
        "warning",
        "spare {spare} is in TV channel {tv}, like everything it backs",
        "{mhz} MHz in TV channel {other} is clean for it",
        "One new transmitter on a TV channel takes out every frequency in it. A spare in another TV channel survives. "
        "Reported only if there is a clean frequency for it in another.",
        advice="move the spare to a clean frequency in another TV channel",
        edit="channels/{spare}/mhz={clean}",
    ),
)

_AIR: tuple[Code, ...] = (
    Code(
        "frequency-out-of-window",
        "error",
        "{name} is on {mhz} MHz, outside {window}, the window of rack {rack}",
        "choose a frequency inside the window, or put the channel into another rack{nearest}",
        "The filter in front of the receivers lets one window through, and racks chained on an antenna only what every "
        "window before them lets through. The whole bandwidth has to be inside.",
        topics=("frequency",),
        edit=_RETUNE,
    ),
    Code(
        "tv-in-use",
        "error",
        "{name} on {mhz} MHz is in TV channel {tv}, which is in use",
        "choose another frequency, or move the TV channel to `weak tv` if you can live with it{nearest}",
        "The carrier overlaps a TV channel that is on the air at the venue.",
        topics=("frequency",),
        edit=_RETUNE,
    ),
    Code(
        "keep-clear-touched",
        "error",
        "{name} on {mhz} MHz touches {range} MHz, which must be kept clear",
        "choose another frequency{nearest}",
        "The carrier overlaps a range of `keep clear`.",
        topics=("frequency",),
        edit=_RETUNE,
    ),
    Code(
        "frequency-near-refused",
        "error",
        "{name} on {mhz} MHz touches {refused} MHz, which the coordinator refused",
        "choose another frequency, or ask for this one{nearest}",
        "The carrier overlaps the 200 kHz around a frequency in `refused` of the section spectrum, and was not "
        "granted. What was refused to one radio there is refused to all.",
        advice="choose another frequency, or ask for this one",
        topics=("frequency",),
        edit=_RETUNE,
    ),
    Code(
        "region-closed",
        "warning",
        "{name} on {mhz} MHz is in {range} MHz, which {why} (data for {region} of {dated})",
        "{caution}{nearest}",
        "The table of regions has a few ranges that a published source keeps for others. It is dated sample data, no "
        "legal advice: check the rules where you transmit.",
        advice="check the rules where you are, or choose another frequency",
        edit=_RETUNE,
        decides=True,
    ),
    Code(
        "tv-crowded",
        "warning",
        "{name} on {mhz} MHz is in TV channel {tv}, used by land mobile radio around {city}",
        "check locally ({source}){nearest}",
        "In some cities land mobile radio uses TV channels between 14 and 20. No list of TV stations shows that. If "
        "the venue names no such city, the check says that it did not look.",
        advice="check locally, or choose another frequency",
        edit=_RETUNE,
        decides=True,
    ),
    Code(
        "region-unknown",
        "error",
        "there is no region {region}",
        "the regions are {known}{hint}",
        "TV channel numbers depend on the region: 21 is 470-478 MHz in Europe and 512-518 in the United States.",
        advice="use a region that the message lists",
        topics=("frequency", "air"),
        edit="spectrum/region={near}",
    ),
    Code(
        "region-untold",
        "error",
        "TV channels are listed, but no region",
        "add region to spectrum: {known}; or the channels of the place, as `raster: 21-48 at 470-694`",
        "TV channel numbers depend on the region: 21 is 470-478 MHz in Europe and 512-518 in the United States.",
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
        "Write a TV channel by its number in the region, or by the centre of its transmitter, which may be a little "
        "off the middle.",
        advice="write its number, or the centre of its transmitter in MHz",
        topics=("frequency", "air"),
    ),
    Code(
        "region-suspected",
        "warning",
        "{count} channels are in TV channels in use as {region} numbers them, but in none by the numbers of {rasters}",
        "check region, and whether the numbers in tv belong to it",
        "A plan made around the TV channels of another region looks like this: 24 is 494-502 MHz in Europe, 530-536 in "
        "the United States.",
    ),
    Code(
        "power-over-limit",
        "warning",
        "{who} transmits with {power}; the most in {region} is {most} ({source}; as of {dated})",
        "turn it down, or make sure that your licence allows it: {caution}",
        "The power is over a published limit. The table has only limits from a source that was read, and nothing about "
        "antennas. Local rules and your licence decide.",
        advice="turn it down, or make sure that your licence allows it",
    ),
    Code(
        "searches-many",
        "error",
        "{count} kinds of radio in windows are too many to survey at once",
        "name windows with --window, at most {most} kinds",
        "Each kind of radio in each window needs a search of its own, about a second each.",
        advice="name the windows with --window",
    ),
)

TABLE: tuple[Code, ...] = (*_CARRIERS, *_AIR)
