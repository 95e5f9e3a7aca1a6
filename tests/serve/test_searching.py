"""Frequencies looked for on the page: by a process that can be ended, looked at before they are taken, and undone."""

import json
from urllib.parse import urlencode

import pytest

from paperwork.checks.air.repair import Mended, Retuned
from paperwork.cli import root
from paperwork.coordinate.assign import Assigned
from paperwork.serve.wording import say_here
from paperwork.terminal.assigned import describe_assigned, describe_repair
from tests.serve.asgi import ask
from tests.serve.test_edit import Page
from tests.shows_text import EXAMPLES

SHOW = b"""# kept by hand
show: {title: <b>Gala</b>, revision: C}
racks: {R1: {channels: 1-4, window: 486-508}}
channels:
  1: {role: VERA, by: Ann}   # lead
  2: {role: TOM, by: Bo, mhz: 488.700}
  3: {by: Cy}
  4: {by: Di}
"""


def post(page: Page, path: str, **fields: str):
    return ask(page.app, f"/secret/shows/show1/search/{path}", method="POST", body=urlencode(fields).encode())


def shown(page: Page) -> str:
    return ask(page.app, "/secret/shows/show1/search/").body.decode()


def progress(page: Page) -> dict:
    return json.loads(ask(page.app, "/secret/shows/show1/search/progress").body)


def begin(page: Page, **fields: str):
    """Begins, and gives the process."""
    import paperwork.serve.work.searching as room

    begun = []
    popen = room.subprocess.Popen

    def note(*arguments, **options):
        begun.append(popen(*arguments, **options))
        return begun[-1]

    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(room.subprocess, "Popen", note)
        answer = post(page, "begin", **fields)
    assert answer.status == 303
    return begun[0]


def test_what_is_found_is_the_commands_to_the_byte_shown_first_not_put_over_an_edit_and_undone(tmp_path):
    page = Page(tmp_path, SHOW)
    begin(page, kind="assign").wait(60)
    assert progress(page)["running"] is False
    body = shown(page)
    assert "3 changes" in body and body.index("Take it") < body.index("The spectrum") < body.index("What changes")
    assert "channel 1: " not in body and "3 placed" in body
    assert "&lt;b&gt;Gala" in body and "<b>Gala" not in body
    assert b"<svg" in ask(page.app, "/secret/shows/show1/search/1.svg").body
    assert page.opened.data == SHOW and page.file.read_bytes() == SHOW
    page.edit("channels/3/by=Quillon")
    answer = post(page, "take")
    assert answer.status == 400 and b"changed since" in answer.body and b"Quillon" in page.opened.data
    page.post("undo")
    assert post(page, "take").headers["location"].endswith("#findings")
    arguments = ["assign", str(page.file), "-o", str(tmp_path / "new.yaml")]
    root.main(arguments, standalone_mode=False, obj={})
    assert page.opened.data == (tmp_path / "new.yaml").read_bytes() != SHOW and page.file.read_bytes() == SHOW
    page.post("undo")
    assert page.opened.data == SHOW
    assert post(page, "take").status == 400


def test_a_search_is_ended_with_nothing_or_with_what_is_found(tmp_path):
    page = Page(tmp_path, (EXAMPLES / "show.yaml").read_bytes())
    page.opened.dropped["sweep.csv"] = (EXAMPLES / "sweep.csv").read_bytes()
    process = begin(page, kind="assign", way="anew", effort="64000")
    assert progress(page)["running"] and "Cancel" in shown(page)
    assert post(page, "end", drop="yes").status == 303
    assert process.wait(30) != 0 and "What was found" not in shown(page) and progress(page)["running"] is False


ANSWERED = b"""show: {title: Gala, revision: C}
radios: {belt: {tunes: 486-508, step: 25 kHz}}
channels:
  1: {radio: belt, mhz: 488.700, granted: no}
  2: {radio: belt, mhz: 490.000, granted: 491.500}
  3: {radio: belt, mhz: 495.000, granted: 495.000}
"""


def test_what_was_answered_is_counted_and_can_be_chosen(tmp_path):
    page = Page(tmp_path, ANSWERED)
    assert "1 channel was refused and 1 was granted another." in shown(page) and "has one" not in shown(page)
    begin(page, kind="assign", way="answered").wait(60)
    body = shown(page)
    assert "<b><bdi>491.500" in body and "2 placed" in body
    post(page, "take")
    assert "every channel has one." in shown(page)


def test_no_line_of_a_search_speaks_of_options(tmp_path):
    """Of one that is not proved, and of one with so much wrong that nothing is tried."""
    unproved = Assigned({}, (), (), None, stopped=False, is_most=False)
    moved = Mended((Retuned(("1",), 1, 2, "", False, False),), (), is_fewest=False)
    lines = [*describe_assigned(unproved, 2_000), *describe_repair(moved, 2_000)]
    assert sum("--effort" in line for line in lines) == 2
    said = [say_here(line) for line in lines]
    assert not any("--" in line for line in said) and sum(line.endswith("look longer") for line in said) == 2
    crowd = "".join(f"  {number}: {{radio: belt, mhz: 488.{number:03}}}\n" for number in range(1, 14))
    page = Page(tmp_path, f"radios: {{belt: {{tunes: 488-489}}}}\nchannels:\n{crowd}".encode())
    begin(page, kind="assign", way="repair").wait(60)
    assert "nothing was written: “All anew” under Frequencies plans every frequency again<" in shown(page)


def test_windows_are_surveyed_and_drawn(tmp_path):
    page = Page(tmp_path, SHOW)
    begin(page, kind="survey").wait(60)
    body = shown(page)
    assert "486 to 508 MHz" in body and "22 of 22 MHz free" in body
    assert ask(page.app, "/secret/shows/show1/search/windows.pdf").body.startswith(b"%PDF")


@pytest.mark.parametrize("spares", ("--output=/etc/x; ls $(id)", "1\n2", "x" * 90))
def test_hostile_words_start_nothing(tmp_path, spares):
    page = Page(tmp_path, SHOW)
    assert post(page, "begin", kind="assign", spares=spares).status == 400 and "Cancel" not in shown(page)


def test_a_list_that_is_not_ours_has_no_search(tmp_path):
    page = Page(tmp_path, b"Mic;Role;Actor;Freq\n1;VERA;Mara Lind;520,200\n2;TOM;Ben Arlo;521,300\n", "list.csv")
    assert ask(page.app, "/secret/shows/show1/search/").status == 404
