"""Which signs print, and what is left of a text on paper."""

import pytest

from paperwork.document.styles import STEP
from paperwork.render.text.fitting import fit
from paperwork.text.glyphs import clean_text, drawable_text, is_scripted, lacking_extras, missing_glyphs
from tests.metrics import load_metrics
from tests.tools.make_glyphs import EXTRAS, TARGET, common_points, render, render_extras


def test_table_of_glyphs_is_what_the_faces_have():
    assert TARGET.read_text(encoding="utf-8") == render(common_points())
    assert EXTRAS.read_text(encoding="utf-8") == render_extras()


SCRIPTED = ("יעל", "Mic محمد", "नेहा श्रीवास्तव", "น้ำผึ้ง", "山田 はなこ", "김민수", "𠮷", "שָׁלוֹם", "می\u200cخواهد")


@pytest.mark.parametrize("name", SCRIPTED)
def test_names_in_the_scripts_of_the_extras_print_with_them(name):
    assert missing_glyphs(name) == () == lacking_extras(name)


@pytest.mark.parametrize("name", SCRIPTED)
def test_without_the_extras_a_word_is_a_line_to_write_on(name, monkeypatch):
    monkeypatch.setattr("paperwork.text.glyphs.has_extra", lambda extra: False)
    assert missing_glyphs(name) == ()
    assert lacking_extras(name) and not is_scripted(name)
    assert drawable_text(f"Mic {name} (A2)") == ("Mic Mic ____ (A2)" if name.startswith("Mic") else "Mic ____ (A2)")


def test_a_joiner_stays_only_where_it_shapes_letters():
    assert clean_text("A\u200cB\u200d") == "AB"
    assert clean_text("می\u200cخواهد") == "می\u200cخواهد"


@pytest.mark.parametrize(
    "name",
    ["Łukasz Żółcik", "Nguyễn Thị Ánh", "Nguye\u0302\u0303n", "Ελένη Παππά", "Юрий Їжак", "Þórður", "Šárka", "Ñandú"],
)
def test_latin_vietnamese_greek_and_cyrillic_names_print(name):
    assert missing_glyphs(name) == ()


@pytest.mark.parametrize(
    ("text", "missing"),
    [
        ("ᚠ ཀ", ("ᚠ", "ཀ")),
        ("a\u0e48", ("a\u0e48",)),
        ("\u05b8", ("\u05b8",)),
        ("ok 💡", ("💡",)),
        ("x\u030c", ("x\u030c",)),
        ("\ud800", ("\ud800",)),
        ("\ue000", ("\ue000",)),
    ],
)
def test_unknown_scripts_and_marks_without_a_letter_are_named(text, missing):
    assert missing_glyphs(text) == missing


def test_invisible_signs_are_left_out_and_never_missing():
    hostile = "A\u202eB\u200bC\u200fD\u00adE\ufeffF\x00\x07\x1bG"
    assert clean_text(hostile) == "ABCDEFG"
    assert missing_glyphs(hostile) == ()


def test_white_space_of_every_kind_is_a_space():
    assert clean_text(" a\tb\nc\u00a0d\u2028f ") == "a b c d f"


def test_only_a_narrow_no_break_space_holds_a_line_together():
    assert clean_text("quoi\u202f? qui") == "quoi\u00a0? qui"
    metrics = load_metrics()
    narrow = fit("aller\u202f; venir", STEP, 12_000, metrics).lines
    wide = fit("aller\u00a0; venir", STEP, 8_000, metrics).lines
    assert "aller\u00a0;" in narrow and ";" in [line.split()[0] for line in wide]


def test_unusual_hyphens_become_the_plain_one():
    assert clean_text("Sommer\u2011Feldt\u2010Ried") == "Sommer-Feldt-Ried"


def test_decomposed_letters_are_composed():
    assert clean_text("Nguye\u0302\u0303n") == "Nguyễn"
