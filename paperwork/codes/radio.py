"""Codes of frequencies, of the air around them, and of sweeps."""

from functools import partial

from paperwork.codes.row import Code

_read = partial(Code, stage="read")
_RETUNE = "{at}/mhz={clean}"

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
        "channel {channel} is on {mhz} MHz, but radio {radio} tunes {tunes} MHz",
        "choose a frequency inside the range, or another radio{nearest}",
        "The carrier with its whole bandwidth has to be inside the tuning range of its radio type.",
        topics=("frequency",),
        doubts=True,
        edit=_RETUNE,
    ),
    Code(
        "frequency-off-step",
        "error",
        "channel {channel} is on {mhz} MHz, which is not on the {step} kHz steps of radio {radio}",
        "the nearest steps are {below} and {above} MHz{nearest}",
        "A transmitter can only be set to multiples of its tuning step, counted from 0 MHz.",
        advice="choose a frequency on a step of the radio",
        topics=("frequency",),
        doubts=True,
        edit=_RETUNE,
    ),
    Code(
        "neighbour-too-near",
        "error",
        "{first} and {second} {apart}; at least {wanted} kHz needed",
        "move one of them by {missing} kHz or more{nearest}",
        "The free spectrum between the edges of two carriers (their distance less half of each bandwidth) is smaller "
        "than the larger of the distances that the two need.",
        advice="move one of them away from the other",
        topics=("frequency",),
        edit=_RETUNE,
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
        "give the spare a frequency that every channel behind it can be set to, or let another spare back {channel}",
        "A spare frequency is for the day when a channel's own goes bad: its pack is then set to the spare's. A spare "
        "that the pack cannot tune to is useless.",
        advice="give the spare a frequency that every channel behind it can be set to, or let another spare back the channel",
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
        "channel {channel} is on {mhz} MHz, outside the window of rack {rack}, {window}",
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
        "shows. The venue of the show names such a city.",
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
        "TV channels listed, region missing",
        "add region to spectrum: {known}",
        "A TV channel number alone is ambiguous: 21 is 470-478 MHz in Europe, 512-518 in the United States.",
        advice="add region to spectrum",
        topics=("frequency", "air"),
        edit="spectrum/region={near}",
        decides=True,
    ),
    Code(
        "tv-unknown",
        "error",
        "{tv} is not a TV channel in {region}",
        "write its number ({runs}), or the centre of its transmitter in MHz",
        "A TV channel is given by its number in the region's raster, or by the centre frequency of a transmitter, "
        "which may be off the middle by the offsets that the region uses.",
        advice="write its number, or the centre of its transmitter in MHz",
        topics=("frequency", "air"),
    ),
)

