"""One style for dates, ranges, figures and marks in each language, in the words and on the papers.

Intervals of days are those of Unicode CLDR 48 (intervalFormats, yMMMMd) with whole months. French marks of two parts, and
quotes, have a narrow space that does not break (Lexique des règles typographiques en usage à l'Imprimerie nationale, from
memory); Spanish questions are opened (Ortografía de la lengua española, 2010, from memory). A minus is U+2212, a range has an
en dash without spaces between figures.
"""

import re
from dataclasses import replace
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as some

from paperwork.document import SpectrumWindow
from paperwork.reading import read_show
from paperwork.render.text.fitting import break_lines, split_words
from paperwork.render.text.measuring import Metrics
from paperwork.sheets import SHEETS
from paperwork.text.words import LANGUAGES, join_days, words_of
from tests.sheet_texts import texts_of
from tests.shows_text import EXAMPLES

NARROW = "\u202f"
METRICS = Metrics()
DAYS = {
    "en": ("4–20 March 2027", "1–20 March 2027", "28 March – 2 April 2027", "28 December 2027 – 2 January 2028"),
    "de": ("4.–20. März 2027", "1.–20. März 2027", "28. März – 2. April 2027", "28. Dezember 2027 – 2. Januar 2028"),
    "fr": ("4–20 mars 2027", "1er–20 mars 2027", "28 mars – 2 avril 2027", "28 décembre 2027 – 2 janvier 2028"),
    "es": (
        "4–20 de marzo de 2027",
        "1–20 de marzo de 2027",
        "28 de marzo – 2 de abril de 2027",
        "28 de diciembre de 2027 – 2 de enero de 2028",
    ),
}
SPANS = (
    ("2027-03-04", "2027-03-20"),
    ("2027-03-01", "2027-03-20"),
    ("2027-03-28", "2027-04-02"),
    ("2027-12-28", "2028-01-02"),
)


@pytest.mark.parametrize("language", LANGUAGES)
def test_days_are_joined_as_the_language_does_and_nothing_is_said_twice(language):
    assert tuple(join_days(first, last, language) for first, last in SPANS) == DAYS[language]


def test_one_day_or_none_is_no_range():
    assert join_days("2027-03-04", "2027-03-04", "en") == join_days("2027-03-04", "", "en") == "4 March 2027"
    assert join_days("", "2027-03-04", "fr") == "4 mars 2027" and join_days("", "", "de") == ""


@pytest.mark.parametrize("language", LANGUAGES)
def test_marks_stand_as_the_language_sets_them(language):
    for key, text in words_of(language).items():
        bare = re.sub(r"____:____|min:s|«.?\?.?»", "x", text)
        assert "..." not in text and " - " not in text and not re.search(r"(?<![\w}_])-\d", text), (key, text)
        if language == "fr":
            assert not re.search(rf"[^{NARROW}\W_][;:!?»]|«[^{NARROW}]|[^{NARROW}][;!?»]| [;:!?»]", bare), (key, text)
        else:
            assert not re.search(rf"[\s{NARROW}][;:!?,.](\s|$)", bare), (key, text)
        if language == "es" and len(bare) > 1:
            assert bare.count("¿") == bare.count("?") and bare.count("¡") == bare.count("!"), (key, text)


@pytest.fixture(scope="module")
def show():
    return read_show(EXAMPLES / "show.yaml", "show.yaml").show


@pytest.mark.parametrize("language", LANGUAGES)
def test_no_paper_has_a_straight_quote_of_ours_three_stops_or_a_hyphen_in_a_range(show, language):
    """Of what the papers print, all but what the show itself says: the example says none of it."""
    own = replace(show, production=replace(show.production, language=language))
    said = {text for paper in SHEETS for sheet in paper.make(own) for text in texts_of(sheet)}
    for text in said:
        assert not re.search(r"\.\.\.|(?<=\s)-(?=\d)|\d ?- ?\d+(\.\d+)? (MHz|kHz|h)\b", text), text
        assert not re.search(r"\d{1,2} \w+ \d{4} – \d{1,2} \w+ \d{4}", text) or "2028" in text, text


def test_a_wide_spectrum_is_cut_at_whole_megahertz(show):
    racks = {id: replace(rack, window=rack.window._replace(low_hz=470_000_000, high_hz=698_000_000) if rack.window else None)
             for id, rack in show.racks.items()}  # fmt: skip
    wide = replace(show, racks=racks)
    (sheet,) = next(paper for paper in SHEETS if paper.name == "spectrum").make(wide)
    heads = [block for block in sheet.blocks if isinstance(block, SpectrumWindow)]
    assert len(heads) > 1
    assert {hz % 1_000_000 for block in heads for hz in (block.low_hz, block.high_hz)} == {0}


def test_a_hyphen_after_two_letters_ends_no_line():
    assert split_words("PA stumm, In-Ears raus (BQ-0417)") == ["PA ", "stumm, ", "In-Ears ", "raus ", "(BQ-0417)"]
    assert split_words("Featherstonehaugh-Cholmondeley, 1-4 A/B") == [
        "Featherstonehaugh-",
        "Cholmondeley, ",
        "1-",
        "4 ",
        "A/",
        "B",
    ]


UNITS = ("MHz", "kHz", "mW", "dB", "dBm", "V", "h", "min", "s", "m", "mm", "%", "ohm")
QUANTITY = some.tuples(some.sampled_from(("10", "486.200", "-85", "5:00", "25,5")), some.sampled_from(UNITS)).map(
    " ".join
)
WORD = some.sampled_from(("pack", "in", "der Sender", "émetteur", "R1.3", "4", "Room 5", "VERA / TOM", "Ann-Marie"))


@given(some.lists(QUANTITY | WORD, min_size=1, max_size=8), some.integers(4_000, 60_000))
def test_a_figure_and_its_unit_are_on_one_line_and_written_as_they_were(parts, width_um):
    text = ", ".join(parts)
    lines = break_lines(text, "text-regular", 2_000, width_um, METRICS)
    assert "".join(lines).replace(" ", "") == text.replace(" ", "") and "\u00a0" not in "".join(lines)
    for one, two in pairwise(lines):
        assert not (one[-1].isdigit() and two.split()[0].strip(",") in UNITS)


def test_only_a_unit_is_held_to_a_figure():
    assert split_words("25 m of 4 males, 48 V, 3 Vs") == ["25 m ", "of ", "4 ", "males, ", "48 V, ", "3 ", "Vs"]
