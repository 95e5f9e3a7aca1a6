"""The example show, all the way: both files say one thing, nothing is found, and every fact reaches its paper."""

import re
from functools import cache
from io import BytesIO

import numpy
import pypdf
import pypdfium2
import pytest
import zxingcpp

from paperwork.document import Printer
from paperwork.model.facts import canonical_facts
from paperwork.pipeline import LabelChoice, Papers, make_papers
from paperwork.reading import read_show
from paperwork.text.units import format_mhz
from tests.shows_text import EXAMPLES
from tests.tools.make_example_workbook import make_workbook

PAPERS = frozenset({"channel-chart", "patch-sheet", "pack-labels"})


@cache
def read_example(name: str = "show.yaml"):
    return read_show(EXAMPLES / name, name)


@cache
def papers_of(stock: str | None = None, dpi: int = 300) -> Papers:
    reading = read_example()
    return make_papers(
        reading.show, reading.findings, only=PAPERS, labels=LabelChoice(stock=stock, printer=Printer(dpi))
    )


def text_of(pdf: bytes) -> str:
    return "\n".join(page.extract_text() for page in pypdf.PdfReader(BytesIO(pdf)).pages)


@pytest.mark.parametrize("name", ("show.yaml", "show.xlsx", "first_show.yaml"))
def test_the_examples_have_no_finding(name):
    assert read_example(name).findings == ()


def test_the_workbook_is_the_twin_of_the_text():
    assert read_example("show.xlsx").show == read_example().show
    assert canonical_facts(read_example("show.xlsx").show) == canonical_facts(read_example().show)


def test_the_workbook_in_the_folder_is_the_one_that_the_tool_writes():
    assert (EXAMPLES / "show.xlsx").read_bytes() == make_workbook()


def test_the_example_is_the_size_of_a_real_musical():
    show = read_example().show
    kinds = [show.radio_of(channel).kind for channel in show.channels.values()]
    assert (kinds.count("pack"), kinds.count("handheld")) == (28, 4)
    assert {rack.slots for rack in show.racks.values()} == {4, 6}
    assert len(show.scenes) == 14 and len({scene.act for scene in show.scenes}) == 2
    assert len({name for channel in show.channels.values() for name in show.performers_of(channel)}) in range(22, 28)
    assert any(channel.doubles for channel in show.channels.values())
    assert any(len(show.performers_of(channel)) > 1 for channel in show.channels.values())
    assert show.covers and show.others and any(channel.spare for channel in show.channels.values())


def test_every_channel_is_on_the_chart_with_its_role_performer_frequency_and_slot():
    """Read back from the PDF by a reader that knows nothing of ours."""
    show, text = read_example().show, " ".join(text_of(papers_of().files["rack/channel-chart.pdf"]).split())
    for channel in show.channels.values():
        wanted = [channel.id, format_mhz(channel.hz), channel.pack, str(channel.slot), channel.capsule]
        named = [role if role in text else show.roles[role].short for role in channel.roles]
        wanted += [word for role in named for word in role.split()]
        wanted += [word for name in show.performers_of(channel) for word in name.split()]
        assert [word for word in wanted if word not in text] == []


def test_every_output_of_every_slot_is_on_the_patch_sheet():
    show, text = read_example().show, " ".join(text_of(papers_of().files["rack/patch-sheet.pdf"]).split())
    for rack in show.racks.values():
        for output in rack.outputs:
            if output.kind != "digital":
                assert f"{output.console} {output.input}" in text
            elif output.side == "left":
                assert f"{output.console} {output.input} + {output.input + 1}" in text
        assert all(f"{rack.id}.{slot}" in text for slot in range(1, rack.slots + 1))


def test_names_in_four_scripts_print_as_they_are_written():
    text = text_of(papers_of().files["rack/channel-chart.pdf"])
    for name in ("Łukasz Żółcik", "Nguyễn Thị Ánh", "Ελένη Μαρκάκη", "Олена Гнатюк", "Ștefan Ionescu", "Zeynep Çelik"):
        assert name in text


