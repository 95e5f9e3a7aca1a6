"""Papers in German, French and Spanish, whole: nothing of them is English, each number has its form, each place is filled.

What a show says itself is as it says it. Plural forms are those of Unicode CLDR 48 (cardinal rules of de, en, es and fr).
"""

import re
from collections.abc import Iterator, Mapping
from dataclasses import fields, is_dataclass, replace
from functools import cache

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from paperwork.document.facts import code
from paperwork.plan.covers import plan_tonight
from paperwork.reading import read_show
from paperwork.sheets import SHEETS, book
from paperwork.sheets.evening import page
from paperwork.text.words import LANGUAGES, decimal, join_times, list_words, say, words_of
from tests.few import few_examples
from tests.sheet_texts import texts_of
from tests.shows_text import EXAMPLES
from tests.strategies import shows

OTHERS = LANGUAGES[1:]
WORD = re.compile(r"[^\W\d_]{3,}")
OURS = {
    "pack",
    "handheld",
    "scene",
    "line",
    "mic",
    "own",
    "performer",
    "role",
    "rehearsal",
    "performance",
    "set",
    "segment",
}
"""Values of fields that a paper never prints as they are in the file."""

EXAMPLE = EXAMPLES / "show.yaml"
BILL = EXAMPLES.parent / "tests/data/festival.yaml"
MATCH = EXAMPLES.parent / "tests/near_misses/match-in-segments.yaml"
COUNTED = [key.removesuffix(" one") for key in words_of("en") if key.endswith(" one")]


def words_in(text: str) -> set[str]:
    return {word.casefold() for word in WORD.findall(re.sub(r"\{\w+\}", " ", text))}


@cache
def english_alone(language: str) -> frozenset[str]:
    """The words that English papers print, and no paper of the language."""
    ours, theirs = (set[str]().union(*map(words_in, words_of(one).values())) for one in ("en", language))
    return frozenset(ours - theirs)


def own_texts(value: object) -> Iterator[str]:
    """Every text of a show, without the names of its fields."""
    if isinstance(value, str):
        yield value
    elif is_dataclass(value):
        for field in (one for one in fields(value) if one.name != "where"):
            yield from own_texts(getattr(value, field.name))
    elif isinstance(value, Mapping):
        for id, one in value.items():
            yield from (f"{id} ", *own_texts(one))  # an id is the show's own, also where it is called as a value is
    elif isinstance(value, tuple | frozenset):
        for one in value:
            yield from own_texts(one)


LOANS = {
    "de": """act acts batt box checks clip clips clock code cover dbm digital display displays domain ear ears fader filter
    gain hand intercom intermodulation khz leader line lithium mhz mic min name pad patch pdf person plan rack racks raster
    region show signal slot slots src tape team transport warm was zone""",
    "fr": """capsule capsules cause change check clip clips clock code contact contacts coordination date dates dbm destination
    distances ear ears fader gain implant incident information intercom intermodulation khz line lithium mhz min minutes note
    notes pad page pages patch pdf placement plan production question rack racks radios second section signal signature
    silence slot slots split src table test transport type types volume word zone zones""",
    "es": "cable cables clip clips clock dbm digital ear ears fader intercom khz mhz min pad patch pdf plan rack racks radios "
    "slot slots src word",
}
"""Words that a text has in common with its English one: those that both languages have, and loanwords that crews say."""


@pytest.mark.parametrize("language", OTHERS)
def test_a_text_has_no_word_of_its_english_one_but_what_the_language_says(language):
    english, said = words_of("en"), set(LOANS[language].split())
    for key, text in words_of(language).items():
        assert words_in(text) & words_in(english[key]) <= said, key


@cache
def show_of(path):
    return read_show(path, path.name).show


def in_language(show, language):
    return replace(show, production=replace(show.production, language=language))


def printed(show) -> list[str]:
    """Every text of every paper of a show, of its book, and of an evening on which two people are off."""
    sheets = [sheet for paper in SHEETS for sheet in paper.make(show)]
    off = [name for name in dict.fromkeys(role.by for role in show.roles.values()) if name][:2]
    night = plan_tonight(show, off)
    dead = page.pair_spares(show, [*show.channels.values()][:2])
    sheets += page.make_sheets(
        show, night, dead, page.Night(bad=tuple((id, one.hz) for id, one in show.channels.items()))
    )
    unresolved = book.make_unresolved(show, (), [paper.name for paper in SHEETS])
    cautions = book.make_cautions(show, sheets)
    sheets += [book.make_cover(show, (), ("a.yaml", "b.csv")), unresolved, *([cautions] if cautions else [])]
    return [text for sheet in sheets for text in texts_of(sheet)]


def check_language(show, language) -> None:
    show = in_language(show, language)
    own = set[str]().union(*(words_in(text) for text in own_texts(show) if text not in OURS))
    foreign = english_alone(language) - own
    for text in printed(show):
        assert not words_in(text) & foreign, (text, words_in(text) & foreign)
        assert not re.search(r"[{}]|\bNone\b", text), text
        assert not re.search(r"\d\.\d+ dBm?\b|× \d+\.\d", text), f"{text}: a point in a figure that is no frequency"
        for key in COUNTED:
            assert not misnumbered(text, key, language), f"{text}: {key}"


@cache
def counted_patterns(key: str, language: str) -> tuple[re.Pattern[str], re.Pattern[str]] | None:
    """What `key one` and `key` look like, the number in a group; None where nothing sets them apart by a number."""
    one, many = (words_of(language)[name] for name in (f"{key} one", key))
    if one == many or "{count}" not in many:
        return None
    made = (
        re.compile(re.sub(r"\\\{(\w+)\\\}", lambda m: r"(\d+)" if m[1] == "count" else ".+", re.escape(text)))
        for text in (one, many)
    )
    first, second = made
    return first, second


