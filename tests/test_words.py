"""The words of every language: the same keys, the same places, nothing forgotten, and dates as people write them."""

import ast
import re
from string import Formatter

import pytest

from paperwork.model.fields import SECTIONS
from paperwork.resources import find_folder, read_toml
from paperwork.text.glyphs import missing_glyphs
from paperwork.text.words import LANGUAGES, format_date, list_words, words_of
from tests.test_house import MODULES

OTHERS = LANGUAGES[1:]

BY_VALUE = {"mic", "line"}
"""Words whose key is a value of the show."""


def places_in(text: str) -> set[str]:
    return {name for _, name, _, _ in Formatter().parse(text) if name is not None}


def test_every_file_of_words_is_a_language_that_a_show_can_ask_for():
    files = {path.stem for path in (find_folder("data") / "words").glob("*.toml")}
    assert files == set(LANGUAGES) == set(SECTIONS["show"].fields["language"].kind.choices)


@pytest.mark.parametrize("language", OTHERS)
def test_a_language_has_the_keys_of_english_in_its_order(language):
    assert list(words_of(language)) == list(words_of("en"))


@pytest.mark.parametrize("language", OTHERS)
def test_every_text_has_the_places_of_the_english_one(language):
    english = words_of("en")
    for key, text in words_of(language).items():
        assert places_in(text) == places_in(english[key]), key
        assert bool(text) == bool(english[key]), key


@pytest.mark.parametrize("language", LANGUAGES)
def test_every_word_can_be_drawn(language):
    table = read_toml(f"words/{language}.toml")
    for text in (*words_of(language).values(), *table["months"], table["date"], table["first-of-month"]):
        assert missing_glyphs(text) == (), text


def keys_asked_in(node: ast.AST) -> list[str]:
    """The plain keys for which a node asks: `w["..."]`, `phrase(show, "...")`, `frame_sheet(show, name, "...")`."""
    asked: list[ast.expr] = []
    if isinstance(node, ast.Subscript) and ast.unparse(node.value) == "w":
        asked = [node.slice]
    elif isinstance(node, ast.Call) and isinstance(node.func, ast.Name):
        asked = {"phrase": node.args[1:2], "frame_sheet": node.args[2:3]}.get(node.func.id, [])
        asked += [one for pair in node.keywords if pair.arg == "cautions" for one in getattr(pair.value, "elts", ())]
    parts = [part for one in asked for part in ((one.body, one.orelse) if isinstance(one, ast.IfExp) else (one,))]
    return [one.value for one in parts if isinstance(one, ast.Constant) and isinstance(one.value, str)]


def test_every_word_is_used_and_every_word_used_exists():
    """Keys are plain strings in the code; those made of parts (`head {kind}`) are told by their beginning."""
    known, used, begun = set(words_of("en")), set(), set()
    for path in MODULES:
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
            if isinstance(node, ast.Constant) and isinstance(node.value, str):
                used.add(node.value)
            if isinstance(node, ast.JoinedStr) and isinstance(node.values[0], ast.Constant):
                begun.add(node.values[0].value)
            for key in keys_asked_in(node):
                assert key in known, f"{path.name}: {key}"
    beginnings = tuple(part for part in begun if len(part) > 3)
    assert {key for key in known - used if not key.startswith(beginnings)} <= BY_VALUE


@pytest.mark.parametrize(
    ("language", "first", "second"),
    (
        ("en", "1 March 2027, 16:20", "12 August 2027"),
        ("de", "1. März 2027, 16:20", "12. August 2027"),
        ("fr", "1er mars 2027, 16:20", "12 août 2027"),
        ("es", "1 de marzo de 2027, 16:20", "12 de agosto de 2027"),
    ),
)
def test_dates_are_written_as_people_write_them(language, first, second):
    assert format_date("2027-03-01 16:20", language) == first
    assert format_date("2027-08-12", language) == second
    assert format_date("", language) == ""


def test_a_list_is_joined_in_its_language():
    assert [list_words(x, "de") for x in ((), "a", "ab", "abc")] == ["", "a", "a und b", "a, b und c"]
    assert list_words("ab", "es") == "a y b"


def test_a_word_of_no_language_is_english():
    assert words_of("xx") is words_of("en")


@pytest.mark.parametrize("language", OTHERS)
def test_a_translation_is_no_copy(language):
    """Whole sentences that are the same in two languages were forgotten."""
    english = words_of("en")
    same = [
        key
        for key, text in words_of(language).items()
        if text == english[key] and len(re.findall(r"[^\W\d_]{3,}", text)) > 3
    ]
    assert [key for key in same if key != "label foot"] == []


SIDES = re.compile(r"\b(left|right|links|rechts|gauche|droite|jardin|cour|izquierd\w*|derech\w*|izq)\b", re.IGNORECASE)

SPEAK_OF_SIDES = {"left", "right", "piece", "programming step 4"}
"""Halves of a digital pair, pieces of a strip that is cut, and the right receiver, which is no side."""


@pytest.mark.parametrize("language", LANGUAGES)
def test_no_word_names_a_side_of_the_stage(language):
    """Left of an actor is right of a house in some countries: a side is printed as the show calls it, and never translated."""
    said = {key for key, text in words_of(language).items() if SIDES.search(text)}
    assert said <= SPEAK_OF_SIDES
    for key in ("exits", "enters", "swaps side", "swap carry", "swap comes"):
        assert "{side}" in words_of(language)[key] and not SIDES.search(words_of(language)[key])


def test_french_double_signs_hold_to_their_words_and_apostrophes_are_curly():
    for key, text in words_of("fr").items():
        assert "'" not in text, key
        assert not re.search(r"[ \u00a0][;:!?](\s|$)", text), key
        assert not re.search(r"\w[;:!?](\s|$)", text), key


@pytest.mark.parametrize("language", ("de", "es", "en"))
def test_other_languages_set_no_space_before_a_sign(language):
    for key, text in words_of(language).items():
        if " : s" not in text:
            assert not re.search(r"\s[;:!?](\s|$)", text), key
