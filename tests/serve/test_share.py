"""Papers lent to telephones: off unless asked for, of one show, to read alone, to whom a code let in, until the time is over."""

from urllib.parse import urlencode

import anyio
import pytest
from click.testing import CliRunner

from paperwork.serve.app import make_app
from paperwork.serve.guard import Guard, Keys
from paperwork.serve.share.lending import Lending
from paperwork.serve.share.lent import make_lent_app, pick_files
from paperwork.serve.tabs import Tabs
from tests.serve.asgi import HOST, KEYS, ask
from tests.serve.test_edit import Page
from tests.serve.test_page import REFUSED

SHOW = b"""show: {title: Gala, revision: C}
people:
  Quillon Zimtstern: {room: Loft, child: yes}
channels:
  01: {by: Quillon Zimtstern, mhz: 486.200}
  02: {by: Bo, mhz: 488.700}
"""


class Shared:
    """A page whose papers are lent at HOST, and the clock of both."""

    def __init__(self, page: Page, files) -> None:
        self.page = page
        self.now = "2027-03-01-2350"
        names = iter(f"name{n}" for n in range(100))
        self.lending = Lending("127.0.0.1", 30, lambda: self.now, lambda: next(names))
        self.lent = self.lending.lend(page.opened, files, HOST)
        self.app = make_lent_app(self.lent, lambda: self.now)
        self.base = f"/{self.lent.keys.token}/"
        self.cookie = {"cookie": f"paperwork={self.lent.keys.cookie}"}

    def get(self, path: str, method: str = "GET", **headers: str | None):
        told = {name.replace("_", "-"): value for name, value in headers.items()}
        return ask(self.app, path, method=method, headers={**self.cookie, **told})

    @property
    def enter(self) -> str:
        return self.lent.address.removeprefix(f"http://{HOST}")


@pytest.fixture(scope="module")
def printed(tmp_path_factory):
    """A page with its papers, and what of them may be lent."""
    page = Page(tmp_path_factory.mktemp("shared"), SHOW)
    page.opened.print()
    return page, pick_files(page.opened)


@pytest.fixture
def shared(printed):
    return Shared(*printed)


def post_share(app, **fields: str):
    return ask(app, "/secret/shows/show1/share", method="POST", body=urlencode(fields).encode())


def test_nobody_who_did_not_ask_for_it_can_share(printed):
    page, _ = printed
    page.shelf.lending.stop()
    asked_at(page, "")
    assert post_share(page.app, do="on").status == 404 and page.shelf.lending.lent is None
    assert b"Phones" not in ask(page.app, "/secret/shows/show1/").body


@pytest.mark.parametrize("why", [why for why, (method, _) in REFUSED.items() if method == "GET"])
def test_the_guard_of_the_page_stands_before_what_is_lent(shared, why):
    _, headers = REFUSED[why]
    assert shared.get(f"{shared.base}index.html").status == 200
    answer = ask(shared.app, f"{shared.base}index.html", headers={**shared.cookie, **headers})
    assert answer.status == 403 and answer.body.startswith(b"refused: ")


@pytest.mark.parametrize("method", ("POST", "PUT", "DELETE", "PATCH", "OPTIONS", "TRACE", "CONNECT"))
def test_nothing_is_taken_that_is_sent(shared, method):
    answer = shared.get(f"{shared.base}index.html", method, origin=f"http://{HOST}")
    assert answer.status == 403 and answer.body == b"refused: only reading\n"


@pytest.mark.parametrize("path", ("/", "/name/index.html", "/favicon.ico", "//name0/index.html"))
def test_without_the_secret_nothing_is_told(shared, path):
    assert shared.get(path).status == 403


@pytest.mark.parametrize("cookie", (None, "", "paperwork=", "paperwork=name1x", "paperwork=crumb"))
def test_the_address_alone_opens_nothing_nor_does_the_cookie_of_the_page(shared, cookie):
    assert shared.get(f"{shared.base}index.html", cookie=cookie).status == 403


def test_a_code_lets_in_one_telephone_and_the_next_needs_another(shared):
    stranger = {"cookie": None, "sec_fetch_site": None}
    enter = shared.enter
    answer = shared.get(enter, **stranger)
    assert answer.status == 200 and answer.headers["set-cookie"].startswith(f"{shared.cookie['cookie']}; Path=/")
    assert "HttpOnly; SameSite=Strict" in answer.headers["set-cookie"]
    assert shared.get(enter, **stranger).status == 403 and shared.lent.address == "" and shared.lent.keys.taken == 1
    shared.lending.pair_another()
    unused = shared.enter
    shared.lending.pair_another()
    assert shared.get(unused, **stranger).status == 403 and shared.get(shared.enter, **stranger).status == 200


PATHS = (
    "../show.yaml", "..%2fshow.yaml", "rack/../../show.yaml", "/etc/passwd", "show.yaml", "shows/show1/", "show.yaml.answers.yaml",
    "papers.zip", "production/show-book.pdf", "pictures/production/show-book-1.svg", "edit/", "rack", "\0", "rack/channel-chart.pdf/",
)  # fmt: skip


