"""The index of a folder: findings by paper, codes of labels, nothing but itself allowed, hostile text as text."""

import base64
import hashlib
import html
import re
from functools import cache

from paperwork import limits
from paperwork.pipeline import Papers, make_papers
from paperwork.reading import read_show
from tests.shows_text import EXAMPLES, reading_of

CLASH = """
show: {title: Gala, revision: B}
racks:
  R1: {channels: 1-2, units: [2], analogue 1: FOH 1-2}
channels:
  1: {role: VERA, by: Ann, mhz: 486.200}
  2: {by: Bo, mhz: 486.200}
  3: {by: Cy, mhz: 489.200}
"""


@cache
def example_papers() -> Papers:
    reading = read_show(EXAMPLES / "show.yaml", "show.yaml")
    return make_papers(reading.show, reading.findings)


def example_index() -> str:
    return example_papers().files["index.html"].decode("utf-8")


def index_of(text: str, tmp_path) -> str:
    reading = reading_of(text, tmp_path)
    return make_papers(reading.show, reading.findings).files["index.html"].decode("utf-8")


def test_its_policy_names_its_own_style_and_script_and_nothing_else():
    page = example_index()
    policy = html.unescape(re.search(r'Content-Security-Policy" content="([^"]*)"', page)[1])
    for tag, directive in (("style", "style-src"), ("script", "script-src")):
        (text,) = re.findall(f"<{tag}>(.*?)</{tag}>", page, re.DOTALL)
        digest = base64.b64encode(hashlib.sha256(text.encode("utf-8")).digest()).decode("ascii")
        assert re.search(rf"{directive} ([^;]*)", policy)[1] == f"'sha256-{digest}'"
    assert "default-src 'none'" in policy and "unsafe" not in policy
    assert not re.search(r' (style|on\w+)="', page) and "http" not in re.sub(r"<meta[^>]*>", "", page)


def test_the_first_pages_of_every_paper_are_pictured_and_lead_to_its_pdf_and_the_rest_is_said():
    papers = example_papers()
    page = papers.files["index.html"].decode("utf-8")
    for printed in papers.printed:
        shown = 1 if printed.path.endswith("show-book.pdf") else min(limits.PICTURES, len(printed.pages))
        assert len(printed.pictures) == shown
        if shown < len(printed.pages):
            some = f"Pages 1 to {shown}" if shown > 1 else "Page 1"
            assert f"{some} of {len(printed.pages)}: the rest is in the PDF." in page
        for number in range(1, shown + 1):
            picture = f"pictures/{printed.path.removesuffix('.pdf')}-{number}.svg"
            assert (
                picture in papers.files
                and f'src="{picture}"' in page
                and f'href="{printed.path}#page={number}"' in page
            )


def test_a_finding_stands_with_the_papers_that_it_touches_and_they_point_back(tmp_path):
    page = index_of(CLASH, tmp_path)
    finding = re.search(r'<li class="row finding" id="finding-1".*?</li>', page, re.DOTALL)[0]
    chart = re.search(
        r'<li class="row paper" id="(paper-\d+)" data-card data-held="[^"]*">\s*<header><h3><a href="rack/channel-chart.pdf".*?</li>\s*</ul>',
        page,
        re.DOTALL,
    )
    assert f'href="#{chart[1]}"' in finding and "channel 1 and channel 2 are both on 486.200 MHz" in finding
    assert 'href="#finding-1"' in chart[0] and "NOT CONFIRMED: ch 1, 2: two on one frequency" in chart[0]


def test_the_code_of_a_label_is_on_the_card_of_its_channel():
    card = re.search(
        r'<li class="card[^"]*" data-card data-numbers="05" data-codes="(05:[^"]*)">.*?</li>',
        example_index(),
        re.DOTALL,
    )
    assert re.fullmatch(r"05:SMUGGLER:C:\w{4}", card[1]) and "474.750" in card[0] and "Ravi Menon" in card[0]


HOSTILE = "<img src=x onerror=alert(1)>&\"'{{7*7}}"


def hostile_show() -> str:
    """A show that says it in every field that is free text."""
    said = HOSTILE.replace('"', '\\"')
    fields = ("title", "company", "venue", "reason", "contact", "returns", "licence")
    said_of = ", ".join(f'{field}: "{said}"' for field in fields)
    return "\n".join(
        [
            f'show: {{{said_of}, revision: "<b>"}}',
            f'people: {{"{said}": {{room: "{said}", pouch: "{said}", belt: "{said}"}}}}',
            f'roles: {{"{said}": {{by: "{said}"}}}}',
            f'channels: {{"1": {{role: ["{said}"], mhz: 486.2, notes: "{said}", pack: "<b>"}}}}',
            f'others: {{"<i>": {{kind: in-ear, mhz: 600, listeners: ["{said}"], packs: ["<b>"]}}}}',
            f'scenes: {{"<i>": {{name: "{said}", act: "{said}", live: ["{said}"]}}}}',
            f'looks: {{"<u>": {{by: "{said}", wears: "{said}", sits: "{said}"}}}}',
        ]
    )


def test_hostile_text_in_every_field_is_text(tmp_path):
    page = index_of(hostile_show(), tmp_path)
    assert set(re.findall(r"<(\w+)", page)) <= set(re.findall(r"<(\w+)", example_index())) | {
        "dd",
        "dt",
        "dl",
        "ol",
        "p",
    }
    assert (
        page.count("<img src=x") == 0
        and page.count("&lt;img src=x onerror=alert(1)&gt;") > 8
        and "<b>" not in page.replace("<b><span", "").split("<main>")[0]
    )


def test_the_page_of_a_big_show_stays_small(tmp_path):
    lines = [f"  {n}: {{by: Person {n}, mhz: {470 + n * 0.4:.3f}}}" for n in range(1, 301)]
    page = index_of("show: {title: Big}\nchannels:\n" + "\n".join(lines), tmp_path)
    assert len(page) < 1_000 * 300
