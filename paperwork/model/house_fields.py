"""The fields of the production, its day, its air and its gear, in the order of the published schema."""

from typing import get_args

from paperwork.model import kinds as k
from paperwork.model.company import Day, PaperSize, Production, Spectrum, Times
from paperwork.model.gear import Console, Group, GroupKind, Other, OutputKind, Rack, RadioKind, RadioType
from paperwork.model.kinds import one_of
from paperwork.model.row import Field, Section, rows

# fmt: off
ZONE = Field("zone", k.TEXT,
             "The hall, stage or field where it is on, if zones do not reach each other.",
             "Field 1", "coordinator", "everywhere", "shared")
ASKED = Field("asked", k.FREQUENCY,
              "The frequency asked for, if it is not the one set now.", acts="coordinator",
              marks="venue")
GRANTED = Field("granted", k.GRANT, "The frequency the coordinator granted, or no.", acts="pack",
                default="no answer yet", marks="venue", attr="granted_hz refused")
MUST = Field("must", k.YES, "Yes if it must get a frequency, whoever goes without.", acts="know",
             default="no", label="Must have a frequency")
BILL = Field("bill", k.LINES, "The parts of the bill it is on in, as in early, late.", "early, late",
             "coordinator", "always", "shared", label="Bill times")
# fmt: on


COPIES = (1, 2, 3, 4)
"""The copies of an output."""

# fmt: off
OUTPUTS = tuple(
    Field(f"{kind} {copy}", k.OUTPUT, f"Where copy {copy} of the {kind} outputs goes, in slot order.", refers="consoles",
          label=f"{kind.capitalize()} output, copy {copy}", attr="outputs")
    for kind in get_args(OutputKind) for copy in COPIES
)
SHOW = Section(
    "show", Production, "show", "", "The production: what is at the head of every paper.", "know",
    rows(
        Field("title", k.TEXT, "The show's title.", "Glass Ferry", marks="required"),
        Field("company", k.TEXT, "Who puts it on.", "Quay Players"),
        Field("venue", k.TEXT, "Where it plays.", "Harbour Hall", "coordinator know", marks="venue"),
        Field("dates", k.DATES, "First and last day, as in 2027-03-02 to 2027-03-20, or one day.", acts="coordinator",
              marks="venue", attr="first_day last_day"),
        Field("revision", k.TEXT,
              "Letter or number of this version, printed on every paper and label.", "C",
              marks="aside"),
        Field("revised", k.MOMENT,
              "When this revision was made: a date, with or without a time of day, as in 2027-03-02 17:40.",
              marks="aside"),
        Field("reason", k.TEXT, "Why this revision was made.", "new packs", marks="aside"),
        Field("revisions", k.ITEMS, "Earlier revisions, in order. Papers say that they replace the last one.",
              "A, B", marks="aside"),
        Field("licence", k.TEXT, "The number of the licence to transmit.", "H-0001", "coordinator", marks="venue"),
        Field("licensed", k.DATES, "The days that the licence covers, as in 2027-03-01 to 2027-03-31.",
              "2027-03-01 to 2027-03-31", "coordinator", marks="venue", attr="licensed_from licensed_to"),
        Field("licensed for", k.TEXT, "The place that the licence covers.", "Harbour Hall", "coordinator", marks="venue"),
        Field("contact", k.TEXT, "Who answers for the radio plan, and how to reach them.", "Ira Holm, desk 3",
              marks="personal venue"),
        Field("returns", k.TEXT, "Where papers with pen marks go back to.", "sound office", marks="personal venue"),
        Field("paper", one_of(*get_args(PaperSize)), "The size of the papers.", default="A4", marks="aside venue"),
        Field("language", one_of("en", "de", "fr", "es"),
              "The language of the printed words: English, German, French or Spanish.", default="en", marks="aside"),
    ), attr="production",
)

