"""What is unresolved is stamped, blanked or withheld; what is missing is said; hostile text is harmless."""

import re
from dataclasses import replace
from html import escape
from io import BytesIO

import pypdf
import pypdfium2
import pytest

from paperwork.codes import CODES
from paperwork.document.facts import code
from paperwork.finding import Finding, Subject
from paperwork.pipeline import make_papers
from paperwork.place import Place
from paperwork.sheets.rack import channel_chart
from paperwork.sheets.wardrobe import pack_labels
from paperwork.text.words import LANGUAGES, words_of
from tests.shows_text import reading_of, show_of

TWO_RACKS = """
show: {title: Glass, revision: B, revisions: [A]}
radios: {belt: {step: 25 kHz}}
racks: {R1: {channels: 01-02, analogue 1: FOH 1-2}, R2: {channels: '03', analogue 1: FOH 3}}
channels:
  01: {role: VERA, by: Mara Lind, mhz: 486.200}
  02: {role: TOM, by: Ben Arlo, mhz: %s}
  03: {role: COOK, by: Sam Dunn, mhz: 494.900}
"""


def text_of(pdf: bytes) -> str:
    return "\n".join(page.extract_text() for page in pypdf.PdfReader(BytesIO(pdf)).pages)


def run_together(pdf: bytes) -> str:
    """The text without its blanks: where a line ends is each reader's own guess."""
    return "".join(text_of(pdf).split())


def papers_of(text, tmp_path):
    reading = reading_of(text, tmp_path)
    return make_papers(reading.show, reading.findings)


def stamp_of(printed) -> str:
    """The words of the first of its stamps."""
    return next(filter(None, printed.stamps), "")


@pytest.mark.parametrize("doubtful", ("488.2 / 489.1", "488.2125", "486.200"))
def test_a_doubted_frequency_is_a_blank_and_its_label_is_withheld(tmp_path, doubtful):
    papers = papers_of(TWO_RACKS % doubtful, tmp_path)
    chart, labels = text_of(papers.files["rack/channel-chart.pdf"]), text_of(papers.files["wardrobe/pack-labels.pdf"])
    assert doubtful not in chart and doubtful not in labels
    assert "TOM" in chart and "TOM" not in labels and "COOK" in labels
    assert any(name.startswith("labels of channels") and "02" in name for name, _ in papers.missing), "and that is said"
    assert papers.withheld == (("01", "02") if doubtful == "486.200" else ("02",))


def test_only_sheets_that_show_something_unresolved_are_stamped(tmp_path):
    papers = papers_of(TWO_RACKS % "488.2 / 489.1", tmp_path)
    stamps = {printed.path: stamp_of(printed) for printed in papers.printed}
    assert stamps["rack/channel-chart.pdf"].startswith("NOT CONFIRMED: ch 02: frequency not readable. Marked")
    assert "NOT CONFIRMED: ch 02: frequency not readable" in text_of(papers.files["rack/channel-chart.pdf"])
    assert stamps["wardrobe/pack-labels.pdf"] == "", "the doubted channel has no label there"


def test_a_paper_without_the_kind_of_fact_that_is_doubted_has_no_stamp(tmp_path):
    """A frequency in doubt is on the chart and the strips; the patch, the squares and the pouches show no frequency."""
    papers = papers_of(TWO_RACKS % "488.2 / 489.1", tmp_path)
    stamped = {printed.path for printed in papers.printed if printed.stamped}
    assert {"rack/channel-chart.pdf", "rack/receiver-strips.pdf", "rack/programming-checklist.pdf"} <= stamped
    assert stamped.isdisjoint(
        {
            "rack/patch-sheet.pdf",
            "wardrobe/mic-table-squares.pdf",
            "wardrobe/pouch-cards.pdf",
            "rack/line-check.pdf",
            "rack/who-is-live.pdf",
        }
    )


def test_an_output_that_is_used_twice_stamps_the_patch_and_names_the_rack(tmp_path):
    papers = papers_of((TWO_RACKS % "488.700").replace("analogue 1: FOH 3", "analogue 1: FOH 2"), tmp_path)
    stamps = {printed.path: stamp_of(printed) for printed in papers.printed}
    assert stamps["rack/patch-sheet.pdf"].startswith("NOT CONFIRMED: R1, R2: two on one desk input.")
    shown = {path for path, stamp in stamps.items() if "two on one desk input" in stamp}
    assert {"rack/channel-chart.pdf", "rack/line-check.pdf", "rack/receiver-strips.pdf"} <= shown, (
        "they tell the desk's inputs"
    )
    assert "rack/programming-checklist.pdf" not in shown
    assert stamps["rack/spectrum.pdf" if "rack/spectrum.pdf" in stamps else "wardrobe/pack-labels.pdf"] == ""