def misnumbered(text: str, key: str, language: str) -> bool:
    """Whether the text is a counted phrase in the form of another number."""
    patterns = counted_patterns(key, language)
    if patterns is None:
        return False
    singular = {"fr": ("0", "1")}.get(language, ("1",))
    one, many = (pattern.fullmatch(text) for pattern in patterns)
    return bool((one and one[1] not in singular and not many) or (many and many[1] in singular and not one))


@settings(max_examples=few_examples(30), deadline=None)
@given(show=shows, language=st.sampled_from(OTHERS))
def test_no_paper_of_a_random_show_is_partly_english_or_has_a_wrong_form(show, language):
    check_language(show, language)


@pytest.mark.parametrize("language", OTHERS)
@pytest.mark.parametrize("path", (EXAMPLE, BILL, MATCH), ids=lambda path: path.stem)
def test_no_paper_of_a_musical_a_bill_or_a_match_is_partly_english_or_has_a_wrong_form(path, language):
    check_language(show_of(path), language)


@pytest.mark.parametrize("language", LANGUAGES)
def test_a_counted_phrase_has_the_form_of_its_number(language):
    """One in German, English and Spanish is 1; in French it is 0 too."""
    parts = dict.fromkeys(("ids", "rack", "racks", "first", "last", "unit", "pages", "stated", "all"), "X")
    assert len(COUNTED) > 10
    for key in COUNTED:
        for count in (0, 1, 2, 11, 21):
            wanted = f"{key} one" if count == 1 or (count == 0 and language == "fr") else key
            assert say(language, key, count=count, **parts) == words_of(language)[wanted].format(count=count, **parts)


def test_some_phrases_in_the_singular():
    assert say("de", "battery count", count=1) == "1 Sender bekommt neue Batterien"
    assert say("fr", "stamp channels", ids="03", count=1) == "canal 03"
    assert say("fr", "stamp channels", ids="03–05", count=3) == "canaux 03–05"
    assert say("es", "spectrum racks", racks="R1", count=1) == "rack R1"


NAMES = "name|names|role|roles|off|on|by|leader|side|title|firm|venue|contact|scene|one|two"


def test_no_french_phrase_sets_a_word_before_a_name_that_would_have_to_be_elided():
    """`de Aoife` would be `d’Aoife`, and whether a name is elided before no rule of letters says: so no phrase asks for it."""
    for key, text in words_of("fr").items():
        assert not re.search(
            rf"\b(de|que|le|la|du|au|si|ne|jusque)[ \u00a0\u202f]\{{({NAMES})\}}", text, re.IGNORECASE
        ), key


def test_spanish_and_gives_way_before_the_sound_of_i():
    """Ortografía de la lengua española, from memory: e before i- and hi-, but y before a diphthong."""
    assert list_words(("Noor", "Ingrid"), "es") == "Noor e Ingrid"
    assert list_words(("Noor", "Íñigo"), "es") == "Noor e Íñigo" and list_words(("sal", "hilo"), "es") == "sal e hilo"
    assert (
        list_words(("sal", "hielo"), "es") == "sal y hielo" and list_words(("Ana", "Yolanda"), "es") == "Ana y Yolanda"
    )
    assert list_words(("Anna", "Ingrid"), "fr") == "Anna et Ingrid"


UNITS = "mm|min|s|h|m|MHz|kHz|dBm|V|Slots?|slots?"


@pytest.mark.parametrize("language", OTHERS)
def test_a_unit_holds_to_its_number(language):
    for key, text in words_of(language).items():
        assert not re.search(rf"[\d}}] ({UNITS})(?![\w’])", text), key


def test_figures_have_the_sign_of_the_language_and_a_minus_of_their_own():
    assert decimal("-97.4", "de") == decimal("-97.4", "fr") == decimal("-97.4", "es") == "−97,4"
    assert decimal("-97.4", "en") == "−97.4" and decimal("1.25", "de") == "1,25"


def test_a_range_has_spaces_where_its_ends_have_one():
    assert join_times("14:00", "15:15") == "14:00–15:15" and join_times("Sa 11:00", "So 23:30") == "Sa 11:00 – So 23:30"


@pytest.mark.parametrize("language", LANGUAGES)
def test_what_a_missing_paper_lacks_is_said_under_the_title_that_it_has_elsewhere(language):
    shown = [in_language(show_of(path), language) for path in (EXAMPLE, BILL)]
    several = {"week-grids", "swap-sheets"}
    for paper in SHEETS:
        title, colon, lacks = re.split(r"(\u202f?: )", words_of(language)[f"lacks {paper.name}"], maxsplit=1)[:3]
        sheets = next(made for show in shown if (made := paper.make(show)))
        assert colon and lacks, paper.name
        if paper.name not in several and ": " not in sheets[0].title.replace("\u202f", ""):
            assert sheets[0].title.startswith(title), paper.name


@pytest.mark.parametrize("language", OTHERS)
def test_the_code_of_an_evening_does_not_depend_on_its_language(language):
    show = show_of(EXAMPLE)
    codes = []
    for one in (show, in_language(show, language)):
        dead, bad = page.pair_spares(one, [one.channels["07"]]), (("10", one.channels["10"].hz),)
        (sheet,) = page.make_sheets(one, plan_tonight(one, ["Noor Haddad"]), dead, page.Night(bad=bad))
        codes.append(code(sheet))
    assert codes[0] == codes[1]