DAY = Section(
    "day", Day, "day", "",
    "The day: when packs are on, when batteries are changed, and your own figures.", "wardrobe",
    {**rows(
        Field("power-up", k.TIMES,
              "When packs are switched on, a time of day, as in 17:15. Two on a day of two shows; with one, packs stay on "
              "between.",
              "17:15", "pack"),
        Field("checks", k.TIMES, "When the line check starts, a time of day; one for each show.", "17:30"),
        Field("half", k.TIMES, "The half: when packs go on, a time of day; one for each show.", "18:55",
              default="35 minutes before curtain up", label="The half"),
        Field("curtain", k.TIMES, "Curtain up, a time of day, as in 19:30; two on a day of two shows.", "19:30"),
        Field("interval", k.CLOCKS, "When an interval starts, as in 1:02 from curtain up."),
        Field("bows", k.CLOCKS,
              "When the bows are over, as in 2:20 from curtain up; one for each show where they differ, or are clock times.",
              "2:20"),
        Field("cells", k.CELLS, "When fresh batteries go in: power-up, half, interval, between.", acts="pack",
              default="the plan chooses", label="Fresh batteries"),
        Field("team", k.TEXT, "The cast or team that plays on this day.", "red", marks="shared"),
        Field("margin", k.FACTOR, "Batteries must last this many times the hours they are on.", acts="know",
              default="1.25"),
        Field("swap", k.SECONDS, "The least time for a pack to change bodies.", "90 s", "know", "90 s"),
        Field("swap handheld", k.SECONDS, "The least time for a handheld to change hands off stage.", "30 s", "know",
              "30 s", label="Swap, handheld"),
        Field("crossing", k.SECONDS, "How long it takes to cross behind the stage.", "60 s", "know", "60 s"),
        Field("chain", k.COUNT, "The most racks in a row on one antenna chain.", "4", "know", "4"),
        marks="venue",
    ),
    **rows(
        Field("times", one_of(*get_args(Times)),
              "How scenes, moves, intervals, bows and parts of the bill give times: from curtain up, with -0:20 before it, or as "
              "clock times, as in 19:05, after midnight 25:30 or with the date, 2027-07-11 10:00.",
              acts="know", default="curtain"),
    )},
)

SPECTRUM = Section(
    "spectrum", Spectrum, "spectrum", "", "What is on the air besides our own radios.", "know",
    rows(
        Field("region", k.TEXT, "The region whose TV channels count, as in Europe.", "Europe", "coordinator",
              marks="venue"),
        Field("raster", k.RASTERS,
              "The TV channels of a place that is in no region: the first and last number, and the edges of them all in MHz.",
              acts="coordinator", default="that of the region", marks="venue", label="TV raster"),
        Field("tv", k.IDS,
              "TV channels on the air at the venue, by number as in 21, 22 or by centre in MHz as in 529.833.",
              "21, 22", "coordinator", marks="venue", label="TV channels in use"),
        Field("weak tv", k.IDS,
              "TV channels on the air but weak at the venue: second choice, not a fault.", "23",
              "coordinator", marks="venue", label="Weak TV channels"),
        Field("keep clear", k.RANGES, "Ranges that no carrier may touch, as in 500-502.", "500-502", "coordinator",
              marks="venue"),
        Field("refused", k.FREQUENCIES,
              "Frequencies the coordinator refused here: nothing of ours is put on them again.",
              acts="coordinator", marks="venue", label="Refused frequencies"),
        Field("sweeps", k.LINES, "Sweep files, beside the show file.", "hall.csv", marks="venue"),
        Field("own transmitters", k.ON_OFF, "Whether our own transmitters were on during the sweeps.", marks="venue",
              label="Own transmitters in the sweeps", attr="own_on"),
        Field("sweep limit", k.LEVEL,
              "The most power in the bandwidth of a carrier that counts as free: in dBm, or above the noise floor, as in "
              "10 dB.", default="-85 dBm", marks="venue"),
        Field("sweep unit", one_of("dBm", "dBuV", "dBmV", "dBW"),
              "The unit of the levels, if a sweep file does not say it.", marks="venue"),
        Field("sweep impedance", one_of("50 ohm", "75 ohm"), "The impedance behind dBuV and dBmV in the sweeps.",
              default="50 ohm", marks="venue"),
        Field("zones apart", k.DECIBELS, "How much weaker a carrier of another zone has to be to be left out.", "60 dB",
              default="60 dB", marks="venue"),
        Field("close quarters", k.YES,
              "Yes if transmitters come so close together that even types without intermodulation make some.",
              default="no", marks="venue"),
        Field("fifth three-signal", k.YES, "Yes to count three-signal products of fifth order too.", default="no",
              label="Three-signal fifth order"),
    ),
)

