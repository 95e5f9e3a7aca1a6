"""Plots as people would draw them: who wears what in which scene, in every shape, and what each says as facts.

Scenes are known by their place, since a plot may call them by numbers, songs, sessions, days, cues or weeks. The words
are from memory of the trade, no source, and apart from `data/headings.toml` and `data/vocabulary.toml` on purpose.
"""

import io
from collections.abc import Sequence
from dataclasses import dataclass, field
from random import Random

import openpyxl
from openpyxl.styles import PatternFill
from openpyxl.worksheet.worksheet import Worksheet

from tests.intake.worlds import FIRST_NAMES, LAST_NAMES, ROLES, TITLES, Fact, Written, misspell

WORDS = {
    "en": {
        "performer": ["Actor", "Performer", "Name", "Singer", "Played by"],
        "role": ["Character", "Role", "Part"],
        "mic": ["Mic", "Channel", "Pack", "Mic no."],
        "frequency": ["Freq", "MHz", "Frequency"],
        "scene": ["Scene", "Sc"],
        "song": ["Song", "Number", "Title", "Musical number"],
        "session": ["Session", "Item", "Slot"],
        "day": ["Day", "Date", "Show"],
        "cue": ["Cue", "Q"],
        "week": ["Week", "Week no."],
    },
    "de": {
        "performer": ["Darsteller", "Name", "Sänger"],
        "role": ["Rolle", "Figur"],
        "mic": ["Mikro", "Sender", "Kanal"],
        "frequency": ["Frequenz", "MHz"],
        "scene": ["Szene", "Bild"],
        "song": ["Lied", "Titel", "Musiknummer", "Stück"],
        "session": ["Programmpunkt", "Block"],
        "day": ["Tag", "Datum"],
        "cue": ["Cue"],
        "week": ["Woche", "KW"],
    },
    "fr": {
        "performer": ["Comédien", "Nom", "Chanteur"],
        "role": ["Personnage", "Rôle"],
        "mic": ["Micro", "Liaison"],
        "frequency": ["Fréquence", "Fréq."],
        "scene": ["Scène", "Tableau"],
        "song": ["Chanson", "Morceau", "Titre"],
        "session": ["Séance", "Session"],
        "day": ["Jour", "Date"],
        "cue": ["Top"],
        "week": ["Semaine"],
    },
    "es": {
        "performer": ["Actor", "Nombre", "Cantante"],
        "role": ["Personaje", "Papel"],
        "mic": ["Micro", "Petaca"],
        "frequency": ["Frecuencia"],
        "scene": ["Escena"],
        "song": ["Canción", "Número", "Tema"],
        "session": ["Sesión"],
        "day": ["Día", "Fecha"],
        "cue": ["Cue"],
        "week": ["Semana"],
    },
}
SONGS = (
    "Ferry Song", "Low Water", "What the Lamp Saw", "Gloria", "Salt", "The Long Rope", "Goodnight, Harbour", "Reel",
    "Ave Maria", "Half Past", "Storm", "Bells",
)  # fmt: skip
DAYS = {
    "en": ("Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun"),
    "de": ("Montag", "Dienstag", "Mittwoch", "Donnerstag", "Freitag", "Samstag", "Sonntag"),
    "fr": ("lundi", "mardi", "mercredi", "jeudi", "vendredi", "samedi", "dimanche"),
    "es": ("lunes", "martes", "miércoles", "jueves", "viernes", "sábado", "domingo"),
}
TICKS = ("x", "X", "✓", "1", "•", "yes")
SIGNS = ("→", "/", " > ", " then ", "->", " → ")
NUMBERS = ("{}", "{}", "Mic {}", "M{}", "RM {}", "A{}", "0{}")
KINDS = ("decimal", "word", "acts", "song", "session", "day", "cue", "week")


@dataclass(slots=True)
class World:
    """Who is in what: names of people and roles, the mic of each, its frequency in MHz, and in each scene, by its place,
    the mics of everybody who is in it, one after the other."""

    people: list[str]
    roles: list[str]
    mics: list[int]
    mhz: list[str]
    worn: list[dict[int, list[int]]] = field(default_factory=list)


