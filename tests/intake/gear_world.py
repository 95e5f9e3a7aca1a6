"""Gear and people as lists of the world outside say them: columns of random manners beside the channels, and their facts.

The words are from memory of the trade, no source, and apart from `data/headings.toml` and `data/vocabulary.toml` on purpose.
"""

from decimal import Decimal
from random import Random

HEADS = {
    "en": {
        "place": ["Receiver", "RX", "Rack pos"],
        "rack": ["Rack"],
        "slot": ["Slot", "RX slot", "Slot no."],
        "input": ["Desk in", "Console ch", "FOH in", "Desk ch"],
        "box": ["Stage box", "SB"],
        "jack": ["Jack", "Box in"],
        "gain": ["Gain", "Gain (dB)", "Sens"],
        "power": ["RF power", "Power (mW)"],
        "cells": ["Batteries", "Batt", "Cells"],
        "serial": ["Serial", "Serial no.", "S/N"],
        "room": ["Room", "Dressing room"],
        "colour": ["Colour", "Mic colour"],
        "backup": ["Backup freq", "Freq 2", "Spare freq"],
        "second": ["2nd pack", "Backup pack", "Second pack"],
        "ear": ["IEM freq"],
    },
    "de": {
        "place": ["Empfänger", "Empf."],
        "rack": ["Gestell", "Rack"],
        "slot": ["Einschub", "Platz", "Slot"],
        "input": ["Pult", "Pult-Eingang"],
        "box": ["Stagebox", "Bühnenbox"],
        "jack": ["Buchse"],
        "gain": ["Gain (dB)", "Empfindlichkeit"],
        "power": ["Sendeleistung", "Leistung (mW)"],
        "cells": ["Batterien", "Akku", "Zellen"],
        "serial": ["Seriennummer", "Serien-Nr."],
        "room": ["Garderobe", "Gard."],
        "colour": ["Hautton", "Farbe"],
        "backup": ["Ersatzfrequenz", "Ausweichfrequenz"],
        "second": ["Zweitsender", "2. Sender"],
        "ear": ["IEM-Frequenz"],
    },
    "fr": {
        "place": ["Récepteur"],
        "rack": ["Baie", "Rack"],
        "slot": ["Emplacement", "Slot"],
        "input": ["Entrée console", "Tranche"],
        "box": ["Boîtier de scène", "Boîtier"],
        "jack": ["Prise"],
        "gain": ["Gain", "Sensibilité"],
        "power": ["Puissance (mW)", "Puissance HF"],
        "cells": ["Piles"],
        "serial": ["N° de série", "Numéro de série"],
        "room": ["Loge"],
        "colour": ["Couleur", "Teinte"],
        "backup": ["Fréq. de secours", "Fréquence secours"],
        "second": ["Micro de secours", "2e émetteur"],
        "ear": ["Fréq. retour"],
    },
    "es": {
        "place": ["Receptor"],
        "rack": ["Rack", "Bastidor"],
        "slot": ["Ranura", "Slot"],
        "input": ["Entrada", "Entrada mesa"],
        "box": ["Cajetín"],
        "jack": ["Toma"],
        "gain": ["Ganancia", "Ganancia (dB)"],
        "power": ["Potencia (mW)", "Potencia"],
        "cells": ["Pilas"],
        "serial": ["Nº de serie"],
        "room": ["Camerino"],
        "colour": ["Color"],
        "backup": ["Frecuencia de reserva", "Frec. alternativa"],
        "second": ["Segunda petaca"],
        "ear": ["Frecuencia IEM"],
    },
    "it": {
        "place": ["Ricevitore"],
        "rack": ["Rack"],
        "slot": ["Slot", "Posizione"],
        "input": ["Ingresso", "Ingresso mixer"],
        "box": ["Stagebox"],
        "jack": ["Presa"],
        "gain": ["Guadagno", "Gain"],
        "power": ["Potenza (mW)"],
        "cells": ["Batterie"],
        "serial": ["Numero di serie"],
        "room": ["Camerino"],
        "colour": ["Colore"],
        "backup": ["Frequenza di riserva"],
        "second": ["Secondo trasmettitore"],
        "ear": ["Frequenza IEM"],
    },
    "nl": {
        "place": ["Ontvanger"],
        "rack": ["Rek", "Rack"],
        "slot": ["Slot", "Positie"],
        "input": ["Ingang", "Mengtafel"],
        "box": ["Stagebox"],
        "jack": ["Box ingang"],
        "gain": ["Gain"],
        "power": ["Zendvermogen (mW)"],
        "cells": ["Batterijen"],
        "serial": ["Serienummer"],
        "room": ["Kleedkamer"],
        "colour": ["Kleur"],
        "backup": ["Reservefrequentie"],
        "second": ["Tweede zender"],
        "ear": ["IEM frequentie"],
    },
    "sv": {
        "place": ["Mottagare"],
        "rack": ["Rack"],
        "slot": ["Plats", "Slot"],
        "input": ["Ingång", "Bordsingång"],
        "box": ["Scenlåda", "Stagebox"],
        "jack": ["Uttag"],
        "gain": ["Gain", "Känslighet"],
        "power": ["Effekt (mW)"],
        "cells": ["Batterier"],
        "serial": ["Serienummer"],
        "room": ["Loge"],
        "colour": ["Färg"],
        "backup": ["Reservfrekvens"],
        "second": ["Andra sändaren"],
        "ear": ["IEM frekvens"],
    },
}