RADIOS = Section(
    "radios", RadioType, "radio", "Radio types by id.", "What one kind of radio needs.", "pack coordinator",
    rows(
        Field("like", k.TEXT, "The radio type to copy, except for what is given here.", "belt",
              refers="radios", attr="-"),
        Field("kind", one_of(*get_args(RadioKind)), "Worn or held.", acts="pack", default="pack"),
        Field("tunes", k.RANGES, "What it can be tuned to, as in 486-516.", "486-516", "coordinator", marks="brief",
              label="Tuning range"),
        Field("step", k.STEP, "The tuning step, as in 25 kHz.", acts="coordinator"),
        Field("step from", k.FREQUENCY, "The frequency its steps count from.", "470.125", "coordinator",
              "0 MHz", label="Steps counted from", attr="step_from_hz"),
        Field("spots", k.FREQUENCIES, "The only frequencies it tunes to, if it has no step.",
              acts="coordinator", label="Spot frequencies"),
        Field("bandwidth", k.WIDTH, "The occupied bandwidth of one carrier.", "200 kHz", "coordinator", "200 kHz",
              "brief"),
        Field("apart", k.WIDTH, "Free spectrum needed between the edges of this carrier and its neighbour.", "100 kHz",
              "coordinator", "100 kHz"),
        Field("guard two-signal", k.WIDTH,
              "How near a product 2a-b may come to this carrier's centre. 0 kHz: not checked.", "100 kHz", "know",
              "100 kHz for carriers of 200 kHz, more for wider ones", label="Guard, two signals", attr="guard_two_hz"),
        Field("guard three-signal", k.WIDTH,
              "How near a product a+b-c may come to this carrier's centre. 0 kHz: not checked.", "100 kHz", "know",
              "100 kHz for carriers of 200 kHz, more for wider ones", label="Guard, three signals", attr="guard_three_hz"),
        Field("guard fifth-order", k.WIDTH,
              "How near a product 3a-2b may come to this carrier's centre. 0 kHz: not checked.", "90 kHz", "know",
              "90 kHz for carriers of 200 kHz, more for wider ones", label="Guard, fifth order", attr="guard_fifth_hz"),
        Field("intermodulation", k.YES, "Whether transmitters of this type make intermodulation products that matter.",
              acts="know", default="yes", label="Makes intermodulation", attr="makes_intermodulation"),
        Field("hours", k.HOURS, "How long a set of batteries lasts, as in 8 or 6:30.", acts="pack"),
        Field("power", k.TEXT, "The transmit power, as in 10 mW.", "10 mW"),
        Field("fit", k.TEXT, "The capsule connector. A head that cannot be changed is `fixed`.", "screw 4", "wardrobe"),
    ),
)

RACKS = Section(
    "racks", Rack, "rack", "Receiver racks by id, in the order of the papers.", "One rack of receivers.", "patch",
    rows(
        Field("channels", k.IDS, "The channels in slot order, as in 01-06. A dash is an empty slot.", "01-06",
              refers="channels", attr="-"),
        Field("slots", k.COUNT, "How many slots there are.", "6", default="as many as there are channels", attr="-"),
        Field("units", k.UNITS,
              "Slots of each receiver unit in order, as in 2, 2, 2. Digital connectors never carry slots of two units.",
              default="one unit; above 8 slots its strips are cut in fours"),
        Field("radio", k.TEXT, "The radio type of its channels, unless they name another.", "belt",
              refers="radios", attr="-"),
        Field("window", k.WINDOW, "The front-end passband in MHz, as in 486-508.", acts="patch coordinator",
              marks="brief"),
        Field("antenna", k.TEXT, "The antenna system that feeds the rack.", "stage left", marks="shared"),
        Field("place", k.TEXT, "Its place in the antenna chain, counting from the antenna.", "1", marks="brief"),
        Field("address", k.ADDRESS, "Its network address.", marks="unique"),
        Field("network", k.NETWORK, "The network of its address, as in 192.0.2.0/24."),
        Field("clock", k.TEXT,
              "Whose digital clock it follows: a rack or a desk; own if it is the leader.", "FOH",
              refers="racks consoles"),
        Field("rate", k.TEXT, "Its sample rate, as in 48 kHz.", "48 kHz"),
        *OUTPUTS,
        marks="venue",
    ), order="patch",
)