_SWEEPS: tuple[Code, ...] = (
    Code(
        "sweep-loud",
        "warning",
        "the sweep shows {level} dBm in the {width} kHz of {name} on {mhz} MHz{share}; the limit is {limit} dBm{floor}",
        "find out what is there, or choose another frequency{nearest}",
        "All power in the carrier's own bandwidth together is more than the limit, which is -85 dBm unless `sweep limit` "
        "says otherwise. Of several sweeps the highest counts. Reported only where our own transmitters were off during "
        "the sweep.",
        edit=_RETUNE,
        decides=True,
    ),
    Code(
        "sweep-tv",
        "warning",
        "the sweep shows {level} dBm in TV channel {tv}, which the show does not list, and {name} on {mhz} MHz is in it",
        "find out whether it is on the air, and choose another frequency{nearest}",
        "The channel is filled evenly from edge to edge, as television does, with more power than the limit. A carrier "
        "in it gets only its share of that power, and is disturbed all the same.",
        edit=_RETUNE,
        decides=True,
    ),
    Code(
        "tv-unlisted",
        "warning",
        "the sweep shows TV {which} {seen}, which the show does not list",
        "if that is television, write `{edit}` in spectrum",
        "A channel of the region's raster is filled evenly from edge to edge with more power than the limit. Once it is "
        "listed, no carrier is put there, and every paper shows it. Where it is weak where it matters, list it in "
        "`weak tv` instead.",
        advice="if that is television, add it to `tv` in spectrum",
        edit="spectrum/tv={tv}",
        decides=True,
    ),
    Code(
        "sweep-noisy",
        "warning",
        "the noise floor of {name} is {floor} dBm in {width} kHz, and the limit is {limit} dBm, so it cannot show what is free",
        "sweep again with less attenuation or smaller bins; if the air was quiet, write `{edit}` in spectrum",
        "The noise floor is the mean power of whole megahertz that a fifth of all megahertz of the sweep do not exceed. "
        "Either it is the noise of the receiver that swept, or most of what was swept is in use. Carriers where nothing "
        "is 10 dB above it are named here and not one by one.",
        advice="sweep again with less attenuation or smaller bins, or state `sweep limit` above the noise floor",
        edit="spectrum/sweep limit={margin}",
        decides=True,
    ),
    Code(
        "sweep-coarse",
        "warning",
        "the bins of {names} are up to {widest} kHz wide, and a carrier is {width} kHz wide",
        "sweep with bins no wider than a carrier: a narrow signal in a wide bin looks weaker than it is",
        "The level of a bin is taken as spread evenly over its width, and a carrier gets its share. That is right for "
        "television and noise. For another radio microphone in the bin it is too little.",
    ),
    Code(
        "sweep-short",
        "warning",
        "no sweep covers {missing} MHz of {what}",
        "sweep it too: what was not measured may not be clean",
        "A part of a window, or of a carrier outside all windows, was not measured, so it is not taken for clean.",
    ),
    Code(
        "sweep-own-untold",
        "warning",
        "it is not stated whether our own transmitters were on during the sweeps",
        "add `{edit}` to spectrum, or on",
        "With them off, a level under a carrier is somebody else. With them on, it may be ourselves, and is left out.",
        advice="add `own transmitters: off` to spectrum, or on",
        edit="spectrum/own transmitters=off",
        decides=True,
    ),
    _read(
        "sweep-line",
        "warning",
        "{which} not part of a sweep",
        "write frequency and level, for example 486.200,-97.3; the other lines are used",
        "A line of a sweep file is a frequency and a level; a lower edge, an upper edge and a level; or a row of date, "
        "time, lowest and highest hertz, width of a bin, number of samples, and levels. After lines with start, stop and "
        "number of points a row may hold levels alone. Lines before the first of these say what is in them. Other lines "
        "are left out and listed.",
    ),
    _read(
        "sweep-unit",
        "error",
        "{name} is not used, since {why}",
        "add `sweep unit: dBuV` to spectrum, or dBm, dBmV, dBW, whichever the levels are in",
        "Levels are read in the unit that the file states, or that `sweep unit` states, or in dBm where half of them are "
        "between -200 and -30 dBm and not all are equal. Anything else is not guessed: microvolts read as milliwatts would "
        "be wrong by 107 dB.",
        topics=("frequency", "air"),
    ),
    _read(
        "sweep-columns",
        "error",
        "{name} is not used, since it is not clear which of its {count} columns is the level",
        "write a first line that names the columns, for example frequency MHz, level dBm",
        "Of several levels the highest held is used, by its heading: max or peak before level, level before average. "
        "Without such headings only two columns are read, frequency and level, or three, lower edge, upper edge and level.",
        topics=("frequency", "air"),
    ),
    _read(
        "sweep-empty",
        "error",
        "{name} contains no sweep",
        "save the sweep as lines of frequency and level, for example 486.200,-97.3",
        "Not one line of the file is a frequency and a level.",
        topics=("frequency", "air"),
    ),
    Code(
        "searches-many",
        "error",
        "{count} kinds of radio in windows are too many to survey at once",
        "name the windows with --window, so that there are at most {most}",
        "How many channels fit is found by a search for each kind of radio in each window, which takes about a second.",
        advice="name the windows with --window",
    ),
    Code(
        "sweep-outside",
        "error",
        "the sweep {name} is outside the show's folder, so it is not read",
        "move it beside the show file, or below, and name it by its path from there",
        "A show can use only files below its own folder. A show from somebody else could otherwise read any file of "
        "this machine, or of a server; and an archive could not put such a file back.",
        topics=("frequency", "air"),
    ),
    Code(
        "sweeps-many",
        "error",
        "the show lists more than {most} sweeps; the rest is not read",
        "list only those of this venue and this week",
        "Of all sweeps together the loudest level counts, so a few of the venue are enough. Their number is limited.",
        topics=("frequency", "air"),
    ),
    _read(
        "sweep-large",
        "error",
        "{name} holds more than {most} levels",
        "sweep only the bands in use, or with wider bins",
        "A sweep is held in memory as levels. More than this is not a sweep of one venue.",
        topics=("frequency", "air"),
    ),
)

TABLE: tuple[Code, ...] = (*_CARRIERS, *_AIR, *_SWEEPS)
