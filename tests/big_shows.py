"""Big random shows with hard names: 1 to 120 channels, 1 to 60 scenes, every paper's facts among them.

Built from a seed as plain data and read as a file would be, so that a failure is told by one number.
"""

from dataclasses import replace
from random import Random
from typing import Any

from paperwork.model import Show
from tests.strategies import clock, read_plain

GIVEN = (
    "Mara",
    "Ana",
    "Łukasz",
    "Nguyễn Thị",
    "Maximiliane",
    "Ștefan",
    "Ελένη",
    "Олена",
    "José",
    "Aoife",
    "Þorbjörg",
    "Bo",
    "Ấm",
    "Jean-Baptiste",
    "Ğülşen",
    "יעל",
    "محمد",
    "नेहा",
    "น้ำผึ้ง",
    "陈小明",
    "𠮷田 はなこ",
    "김민수",
)
FAMILY = (
    "Lind",
    "Cole",
    "Żółcik",
    "Ánh",
    "Sommerfeldt-Oppenheimer",
    "Ionescu",
    "Παπαδοπούλου",
    "Гнатюк",
    "Ñíguez",
    "Ní Bhriain",
    "O",
    "Ệnh",
    "van der Wijngaarden",
    "Çelik",
    "Quist",
    "בן-דוד",
    "عبد الله",
    "श्रीवास्तव",
    "ใจดีเสมอ",
    "(A2) צבי",
)
PARTS = (
    "VERA",
    "TOM",
    "THE HARBOURMASTER'S DAUGHTER",
    "ÁNH",
    "Quartermaster",
    "ΓΙΑΓΙΑ",
    "ЮНГА",
    "COOK",
    "GHOST OF THE OLD PIER",
    "JUDGE",
    "1ST GULL",
    "Ọjọ",
    "PILOT",
    "העדה הגדולה",
    "الربّان العجوز",
    "नाविक",
    "นางเงือกแห่งท่าเรือเก่า",
    "灯台守の娘",
    "선장",
)
PLACES = ("The quay", "A", "Ẩn dưới cầu", "The long and winding market street", "Завтра", "Storm", "Song: Tide", "")
SIDES = ("SL", "SR", "up centre", "")


def big_show(seed: int, channels: int = 0, scenes: int = 0) -> Show:
    """The show of a seed, of random size or of the one given."""
    dice = Random(seed)
    count = channels or dice.choice((1, 2, 3, 5, 8, 12, 12, 18, 24, 30, 48, 120))
    long = scenes or dice.choice((1, 2, 5, 9, 14, 14, 20, 30, 60))
    plain, roles = _channels(dice, count)
    plain["scenes"] = _scenes(dice, long, roles)
    plain["racks"] = _racks(dice, list(plain["channels"]))
    plain["moves"] = _moves(dice, plain["scenes"])
    plain["people"] = {
        name: {"pouch": f"{n:02d}", "belt": dice.choice("SML"), "room": str(n % 7 + 1)}
        for n, name in enumerate(_people(plain["channels"]), 1)
    }
    plain["others"] = {
        f"EARS {n}": {
            "kind": "in-ear",
            "mhz": f"{640 + n}.150",
            "listeners": [dice.choice(_people(plain["channels"]) or ["pit"])],
        }
        for n in range(1, dice.randint(1, 5))
    }
    plain["radios"] = {"belt": {"kind": "pack", "hours": "8"}, "hand": {"kind": "handheld", "hours": "6"}}
    paper = dice.choice(("A4", "A3", "Letter", "Tabloid"))
    plain["show"] = {
        "title": "Glass Ferry",
        "venue": "Harbour Hall",
        "revision": dice.choice(("A", "C", "AB", "12")),
        "revised": "2027-03-02 17:40",
        "revisions": ["A", "B"],
        "returns": "sound, stage left",
        "paper": paper,
        "language": dice.choice(("en", "de", "fr", "es")),
    }
    show = read_plain(plain)
    return replace(show, production=replace(show.production, paper=paper))


def _channels(dice: Random, count: int) -> tuple[dict[str, Any], list[list[str]]]:
    rows: dict[str, Any] = {}
    groups: list[list[str]] = []
    for number in range(1, count + 1):
        key = f"{number:0{max(2, len(str(count)))}d}"
        mhz = f"{470 + number * 600 // 1000}.{number * 600 % 1000:03d}" + dice.choice(("", "", "5"))
        if number > 1 and dice.random() < 0.1:
            rows[key] = {"spare": dice.choice(("belt", "hand")), "mhz": mhz, "pack": f"S{number}"}
            continue
        names = [f"{dice.choice(PARTS)} {number}{letter}" for letter in "ABC"[: dice.choice((1, 1, 1, 2, 3))]]
        rows[key] = {
            "shared": {role: f"{dice.choice(GIVEN)} {dice.choice(FAMILY)} {number}{role[-1]}" for role in names},
            "radio": dice.choice(("belt", "belt", "belt", "hand")),
            "capsule": dice.choice(("beige", "brown 2", "ivory, tape B")),
        } | ({"mhz": mhz} if dice.random() < 0.95 else {})
        groups.append(names)
    return {"channels": rows}, groups


def _scenes(dice: Random, count: int, groups: list[list[str]]) -> dict[str, Any]:
    timed = dice.random() < 0.7
    rows: dict[str, Any] = {}
    breaks = dice.choice((count + 1, max(1, count // 2), 9))
    for number in range(count):
        act, scene = number // breaks + 1, number % breaks + 1
        live = [role for roles in groups if (role := dice.choice([*roles, "", ""]))]
        rows[f"s{number:02d}"] = {
            "name": f"{act}.{scene} {dice.choice(PLACES)}".strip()
            if dice.random() < 0.9
            else dice.choice(PLACES) or "Coda",
            "act": f"Act {act}",
            "live": live,
        } | ({"at": clock(number * 240)} if timed else {})
    return rows


def _racks(dice: Random, channels: list[str]) -> dict[str, Any]:
    racks: dict[str, Any] = {}
    first = 0
    while first < len(channels):
        units = [dice.choice((1, 2, 4, 6)) for _ in range(dice.randint(1, 4))]
        slots = sum(units)
        held = (channels[first : first + slots] + ["-"] * slots)[:slots]
        racks[f"R{len(racks) + 1}"] = {
            "channels": held,
            "units": [str(unit) for unit in units],
            "analogue 1": f"FOH {first + 1}-{first + slots}",
        }
        first += slots
    return racks


def _moves(dice: Random, scenes: dict[str, Any]) -> dict[str, Any]:
    rows: dict[str, Any] = {}
    for key, scene in scenes.items():
        for role in scene["live"]:
            if dice.random() < 0.15:
                rows[f"m{len(rows)}"] = {
                    "role": role,
                    "scene": key,
                    "enter": dice.choice(SIDES),
                    "exit": dice.choice(SIDES),
                }
    return rows


def _people(channels: dict[str, Any]) -> list[str]:
    return [name for row in channels.values() for name in row.get("shared", {}).values()]