CELLS = ("2xAA", "2 x AA", "AA rechargeable", "Li-ion")
ROOMS = ("2", "14", "Green room", "A3")
COLOURS = ("tan", "beige", "cocoa", "5")

BLOCKS = {
    "en": ("Production", "Venue", "Sound", "Updated", "Dates"),
    "de": ("Produktion", "Spielort", "Ton", "Stand", "Termine"),
    "fr": ("Spectacle", "Lieu", "Son", "Mise à jour", "Représentations"),
    "es": ("Obra", "Sala", "Sonido", "Actualizado", "Funciones"),
    "it": ("Spettacolo", "Luogo", "Suono", "Aggiornato", "Repliche"),
    "nl": ("Voorstelling", "Locatie", "Geluid", "Bijgewerkt", "Speeldata"),
    "sv": ("Föreställning", "Plats", "Ljud", "Uppdaterad", "Föreställningar"),
}
TITLES = ("The Glass Ferry", "Harbour Lights", "Faust in the Barn")
HOUSES = ("Quay Playhouse", "Stadttheater Birkenau", "Salle du Port")
KEEPERS = ("Ira Holm", "Ira Holm, ext 214", "K. Ohm")
DAYS = (("14.3.2027", "2027-03-14"), ("2027-03-14", "2027-03-14"))
RUNS = (("2.3.2027 - 20.3.2027", "2027-03-02 to 2027-03-20"), ("2027-03-02 to 2027-03-20", "2027-03-02 to 2027-03-20"))

MANNERS = {
    "place": ("", "", "one column", "two columns", "letters"),
    "desk": ("", "", "input", "input", "input and jack"),
    "pack": ("", "", "gain and cells", "serial and power"),
    "wearer": ("", "", "room", "colour"),
    "pair": ("", "", "", "backup", "second"),
    "ears": ("", "", "", "ears"),
    "block": ("", "", "colon", "cells"),
}

Column = list[object]
Facts = set[tuple[str, ...]]


def draw_manners(random: Random) -> dict[str, str]:
    """How a list says gear and people."""
    return {name: random.choice(ways) for name, ways in MANNERS.items()}


def draw_block(random: Random, manner: dict[str, str]) -> tuple[list[list[object]], Facts]:
    """The rows above the table that say what the show is, and what they say."""
    if not manner["block"]:
        return [], set()
    day, run = random.choice(DAYS), random.choice(RUNS)
    said = (random.choice(TITLES), random.choice(HOUSES), random.choice(KEEPERS), day, run)
    rows: list[list[object]] = []
    facts: Facts = set()
    for label, field, text in zip(
        BLOCKS[manner["language"]], ("title", "venue", "contact", "revised", "dates"), said, strict=True
    ):
        if field != "title" and random.random() < 0.4:
            continue
        written, meant = text if isinstance(text, tuple) else (text, text)
        rows.append([f"{label}: {written}"] if manner["block"] == "colon" else [label, written])
        facts.add(("show", field, meant))
    return rows, facts


