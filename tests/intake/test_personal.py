"""Data about people in a mic list: named by heading and place in one warning, and nowhere by what it holds."""

import pytest
from openpyxl.comments import Comment

from paperwork.intake.source import read_source
from paperwork.model.facts import fingerprint_show
from paperwork.reading import read_show
from paperwork.revisions import gather_inputs
from paperwork.sheets import SHEETS
from tests.intake.sheets import codes, plain, read, read_text, section, show
from tests.sheet_texts import texts_of

HEADINGS = (
    ("Phone", "Home address", "Allergies", "Health", "Diet", "Chaperone", "E-mail", "Date of birth"),
    ("Telefon", "Adresse", "Allergien", "Gesundheit", "Ernährung", "Betreuerin", "E-Mail", "Geburtsdatum"),
    ("Téléphone", "Adresse", "Allergies", "Santé", "Régime", "Accompagnateur", "Courriel", "Date de naissance"),
    ("Teléfono", "Dirección", "Alergias", "Salud", "Dieta", "Acompañante", "Correo", "Fecha de nacimiento"),
    ("Telefono", "Indirizzo", "Allergie", "Salute", "Dieta", "Accompagnatore", "E-mail", "Data di nascita"),
    ("Telefoon", "Adres", "Allergieën", "Gezondheid", "Dieet", "Begeleider", "E-mail", "Geboortedatum"),
    ("Telefon", "Adress", "Allergier", "Hälsa", "Specialkost", "Ledsagare", "E-post", "Födelsedatum"),
)
SECRET = "secretword"


@pytest.mark.parametrize("headings", HEADINGS)
def test_a_personal_column_is_one_warning_and_its_texts_are_nowhere(headings, tmp_path):
    rows = [["Mic", "Name", "Freq", *headings], [1, "Mara Lind", 518.2, *[SECRET] * 8], [2, "Max Ried", 519.4]]

    def pin(sheet):
        sheet["D2"].comment = Comment(SECRET, "me")

    got = read(rows, pin)
    assert got.account["personal"] == 8 and SECRET not in str(plain(got.raw)) + " ".join(got.lines)
    named = [sum(heading in f.text for heading in headings) for f in got.findings if f.code == "personal-left"]
    assert named == [8] and {f.code for f in got.findings} <= {"personal-left", "value-taken"}
    assert not any(SECRET in text for one in got.decisions for text in one.samples)
    reading = show(tmp_path, rows, pin)
    assert not any(SECRET in f"{f.text} {f.fix}" for f in reading.findings)
    assert not any(SECRET in text for paper in SHEETS for sheet in paper.make(reading.show) for text in texts_of(sheet))


@pytest.mark.parametrize(
    "value", ("mara@example.org", "0151 2345678", "+44 7700 900123", "nut allergy", "Asthma!", "vegan")
)
def test_a_column_of_numbers_to_call_or_of_health_is_personal_whatever_its_heading(value):
    got = read([["Mic", "Name", "Freq", "Zodiac"], [1, "Mara Lind", 518.2, value], [2, "Max Ried", 519.4, value]])
    assert got.account["personal"] == 2 and value not in str(plain(got.raw)) and codes(got) == ["personal-left"]


def test_the_network_addresses_of_receivers_are_no_personal_data():
    got = read([["Mic", "Name", "Freq", "Address"], [1, "Mara Lind", 518.2, "192.0.2.7"]])
    assert "personal" not in got.account


def test_a_row_with_a_value_too_many_quotes_nothing_where_a_column_is_personal(tmp_path):
    text = f"Mic,Name,Freq,Allergies\n1,Lind,Mara,518.2,{SECRET}\n2,Max Ried,519.4,\n"
    (tmp_path / "list.csv").write_text(text, encoding="utf-8")
    findings = read_source(tmp_path / "list.csv", "list.csv").findings
    assert "row-ragged" in [f.code for f in findings] and not any(SECRET in f.text for f in findings)


def test_what_is_data_about_somebody_by_its_looks_is_not_quoted_either():
    ragged = read_text(
        "Ch,Name,Freq,Reach\n1,Ann Lee,518.2,a@x.org\n2,Bo Ray,519.4,b@x.org\n3,Smith, Jo,530.1,jo@x.org\n"
    )
    assert "jo@x.org" not in str(ragged.findings) + str(ragged.lines)
    signs = read_text("Ch,Name,Freq,Address\n1,Ann Lee,518.2,Hauptstra\u00c3\u0178e 5\n")
    assert "Hauptstra" not in str(signs.findings) + str(signs.lines) + str(signs.questions)
    phones = read_text("Phone,Name,Mic,Freq\n0700 900 461,Ann Lee,1,518.2\n0700 900 462,Bo Ray,2,519.4\n")
    assert "0700" not in str(phones.findings) + str(phones.lines) + str(phones.decisions)


