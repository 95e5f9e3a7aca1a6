"""Codes of sweeps: what they show, and what keeps them from being read."""

from functools import partial

from paperwork.codes.row import Code

_read = partial(Code, stage="read")
_RETUNE = "{at}/mhz={clean}"

TABLE: tuple[Code, ...] = (
    Code(
        "sweep-loud",
        "warning",
        "the sweep shows {level} dBm in the {width} kHz of {name} on {mhz} MHz{share}; the limit is {limit} dBm{floor}",
        "find out what is there, or choose another frequency{nearest}",
        "All power within the bandwidth of the carrier adds up to more than the limit: -85 dBm unless `sweep limit` "
        "says otherwise. Of several sweeps the highest counts. Reported only if our own transmitters were off during "
        "the sweep.",
        edit=_RETUNE,
        decides=True,
    ),
    Code(
        "sweep-tv",
        "warning",
        "the sweep shows {level} dBm in TV channel {tv}, which the show does not list; {name} on {mhz} MHz is in it",
        "find out whether it is on the air, and choose another frequency{nearest}",
        "This channel is filled evenly from edge to edge, as television does, above the limit. A carrier in it catches "
        "only its share of that power, and is disturbed all the same.",
        edit=_RETUNE,
        decides=True,
    ),
    Code(
        "tv-unlisted",
        "warning",
        "the sweep shows TV {which} {seen}, which the show does not list",
        "if that is television, write `{edit}` in spectrum",
        "A TV channel of the region is filled evenly from edge to edge, above the limit. Once it is listed, nothing is "
        "placed there, and every paper shows it. If it is weak where it matters, list it in `weak tv` instead.",
        advice="if that is television, add it to `tv` in spectrum",
        edit="spectrum/tv={tv}",
        decides=True,
    ),
    Code(
        "sweep-noisy",
        "warning",
        "the noise floor of {name} is {floor} dBm in {width} kHz, above the limit of {limit} dBm: it cannot show what "
        "is free",
        "sweep again with less attenuation or smaller bins; if the air was quiet, write `{edit}` in spectrum",
        "The noise floor is the level that a fifth of the sweep stays below, counted in whole megahertz. Either it is "
        "the noise of the receiver, or most of the sweep is in use. Carriers with nothing 10 dB above it are named "
        "here, not one by one.",
        advice="sweep again with less attenuation or smaller bins, or set `sweep limit` above the noise floor",
        edit="spectrum/sweep limit={margin}",
        decides=True,
    ),
    Code(
        "sweep-coarse",
        "warning",
        "the bins of {names} are up to {widest} kHz wide, a carrier only {width} kHz",
        "sweep with bins no wider than a carrier: in a wide bin a narrow signal looks weaker than it is",
        "The level of a bin is spread evenly over its width, and a carrier gets its share. That is right for "
        "television and noise, too little for another radio microphone in the bin.",
    ),
    Code(
        "sweep-short",
        "warning",
        "no sweep covers {missing} MHz of {what}",
        "sweep that too: what was not measured may not be clean",
        "A part of a window, or of a carrier outside all windows, was not swept, so it does not count as clean.",
    ),
    Code(
        "sweep-own-untold",
        "warning",
        "nobody has said whether our own transmitters were on during the sweeps",
        "add `{edit}` to spectrum, or on",
        "With them off, a level under a carrier is somebody else. With them on it may be us, and is left out.",
        advice="add `own transmitters: off` to spectrum, or on",
        edit="spectrum/own transmitters=off",
        decides=True,
    ),
    _read(
        "sweep-line",
        "warning",
        "{which} not part of a sweep",
        "write frequency and level, for example 486.200,-97.3; the other lines are used",
        "A line of a sweep is a frequency and a level; or lower edge, upper edge and level; or date, time, lowest and "
        "highest hertz, bin width, number of samples and levels. After lines with start, stop and number of points, a "
        "row may be levels only. Lines before the first of these are the head. Others are left out and listed.",
    ),
    _read(
        "sweep-unit",
        "error",
        "{name} is not used: {why}",
        "{remedy}",
        "The unit of the levels comes from the file, from `sweep unit`, or is dBm if half of them are between -200 and "
        "-30 and not all are equal. It is never guessed: microvolts read as milliwatts would be wrong by 107 dB.",
        advice="add `sweep unit` to spectrum, or correct it; if the unit is right, sweep again",
        topics=("frequency", "air"),
    ),
    _read(
        "sweep-columns",
        "error",
        "{name} is not used: any of its {count} columns could be the level",
        "write a first line that names the columns, for example frequency MHz, level dBm",
        "Of several levels the highest held is used, by its heading: max or peak before level, level before average. "
        "Without headings only two columns are read, frequency and level, or three, lower edge, upper edge and level.",
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
        "sweep-outside",
        "error",
        "the sweep {name} is outside the show's folder, so it is not read",
        "move it beside the show file, or below, and name it by its path from there",
        "A show may use only files below its own folder. If not, a show from somebody else could read any file of this "
        "machine or a server, and an archive could not put such a file back.",
        topics=("frequency", "air"),
    ),
    Code(
        "sweeps-many",
        "error",
        "the show lists more than {most} sweeps; the rest is not read",
        "list only those of this venue and this week",
        "The loudest level of all sweeps counts, so a few of the venue are enough.",
        topics=("frequency", "air"),
    ),
    _read(
        "sweep-large",
        "error",
        "{name} holds more than {most} levels",
        "sweep only the bands in use, or with wider bins",
        "No sweep of one venue has this many levels.",
        topics=("frequency", "air"),
    ),
)