def draw_columns(random: Random, channels: list[dict[str, str]], manner: dict[str, str]) -> tuple[list[Column], Facts]:
    """The columns of gear and people, each with its heading, and the facts that they say."""
    heads = {name: random.choice(words) for name, words in HEADS[manner["language"]].items()}
    columns: list[Column] = []
    facts: Facts = set()

    def add(head: str, name: str, cells: list[object], said: list[str]) -> None:
        columns.append([heads[head], *cells])
        facts.update((name, one["channel"], text) for one, text in zip(channels, said, strict=True) if text)

    _add_places(random, channels, manner, add)
    if manner["desk"]:
        first = random.choice((1, 1, 17))
        numbers = [str(first + at) for at in range(len(channels))]
        add("input", "desk", list(map(int, numbers)), numbers)
        if manner["desk"] == "input and jack":
            columns.append([heads["box"], *("SL" for _ in channels)])
            jacks = [str(at + 1) for at in range(len(channels))]
            add("jack", "jack", list(map(int, jacks)), jacks)
    _add_packs(random, channels, manner, add, heads)
    _add_people(random, channels, manner, add)
    _add_pairs(random, channels, manner, add)
    return columns, facts


def _add_places(random, channels, manner, add) -> None:
    size = random.choice((2, 4))
    places = [(at // size + 1, at % size + 1) for at in range(len(channels))]
    said = [f"R{rack}.{slot}" for rack, slot in places]
    if manner["place"] == "one column":
        sign = random.choice("-/.")
        add("place", "slot", [f"R{rack}{sign}{slot}" for rack, slot in places], said)
    elif manner["place"] == "two columns":
        add("rack", "", [f"R{rack}" for rack, _ in places], ["" for _ in places])
        add("slot", "slot", [slot for _, slot in places], said)
    elif manner["place"] == "letters":
        add("place", "slot", [f"{rack}{'ABCD'[slot - 1]}" for rack, slot in places], [text[1:] for text in said])


def _add_packs(random, channels, manner, add, heads) -> None:
    if manner["pack"] == "gain and cells":
        gains = [random.choice(("-6", "0", "+6", "-12")) for _ in channels]
        gains[0] = "-6"
        add("gain", "gain", gains, [f"{gain} dB" for gain in gains])
        cells = [random.choice(CELLS) for _ in channels]
        add("cells", "cells", cells, cells)
    elif manner["pack"] == "serial and power":
        serials = [f"S-{1000 + 7 * at}" for at in range(len(channels))]
        add("serial", "serial", serials, serials)
        unit = " mW" if "mW" in heads["power"] else ""
        powers = [random.choice(("10", "30", "50")) for _ in channels]
        add("power", "power", [int(power) for power in powers], [f"{power}{unit}" for power in powers])


def _add_people(random, channels, manner, add) -> None:
    words = {"room": ROOMS, "colour": COLOURS}.get(manner["wearer"])
    if words:
        texts = ["" if "spare" in one else random.choice(words) for one in channels]
        add(manner["wearer"], manner["wearer"], texts, texts)
    if manner["ears"]:
        khz = [str(610_000 + 450 * at) for at in range(len(channels))]
        said = ["" if "spare" in one else text for one, text in zip(channels, khz, strict=True)]
        add("ear", "ear", [f"{Decimal(text) / 1000:.3f}" if text else "" for text in said], said)


def _add_pairs(random, channels, manner, add) -> None:
    khz = [str(650_000 + 525 * at) for at in range(len(channels))]
    if manner["pair"] == "backup":
        said = [
            "" if "spare" in one or random.random() < 0.3 else text for one, text in zip(channels, khz, strict=True)
        ]
        add("backup", "backup", [f"{Decimal(text) / 1000:.3f}" if text else "" for text in said], said)
    elif manner["pair"] == "second":
        said = ["" if "spare" in one or random.random() < 0.4 else f"{20 + at}" for at, one in enumerate(channels)]
        add("second", "second", [int(text) if text else "" for text in said], said)
