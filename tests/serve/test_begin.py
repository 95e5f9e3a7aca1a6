"""The ways to a first show, and what is said to be next, without a browser."""

import pytest

from paperwork.reading import read_show
from paperwork.serve.begin import make_show
from paperwork.serve.edit.describe import list_parts
from paperwork.serve.guide import find_next
from tests.serve.test_edit import SHOW, Page


def ask_new(page: Page, **given: str):
    from urllib.parse import urlencode

    from tests.serve.asgi import ask

    return ask(page.app, "/secret/new", method="POST", body=urlencode(given).encode())


@pytest.mark.parametrize("channels, racks, scenes", ((1, 0, 0), (12, 2, 3), (12, 5, 0), (3, 9, 1), (200, 40, 100)))
def test_a_new_show_has_what_was_asked_for_and_no_finding(tmp_path, channels, racks, scenes):
    path = tmp_path / "show.yaml"
    path.write_text(make_show("Yes: #1", channels, racks, scenes), encoding="utf-8")
    reading = read_show(path, "show.yaml")
    assert reading.show and not [one for one in reading.findings if one.severity == "error"]
    assert reading.show.production.title == "Yes: #1"
    assert len(reading.show.channels) == channels and len(reading.show.scenes) == scenes
    assert len(reading.show.racks) <= min(racks, channels) and bool(reading.show.racks) == bool(racks)
    assert sum(rack.slots for rack in reading.show.racks.values()) == (channels if racks else 0)
    assert all(bool(channel.slot) == bool(racks) for channel in reading.show.channels.values())


@pytest.mark.parametrize(
    "given", ({}, {"title": " "}, {"title": "A", "channels": "0"}, {"title": "A", "channels": "x"}, {"title": "A", "channels": "9", "racks": "-1"},
    {"title": "A", "channels": "201"}, {"title": "show", "channels": "1"})
)  # fmt: skip
def test_a_new_show_that_makes_no_sense_writes_nothing_and_is_told(tmp_path, given):
    page = Page(tmp_path)
    answer = ask_new(page, **given)
    assert answer.status == 400 and b'role="alert"' in answer.body
    assert page.file.read_bytes() == SHOW and len(list(tmp_path.iterdir())) == 1


def test_a_title_never_leads_out_of_the_folder(tmp_path):
    page = Page(tmp_path)
    assert ask_new(page, title="../../x\\y", channels="1").status == 303
    assert len(list(tmp_path.iterdir())) == 2


def test_each_state_of_a_show_has_one_next_step(tmp_path):
    page = Page(tmp_path)
    opened = page.opened
    assert find_next(opened).label == "Put it right"
    page.edit("channels/02/mhz=487.400")
    assert find_next(opened).href == "edit/"
    page.file.write_bytes(SHOW + b"# more\n")
    assert find_next(opened).href == "edit/#clash"
    page.file.write_bytes(SHOW)
    page.post("save", ("way", "own"))
    assert find_next(opened).does
    opened.print()
    assert find_next(opened).label == "Look at them"
    page.edit("channels/02/by=Bo")
    page.post("save", ("way", "own"))
    assert "out of date" in find_next(opened).text
    for name, data, label in (
        ("list.csv", b"Mic;Role;Freq\n1;VERA;1.518,200\n2;TOM;520,2\n3;IDA;522,1\n", "Answer"),
        ("bad.yaml", b"a: [", "See why"),
    ):
        (tmp_path / name).write_bytes(data)
        assert find_next(page.shelf.open(name)).label == label


def test_every_section_has_its_place_on_the_page():
    from paperwork.model.fields import SECTIONS

    listed = [section.name for _, sections in list_parts() for section in sections]
    assert sorted(listed) == sorted(SECTIONS)
