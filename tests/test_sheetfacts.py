"""Codes, QR texts, subjects and texts of sheets."""

from dataclasses import replace

import pytest

from paperwork.document import Label, RowGroup, Table, cell, fact, row, words
from paperwork.document.facts import code, label_code, long_code, page_code, payload, subjects_of
from paperwork.finding import Subject
from tests.render import samples
from tests.sheet_texts import texts_of


def test_code_survives_everything_that_is_no_fact():
    sheet = samples.chart(12)
    other = replace(
        sheet, title="Kanalliste", revision="D", replaces="C", dated="1. April", paper="Letter", orientation="landscape",
        cautions=(), subtitle=("in Kanalfolge",), language="de",
    )  # fmt: skip
    assert code(other) == code(sheet)


@pytest.mark.parametrize(
    "around",
    ({"show": "Other"}, {"venue": "Elsewhere"}, {"returns": "sound"}, {"at_venue": "Pier"}, {"facts": ("L2",)}),
)
def test_what_stands_around_the_rows_counts_where_it_is_of_the_show(around):
    sheet = samples.chart(12)
    assert code(replace(sheet, **around)) != code(sheet)
    assert page_code(replace(sheet, **around), (), ()) != page_code(sheet, (), ())


def test_a_label_counts_its_venue_and_its_doubt():
    codes = {label_code(Label("01", "VERA", doubt=doubt), house) for doubt in ("", "ASK") for house in ("", "Pier")}
    assert len(codes) == 4


def test_the_long_code_follows_the_same_facts():
    sheet = samples.chart(12)
    assert (
        long_code(replace(sheet, title="Kanalliste", revision="D")) == long_code(sheet) != long_code(samples.chart(11))
    )
    assert len(long_code(sheet)) == 64


def _one_cell(*items) -> str:
    sheet = samples.chart(1)
    table = Table(sheet.blocks[0].columns[:1], (RowGroup((row(cell(*items)),)),))
    return code(replace(sheet, blocks=(table,)))


def test_code_changes_with_a_fact_and_not_with_mere_words():
    assert _one_cell(fact("486.200"), words("TV 23")) == _one_cell(fact("486.200"), words("canal 23"))
    assert _one_cell(fact("486.200")) != _one_cell(fact("486.225"))
    assert _one_cell(fact("486.200")) != _one_cell(words("486.200"))


def test_a_translated_word_counts_as_the_fact_behind_it():
    assert _one_cell(fact("SPARE", of="spare")) == _one_cell(fact("RESERVE", of="spare"))


def test_moving_a_text_to_another_cell_changes_the_code():
    sheet = samples.chart(1)
    columns = sheet.blocks[0].columns[:2]
    left = Table(columns, (RowGroup((row(cell(fact("a"), fact("b")), cell()),)),))
    right = Table(columns, (RowGroup((row(cell(fact("a")), cell(fact("b"))),)),))
    assert code(replace(sheet, blocks=(left,))) != code(replace(sheet, blocks=(right,)))


def test_composed_and_decomposed_names_have_one_code():
    assert label_code(Label("01", "Nguyễn")) == label_code(Label("01", "Nguye\u0302\u0303n"))


def test_payload_is_number_short_role_revision_and_code():
    label = Label("12", "Véra of the Quay", ("Mara Lind",), "486.200", short_role="Véra")
    assert payload(label, "C") == f"12:VERA:C:{label_code(label)}"


def test_payload_keeps_to_twenty_characters_by_cutting_the_role():
    label = Label("12", "QUARTERMASTER AND HARBOURMASTER")
    assert payload(label, "C") == f"12:QUARTERMAS:C:{label_code(label)}"
    assert len(payload(label, "C")) == 20


def test_payload_never_holds_a_performer_or_a_frequency():
    text = payload(Label("12", "VERA", ("Mara Lind",), "486.200"), "C")
    assert "MARA" not in text and "486" not in text


def test_payload_of_a_role_in_another_script_is_still_readable():
    label = Label("12", "ΒΕΡΑ")
    assert payload(label, "C") == f"12:BERA:C:{label_code(label)}"


def test_subjects_are_those_of_the_rows_and_labels():
    assert subjects_of(samples.chart(2)) == {Subject("channel", "01"), Subject("channel", "02")}
    assert Subject("channel", "03") in subjects_of(samples.labels(count=3))


def test_every_text_of_a_sheet_is_listed():
    for sheet in (samples.chart(18), samples.patch(3), samples.labels(count=3)):
        listed = " ".join(texts_of(sheet))
        for expected in ("Glass Ferry", "VERA", "B", "C"):
            assert expected in listed
    assert "Dead pack" in set(texts_of(samples.patch(3)))
    assert "left" in set(texts_of(samples.patch(1)))
