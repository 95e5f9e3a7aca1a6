"""The words of every language: the same keys, the same places, nothing forgotten, and dates as people write them."""

import ast
import re
from string import Formatter

import pytest

from paperwork.codes import CODES
from paperwork.commands import COMMANDS
from paperwork.model.fields import SECTIONS
from paperwork.resources import find_folder, read_toml
from paperwork.text.glyphs import missing_glyphs
from paperwork.text.words import LANGUAGES, format_date, list_words, words_of
from tests.modules import MODULES, PACKAGE, nodes_of
from tests.test_codes import MANNERED

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
        for node in nodes_of(path):
            if isinstance(node, ast.Constant) and isinstance(node.value, str):
                used.add(node.value)
            if isinstance(node, ast.JoinedStr) and isinstance(node.values[0], ast.Constant):
                begun.add(node.values[0].value)
            for key in keys_asked_in(node):
                assert key in known, f"{path.name}: {key}"
    beginnings = tuple(part for part in begun if len(part) > 3)
    of_one = {key for key in known if key.endswith(" one") and key.removesuffix(" one") in used}
    assert {key for key in known - used - of_one if not key.startswith(beginnings)} <= BY_VALUE


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


def read_glossary(language: str) -> dict[str, tuple[list[str], list[str]]]:
    """Of each thing in the table of tests/WORDS.md: its words in the language, and those that are not used."""
    lines = (PACKAGE.parent / "tests" / "WORDS.md").read_text(encoding="utf-8").splitlines()
    rows = [[cell.strip() for cell in line.strip("|").split("|")] for line in lines if line.startswith("|")]
    at = rows[0].index(language)
    cells = {row[0]: row[at].partition(", not ")[::2] for row in rows[2:]}
    return {
        thing: (
            [word.strip() for word in used.split(",") if word.strip()],
            [word.strip() for word in unused.split(",") if word.strip()],
        )
        for thing, (used, unused) in cells.items()
    }


@pytest.mark.parametrize("language", LANGUAGES)
def test_a_thing_has_one_word_on_every_paper_of_a_language(language):
    said = "\n".join(re.sub(r"\{\w+\}", "", text) for text in words_of(language).values()).replace("\u202f", " ")
    glossary = read_glossary(language)
    assert len(glossary) > 40
    for thing, (used, unused) in glossary.items():
        for word in used:
            assert re.search(rf"\b{re.escape(word)}", said, re.IGNORECASE), f"{thing}: nothing says {word}"
        for word in unused:
            assert not re.findall(rf".*\b{re.escape(word)}\w{{0,2}}\b.*", said, re.IGNORECASE), f"{thing}: not {word}"


def test_english_papers_are_plain():
    assert {key for key, text in words_of("en").items() if MANNERED.search(re.sub(r"\{\w+\}", "", text))} == set()


@pytest.mark.parametrize("language", LANGUAGES)
def test_apostrophes_are_curly_in_every_language(language):
    assert {key for key, text in words_of(language).items() if "'" in text} == set()


QUOTES = {"en": "“”", "de": "„“", "fr": "«»", "es": "«»"}


@pytest.mark.parametrize("language", LANGUAGES)
def test_quotes_and_ranges_have_one_style_in_each_language(language):
    """A range of figures has a dash without spaces; words between two figures are words."""
    for key, text in words_of(language).items():
        assert set(text) & set("\"'„“”‘«»") <= set(QUOTES[language]), key
        assert not re.search(r"\}( – |-)\{", text), key


TWO_THINGS = {"batteries", "desk"}
"""A cell is also one of a sheet, and a console is a section of the show file."""


def test_findings_fields_and_help_have_the_words_of_the_papers():
    codes = (" ".join((code.says, code.fix, code.advice, code.explains)) for code in CODES.values())
    fields = (
        " ".join((section.description, field.title, field.help, field.default))
        for section in SECTIONS.values()
        for field in section.fields.values()
    )
    said = re.sub(r"\{\w+\}", "", "\n".join((*codes, *fields, *COMMANDS.values())))
    unused = {word for thing, (_, words) in read_glossary("en").items() if thing not in TWO_THINGS for word in words}
    assert len(unused) > 4 and [word for word in unused if re.search(rf"\b{word}s?\b", said, re.IGNORECASE)] == []
