"""Lists as people would write them: a small random show, written down in a random manner, and what it says as facts.

The words here are from memory of the trade, no source, and apart from `data/headings.toml` and `data/vocabulary.toml` on purpose: a list of the
world outside does not know that table. Some headings are in no table at all.
"""

import csv
import io
from dataclasses import dataclass, field
from decimal import Decimal
from random import Random

import openpyxl

from tests.intake.gear_world import draw_block, draw_columns, draw_manners

FIRST_NAMES = "Mara Max Ana Tomas Rhea Imke Piet Bo Noor Leif Jun Zoë Oda Ilse Ravi Cleo"
LAST_NAMES = "Lind Ried Cole Quell Lund Vos Arends Dahl Haddad Holm Okabe Falk Brenner Oyelaran Marsh Tennant"
ROLES = (
    "VERA HARROW QUILL WIDOW SAILOR KEEPER BAKER CRIER MILLER GOVERNESS LAMPLIGHTER COOPER Duchess Pilot Wren Oberlin"
)

HEADS = {
    "en": {
        "channel": ["Mic", "Ch", "Mic #", "Channel", "RF ch", "Mic No.", "No."],
        "performer": ["Actor", "Performer", "Played by", "Artist", "Cast member", "Presenter", "Singer", "Wearer"],
        "role": ["Character", "Role", "Part", "Character name"],
        "frequency": ["Freq", "Frequency", "MHz", "Freq (MHz)", "RF freq", "Tuned to"],
        "pack": ["Pack", "Beltpack", "Transmitter", "Pack no."],
        "capsule": ["Capsule", "Mic type", "Element", "Lav"],
        "notes": ["Notes", "Comments", "Remarks"],
    },
    "de": {
        "channel": ["Kanal", "Nr.", "Mikro", "Strecke", "Mikro-Nr."],
        "performer": ["Darsteller", "Darsteller:in", "Schauspieler", "Künstler", "Besetzung"],
        "role": ["Rolle", "Figur"],
        "frequency": ["Frequenz", "Freq.", "Frequenz (MHz)", "MHz"],
        "pack": ["Sender", "Taschensender"],
        "capsule": ["Kapsel", "Mikrofonkopf"],
        "notes": ["Bemerkung", "Notiz", "Anmerkungen"],
    },
    "fr": {
        "channel": ["Voie", "Micro", "HF", "N°", "Liaison"],
        "performer": ["Comédien", "Interprète", "Artiste", "Comédien·ne", "Chanteur"],
        "role": ["Personnage", "Rôle"],
        "frequency": ["Fréquence", "Fréq.", "Fréquence (MHz)"],
        "pack": ["Émetteur", "Ceinture"],
        "capsule": ["Capsule", "Cellule"],
        "notes": ["Remarques", "Observations"],
    },
    "es": {
        "channel": ["Canal", "Micro", "Nº", "Línea"],
        "performer": ["Actor", "Actriz", "Intérprete", "Cantante"],
        "role": ["Personaje", "Papel"],
        "frequency": ["Frecuencia", "Frec.", "Frecuencia (MHz)"],
        "pack": ["Petaca", "Transmisor"],
        "capsule": ["Cápsula"],
        "notes": ["Notas", "Observaciones"],
    },
    "it": {
        "channel": ["Canale", "Radiomicrofono", "N."],
        "performer": ["Attore", "Interprete", "Cantante"],
        "role": ["Ruolo", "Personaggio"],
        "frequency": ["Frequenza", "Freq."],
        "pack": ["Trasmettitore"],
        "capsule": ["Capsula"],
        "notes": ["Note", "Osservazioni"],
    },
    "nl": {
        "channel": ["Kanaal", "Zender", "Nr"],
        "performer": ["Acteur", "Speler", "Zanger"],
        "role": ["Rol", "Personage"],
        "frequency": ["Frequentie", "Freq"],
        "pack": ["Beltpack"],
        "capsule": ["Capsule"],
        "notes": ["Opmerkingen"],
    },
    "sv": {
        "channel": ["Kanal", "Mygga", "Nr"],
        "performer": ["Skådespelare", "Artist", "Sångare"],
        "role": ["Roll", "Rollfigur"],
        "frequency": ["Frekvens"],
        "pack": ["Sändare"],
        "capsule": ["Kapsel"],
        "notes": ["Anmärkningar", "Övrigt"],
    },
}
ODD = {"performer": ["Who has it", "Voice", "Human"], "role": ["As", "Plays"], "capsule": ["Head end"]}
"""Headings that nobody can know: they must be asked about, or kept as notes under themselves."""

NOISE = {
    "Costume": ["blue coat", "apron", "", "tails"],
    "Tape": ["", "hypo", "std"],
    "Wig?": ["yes", "", "no"],
    "Hire no.": ["A-1044", "A-1201", "B-77", ""],
    "Checked": ["", "ok"],
    "Phone": ["01632 960101", "01632 960455", "01632 960777"],
}
SPARE = {
    "en": "SPARE",
    "de": "Reserve",
    "fr": "Secours",
    "es": "Reserva",
    "it": "Scorta",
    "nl": "Reserve",
    "sv": "Reserv",
}
TITLES = ("THE GLASS FERRY", "Mic list", "Rev C", "Printed for the band call", "v3")
NOTES = ("", "", "sweats", "tape on the left", "talks loudly", "swap before the ball")

