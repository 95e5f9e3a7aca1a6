"""The papers follow the language of the list, unless its owner says otherwise; it is asked where it is not plain."""

import pytest

from paperwork.intake.answers import read_answers_bytes, write_answers
from paperwork.intake.session import name_answer
from paperwork.reading import read_show
from tests.intake.sheets import plain, read, show

ROWS = [[1, "Mara Lind", "VERA", 518.2, "tape B"], [2, "Max Ried", "TOM", 519.4, None]]
HEADS = {
    "de": ["Nr.", "Darsteller", "Rolle", "Frequenz", "Bemerkung"],
    "fr": ["Voie", "Comédien", "Personnage", "Fréquence", "Remarques"],
    "es": ["Canal", "Actriz", "Personaje", "Frecuencia", "Observaciones"],
}
NOT_ASKED = {
    "English": ["Ch", "Actor", "Role", "Freq", "Notes"],
    "Italian": ["Canale", "Attore", "Ruolo", "Frequenza", "Note"],
    "Dutch": ["Kanaal", "Acteur", "Rol", "Frequentie", "Opmerkingen"],
    "Swedish": ["Mygga", "Skådespelare", "Roll", "Frekvens", "Anmärkningar"],
    "English with one word borrowed": ["Ch", "Actor", "Role", "Freq", "Personnage"],
}


@pytest.mark.parametrize("language", HEADS)
def test_the_papers_are_in_the_language_of_the_headings_and_the_reading_says_why(language, tmp_path):
    got = read([HEADS[language], *ROWS])
    (made,) = [one for one in got.decisions if one.kind == "language"]
    assert (made.value, made.doubt, set(made.choices)) == (language, "sure", {"en", "de", "fr", "es"})
    assert made.because.startswith(("5 of 5", "4 of 5")) and got.questions == ()
    assert show(tmp_path, [HEADS[language], *ROWS]).show.production.language == language


@pytest.mark.parametrize("name", NOT_ASKED)
def test_a_list_in_english_or_in_a_language_without_papers_is_not_asked(name):
    got = read([NOT_ASKED[name], *ROWS])
    assert "language" not in {q.kind for q in got.questions} and "language" not in plain(got.raw).get("show", {})


MIXED = {
    "few": (["Kanal", "Darsteller", "Role", "Freq", "Notes"], "de"),
    "as many of English": (["Voie", "Comédien", "Personnage", "Freq", "Notes", "Gain", "Serial"], "fr"),
}


@pytest.mark.parametrize("name", MIXED)
def test_a_list_of_few_or_mixed_headings_is_asked_about_once(name):
    heads, language = MIXED[name]
    got = read([heads, [1, "Mara Lind", "VERA", 518.2, "tape B"][: len(heads)]])
    assert [(q.kind, q.default) for q in got.questions] == [("language", language)]


@pytest.mark.parametrize("answer", ("en", "de", "fr", "es"))
def test_the_owner_may_say_otherwise_and_the_answer_is_kept(answer, tmp_path):
    rows = [HEADS["de"], *ROWS]
    given = name_answer(f"language={answer}", read(rows))
    kept, wrong = read_answers_bytes(write_answers(given, "list.xlsx").encode(), "answers.yaml")
    assert kept == given and not wrong and read(rows, answers=kept).questions == ()
    show(tmp_path, rows)
    (tmp_path / "list.xlsx.answers.yaml").write_text(write_answers(given, "list.xlsx"), encoding="utf-8")
    assert read_show(tmp_path / "list.xlsx", "list.xlsx").show.production.language == answer


def test_a_title_over_the_list_stays_the_title_and_a_list_without_one_goes_by_its_file():
    titled = plain(read([["Die Fähre"], [], HEADS["de"], *ROWS]).raw)["show"]
    assert titled == {"title": "Die Fähre", "language": "de"}
    assert plain(read([HEADS["de"], *ROWS]).raw)["show"] == {"title": "list", "language": "de"}


def test_the_owner_of_an_english_list_may_ask_for_other_papers_and_change_an_answer_again():
    rows = [NOT_ASKED["English"], *ROWS]
    given = name_answer("language=de", read(rows))
    got = read(rows, answers=given)
    assert plain(got.raw)["show"]["language"] == "de" and got.questions == ()
    again = given | name_answer("language=en", got)
    assert "show" not in plain(read(rows, answers=again).raw)