@pytest.mark.parametrize("path", PATHS)
def test_nothing_but_papers_and_index_is_found(shared, path):
    assert shared.get(shared.base + path).status in (403, 404)


def test_the_papers_are_those_of_the_page_and_carry_no_show_file(shared):
    papers = shared.page.opened.papers
    for path, data in papers.files.items():
        if "show-book" not in path and path != "index.html":
            assert shared.get(shared.base + path).body == data
    index = shared.get(shared.base).body
    assert (
        b"channel-chart.pdf" in index
        and b"show-book" not in index
        and b"Zimtstern" not in index
        and b"Loft" not in index
    )
    carried = [data for path, data in papers.files.items() if b"EmbeddedFile" in data]
    lent = shared.lent.files.values()
    assert carried and not [data for data in lent if b"EmbeddedFile" in data or b"Zimtstern" in data]


def test_after_its_time_everything_is_refused_by_the_clock_over_midnight(shared):
    assert shared.lent.until == "2027-03-02-0020"
    shared.now = "2027-03-02-0019"
    shared.lending.beat()
    assert shared.get(shared.base).status == 200
    shared.now = "2027-03-02-0020"
    assert shared.get(shared.base).status == 403
    assert shared.get(shared.enter, cookie=None).status == 403
    shared.lending.beat()
    assert shared.lending.lent is None


def test_a_clock_that_was_set_back_does_not_make_it_longer(shared):
    for _ in range(30 * 60 * 4):
        shared.now = "2027-03-01-0000"
        shared.lending.beat()
    assert shared.lending.lent is None and shared.get(shared.base).status == 403


def test_without_papers_or_a_clock_nothing_is_lent(tmp_path, printed):
    page = Page(tmp_path, SHOW)
    with pytest.raises(ValueError, match="make them first"):
        Lending("127.0.0.1", 30, lambda: "2027-03-01-2350", str).lend(page.opened, {}, HOST)
    page, _ = printed
    with pytest.raises(ValueError, match="time is not known"):
        Lending("127.0.0.1", 30, lambda: "0000-00-00-0000", str).lend(page.opened, {}, HOST)


def asked_at(page: Page, address: str) -> tuple[Guard, Lending]:
    lending = Lending(address, 30, lambda: "2027-03-01-1620", lambda: "abc")

    async def make():
        return make_app(page.shelf, "secret", Tabs(), lending)

    return Guard(anyio.run(make), HOST, KEYS), lending


def test_the_page_says_who_can_reach_it_and_an_address_of_another_machine_is_told(printed):
    page, files = printed
    app, lending = asked_at(page, "192.0.2.17")
    body = ask(app, "/secret/shows/show1/").body.decode()
    assert "anybody in that network can reach it" in body and "192.0.2.17" in body and "this machine only" not in body
    answer = post_share(app, do="on")
    assert answer.status == 400 and b"192.0.2.17 cannot be listened on" in answer.body and lending.lent is None
    lending.lend(page.opened, files, "192.0.2.17:40001")
    body = ask(app, "/secret/shows/show1/").body.decode()
    assert "http://192.0.2.17:40001/abc/enter/abc" in body and "until 16:50" in body and "not encrypted" in body


def test_the_code_on_the_page_is_read_by_an_independent_reader(printed):
    import re

    import zxingcpp
    from PIL import Image, ImageDraw

    page, files = printed
    app, lending = asked_at(page, "127.0.0.1")
    lent = lending.lend(page.opened, files, HOST)
    body = ask(app, "/secret/shows/show1/").body.decode()
    box = re.search(r'class="code" viewBox="(-?\d+) (-?\d+) (\d+) (\d+)"', body)
    image = Image.new("L", (int(box[3]) * 8, int(box[4]) * 8), 255)
    draw = ImageDraw.Draw(image)
    drawn = body.partition('class="code"')[2].partition("</svg>")[0].rpartition("<path")[2]
    for x, y, width, height in re.findall(r"M(\d+) (\d+)h(\d+)v(\d+)h-\d+z", drawn):
        left, top = (int(x) - int(box[1])) * 8, (int(y) - int(box[2])) * 8
        draw.rectangle((left, top, left + int(width) * 8 - 1, top + int(height) * 8 - 1), fill=0)
    assert zxingcpp.read_barcodes(image)[0].text == lent.address


@pytest.mark.parametrize("address", ("0.0.0.0", "everywhere", "224.0.0.1", "::1", "192.0.2"))
def test_an_address_that_is_none_is_refused_by_the_command(tmp_path, address):
    from paperwork.commands.serve import command

    arguments = [str(tmp_path), "--no-open", "--share", address]
    outcome = CliRunner().invoke(command, arguments, standalone_mode=False, obj={}).return_value
    assert outcome.code == 2 and f"--share {address}: give an address of this machine" in outcome.aside


def test_keys_count_what_let_somebody_in():
    keys = Keys("t", "c", {"a"})
    assert not keys.take("/t/enter/b") and keys.taken == 0 and keys.take("/t/enter/a") and keys.taken == 1
