"""Photographs on the page: marked where something is wrong, with who and where beside each number."""

import re
from io import BytesIO
from urllib.parse import urlencode

import pytest
import qrcode
from PIL import Image

from paperwork.audit import list_labels
from tests.serve.asgi import ask
from tests.serve.test_edit import Page

SHOW = b"""show: {title: Gala, revision: C}
people:
  Ann Moss: {pouch: P1}
  Pia Lund: {child: yes, pouch: P4}
racks: {R1: {channels: 1-4}}
channels:
  1: {role: VERA, by: Ann Moss, mhz: 486.200}
  2: {role: TOM, by: Bo, mhz: 488.700}
  3: {by: Cy, mhz: 490.900}
  4: {role: GULL, by: Pia Lund, mhz: 492.300}
"""
PLACES = {"good": (150, 150), "stale": (600, 150), "foreign": (150, 600), "smeared": (600, 600)}
SIDE = 240


def photograph(texts: dict[str, str], turned: bool = False) -> bytes:
    """Codes on a table, drawn by another library; the one called smeared cannot be decoded."""
    picture = Image.new("L", (1000, 1000), 170)
    for name, text in texts.items():
        code = qrcode.make(text, error_correction=qrcode.constants.ERROR_CORRECT_M).get_image().convert("L")
        code = code.resize((SIDE, SIDE), Image.Resampling.NEAREST)
        if name == "smeared":
            middle = (96, 96, 192, 192)
            code.paste(code.crop(middle).point(lambda level: 255 - level), middle)
        picture.paste(code, PLACES[name])
    buffer, exif = BytesIO(), Image.Exif()
    if turned:
        picture, exif[0x0112] = picture.rotate(90), 6
    exif[0x010E] = "a note of the camera"
    picture.save(buffer, "JPEG", quality=92, exif=exif)
    return buffer.getvalue()


@pytest.fixture
def page(tmp_path):
    return Page(tmp_path, SHOW)


def labels_of(page: Page) -> dict[str, str]:
    good = list_labels(page.opened.reading.show, ())
    return {"good": f"1:VERA:C:{min(good['1'])}", "stale": "2:TOM:B:AAAA", "foreign": "http://other.example"}


def drop(page: Page, data: bytes, name: str = "table.jpg"):
    headers = {"x-files": f"{name} {len(data)}"}
    return ask(page.app, "/secret/shows/show1/audit/drop", method="POST", body=data, headers=headers)


def shown(page: Page) -> str:
    return ask(page.app, "/secret/shows/show1/audit/").body.decode()


def marks_in(body: str) -> dict[str, list[tuple[int, int, int]]]:
    found: dict[str, list[tuple[int, int, int]]] = {}
    for state, x, y, side in re.findall(
        r'class="mark (\w+)"><rect class="under" x="(-?\d+)" y="(-?\d+)" width="(\d+)"', body
    ):
        found.setdefault(state, []).append((int(x), int(y), int(side)))
    return found


@pytest.mark.parametrize("turned", (False, True))
def test_each_code_is_marked_where_it_lies_whichever_way_the_telephone_was_held(page, turned):
    texts = labels_of(page)
    assert drop(page, photograph(texts, turned)).status == 200
    body = shown(page)
    marks = marks_in(body)
    assert {state: len(found) for state, found in marks.items()} == {"good": 1, "stale": 1, "foreign": 1}
    for state, ((x, y, side),) in marks.items():
        left, top = PLACES[state]
        assert left - 60 <= x <= left + 60 and top - 60 <= y <= top + 60 and 150 <= side <= 320
    assert re.search(r'class="mark stale".*?>2 old</text>', body, re.DOTALL)
    picture = ask(page.app, "/secret/shows/show1/audit/1.jpg")
    assert picture.headers["content-type"] == "image/jpeg" and b"a note of the camera" not in picture.body
    with Image.open(BytesIO(picture.body)) as opened:
        assert opened.size == (1000, 1000) and abs(opened.getpixel((20, 20)) - 170) < 8


def test_what_is_missing_has_role_pack_rack_and_pouch_and_a_child_is_initials(page):
    drop(page, photograph(labels_of(page)))
    body = shown(page)
    missing = body.partition("Missing <span")[2].partition("</ul>")[0]
    assert "GULL, P. L., pack 4, R1.4, pouch P4" in missing and "Cy, pack 3, R1.3" in missing and "Pia" not in body
    assert "Not known yet" not in body and "1 of 4 packs are there" in body


def test_what_cannot_be_read_is_told_as_such_and_nothing_is_called_missing(page):
    drop(page, photograph({**labels_of(page), "smeared": "3::C:AAAA"}))
    body = shown(page)
    assert marks_in(body)["unreadable"] and "cannot be read: go closer" in " ".join(body.split())
    assert "Missing <span" not in body and "Not known yet" in body and "pack 3" in body


def test_a_second_photograph_adds_to_the_first_and_all_begins_anew(page):
    good = labels_of(page)
    drop(page, photograph({"good": good["good"]}))
    drop(page, photograph({"stale": good["good"]}), "second.jpg")
    body = shown(page)
    assert body.count('<svg class="photo"') == 2 and "Twice in one photograph" not in body
    drop(page, photograph({"stale": good["good"], "good": good["good"]}), "third.jpg")
    assert "Twice in one photograph" in shown(page)
    for field in (("each", "2"), ("anew", "yes")):
        ask(page.app, "/secret/shows/show1/audit/set", method="POST", body=urlencode([field]).encode())
    assert 'class="photo"' not in shown(page) and "<option selected>2" not in shown(page)
    assert ask(page.app, "/secret/shows/show1/audit/1.jpg").status == 404


def test_what_is_no_photograph_is_told_and_a_hostile_name_is_text(page):
    answer = drop(page, b"no picture", "%3Cb%3E.jpg")
    assert answer.status == 400 and b"wrong" in answer.body
    drop(page, photograph(labels_of(page)), "%3Cb%3E.jpg")
    assert "<b>.jpg" not in shown(page) and "&lt;b&gt;.jpg" in shown(page)