HOUSEHOLD = [
    ["Chaperone on duty: secretword 07700 900321"],
    ["The Glass Ferry"],
    [],
    ["Mic", "Name", "Freq", "Mum", "Carer", "Contact no", "Med info", "Who to ring", "Notes"],
    [1, "Ana Cole", 486.2, SECRET, SECRET, "07700 900123", SECRET, f"Jane {SECRET} 07700 900222", "hat"],
    [2, "Max Ried", 487.4, SECRET, None, "07700 900124", None, f"Tom {SECRET} 07700 900333", None],
    [],
    [f"Emergency contact: {SECRET} 01632 960000"],
]


def test_who_cares_for_somebody_is_in_no_paper_finding_book_or_archive(tmp_path):
    def pin(sheet):
        sheet["D4"].comment = Comment(SECRET, "me")

    got = read(HOUSEHOLD, pin)
    assert plain(got.raw)["show"]["title"] == "The Glass Ferry" and section(got)["1"]["notes"] == "hat"
    reading = show(tmp_path, HOUSEHOLD, pin)
    said = [f"{f.text} {f.fix}" for f in reading.findings] + list(got.lines)
    said += [text for paper in SHEETS for sheet in paper.make(reading.show) for text in texts_of(sheet)]
    assert not any(SECRET in text or "07700" in text for text in said)
    carried = gather_inputs(tmp_path / "list.xlsx", "list.xlsx", reading.show)
    assert list(carried) == ["list.yaml"] and not any(SECRET.encode() in data for data in carried.values())
    (tmp_path / "list.yaml").write_bytes(carried["list.yaml"])
    assert fingerprint_show(read_show(tmp_path / "list.yaml", "list.yaml").show) == fingerprint_show(reading.show)


def test_a_list_without_data_about_people_is_carried_as_it_is(tmp_path):
    rows = [["Mic", "Name", "Freq"], [1, "Mara Lind", 518.2], [2, "Max Ried", 519.4]]
    reading = show(tmp_path, rows)
    carried = gather_inputs(tmp_path / "list.xlsx", "list.xlsx", reading.show)
    assert carried == {"list.xlsx": (tmp_path / "list.xlsx").read_bytes()}


def test_the_number_of_the_department_is_no_private_one():
    got = read(
        [["The Glass Ferry"], ["Sound office: 01632 960010"], [], ["Mic", "Name", "Freq"], [1, "Mara Lind", 518.2]]
    )
    assert plain(got.raw)["show"]["contact"] == "Sound office 01632 960010" and "personal" not in got.account


CALLED = (
    "Sue 07700 900112", "ring 01632 960101 if late", "mara@example.org, tape left", "Tel. 612 345 678", "+44 7700 900123",
    "call (01632) 960 455", "01 42 68 53 00 maman", "Handy 0171/2345678", "030 / 123 45 67", "(212) 555-0147",
    "0612345678 mère", "06.12.84.56.78", "lives 14 Mill Lane, Burwick BW1 4QT", "Lindenstraße 14, 12345 Birkenau",
)  # fmt: skip
NOT_CALLED = (
    "was 518.200", "518,200 MHz", "01 02 03 04 05", "swap 01/02/03 at 19:05", "03.04.2027 10:30", "2027-03-14 20:15",
    "S/N 0041-2233-8899", "serial 0123 4567 89", "ch 01-04 05-08", "R1.3 0-10 dB", "Sc 12 Chapel Street", "192.0.2.10",
    "00:12:34:56:78:90", "hire no. 0044 1234 567", "0.5 0.25 1.25 0.75", "486.200 612.350 598.125", "TV 21-48 470-694 MHz",
    "06.12.2026 - 08.12.2026", "07-12 and 13-20", "12 14 16 18 20 22",
)  # fmt: skip


@pytest.mark.parametrize("text", CALLED)
def test_a_number_to_call_within_notes_is_left_out_and_its_cell_is_named(text, tmp_path):
    rows = [["Mic", "Name", "Freq", "Notes"], [1, "Mara Lind", 518.2, text], [2, "Max Ried", 519.4, "tape B"]]
    got = read(rows)
    (kept,) = [one["notes"] for id, one in section(got).items() if id == "1"]
    assert "…" in kept and codes(got) == ["personal-left"] and "Mics!D2" in got.findings[0].text
    assert got.account["personal"] == 1 and not any(char in kept for char in "3456789@")
    assert not any(part in f.text for f in got.findings for part in text.split() if any(map(str.isdigit, part)))


@pytest.mark.parametrize("text", NOT_CALLED)
def test_what_is_no_number_to_call_stays_in_the_notes(text):
    rows = [["Mic", "Name", "Freq", "Notes"], [1, "Mara Lind", 518.2, text], [2, "Max Ried", 519.4, "tape B"]]
    assert section(read(rows))["1"]["notes"] == text and "personal-left" not in codes(read(rows))


def test_a_number_in_what_is_pinned_to_a_cell_is_left_out_of_notes_and_findings():
    rows = [["Mic", "Name", "Freq"], [1, "Mara Lind", 518.2], [2, "Max Ried", 519.4]]

    def pin(sheet):
        sheet["B2"].comment = Comment("mum is on 07700 900112", "me")

    got = read(rows, pin)
    assert section(got)["1"]["notes"] == "mum is on …" and "personal-left" in codes(got)
    assert not any("900112" in f.text for f in got.findings)
