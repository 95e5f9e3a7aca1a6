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
        "{remedy}",
        "Levels are read in the unit that the file states, or that `sweep unit` states, or in dBm where half of them are "
        "between -200 and -30 dBm and not all are equal. Anything else is not guessed: microvolts read as milliwatts would "
        "be wrong by 107 dB.",
        advice="add `sweep unit` to spectrum, or correct it; where the unit is right, sweep again",
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