def test_a_label_leaves_its_sheet_and_so_says_itself_that_it_is_doubted(tmp_path):
    doubted, clean = (papers_of(TWO_RACKS % mhz, tmp_path) for mhz in ("486.300", "488.700"))
    (stamp,) = (stamp_of(printed) for printed in doubted.printed if printed.path == "wardrobe/pack-labels.pdf")
    assert stamp.startswith("NOT CONFIRMED: ch 01, 02: too close in frequency.")
    told = run_together(doubted.files["wardrobe/pack-labels.pdf"])
    assert (told.count("01VERAMaraLindASK"), told.count("02TOMBenArloASK"), told.count("03COOKSam")) == (2, 2, 2)
    assert (told.count("ASK"), told.count("?")) == (4, 4), "only the two doubted, on both copies of each"
    told = run_together(clean.files["wardrobe/pack-labels.pdf"])
    assert "ASK" not in told and "?" not in told


def test_one_kind_of_doubt_is_named_once_with_its_channels(tmp_path):
    rows = "".join(f"  {n:02d}: {{role: R{n}, mhz: 486.2 / {490 + n}.1}}\n" for n in range(1, 8))
    (printed,) = make_papers(
        *(lambda one: (one.show, one.findings))(reading_of(f"channels:\n{rows}", tmp_path)),
        only=frozenset({"channel-chart"}),
    ).printed
    named = "01, 02, 03, 04, 05, 06 …: frequency not readable"
    assert stamp_of(printed) == f"NOT CONFIRMED: ch {named}. Marked “?”: ask sound before use."


@pytest.mark.parametrize("language", LANGUAGES)
def test_a_stamp_stands_whole_on_its_page_in_every_language(tmp_path, language):
    rows = "".join(f"  {n:02d}: {{role: R{n}, mhz: 486.2 / {490 + n}.1}}\n" for n in range(1, 8))
    papers = papers_of(f"show: {{title: Glass, language: {language}}}\nchannels:\n{rows}", tmp_path)
    assert not any(finding.code == "text-abbreviated" for finding in papers.findings)


def test_a_clean_show_has_no_stamp(tmp_path):
    papers = papers_of(TWO_RACKS % "488.700", tmp_path)
    assert papers.findings == () and not any(printed.stamped for printed in papers.printed)


def test_a_paper_whose_facts_are_missing_is_named(tmp_path):
    papers = papers_of("channels: {1: {by: Ann, mhz: 486.200}}", tmp_path)
    assert ("patch-sheet", "racks") in papers.missing and ("spare-cards", "spare channels") in papers.missing


def test_a_sheet_keeps_its_code_while_its_facts_do_not_change(tmp_path):
    show = show_of(TWO_RACKS % "488.700", tmp_path)
    later = replace(show, production=replace(show.production, revision="C", revised="2027-05-01", revisions=("A", "B")))
    moved = replace(show, channels={**show.channels, "01": replace(show.channels["01"], hz=486_225_000)})
    for make in (channel_chart.make_sheets, pack_labels.make_sheets):
        assert code(make(show)[0]) == code(make(later)[0]) != code(make(moved)[0])


HOSTILE = ("R&D <b>", "</b>", "<img src=/etc/passwd>", "{{ 7*7 }}", "x < y & z", "%PDF", "=1+1", "{title}")


@pytest.mark.parametrize("text", HOSTILE)
def test_hostile_text_prints_as_text(tmp_path, text):
    papers = papers_of(
        f'show: {{title: "{text}"}}\nchannels:\n  01: {{role: ["{text}"], by: "{text}", mhz: 486.200}}\n', tmp_path
    )
    assert text.split()[0] in text_of(papers.files["rack/channel-chart.pdf"])
    page = papers.files["index.html"].decode("utf-8")
    assert escape(text, quote=False).replace("'", "&#39;") in page
    assert "<img src=/" not in page and "<b>R&" not in page


def test_text_that_turns_its_neighbours_around_is_refused_before_anything_is_printed(tmp_path):
    reading = reading_of("channels:\n  01: {role: \u202eARVE, by: Ann, mhz: 486.200}\n", tmp_path)
    assert reading.show is None and [finding.code for finding in reading.findings] == ["yaml-control"]


def test_a_glyph_that_no_font_has_stops_before_anything_is_printed_wrongly(tmp_path):
    reading = reading_of("channels:\n  01: {role: VERA, by: ᚠᛖ, mhz: 486.200}\n", tmp_path)
    (finding,) = reading.findings
    assert (finding.code, finding.severity, finding.place.line) == ("glyph-missing", "error", 2)
    assert "U+16A0" in finding.text