def decode(pdf: bytes, dpi: int) -> list[str]:
    """Every QR code of a document rendered to 1-bit pixels at a printer's resolution, read by zxing."""
    texts = []
    for page in pypdfium2.PdfDocument(pdf):
        grey = page.render(scale=dpi / 72).to_pil().convert("L")
        black_and_white = grey.point(lambda level: 255 * (level > 127))
        texts += [
            code.text for code in zxingcpp.read_barcodes(numpy.asarray(black_and_white)) if "QR" in str(code.format)
        ]
    return texts


EARS_WORN = 5
"""In-ears of the example by who wears them: two people share EARS 1, and the pit is one."""


def _spoken(show, channel) -> str:
    """What the code says of a channel's role: its short name, or the start of its id."""
    if not channel.roles:
        return "SPARE"
    role = show.roles[channel.roles[0]]
    return role.short or role.id


@pytest.mark.parametrize("dpi", (203, 300))
@pytest.mark.parametrize("stock", ("a4-21-63.5x38.1", "letter-30-2.625x1"))
def test_every_label_carries_a_code_that_an_independent_reader_reads(stock, dpi):
    show = read_example().show
    found = decode(papers_of(stock, dpi).files["wardrobe/pack-labels.pdf"], dpi)
    wanted = {channel.id: _spoken(show, channel) for channel in show.channels.values()}
    assert len(found) == 2 * (len(wanted) + EARS_WORN)
    assert {text.split(":")[0] for text in found} == {*wanted, *(id.replace(" ", "") for id in show.others)}
    for number, role in wanted.items():
        codes = {text for text in found if text.startswith(f"{number}:")}
        assert len(codes) == 1, "two copies of one label say one thing"
        assert re.fullmatch(rf"{number}:{role[:8]}[A-Z]*:C:[2-9A-Z]{{4}}", codes.pop())
    assert all(len(text) <= 20 for text in found)


def test_codes_hold_no_performer_and_no_frequency():
    show = read_example().show
    found = " ".join(decode(papers_of().files["wardrobe/pack-labels.pdf"], 300))
    for channel in show.channels.values():
        assert format_mhz(channel.hz) not in found
        for name in show.performers_of(channel):
            assert not any(part.upper() in found for part in name.split())


def test_each_paper_says_its_revision_code_and_page_on_every_page():
    for printed in papers_of().printed:
        pages = pypdf.PdfReader(BytesIO(papers_of().files[printed.path])).pages
        assert len(pages) == len(printed.pages)
        for number, page in enumerate(pages, 1):
            text = page.extract_text()
            assert printed.codes[number - 1] in text and f"{number} of {len(pages)}" in text


def test_fonts_are_embedded_and_the_label_sheet_asks_not_to_be_scaled():
    for printed in papers_of().printed:
        reader = pypdf.PdfReader(BytesIO(papers_of().files[printed.path]))
        for page in reader.pages:
            for font in page["/Resources"]["/Font"].get_object().values():
                assert "/FontFile2" in font["/DescendantFonts"][0]["/FontDescriptor"]
    labels = pypdf.PdfReader(BytesIO(papers_of().files["wardrobe/pack-labels.pdf"]))
    assert labels.trailer["/Root"]["/ViewerPreferences"]["/PrintScaling"] == "/None"


def test_nobody_who_covers_in_the_example_leaves_a_role_open():
    """Read off scene by scene: who is live in a role of their own while covering has a cover for it in that scene."""
    show = read_example().show
    for cover in show.covers:
        for scene in show.scenes:
            if cover.role in scene.live and (not cover.scenes or scene.id in cover.scenes):
                own = [role for role in scene.live if show.roles[role].by == cover.by]
                covered = {
                    other.role
                    for other in show.covers
                    if other.by != cover.by and (not other.scenes or scene.id in other.scenes)
                }
                assert set(own) <= covered, (cover.by, cover.role, scene.name)