def write_plot(seed: int) -> Written:
    """The plot of a seed."""
    random = Random(f"plot {seed}")
    language = random.choice(list(WORDS))
    manner = {
        "language": language,
        "form": random.choice(("ticks", "ticks", "numbers", "numbers", "names", "names", "colours")),
        "way": random.choice(("scenes across", "scenes down")),
        "who": random.choice(("role", "performer", "both")),
        "scenes": random.choice(KINDS),
        "corner": random.choice(("headed", "headed", "blank")),
        "list": random.choice(("none", "beside", "own sheet", "own sheet first")),
        "moves": random.choice(("still", "moving", "handed on")),
        "sign": random.choice(SIGNS),
        "number": random.choice(NUMBERS),
        "tick": random.choice(TICKS),
        "tabs": random.choice(("", "", "", "old")),
        "heads": random.choice(("", "", "", "misspelled")),
    }
    if manner["form"] in ("ticks", "colours"):
        manner |= {"moves": "still"}
    if manner["form"] == "names":
        manner |= {
            "who": random.choice(("role", "performer")),
            "corner": "headed" if random.random() < 0.8 else "blank",
        }
    world = _draw_world(random, manner)
    book = openpyxl.Workbook()
    book.remove(book.active)
    if manner["list"] == "own sheet first":
        _write_list(random, book.create_sheet("RF"), world, manner)
    _write_grid(random, book.create_sheet("Plot"), world, manner)
    if manner["list"] == "own sheet":
        _write_list(random, book.create_sheet("RF"), world, manner)
    if manner["tabs"]:
        other = _draw_world(random, manner)
        _write_grid(random, book.create_sheet("OLD plot"), other, manner)
    buffer = io.BytesIO()
    book.save(buffer)
    return Written("plot.xlsx", buffer.getvalue(), frozenset(_list_facts(world, manner)), manner)


def _draw_world(random: Random, manner: dict[str, str]) -> World:
    count, scenes = random.randint(3, 6), random.randint(3, 7)
    names = zip(random.sample(FIRST_NAMES.split(), count), random.sample(LAST_NAMES.split(), count), strict=True)
    mhz = [f"{khz / 1000:.3f}" for khz in random.sample(range(470_000, 694_000, 25), count)]
    people, roles = [" ".join(name) for name in names], random.sample(ROLES.split(), count)
    world = World(people, roles, list(range(1, count + 1)), mhz)
    for _ in range(scenes):
        here = {who: [world.mics[who]] for who in range(count) if random.random() < 0.65}
        absent = [who for who in range(count) if who not in here]
        if manner["moves"] != "still" and here and absent and random.random() < 0.6:
            who = random.choice(list(here))
            free = world.mics[random.choice(absent)]
            if manner["form"] == "names" and manner["moves"] == "handed on":
                here[next(one for one in absent if world.mics[one] == free)] = [world.mics[who]]
            else:
                here[who] = [world.mics[who], free] if manner["moves"] == "handed on" else [free]
        world.worn.append(here)
    for who in range(count):  # everybody is on their own mic twice, so that it can be known which it is
        for scene in random.sample(range(scenes), 2) if manner["form"] != "ticks" else [who % scenes]:
            holders = [one for one, mics in world.worn[scene].items() if world.mics[who] in mics and one != who]
            for one in holders:
                del world.worn[scene][one]
            world.worn[scene][who] = [world.mics[who]]
    return world


def _list_facts(world: World, manner: dict[str, str]) -> list[Fact]:
    has_mics = manner["form"] in ("numbers", "names") or manner["list"] != "none"
    called = world.people if manner["who"] == "performer" and manner["list"] == "none" else world.roles
    if manner["who"] == "performer" and manner["list"] == "beside":
        called = world.people
    facts: list[Fact] = []
    for scene, here in enumerate(world.worn, 1):
        for who, mics in here.items():
            facts.append(("live", called[who], str(scene)))
            if has_mics:
                facts.append(("worn", called[who], str(scene), ">".join(map(str, mics))))
    if manner["list"] != "none":
        facts += [("frequency", str(mic), mhz.replace(".", "")) for mic, mhz in zip(world.mics, world.mhz, strict=True)]
    if manner["list"].startswith("own") or manner["who"] == "both":
        facts += [("plays", role, by) for role, by in zip(world.roles, world.people, strict=True)]
    return facts


def _write_list(random: Random, sheet: Worksheet, world: World, manner: dict[str, str]) -> None:
    words = WORDS[manner["language"]]
    sheet.append([random.choice(words[name]) for name in ("mic", "role", "performer", "frequency")])
    for mic, role, by, mhz in zip(world.mics, world.roles, world.people, world.mhz, strict=True):
        sheet.append([_number(mic, manner), role, by, mhz])


def _number(mic: int, manner: dict[str, str]) -> object:
    text = manner["number"].format(mic)
    return int(text) if text.isdigit() and text[0] != "0" else text


