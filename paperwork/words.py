"""The words printed on papers, and dates, by language. Findings and explanations stay English.

A sheet asks for `words_of(show.production.language)`; adding a language is adding a table here with the same keys.
"""

from collections.abc import Mapping

MONTHS = {
    "en": (
        "January", "February", "March", "April", "May", "June",
        "July", "August", "September", "October", "November", "December",
    ),
}

WORDS: Mapping[str, Mapping[str, str]] = {
    "en": {
        "page": "{n} of {m}",
        "continued": "{title}, continued",
        "replaces": "Replaces revision {revision}. Destroy it.",
        "returns": "Pen changes go back to {returns}",
        "signed": "by",
        "ruler": "100 mm: print at actual size",
        "label foot": "{show}  ·  {title}  ·  revision {revision} {code}  ·  {page}",
        "label pack": "pack {pack}",
        "date": "{day} {month} {year}",
        "stamp": "NOT CHECKED CLEAN: {count} unresolved. Ask sound before you use this sheet.",
        "rack": "Rack {rack}",
        "no rack": "Not in a rack",
        "channels": "Channels",
        "window": "window {low} to {high} MHz",
        "antenna": "antenna {antenna}",
        "antenna place": "antenna {antenna}, place {place}",
        "clock": "clock {clock}",
        "spare": "SPARE",
        "spare for": "for {channels}",
        "spare for all": "for all",
        "second pack": "second pack of {channel}",
        "empty": "empty",
        "and": "and",
        "to": "to",
        "from scene": "{name} from {scene}",
        "swaps": "swap ×{count}",
        "tv": "TV {channel}",
        "channel chart": "Channel chart",
        "chart order": "in rack order",
        "chart order plain": "in channel order",
        "head channel": "Channel",
        "head role": "Role, on tonight",
        "head frequency": "Frequency, MHz",
        "head pack": "Pack, slot",
        "head capsule": "Capsule",
        "head desk": "Desk, notes",
        "pack labels": "Pack labels",
        "patch sheet": "Patch sheet",
        "patch order": "rear of the racks, slot by slot",
        "head slot": "Slot",
        "head role only": "Role",
        "head analogue": "Analogue {copy}",
        "head digital": "Digital {copy}, pairs",
        "head network": "Network {copy}",
        "jack": "jack {jack}",
        "input": "input {input}",
        "mic": "mic",
        "line": "line",
        "pad in": "pad in",
        "pad out": "pad out",
        "phantom on": "phantom ON",
        "isolated": "isolated",
        "converts": "converts",
        "left": "left",
        "right": "right",
        "stream": "stream {rack}, {slot}",
        "goes nowhere": "–",
        "dead pack": "Dead pack, frequency clean",
        "dead pack 1": "Switch the dead pack off and take its cells out. Be sure that it is off.",
        "dead pack 2": "Take spare pack {pack}, set it to the dead pack's frequency, and read it off its display.",
        "dead pack 2 any": "Take a spare pack, set it to the dead pack's frequency, and read it off its display.",
        "dead pack 3": "Nothing moves at the rack or at the desk. Write it in the log.",
        "bad frequency": "Bad frequency, pack sound",
        "bad frequency 1": "Give the performer spare pack {pack}: channel {channel}, slot {slot}.",
        "bad frequency 2": "At the desk, route {inputs} to the role's strip.",
        "bad frequency 3": "Leave the old channel muted and its receiver as it is. Tell every desk, and the log.",
        "no spare": "No spare channel is declared for this rack. Decide now whose channel is given up.",
        "licence caution": (
            "A clear plan is not a permission: use only frequencies licensed for this place and these dates. "
            "Check local rules."
        ),
        "licence caution told": (
            "A clear plan is not a permission: use only frequencies licensed for this place and these dates "
            "({licence}). Check local rules."
        ),
        "patch caution": (
            "Phantom off before patching. Never lift a safety earth to cure hum: isolate the leg. PA down and in-ears "
            "out before a line check."
        ),
        "privacy caution": "A worn pack is on the air off stage too: keep to the house's mute and switch-off rule.",
        "cell caution": (
            "Never charge primary cells or mix cells. Recycle lithium cells with their ends taped. Keep vents free."
        ),
        "tonight": "Tonight",
        "tonight off": "Off: {names}",
        "tonight same": "Nobody is off.",
        "tonight labels": "Labels for tonight",
        "tonight on": "Who is on",
        "tonight not on": "Nobody covers this",
        "tonight instead": "for {name}",
        "tonight swaps": "Swaps that are new tonight",
        "tonight swaps gone": "Swaps that fall away",
        "tonight idle": "Not worn tonight, cells out: {packs}",
        "tonight head role": "Role",
        "tonight head scenes": "Scenes",
        "tonight head who": "On tonight",
        "tonight head pack": "Channel",
        "tonight head pouch": "Pouch",
        "tonight head capsule": "Capsule",
        "tonight head when": "Before",
        "tonight head off": "Comes off",
        "tonight head goes": "Goes on",
        "tonight head time": "Time",
        "tonight whole show": "whole show",
        "tonight write": "who",
        "second channel": "and {channel}",
        "exits": "off {side}",
        "enters": "on {side}",
        "seconds": "{seconds} s",
        "minutes": "{minutes} min",
        "at least": "{time} or more",
        "in vision": "in vision",
        "not timed": "not timed",
        "tonight dead": "Dead pack {pack}: {title}",
        "tonight dead off": "Switch pack {pack} off and take its cells out. Be sure that it is off.",
        "tonight dead set": "Take spare pack {spare}. Set it to {settings}. Read it off its display.",
        "tonight dead blank": "Take spare pack {spare}. ITS FREQUENCY IS NOT CERTAIN: ask, and write it here: ______.______",
        "tonight dead capsule": "Put capsule {capsule} on it. Nothing moves at the rack or at the desk.",
        "tonight dead stay": "Nothing moves at the rack or at the desk.",
        "tonight dead log": "Log:  ____:____  channel {channel} {title}: pack {pack} dead, now {spare}, {mhz} MHz.  By ______",
        "tonight dead none": "No spare reaches channel {channel}. Decide now whose channel is given up.",
        "display": "display {display}",
        "gain": "gain {gain}",
        "locked": "keys locked",
    },
}


def words_of(language: str) -> Mapping[str, str]:
    """The words of a language; English for one that has no table."""
    return WORDS.get(language, WORDS["en"])


def format_date(moment: str, language: str) -> str:
    """An ISO date, with a time of day if it has one, as people write it: `1 March 2027, 16:20`."""
    day, _, time = moment.partition(" ")
    if not day:
        return ""
    year, month, number = day.split("-")
    names = MONTHS.get(language, MONTHS["en"])
    told = words_of(language)["date"].format(day=int(number), month=names[int(month) - 1], year=year)
    return f"{told}, {time}" if time else told