def test_a_script_that_is_not_installed_is_one_finding_that_tells_what_to_install(tmp_path, monkeypatch):
    monkeypatch.setattr("paperwork.text.glyphs.has_extra", lambda extra: False)
    names = "  01: {role: VERA, by: יעל בן דוד, mhz: 486.200}\n  02: {role: TOM, by: محمد, mhz: 488.250}\n"
    reading = reading_of("channels:\n" + names, tmp_path)
    (finding,) = reading.findings
    assert (finding.code, finding.severity, finding.place.line) == ("script-not-installed", "error", 2)
    assert finding.text == "יעל בן דוד is in Hebrew, and its fonts are not installed; 1 other text needs the same"
    assert finding.fix == "run: pip install 'show-paperwork[scripts]'"
    chart = text_of(make_papers(reading.show, reading.findings).files["rack/channel-chart.pdf"])
    assert "____" in chart and not any(sign >= "\u0590" for sign in chart if sign.isalpha())


def test_findings_beyond_the_limit_are_counted_and_not_dropped(monkeypatch, tmp_path):
    monkeypatch.setattr("paperwork.limits.FINDINGS", 3)
    rows = "".join(f"  {n}: {{role: R{n}, mhz: 1.518,20{n}}}\n" for n in range(1, 9))
    findings = reading_of(
        f"channels:\n{rows.replace('1.518', chr(39) + '1.518').replace('}', chr(39) + '}')}", tmp_path
    ).findings
    assert [finding.code for finding in findings] == ["frequency-unreadable"] * 3 + ["findings-many"]
    assert findings[-1].text.startswith("5 more findings are not listed, 5 of them errors")


KINDS = ("frequency-unreadable", "capsule-missing", "frequency-refused", "pack-doubled", "slot-doubled")
SAID = ("frequency not readable", "no capsule", "frequency refused")


@pytest.mark.parametrize("count, tail", ((1, "."), (2, "."), (3, "."), (4, "; and 1 more."), (5, "; and 2 more.")))
def test_a_stamp_names_three_kinds_in_natural_order_and_counts_the_rest(tmp_path, count, tail):
    rows = "".join(f"  {n}: {{role: R{n}}}\n" for n in range(8, 13))
    show = show_of(f"show: {{title: Glass, contact: Ann Bell 555 0134}}\nchannels:\n{rows}", tmp_path)
    wrong = [
        Finding(code_name, Place("show.yaml"), "wrong", "mend it", (Subject("channels", str(number)),))
        for number, code_name in enumerate(KINDS[:count], 8)
    ]
    (printed,) = make_papers(show, wrong[::-1], only=frozenset({"channel-chart"})).printed
    named = "; ".join(f"ch {number}: {said}" for number, said in zip((8, 9, 10), SAID[:count], strict=False))
    assert stamp_of(printed) == f"NOT CONFIRMED: {named}{tail} Marked “?”: ask Ann Bell 555 0134 before use."


@pytest.mark.parametrize("language", LANGUAGES)
def test_every_error_that_can_stand_against_a_record_has_words_for_a_stamp(language):
    """What no check of a show finds about a record has none of its own."""
    none = {
        "findings-many", "glyph-missing", "labels-misplaced", "number-does-not-fit", "paper-long", "row-too-tall",
        "script-not-installed", "searches-many", "stock-unknown", "text-invisible",
    }  # fmt: skip
    wanted = {one.name for one in CODES.values() if one.severity == "error" and one.stage == "sense"} - none
    assert {name for name in wanted if CODES[name].stamp not in words_of(language)} == set()


@pytest.mark.parametrize(
    "count, named",
    (
        (2, "01, 02"),
        (3, "01–03"),
        (4, "01–04"),
        (6, "01–06"),
        (7, "01, 02, 03, 04, 05, 06 …"),
        (40, "01, 02, 03, 04, 05, 06 …"),
    ),
)
def test_a_doubt_about_many_channels_names_six(tmp_path, count, named):
    rows = "".join(f"  {n:02d}: {{role: R{n}, pack: P1, carrier: W, capsule: beige}}\n" for n in range(1, count + 1))
    reading = reading_of(f"capsules: {{beige: {{owned: 1}}}}\nchannels:\n{rows}", tmp_path)
    short = tuple(finding for finding in reading.findings if finding.code == "capsule-short")
    (printed,) = make_papers(reading.show, short, only=frozenset({"channel-chart"})).printed
    assert stamp_of(printed) == f"NOT CONFIRMED: ch {named}: not enough capsules. Marked “?”: ask sound before use."