Fact = tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Written:
    """A list as a file, the facts that it says, and how it was written."""

    name: str
    data: bytes
    facts: frozenset[Fact]
    manner: dict[str, str] = field(compare=False)


def write_list(seed: int) -> Written:
    """The list of a seed."""
    random = Random(seed)
    channels = _draw_channels(random)
    language = random.choice(list(HEADS))
    manner = {
        "language": language,
        "file": random.choice(("csv", "xlsx", "xlsx")),
        "frequency": random.choice(("point", "comma", "MHz", "kHz", "number", "kilohertz")),
        "number": random.choice(("plain", "zero", "word")),
        "way": random.choice(("down", "down", "down", "across")),
        "preset": random.choice(("", "", "", "two columns", "one column")),
        "grid": random.choice(("", "", "beside")),
        "names": random.choice(("first", "first", "last")),
        "odd": random.choice(("", "", "", "odd heading")),
        "heads": random.choice(("", "", "repeated")),
    }
    manner |= draw_manners(random)
    more = Random(f"{seed} more")  # apart, so that what came later changes no list of before
    manner |= {
        "tabs": more.choice(("", "", "", "old")) if manner["file"] == "xlsx" else "",
        "spelling": more.choice(("", "", "", "misspelled")),
        "groups": more.choice(("", "", "", "merged")) if manner["file"] == "xlsx" and manner["way"] == "down" else "",
    }
    if manner["way"] == "across":
        manner |= {"heads": "", "grid": ""}
    columns, facts = _draw_columns(random, channels, manner)
    if manner["spelling"]:
        slips = [misspell(more, str(column[0])) if more.random() < 0.35 else column[0] for column in columns]
        columns = [[head, *column[1:]] for head, column in zip(slips, columns, strict=True)]
    block, said = draw_block(random, manner)
    facts |= said
    rows = [list(row) for row in zip(*columns, strict=True)]
    words = _draw_groups(more, len(columns)) if manner["groups"] else []
    if manner["heads"] and len(rows) > 5:
        rows[4:4] = [[], rows[0]]
    if manner["way"] == "across":
        rows = [list(row) for row in zip(*rows, strict=True)]
    titles = block or [[title] for title in random.sample(TITLES, random.choice((0, 0, 1, 2, 3)))]
    rows = [*titles, *([[]] if titles and random.random() < 0.6 else []), *rows]
    if words:
        rows.insert(len(rows) - len(channels) - 1 - (2 if [] in rows[-len(channels) :] else 0), words)
    old = _draw_old(more, channels, manner) if manner["tabs"] else []
    data = _write_csv(random, rows, manner) if manner["file"] == "csv" else _write_workbook(rows, words, old)
    return Written(f"list.{manner['file']}", data, frozenset(facts), manner)


def _draw_channels(random: Random, count: int = 0) -> list[dict[str, str]]:
    """Two to nine channels, or a given count, the last of them perhaps a spare; what some do not say is left out."""
    count = count or random.randint(2, 9)
    khz = random.sample(range(470_000, 694_000, 25), count)
    names = [
        f"{first} {last}"
        for first, last in zip(
            random.sample(FIRST_NAMES.split(), count), random.sample(LAST_NAMES.split(), count), strict=True
        )
    ]
    roles, gaps = random.sample(ROLES.split(), count), random.random() < 0.3
    channels = []
    for at in range(count):
        one = {"channel": str(at + 1), "performer": names[at], "role": roles[at], "frequency": str(khz[at])}
        one |= {
            "pack": f"P{random.randint(1, 3)}{at}",
            "capsule": random.choice(("tan", "beige", "cocoa")),
            "notes": random.choice(NOTES),
        }
        if at and at == count - 1 and random.random() < 0.4:
            one |= {"spare": "yes", "performer": "", "role": "", "notes": ""}
        elif gaps and random.random() < 0.3:
            one[random.choice(("role", "frequency", "pack", "capsule"))] = ""
        channels.append(one)
    return channels