CONSOLES = Section(
    "consoles", Console, "console", "Desks and other destinations by id.",
    "Where outputs go: a desk, a recorder, a truck.", "patch",
    rows(
        Field("name", k.TEXT, "Its full name.", "Front of house desk", marks="brief"),
        Field("inputs", k.COUNT, "How many inputs it has.", "48", marks="brief"),
        Field("box", k.TEXT, "The stage box or panel where the cables land.", "box SL"),
        Field("jacks", k.IDS, "The jacks of the box in input order, as in 25-56.", "25-56",
              default="jack and input have one number"),
        Field("level", one_of("mic", "line"), "The level its inputs take."),
        Field("pad", one_of("in", "out"), "Its pad."),
        Field("phantom", one_of("on", "off"), "Its phantom power."),
        Field("isolated", k.YES, "Yes if its split is transformer isolated.", default="no"),
        Field("clock", k.TEXT,
              "Whose digital clock it follows: a rack or a desk; own if it is the leader.", "FOH",
              refers="racks consoles"),
        Field("rate", k.TEXT, "Its sample rate.", "48 kHz"),
        Field("converts", k.YES, "Yes if its digital inputs convert the sample rate.", default="no"),
        Field("letters", k.COUNT, "How many letters of a channel's name it shows.", "8", default="8"),
        Field("strip", k.COUNT, "How wide one fader is, in mm, for its name strip.", "25", default="no strip"),
        marks="venue",
    ),
)

OTHERS = Section(
    "others", Other, "other", "Other carriers by id.", "A carrier that is not one of our microphones.", "coordinator",
    rows(
        Field("kind", one_of("in-ear", "intercom", "neighbour"), "What it is.", marks="brief"),
        Field("radio", k.TEXT, "Its radio type: range, steps, bandwidth, distances, guards. What is given here counts first.",
              "ears", "pack coordinator", refers="radios", attr="radio_type"),
        Field("mhz", k.CARRIER, "Its carrier.", "536.500", "pack coordinator", marks="brief venue", label="Frequency",
              attr="hz"),
        MUST,
        Field("bandwidth", k.WIDTH, "Its occupied bandwidth, if other than that of its radio type.", "200 kHz", default="200 kHz"),
        Field("apart", k.WIDTH, "Free spectrum needed between its edges and any microphone, if other than that of its radio type.",
              "8 MHz", default="100 kHz"),
        Field("listeners", k.NAMES, "Who listens to it.", acts="wardrobe", marks="personal", refers="people"),
        Field("packs", k.IDS, "The receivers of the listeners, in the same order.", "E1-E2", "pack wardrobe",
              refers="transmitters"),
        Field("intermodulation", k.YES, "Whether it makes intermodulation products that matter.", acts="know",
              default="yes", label="Makes intermodulation", attr="makes_intermodulation"),
        ZONE,
        BILL,
        ASKED,
        GRANTED,
        Field("notes", k.TEXT, "Free words, for example what feeds it.", "mix 3", "know", marks="personal"),
    ),
)

GROUPS = Section(
    "groups", Group, "group", "Names that records share, declared so that a slip is found.",
    "A zone, a part of the bill, a group with one on at a time, a wide carrier, a team or an antenna system. The key is the "
    "name that records use.", "coordinator",
    rows(
        Field("kind", one_of(*get_args(GroupKind)), "What the name is for.", "bill", marks="required"),
        Field("name", k.TEXT, "Its full name, which records may use too.", "Main stage", "know"),
        Field("from", k.CLOCK, "When a part of the bill starts, as in 2:00 from curtain up, or clock time if day says so.", "2:00",
              default="its scenes' own"),
        Field("until", k.CLOCK, "When it ends.", "3:15", default="its scenes' own"),
        Field("attenuation", k.DECIBELS,
              "How much weaker a carrier gets through the walls of a zone. The walls of two zones add up; of two of which one states "
              "none, that of the other counts alone.", "35 dB",
              default="none of another zone that states none gets in"),
    ),
)

HOUSE = (SHOW, DAY, SPECTRUM, RADIOS, RACKS, CONSOLES, OTHERS, GROUPS)
# fmt: on
