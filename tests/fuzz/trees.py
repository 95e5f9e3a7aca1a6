"""Shows spoiled as trees: records doubled, fields from elsewhere, values of the wrong kind, whole sections swapped."""

import json
from copy import deepcopy
from functools import cache
from random import Random
from typing import Any

import yaml

from paperwork.model.fields import SECTIONS
from tests.fuzz.texts import SIGNS, pick_word, spoil_text

SINGLE = ("show", "day", "spectrum")


@cache
def parse_tree(data: bytes) -> Any:
    """The show as plain data, every scalar a text. Do not change it: copy it."""
    return yaml.load(data, yaml.BaseLoader)


def spoil_tree(data: bytes, dice: Random, other: bytes) -> str:
    """The show with one to five changes, as JSON, which is YAML too."""
    tree = deepcopy(parse_tree(data))
    lent = parse_tree(other)
    for _ in range(dice.choice((1, 1, 2, 2, 3, 5))):
        dice.choice(CHANGES)(tree, dice, lent)
    return dump_tree(tree)


def dump_tree(tree: Any) -> str:
    """The tree as JSON, a record a line."""
    return json.dumps(tree, ensure_ascii=False, indent=1 if len(str(tree)) < 20_000 else None)


def _records(tree: Any) -> list[tuple[dict, str]]:
    """Each place that holds a record: the map around it, and its key."""
    if not isinstance(tree, dict):
        return []
    return [
        (section, key)
        for name, section in tree.items()
        if isinstance(section, dict) and name not in SINGLE
        for key in section
    ]


def _fields(tree: Any) -> list[tuple[dict, str]]:
    """Each place that holds a field."""
    if not isinstance(tree, dict):
        return []
    homes = [section for name, section in tree.items() if name in SINGLE and isinstance(section, dict)]
    homes += [section[key] for section, key in _records(tree) if isinstance(section[key], dict)]
    return [(home, key) for home in homes for key in home]


def _leaf(dice: Random, old: Any) -> Any:
    roll = dice.random()
    if roll < 0.55:
        return pick_word(dice)
    if roll < 0.7 and isinstance(old, str):
        return spoil_text(old, dice, old)
    if roll < 0.8:
        return [pick_word(dice) for _ in range(dice.choice((0, 1, 2, 5, 40)))]
    if roll < 0.88:
        return {pick_word(dice): pick_word(dice) for _ in range(dice.choice((0, 1, 2, 5)))}
    if roll < 0.94:
        return (old if isinstance(old, str) else "x") + dice.choice(SIGNS)
    return {pick_word(dice): {pick_word(dice): [[]]}}


def _change_value(tree: Any, dice: Random, lent: Any) -> None:
    if found := _fields(tree):
        home, key = dice.choice(found)
        home[key] = _leaf(dice, home[key])


def _swap_values(tree: Any, dice: Random, lent: Any) -> None:
    found = _fields(tree)
    if len(found) > 1:
        (home, key), (other, name) = dice.sample(found, 2)
        home[key], other[name] = other[name], home[key]


def _drop_field(tree: Any, dice: Random, lent: Any) -> None:
    if found := _fields(tree):
        home, key = dice.choice(found)
        del home[key]


def _add_field(tree: Any, dice: Random, lent: Any) -> None:
    """A field that the section knows, with a value that stands somewhere in another show, or with nonsense."""
    section = dice.choice(list(SECTIONS))
    field = dice.choice(list(SECTIONS[section].fields))
    if not isinstance(tree.setdefault(section, {}), dict):
        tree[section] = {}
    home = tree[section]
    if section not in SINGLE:
        id = dice.choice(list(home)) if home and dice.random() < 0.8 else pick_word(dice)
        if not isinstance(home.setdefault(id, {}), dict):
            home[id] = {}
        home = home[id]
    values = [other[key] for other, key in _fields(lent) if key == field]
    home[field] = deepcopy(dice.choice(values)) if values and dice.random() < 0.5 else _leaf(dice, "")


def _double_record(tree: Any, dice: Random, lent: Any) -> None:
    if found := _records(tree):
        section, key = dice.choice(found)
        for number in range(dice.choice((1, 1, 1, 3, 60))):
            section[dice.choice((f"{key}{number}", f"0{key}", key.upper(), key + " ", pick_word(dice) or "x"))] = (
                deepcopy(section[key])
            )


def _rename_record(tree: Any, dice: Random, lent: Any) -> None:
    if found := _records(tree):
        section, key = dice.choice(found)
        section[pick_word(dice)] = section.pop(key)


def _drop_record(tree: Any, dice: Random, lent: Any) -> None:
    if found := _records(tree):
        section, key = dice.choice(found)
        del section[key]


def _lend_section(tree: Any, dice: Random, lent: Any) -> None:
    name = dice.choice(list(lent))
    tree[name] = {
        **deepcopy(lent[name]),
        **(tree.get(name) if isinstance(tree.get(name), dict) and dice.random() < 0.5 else {}),
    }


def _drop_section(tree: Any, dice: Random, lent: Any) -> None:
    if tree:
        del tree[dice.choice(list(tree))]


def _swap_sections(tree: Any, dice: Random, lent: Any) -> None:
    if len(tree) > 1:
        one, two = dice.sample(list(tree), 2)
        tree[one], tree[two] = tree[two], tree[one]


def _wrong_kind(tree: Any, dice: Random, lent: Any) -> None:
    if tree:
        key = dice.choice(list(tree))
        tree[key] = dice.choice(([], {}, "x", [tree[key]], {"a": tree[key]}, {"": {}}, {"a": "b"}))


def _add_overlay(tree: Any, dice: Random, lent: Any) -> None:
    """A row of a venue about something that is there, or is not."""
    found = _fields(tree)
    _, field = dice.choice(found) if found else ({}, "mhz")
    section = dice.choice(list(tree) or ["show"])
    home = tree.get(section)
    record = dice.choice(list(home)) if isinstance(home, dict) and home else pick_word(dice)
    rows = tree.setdefault("venues", {})
    if isinstance(rows, dict):
        rows[pick_word(dice)] = {
            "venue": "Pier",
            "section": section,
            "record": record,
            "field": field,
            "value": pick_word(dice),
        }


CHANGES = (
    _change_value,
    _change_value,
    _change_value,
    _swap_values,
    _drop_field,
    _add_field,
    _add_field,
    _add_field,
    _double_record,
    _rename_record,
    _drop_record,
    _lend_section,
    _drop_section,
    _swap_sections,
    _wrong_kind,
    _add_overlay,
)