def _draw_columns(
    random: Random, channels: list[dict[str, str]], manner: dict[str, str]
) -> tuple[list[list[object]], set[Fact]]:
    """The columns in their order, each with its heading, and the facts that they say."""
    heads = HEADS[manner["language"]]
    fields = ["channel", *random.sample(("performer", "role"), random.choice((1, 2, 2, 2))), "frequency"]
    fields += [name for name in ("pack", "capsule", "notes") if random.random() < 0.45]
    if random.random() < 0.4:
        random.shuffle(fields)
    who = next(name for name in fields if name in ("performer", "role"))
    columns: list[list[object]] = []
    facts: set[Fact] = set()
    used: set[str] = set()
    for name in fields:
        head = random.choice([one for one in heads[name] if one not in used])
        if manner["odd"] and name in ODD and random.random() < 0.5:
            head = random.choice(ODD[name])
        used.add(head)
        cells = [_cell(one, name, manner, who) for one in channels]
        columns.append([head, *cells])
        facts |= {(name, one["channel"], one[name]) for one in channels if one[name]}
    facts |= {("spare", one["channel"], "yes") for one in channels if "spare" in one}
    for head in random.sample(list(NOISE), random.choice((0, 0, 1, 2))):
        columns.insert(random.randint(1, len(columns)), [head, *(random.choice(NOISE[head]) for _ in channels)])
    columns += _draw_preset(random, channels, manner)
    more, said = draw_columns(random, channels, manner)
    columns, facts = columns + more, facts | said
    if manner["grid"] and "role" in fields:
        for number in range(1, random.randint(3, 6)):
            on = [bool(one["role"]) and random.random() < 0.6 for one in channels]
            columns.append([f"Sc {number}", *("x" if live else "" for live in on)])
            facts |= {("live", one["role"], str(number)) for one, live in zip(channels, on, strict=True) if live}
    return columns, facts


def _draw_preset(random: Random, channels: list[dict[str, str]], manner: dict[str, str]) -> list[list[object]]:
    """A radio's own preset, which is no number of ours."""
    presets = [(random.randint(1, 8), random.randint(1, 24)) for _ in channels]
    if manner["preset"] == "two columns":
        return [["Group", *(group for group, _ in presets)], ["Channel", *(number for _, number in presets)]]
    if manner["preset"] == "one column":
        return [["Preset", *(f"{group:02d}-{number:02d}" for group, number in presets)]]
    return []


def _cell(one: dict[str, str], name: str, manner: dict[str, str], who: str) -> object:
    text = one[name]
    if name == who and "spare" in one:
        return SPARE[manner["language"]]
    if not text:
        return ""
    if name == "channel":
        return {"plain": int(text), "zero": text.zfill(2), "word": f"Mic {text}"}[manner["number"]]
    if name == "performer" and manner["names"] == "last":
        return ", ".join(reversed(text.split()))
    if name != "frequency":
        return text
    mhz = Decimal(text) / 1000
    forms = {
        "point": f"{mhz:.3f}",
        "comma": f"{mhz:.3f}".replace(".", ","),
        "MHz": f"{mhz:.3f} MHz",
        "kHz": f"{text} kHz",
    }
    return forms.get(manner["frequency"]) or {"number": float(mhz), "kilohertz": int(text)}[manner["frequency"]]


def _write_csv(random: Random, rows: list[list[object]], manner: dict[str, str]) -> bytes:
    out = io.StringIO()
    sign = ";" if manner["frequency"] == "comma" else random.choice((",", ";", "\t"))
    width = max(map(len, rows))
    csv.writer(out, delimiter=sign).writerows([*row, *[""] * (width - len(row))] for row in rows)
    return out.getvalue().encode(random.choice(("utf-8", "utf-8-sig", "cp1252")))


def misspell(random: Random, word: str) -> str:
    """A heading with two letters the wrong way round, or one too few; a short one as it is."""
    if len(word) < 6 or " " in word:
        return word
    at = random.randint(1, len(word) - 3)
    return word[:at] + word[at + 1] + word[at] + word[at + 2 :] if random.random() < 0.5 else word[:at] + word[at + 1 :]


def _draw_groups(random: Random, width: int) -> list[object]:
    """Words above the headings, each over several of them."""
    words: list[object] = [""] * width
    start = 0
    for word in random.sample(("WHO", "RF", "AUDIO", "STAGE"), 3):
        if start < width - 1:
            words[start] = word
        start += random.randint(2, 4)
    return words


def _draw_old(random: Random, channels: list[dict[str, str]], manner: dict[str, str]) -> list[list[object]]:
    """Last week's list: other people on other frequencies under the same numbers."""
    others = [
        other | {"channel": one["channel"]}
        for one, other in zip(channels, _draw_channels(random, len(channels)), strict=True)
    ]
    columns, _ = _draw_columns(random, others, manner | {"grid": ""})
    return [list(row) for row in zip(*columns, strict=True)]


def _write_workbook(rows: list[list[object]], words: list[object], old: list[list[object]]) -> bytes:
    book = openpyxl.Workbook()
    book.active.title = "Mics"
    for row in rows:
        book.active.append([None if value == "" else value for value in row])
    at = next((number for number, row in enumerate(rows, 1) if row is words), 0)
    starts = [column for column, word in enumerate(words, 1) if word]
    for start, end in zip(starts, [*starts[1:], len(words) + 1], strict=False):
        if end - start > 1:
            book.active.merge_cells(start_row=at, start_column=start, end_row=at, end_column=end - 1)
    for row in old:
        sheet = book["Mics old"] if "Mics old" in book.sheetnames else book.create_sheet("Mics old")
        sheet.append([None if value == "" else value for value in row])
    buffer = io.BytesIO()
    book.save(buffer)
    return buffer.getvalue()