def _name_scenes(random: Random, count: int, manner: dict[str, str]) -> tuple[list[object], list[str]]:
    """The headings of the scenes, and the act over each."""
    word, kind = {"en": "Sc", "de": "Szene", "fr": "Scène", "es": "Escena"}[manner["language"]], manner["scenes"]
    half = (count + 1) // 2
    acts = ["ACT ONE" if at < half else "ACT TWO" for at in range(count)] if kind == "acts" else []
    numbers = {
        "decimal": lambda at: f"{1 if at < half else 2}.{at + 1 if at < half else at - half + 1}",
        "word": lambda at: f"{word} {at + 1}",
        "acts": lambda at: at + 1 if at < half else at - half + 1,
        "session": lambda at: (
            f"{['Session', 'Block', 'Séance', 'Sesión'][list(WORDS).index(manner['language'])]} {at + 1}"
        ),
        "day": lambda at: DAYS[manner["language"]][at],
        "cue": lambda at: f"Q{at * 7 + 3}",
        "week": lambda at: f"{['Week', 'KW', 'Semaine', 'Semana'][list(WORDS).index(manner['language'])]} {at + 31}",
    }
    songs = random.sample(SONGS, count)
    return [songs[at] if kind == "song" else numbers[kind](at) for at in range(count)], acts


def _write_grid(random: Random, sheet: Worksheet, world: World, manner: dict[str, str]) -> None:
    """The plot: rows of labels and cells with scenes across, turned where they go down."""
    labels, heads = _draw_labels(random, world, manner)
    scenes, acts = _name_scenes(random, len(world.worn), manner)
    rows: list[list[object]] = [[*heads, *scenes]]
    for at, label in enumerate(labels):
        rows.append([*label, *(_cell(world, here, at, manner) for here in world.worn)])
    if manner["way"] == "scenes down":
        rows = [list(row) for row in zip(*rows, strict=True)]
        kind = {"decimal": "scene", "word": "scene", "acts": "scene"}.get(manner["scenes"], manner["scenes"])
        rows[0][0] = "" if manner["corner"] == "blank" else random.choice(WORDS[manner["language"]][kind])
    top = [[title] for title in random.sample(TITLES, random.choice((0, 0, 1, 2)))]
    rows = _add_acts(rows, acts, len(heads), manner)
    rows = [*top, *([[]] if top else []), *rows]
    for number, row in enumerate(rows, 1):
        for column, value in enumerate(row, 1):
            if value == "#":
                sheet.cell(number, column).fill = PatternFill("solid", fgColor="FFCC66")
            elif value not in ("", None):
                sheet.cell(number, column, value)
    if acts and manner["way"] == "scenes across":
        start, first, half = len(top) + bool(top) + 1, len(heads) + 1, (len(scenes) + 1) // 2
        for left, right in ((first, first + half - 1), (first + half, len(heads) + len(scenes))):
            if right > left:
                sheet.merge_cells(start_row=start, start_column=left, end_row=start, end_column=right)


def _add_acts(rows: list[list[object]], acts: Sequence[str], left: int, manner: dict[str, str]) -> list[list[object]]:
    """The acts over the scenes: a row above, or titles between the rows."""
    if not acts:
        return rows
    if manner["way"] == "scenes across":
        marks = [act if at in (0, (len(acts) + 1) // 2) else "" for at, act in enumerate(acts)]
        return [[*[""] * left, *marks], *rows]
    half = left + (len(acts) + 1) // 2
    return [*rows[:left], [acts[0]], *rows[left:half], [acts[-1]], *rows[half:]]


def _draw_labels(random: Random, world: World, manner: dict[str, str]) -> tuple[list[list[object]], list[object]]:
    """What is beside each row of the grid, and the headings over it."""
    words = WORDS[manner["language"]]
    mics = [_number(mic, manner) for mic in world.mics]
    columns: list[tuple[str, list[object]]] = []
    if manner["form"] == "names":
        columns.append(("mic", mics))
    else:
        for name, listed in (("role", world.roles), ("performer", world.people)):
            if manner["who"] in (name, "both"):
                columns.append((name, list(listed)))
        if manner["list"] == "beside":
            columns.insert(random.choice((0, len(columns))), ("mic", mics))
    if manner["list"] == "beside":
        columns.append(("frequency", list(world.mhz)))
    heads: list[object] = [random.choice(words[name]) for name, _ in columns]
    if manner["heads"] == "misspelled":
        heads = [misspell(random, str(head)) for head in heads]
    if manner["corner"] == "blank" and len(columns) == 1:
        heads[0] = ""
    return [list(row) for row in zip(*(cells for _, cells in columns), strict=True)], heads


def _cell(world: World, here: dict[int, list[int]], at: int, manner: dict[str, str]) -> object:
    if manner["form"] == "names":
        called = world.people if manner["who"] == "performer" else world.roles
        holders = [who for who, mics in here.items() if world.mics[at] in mics]
        return manner["sign"].join(called[who] for who in holders)
    if at not in here:
        return ""
    if manner["form"] == "ticks":
        return int(manner["tick"]) if manner["tick"].isdigit() else manner["tick"]
    if manner["form"] == "colours":
        return "#"
    numbers = [_number(mic, manner) for mic in here[at]]
    return numbers[0] if len(numbers) == 1 else manner["sign"].join(map(str, numbers))