COOK = "  03: {role: COOK, mhz: 494.300}\n"
BELT = "radios: {belt: {tunes: 486-510, step: 25 kHz, bandwidth: 200 kHz}}\n"
DOUBTED = {
    "frequency-unreadable": (
        "02",
        "channels:\n  01: {role: VERA, mhz: 486.200}\n  02: {role: TOM, mhz: 491.7 / 492.1}\n" + COOK,
    ),
    "carrier-doubled": ("02", "channels:\n  01: {role: VERA, mhz: 491.700}\n  02: {role: TOM, mhz: 491.700}\n" + COOK),
    "frequency-out-of-tune": (
        "02",
        BELT + "channels:\n  01: {role: VERA, mhz: 488.200}\n  02: {role: TOM, mhz: 512.700}\n" + COOK,
    ),
    "frequency-off-step": (
        "02",
        BELT + "channels:\n  01: {role: VERA, mhz: 488.200}\n  02: {role: TOM, mhz: 491.7125}\n" + COOK,
    ),
    "frequency-off-spot": (
        "02",
        "radios: {fixed: {spots: [488.200, 491.700, 494.300]}}\nchannels:\n"
        "  01: {role: VERA, radio: fixed, mhz: 488.200}\n  02: {role: TOM, radio: fixed, mhz: 491.800}\n" + COOK,
    ),
    "carrier-uneven": (
        "02",
        "channels:\n  01: {role: VERA, carrier: W, mhz: 488.200}\n  02: {role: TOM, carrier: W, mhz: 491.700}\n" + COOK,
    ),
    "frequency-asked": ("2", 'Ch,Role,Freq\n1,VERA,488.200\n2,TOM,"1.518,200"\n3,COOK,494.300\n'),
    "frequency-against-tv": ("2", "Ch,Role,Freq,TV\n1,VERA,488.200,23\n2,TOM,518.000,38\n3,COOK,494.300,24\n"),
}
"""For each code that makes a frequency uncertain a show, or somebody's list, and the channel of it that is doubted."""


def test_every_code_that_makes_a_frequency_doubted_is_tried():
    assert set(DOUBTED) == {name for name, code in CODES.items() if code.doubts}


@pytest.mark.parametrize("code_name", DOUBTED)
def test_what_is_doubted_is_a_blank_on_the_chart_and_has_no_label(tmp_path, code_name):
    doubted, text = DOUBTED[code_name]
    reading = reading_of(text, tmp_path, "list.csv" if text.startswith("Ch,") else "show.yaml")
    assert code_name in {finding.code for finding in reading.findings}
    papers = make_papers(reading.show, reading.findings)
    chart = papers.files["rack/channel-chart.pdf"]
    labels = papers.files["wardrobe/pack-labels.pdf"]
    given = reading.show.channels[doubted].hz
    shown = pypdfium2.PdfDocument(chart)[0].get_textpage().get_text_range()
    assert re.search(r"TOM\s*(TV: 38)?\s*\.(?!\d{3})", shown), "a point between two blanks to write on"
    assert doubted in papers.withheld and "TOM" not in text_of(labels) and "COOK" in text_of(labels)
    assert given is None or f"{given / 1e6:.3f}" not in text_of(chart)


def test_an_error_stamps_the_papers_that_show_the_kind_of_fact_that_it_is_about():
    """Errors of sense without topics stamp every paper of their subject: a sign, a number or a row that cannot be printed, a
    question of any kind, and what is about the run as a whole."""
    whole = {
        "findings-many", "glyph-missing", "labels-misplaced", "number-does-not-fit", "paper-long", "row-too-tall",
        "script-not-installed", "searches-many", "stock-unknown", "text-invisible", "value-asked",
    }  # fmt: skip
    assert {n for n, c in CODES.items() if c.severity == "error" and c.stage == "sense" and not c.topics} == whole
    assert all(code.severity == "error" for code in CODES.values() if code.topics or code.doubts)


def test_carriers_off_any_raster_do_not_stamp_papers_without_a_frequency(tmp_path, monkeypatch):
    monkeypatch.setattr("paperwork.limits.CARRIERS_ODD", 20)
    monkeypatch.setattr("paperwork.coordinate.carriers.HITS_LISTED", 10)
    rows = "".join(f"  {n:02d}: {{role: R{n}, mhz: {470 + n * 1.2345678:.6f}}}\n" for n in range(1, 40))
    reading = reading_of(f"channels:\n{rows}", tmp_path)
    assert "intermodulation-uncounted" in {finding.code for finding in reading.findings}
    stamped = {printed.path for printed in make_papers(reading.show, reading.findings).printed if printed.stamped}
    assert "rack/channel-chart.pdf" in stamped and "wardrobe/mic-table-squares.pdf" not in stamped
