"""One file for a telephone: what a reader's papers say, alone and offline, and nothing that must not travel."""

import base64
import hashlib
import html
import re
from functools import cache

import pytest

from paperwork.cli import root
from paperwork.pipeline import make_papers
from paperwork.pocket import make_pocket
from paperwork.reading import read_show
from paperwork.text.units import format_mhz
from tests.shows_text import EXAMPLES, reading_of
from tests.test_children import NAMES, ROOMS, SHOW
from tests.test_index_page import hostile_show


@cache
def example(reader: str) -> tuple[str, str]:
    reading = read_show(EXAMPLES / "show.yaml", "show.yaml")
    name, data = make_pocket(reading.show, reading.findings, reader)
    return name, data.decode("utf-8")


def words_in(page: str) -> str:
    """What is read on it, drawings and marks aside."""
    return html.unescape(re.sub(r"<[^>]*>", " ", page.partition("<main>")[2]))


def drawings_in(page: str) -> list[str]:
    return [base64.b64decode(one).decode("utf-8") for one in re.findall(r"data:image/svg\+xml;base64,([^\"]+)", page)]


@pytest.mark.parametrize("reader", ("rack", "wardrobe", "production"))
def test_it_needs_no_other_file_and_its_policy_allows_none(reader):
    name, page = example(reader)
    assert name == f"The-Lantern-Tide-rev-C-{reader}.html"
    policy = html.unescape(re.search(r'Content-Security-Policy" content="([^"]*)"', page)[1])
    for tag, directive in (("style", "style-src"), ("script", "script-src")):
        own = re.findall(f"<{tag}>(.*?)</{tag}>", page, re.DOTALL)
        digests = [base64.b64encode(hashlib.sha256(text.encode()).digest()).decode("ascii") for text in own]
        assert re.search(rf"{directive} ([^;]*)", policy)[1] == " ".join(f"'sha256-{one}'" for one in digests)
    assert "default-src 'none'" in policy and "img-src data:" in policy and "unsafe" not in policy
    led = re.findall(r'(?:src|href|action)="([^"]*)"', page)
    assert (
        {re.match(r"#|data:image/svg|.*", one)[0] for one in led} <= {"#", "data:image/svg"}
        and "http:" not in page
        and "https:" not in page
    )


def test_the_same_show_gives_the_same_bytes_and_a_size_that_a_telephone_takes():
    for reader in ("rack", "wardrobe", "production"):
        again = make_pocket(*_read_example(), reader)
        assert again[1].decode("utf-8") == example(reader)[1] and len(again[1]) < 1_000_000


def _read_example():
    reading = read_show(EXAMPLES / "show.yaml", "show.yaml")
    return reading.show, reading.findings


def test_wardrobes_has_no_frequency_and_the_racks_has_each():
    show, _ = _read_example()
    hertz = [one.hz for one in (*show.channels.values(), *show.others.values()) if one.hz]
    assert len(hertz) > 30
    wardrobe, rack = words_in(example("wardrobe")[1]), words_in(example("rack")[1])
    assert [hz for hz in hertz if format_mhz(hz) in wardrobe] == []
    assert [one.hz for one in show.channels.values() if one.hz and format_mhz(one.hz) not in rack] == []


def test_it_says_what_the_papers_say_and_knows_their_codes():
    show, findings = _read_example()
    page = example("wardrobe")[1]
    text = words_in(page)
    held = html.unescape(" ".join(re.findall(r'data-held="([^"]*)"', page)))
    for paper in make_papers(show, findings, folders=frozenset({"wardrobe"}), pictured=False).printed:
        assert paper.title in text and all(code in held for _, code in paper.held)
        assert all(tag in page for _, tag in paper.tags)
    for name, person in show.people.items():
        assert person.child or (name in text and person.pouch in text)
    assert "Room 1" in text and "pack: small of back → inner pocket" in text
    assert [len(one) > 10_000 and one.startswith("<svg") for one in drawings_in(page)] == [True] * len(
        drawings_in(page)
    )


@pytest.mark.parametrize("reader", ("rack", "wardrobe", "production"))
def test_children_are_initials_and_have_no_room(tmp_path, reader):
    reading = reading_of(SHOW % ("en", "488.700"), tmp_path)
    name, data = make_pocket(reading.show, reading.findings, reader)
    page = data.decode("utf-8")
    everything = " ".join([name, page, html.unescape(page), *drawings_in(page)])
    assert [word for word in NAMES + ROOMS if word in everything] == []
    if reader == "wardrobe":
        assert "Q. Z." in everything and "Foyer" in everything


def test_hostile_text_in_every_field_is_text(tmp_path):
    reading = reading_of(hostile_show(), tmp_path)
    assert reading.show is not None
    for reader in ("rack", "wardrobe", "production"):
        name, data = make_pocket(reading.show, reading.findings, reader)
        page = data.decode("utf-8")
        assert not set(name) & set("<>&\"'/\\ ")
        assert set(re.findall(r"<(\w+)", page.partition("<main>")[2])) <= set(
            re.findall(r"<(\w+)", "".join(example(one)[1] for one in ("rack", "wardrobe", "production")))
        ) | {"dl", "dt", "dd", "ol"}
        assert page.count("&lt;img src=x onerror=alert(1)&gt;") > 4
        assert all(
            "onerror" not in re.sub(r"<title>.*?</title>", "", one, flags=re.DOTALL) for one in drawings_in(page)
        )


def build(*arguments):
    return root.main(["build", *map(str, arguments)], standalone_mode=False, obj={"made": ""})


def test_the_command_writes_a_file_a_reader_and_replaces_that_of_the_revision_before(tmp_path):
    path = tmp_path / "show.yaml"
    path.write_text("show: {title: Gala, revision: A}\nchannels: {1: {by: Ann, mhz: 486.2}}\n", encoding="utf-8")
    outcome = build(path, "--pocket", "wardrobe", "--pocket", "rack")
    assert outcome.code == 0 and "show-pocket/Gala-rev-A-rack.html" in outcome.text
    path.write_text(path.read_text().replace("revision: A", "revision: B"), encoding="utf-8")
    build(path, "--pocket", "wardrobe")
    assert [one.name for one in (tmp_path / "show-pocket").glob("*.html")] == ["Gala-rev-B-wardrobe.html"]
    assert "leave out --for" in build(path, "--pocket", "rack", "--for", "rack").aside
