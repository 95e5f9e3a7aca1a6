"""The local page without a browser: what is refused, what is kept apart, and that its papers are the command's."""

import io
import itertools
import re
import subprocess
import sys
import zipfile
from urllib.parse import quote, urlencode

import anyio
import pytest

from paperwork import limits
from paperwork.document import Printer
from paperwork.model.facts import fingerprint_show
from paperwork.pipeline import LabelChoice, make_papers
from paperwork.reading import read_show
from paperwork.serve.app import make_app
from paperwork.serve.guard import Guard
from paperwork.serve.shelf import Shelf
from paperwork.serve.tabs import BEATS_AWAY, Tabs
from tests.intake.test_lists import LISTS
from tests.serve.asgi import HOST, KEYS, PORT, ask
from tests.shows_text import EXAMPLES

TOKEN = "secret"
BASE = f"/{TOKEN}/"
SHOW = b"show: {title: Gala}\nchannels:\n  1: {by: Ann, mhz: 486.200}\n  2: {by: Bo, mhz: 486.200}\n"
PRINTERS = {"stage-left": Printer(300, right_um=400), "<office>": Printer(600)}
MESSY = b"Mic;Role;Actor;Freq\n1;VERA;Mara Lind;520,2\n2;TOM;Ben Arlo;1.518,200\n3;NURSE;Ida Voss;524.100\n"


@pytest.fixture
def app(tmp_path):
    numbers = itertools.count(1)

    async def make():
        return make_app(Shelf(tmp_path, lambda: f"show{next(numbers)}", PRINTERS), TOKEN, Tabs())

    return Guard(anyio.run(make), HOST, KEYS)


def drop(app, **files: bytes) -> str:
    """The address of what was dropped."""
    files = {name.replace("_", "."): data for name, data in files.items()}
    told = ",".join(f"{quote(name)} {len(data)}" for name, data in files.items())
    answer = ask(app, f"{BASE}drop", method="POST", body=b"".join(files.values()), headers={"x-files": told})
    assert answer.status == 200, answer
    return re.search(rb'"go":"([^"]+)"', answer.body)[1].decode()


def post(app, path: str, *fields: tuple[str, str]):
    return ask(app, path, method="POST", body=urlencode(fields).encode())


REFUSED = {
    "a name that points here (DNS rebinding)": ("GET", {"host": f"evil.example:{PORT}"}),
    "the name of this machine": ("GET", {"host": f"localhost:{PORT}"}),
    "another port": ("GET", {"host": "127.0.0.1:80"}),
    "no host": ("GET", {"host": None}),
    "another origin": ("POST", {"origin": "https://evil.example"}),
    "the origin null": ("POST", {"origin": "null"}),
    "another port as origin": ("POST", {"origin": "http://127.0.0.1:8000"}),
    "no origin": ("POST", {"origin": None}),
    "a link from another site": ("GET", {"sec-fetch-site": "cross-site"}),
    "a page of another port": ("GET", {"sec-fetch-site": "same-site"}),
}


@pytest.mark.parametrize("why", REFUSED)
def test_who_is_not_the_page_is_refused(app, why):
    method, headers = REFUSED[why]
    answer = ask(app, BASE if method == "GET" else f"{BASE}stop", method=method, headers=headers)
    assert answer.status == 403 and answer.body.startswith(b"refused: ")


@pytest.mark.parametrize("path", ("/", "/secre/", "/SECRET/", "/secret2/", "//secret/", "/favicon.ico"))
def test_without_the_secret_nothing_is_told(app, path):
    assert ask(app, path).status == 403


def test_the_page_itself_is_let_in_and_told_to_stay_alone(app):
    answer = ask(app, BASE, headers={"sec-fetch-site": "none"})
    assert answer.status == 200
    assert answer.headers["cache-control"] == "no-store" and answer.headers["x-frame-options"] == "DENY"
    assert (
        answer.headers["cross-origin-resource-policy"] == "same-origin"
        and "access-control-allow-origin" not in answer.headers
    )


@pytest.mark.parametrize("told", ({"content-length": "99999999"}, {}))
def test_uploads_are_bounded_whatever_they_say_of_themselves(app, told):
    size = limits.SWEEP_BYTES
    body = b"x" * (2 * size + 1)
    answer = ask(
        app, f"{BASE}drop", method="POST", body=body, headers={"x-files": f"a.csv {size},b.csv {size}", **told}
    )
    assert answer.status == 413
    assert ask(app, f"{BASE}drop", method="POST", body=b"", headers={"x-files": f"a.csv {size + 1}"}).status == 413
    assert (
        ask(app, f"{BASE}drop", method="POST", body=b"", headers={"x-files": ",".join(["a.csv 1"] * 40)}).status == 400
    )
    assert ask(app, f"{BASE}open", method="POST", body=b"x" * 1_000_001).status == 413


def test_a_show_that_is_too_large_is_refused_in_words(app):
    data = b"# x\n" * (limits.FILE_BYTES // 4 + 1)
    answer = ask(app, f"{BASE}drop", method="POST", body=data, headers={"x-files": f"show.yaml {len(data)}"})
    assert answer.status == 400 and b"is larger than" in answer.body


def test_two_tabs_do_not_mix_their_shows(app):
    one, other = drop(app, show_yaml=SHOW), drop(app, show_yaml=SHOW.replace(b"Gala", b"Matinee"))
    assert one != other
    post(app, f"{one}tonight", ("off", "Ann"))
    first, second = ask(app, one).body, ask(app, other).body
    assert b"Gala" in first and b"Matinee" not in first and b"Matinee" in second and b"Gala" not in second
    assert b'value="Ann" checked' in first and b'value="Ann" checked' not in second


def test_the_oldest_show_is_closed_for_newer_ones(app):
    first = drop(app, show_yaml=SHOW)
    for _ in range(limits.OPEN_SHOWS):
        drop(app, show_yaml=SHOW)
    assert ask(app, first).status == 404


def test_a_finding_stands_beside_its_line_with_the_value_marked(app):
    page = ask(app, drop(app, show_yaml=SHOW)).body.decode()
    assert (
        '<th scope="row">4</th><td><code>  2: {by: Bo, mhz: <mark>486.200</mark><span class="count">1</span>}</code>'
        in page
    )
    assert "channel 1 and channel 2 are both on 486.200 MHz" in page


def test_questions_are_answered_and_their_finding_goes(app):
    at = drop(app, list_csv=MESSY)
    page = ask(app, at).body.decode()
    assert '<td class="means"><bdi>1.518,200</bdi><span class="count">' in page
    (key,) = re.findall(r'name="k1" value="([^"]+)"', page)
    assert post(app, f"{at}answers", ("k1", key), ("a1", "nonsense")).status == 400
    choice = re.findall(r'name="a1" value="([^"]+)"', page)[1]
    assert post(app, f"{at}answers", ("k1", key), ("a1", choice)).status == 303
    page = ask(app, at).body.decode()
    assert "No question is open" in page and "<mark><bdi>1.518,200" not in page
    assert choice.encode() in ask(app, f"{at}answers.yaml").body
    post(app, f"{at}answers", ("forget", key))
    assert "No question is open" not in ask(app, at).body.decode()


def test_answers_about_a_sheet_of_the_folder_are_kept_beside_it_and_of_a_dropped_one_nowhere(app, tmp_path):
    (tmp_path / "list.csv").write_bytes(MESSY)
    post(app, f"{BASE}open", ("name", "list.csv"))
    at = f"{BASE}shows/show1/"
    page = ask(app, at).body.decode()
    key, choice = re.findall(r'name="k1" value="([^"]+)"', page)[0], re.findall(r'name="a1" value="([^"]+)"', page)[1]
    post(app, f"{at}answers", ("k1", key), ("a1", choice))
    assert choice in (tmp_path / "list.csv.answers.yaml").read_text(encoding="utf-8")
    other = drop(app, other_csv=MESSY)
    post(app, f"{other}answers", ("k1", key), ("a1", choice))
    assert sorted(path.name for path in tmp_path.iterdir()) == ["list.csv", "list.csv.answers.yaml"]


def test_papers_are_the_commands_byte_for_byte(app, tmp_path):
    folder = tmp_path / "elsewhere"
    folder.mkdir()
    (folder / "show.yaml").write_bytes(SHOW)
    subprocess.run(
        [sys.executable, "-m", "paperwork", "build", "show.yaml", "-o", "out"],
        cwd=folder,
        check=False,
        capture_output=True,
    )
    at = drop(app, show_yaml=SHOW)
    assert post(app, f"{at}print").status == 303
    with zipfile.ZipFile(io.BytesIO(ask(app, f"{at}papers.zip").body)) as archive:
        packed = {name: archive.read(name) for name in archive.namelist()}
    printed = {
        p.relative_to(folder / "out").as_posix(): p.read_bytes()
        for p in (folder / "out").rglob("*.*")
        if p.is_file() and not p.name.startswith(".")
    }
    assert packed == printed
    assert ask(app, f"{at}papers/rack/channel-chart.pdf").body == printed["rack/channel-chart.pdf"]
    assert ask(app, f"{at}papers/../../show.yaml").status == 404


def test_labels_start_where_the_sheet_is_not_peeled(app):
    at = drop(app, show_yaml=SHOW.replace(b"Bo, mhz: 486.200", b"Bo, mhz: 487.400"))
    post(app, f"{at}print")
    whole = ask(app, f"{at}papers/wardrobe/pack-labels.pdf").body
    post(
        app,
        f"{at}print",
        ("stock", "a4-21-63.5x38.1"),
        ("shown", "a4-21-63.5x38.1"),
        ("printer", "dpi 300"),
        ("peeled", "1"),
        ("peeled", "3"),
        ("peeled", "x"),
    )
    assert ask(app, f"{at}papers/wardrobe/pack-labels.pdf").body != whole
    page = ask(app, at).body.decode()
    assert re.findall(r'name="peeled" value="(\d+)" checked', page) == ["1", "3"]


def test_labels_that_do_not_match_what_was_clicked_since_are_not_handed_out(app):
    at, stock = drop(app, show_yaml=SHOW.replace(b"Bo, mhz: 486.200", b"Bo, mhz: 487.400")), "a4-21-63.5x38.1"
    chosen = (("stock", stock), ("shown", stock), ("printer", "dpi 300"))
    post(app, f"{at}print", *chosen, ("to", "labels"))
    post(app, f"{at}tonight", ("off", "Ann"))
    pdf = f"{at}papers/wardrobe/pack-labels.pdf"
    old = ask(app, pdf).body
    assert post(app, f"{at}labels", *chosen, ("peeled", "2")).status == 204
    answer = ask(app, pdf)
    assert answer.status == 409 and b"lay the labels out again" in answer.body
    assert ask(app, f"{at}papers/rack/channel-chart.pdf").status == 200, "other papers are not about labels"
    page = ask(app, at).body.decode()
    assert "data-unlaid" in page and re.findall(r'value="(\d+)" checked', page) == ["2"]
    with zipfile.ZipFile(io.BytesIO(ask(app, f"{at}papers.zip").body)) as archive:
        saved = archive.read("wardrobe/pack-labels.pdf")
    assert saved != old and ask(app, pdf).body == saved, "what is saved is laid out first"
    assert "data-unlaid" not in ask(app, at).body.decode()


def test_labels_are_set_right_for_a_printer_with_a_name(app, tmp_path):
    clean = SHOW.replace(b"Bo, mhz: 486.200", b"Bo, mhz: 487.400")
    at, stock = drop(app, show_yaml=clean), "a4-24-70x37-butt"
    post(app, f"{at}print", ("stock", stock), ("printer", "name stage-left"), ("proof", "on"))
    (tmp_path / "other.yaml").write_bytes(clean)
    reading = read_show(tmp_path / "other.yaml", "show.yaml")
    wanted = make_papers(
        reading.show, reading.findings, labels=LabelChoice(stock, printer=PRINTERS["stage-left"], proof=True)
    )
    assert ask(app, f"{at}papers/wardrobe/pack-labels.pdf").body == wanted.files["wardrobe/pack-labels.pdf"]
    page = ask(app, at).body.decode()
    assert (
        '<option value="name stage-left" selected>stage-left</option>' in page
        and "&lt;office&gt;" in page
        and "<office>" not in page
    )
    post(app, f"{at}print", ("stock", stock), ("printer", "name nobody"))
    assert '<option value="name stage-left" selected>' in ask(app, at).body.decode()


def test_papers_are_those_of_the_chosen_venue(app, tmp_path):
    example = (EXAMPLES / "show.yaml").read_bytes()
    at = drop(app, show_yaml=example, sweep_csv=(EXAMPLES / "sweep.csv").read_bytes())
    assert "Corn Exchange, Brindle Quay" in ask(app, at).body.decode()
    assert post(app, f"{at}edition", ("venue", "Pier Pavilion")).status == 303
    page = ask(app, at).body.decode()
    assert (
        "Pier Pavilion, Saltmarsh Head" in page
        and "Corn Exchange" not in page
        and "<option selected>Pier Pavilion</option>" in page
    )
    (fingerprint,) = re.findall(r"<strong>(\w{4})</strong>", page)
    assert fingerprint == fingerprint_show(read_show(EXAMPLES / "show.yaml", "show.yaml", venue="Pier Pavilion").show)
    post(app, f"{at}edition", ("venue", "nowhere"))
    assert "Corn Exchange, Brindle Quay" in ask(app, at).body.decode()


def test_a_show_of_the_folder_is_read_again_when_it_was_saved_again(app, tmp_path):
    (tmp_path / "show.yaml").write_bytes(SHOW)
    post(app, f"{BASE}open", ("name", "show.yaml"))
    at = f"{BASE}shows/show1/"
    post(app, f"{at}print")
    assert b'"saved":false' in ask(app, f"{at}progress").body
    (tmp_path / "show.yaml").write_bytes(SHOW.replace(b"486.200}\n  2", b"489.400}\n  2"))
    assert b'"saved":true' in ask(app, f"{at}progress").body
    page = ask(app, at).body.decode()
    assert "show.yaml was saved again" in page and "No problems found" in page and "Make them again" not in page
    assert "show.yaml was saved again" not in ask(app, at).body.decode()
    (tmp_path / "show.yaml").unlink()
    assert ask(app, at).status == 200


def test_two_revisions_are_compared(app):
    at = drop(app, show_yaml=SHOW.replace(b"Bo, mhz: 486.200", b"Cy, mhz: 487.400"))
    old = SHOW.replace(b"486.200}\n  2", b"486.200}\n  2").replace(b"Bo, mhz: 486.200", b"Bo, mhz: 487.400")
    answer = ask(app, f"{at}compare", method="POST", body=old, headers={"x-files": f"old.yaml {len(old)}"})
    assert answer.status == 200
    page = ask(app, at).body.decode()
    assert "<bdi>Bo</bdi>" in page and "<b><bdi>Cy</bdi></b>" in page
    assert ask(app, f"{at}compare", method="POST", body=b"x", headers={"x-files": "old.yaml 1"}).status == 400


def test_a_show_is_compared_with_a_show_book_and_opened_from_one(app):
    old = SHOW.replace(b"{title: Gala}", b"{title: Gala, revision: A}")
    first = drop(app, show_yaml=old)
    post(app, f"{first}print")
    book = ask(app, f"{first}papers/production/show-book.pdf").body
    at = drop(app, show_yaml=old.replace(b"revision: A", b"revision: B").replace(b"Bo,", b"Cy,"))
    assert (
        ask(app, f"{at}compare", method="POST", body=book, headers={"x-files": f"book.pdf {len(book)}"}).status == 200
    )
    page = ask(app, at).body.decode()
    assert "A to B" in page and "<bdi>Bo</bdi>" in page and "<b><bdi>Cy</bdi></b>" in page
    assert b"show.yaml" in ask(app, drop(app, book_pdf=book)).body
    answer = ask(app, f"{BASE}drop", method="POST", body=b"%PDF-1.4 nothing", headers={"x-files": "letter.pdf 16"})
    assert answer.status == 400 and b"letter.pdf" in answer.body


def test_closing_asks_while_another_tab_is_open_and_while_answers_are_in_no_file(app):
    def say(tab, *more):
        assert post(app, f"{BASE}alive", ("tab", tab), *more).status == 204

    def close(*fields):
        return post(app, f"{BASE}stop", ("tab", "one"), *fields).body.decode()

    say("one")
    say("two")
    assert "1 other tab shows this page" in close() and "Closed" not in close()
    say("two", ("gone", "yes"))
    at = drop(app, list_csv=MESSY)
    page = ask(app, at).body.decode()
    key, choice = re.findall(r'name="k1" value="([^"]+)"', page)[0], re.findall(r'name="a1" value="([^"]+)"', page)[1]
    assert "in no file yet" not in page
    post(app, f"{at}answers", ("k1", key), ("a1", choice))
    assert "These answers are in no file yet" in ask(app, at).body.decode()
    assert "list.csv" in close() and f"{at}answers.yaml" in close()
    ask(app, f"{at}answers.yaml")
    assert "in no file yet" not in ask(app, at).body.decode()
    assert "<h1>Closed</h1>" in close()


def test_closing_all_the_same_closes(app):
    post(app, f"{BASE}alive", ("tab", "two"))
    assert "<h1>Closed</h1>" in post(app, f"{BASE}stop", ("tab", "one"), ("sure", "yes")).body.decode()


def test_a_show_whose_answers_are_in_no_file_outlives_newer_ones(app):
    at = drop(app, list_csv=MESSY)
    page = ask(app, at).body.decode()
    key, choice = re.findall(r'name="k1" value="([^"]+)"', page)[0], re.findall(r'name="a1" value="([^"]+)"', page)[1]
    post(app, f"{at}answers", ("k1", key), ("a1", choice))
    second = drop(app, show_yaml=SHOW)
    for _ in range(limits.OPEN_SHOWS - 1):
        drop(app, show_yaml=SHOW)
    assert ask(app, at).status == 200 and ask(app, second).status == 404


def test_a_tab_that_says_nothing_for_long_counts_no_more():
    async def make():
        return Tabs()

    tabs = anyio.run(make)
    tabs.note("asleep")
    for _ in range(BEATS_AWAY):
        tabs.beat()
    assert tabs.count_others("one") == 1
    tabs.beat()
    assert tabs.count_others("one") == 0


def test_the_start_lists_what_is_open_and_a_file_is_opened_once(app, tmp_path):
    (tmp_path / "show.yaml").write_bytes(SHOW)
    assert b"Open now" not in ask(app, BASE).body
    first, again = (post(app, f"{BASE}open", ("name", "show.yaml")).headers["location"] for _ in range(2))
    other = drop(app, list_csv=MESSY)
    page = ask(app, BASE).body.decode()
    assert first == again and re.findall(r'href="(/secret/shows/[^"]+)"', page) == [other, first]
    post(app, f"{first}compare", ("name", "show.yaml"))
    assert len(re.findall(r'href="/secret/shows/', ask(app, BASE).body.decode())) == 2, "comparing opens nothing"


def test_a_sweep_is_not_listed_as_a_show_and_a_list_of_numbers_is(app, tmp_path):
    (tmp_path / "sweep.csv").write_bytes((EXAMPLES / "sweep.csv").read_bytes())
    (tmp_path / "levels.csv").write_text("".join(f"{470 + n / 40};-{90 + n % 7},5\n" for n in range(400)))
    (tmp_path / "list.csv").write_text("".join(f"{n},{518 + n * 0.4:.1f}\n" for n in range(1, 30)))
    (tmp_path / "gains.csv").write_text("Mic,Role,Gain\n" + "".join(f"{n},ROLE {n},-{n}\n" for n in range(1, 4)))
    assert re.findall(r'name="name" value="([^"]+)"', ask(app, BASE).body.decode()) == ["gains.csv", "list.csv"]


@pytest.mark.parametrize("path", ("shows/old/", "nowhere", "shows/old/papers/rack/channel-chart.pdf"))
def test_an_old_address_leads_to_the_start_which_says_so(app, path):
    answer = ask(app, BASE + path, headers={"accept": "text/html,*/*"})
    page = answer.body.decode()
    assert answer.status == 404 and "Drop a show here" in page
    assert "not open any more" in page or "nothing at this address" in page
    plain = ask(app, BASE + path)
    assert plain.status == 404 and plain.headers["content-type"].startswith("text/plain")


HOSTILE = "<img src=x onerror=alert(1)>&'{{7*7}}"


def test_hostile_text_and_names_are_text_on_the_page(app):
    show = f'show: {{title: "{HOSTILE}"}}\nroles: {{"{HOSTILE}": {{by: "{HOSTILE}"}}}}\nchannels:\n  1: {{role: ["{HOSTILE}"], mhz: "{HOSTILE}"}}\n'
    for files in (
        {"<b>.yaml": show.encode()},
        {"<b>.csv": f"Mic;Role;Freq\n1;{HOSTILE};1.518,200\n2;{HOSTILE};x\n".encode()},
    ):
        page = ask(app, drop(app, **files)).body.decode()
        assert "<img src=x" not in page and "<b>.yaml" not in page and "<b>.csv" not in page
        assert "&lt;img src=x onerror=alert(1)&gt;" in page


def test_check_and_build_never_load_the_page(tmp_path):
    code = (
        "import sys\nfrom paperwork.cli import main\n"
        f"try: main(['check', {str(EXAMPLES / 'first_show.yaml')!r}])\nexcept SystemExit: pass\n"
        "print(sorted({'starlette', 'uvicorn', 'anyio', 'watchfiles', 'zxingcpp', 'PIL', 'paperwork.serve', 'paperwork.watch', 'jinja2'} & set(sys.modules)))"
    )
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, encoding="utf-8", cwd=tmp_path, check=True)
    assert done.stdout.splitlines()[-1] == "[]"


def test_a_missing_extra_is_one_line_that_names_what_to_install(tmp_path):
    (tmp_path / "show.yaml").write_bytes(SHOW)
    for command, library, extra in (
        ("serve", "uvicorn", "page"),
        ("watch show.yaml", "watchfiles", "page"),
        ("audit show.yaml show.yaml", "zxingcpp", "audit"),
    ):
        code = f"import sys\nsys.modules[{library!r}] = None\nfrom paperwork.cli import main\nmain({command.split()!r})"
        done = subprocess.run(
            [sys.executable, "-c", code], capture_output=True, check=False, encoding="utf-8", cwd=tmp_path, timeout=60
        )
        assert done.returncode == 2 and done.stderr.count("\n") == 1, done.stderr
        assert f"needs {library}" in done.stderr and f"pip install 'show-paperwork[{extra}]'" in done.stderr


def test_a_folder_of_more_files_than_are_listed_says_so(app, tmp_path, monkeypatch):
    monkeypatch.setattr(limits, "FOLDER_NAMES", 2)
    for name in ("a.yaml", "b.csv", "c.xlsx", "d.yaml", "e.txt"):
        (tmp_path / name).write_bytes(SHOW)
    page = ask(app, BASE).body.decode()
    assert "b.csv" in page and "c.xlsx" not in page and "2 more are not listed" in page


def test_a_label_that_is_withheld_is_told_in_sight(app):
    at = drop(app, list_csv=MESSY)
    post(app, f"{at}print")
    assert "<details open>" in ask(app, at).body.decode()
    clean = drop(app, show_yaml=SHOW.replace(b"Bo, mhz: 486.200", b"Bo, mhz: 487.400"))
    post(app, f"{clean}print")
    assert "<details open>" not in ask(app, clean).body.decode()


def test_the_page_shows_how_a_list_is_read_and_takes_a_change_that_was_not_asked(app):
    at = drop(app, list_csv=b"Mic,Name,Freq\n1,ANNA,518.2\n2,PETER,520.4\n")
    page = ask(app, at).body.decode()
    assert "column B &#34;Name&#34;: performer" in page
    assert post(app, f"{at}answers", ("say", "column Name=role")).status == 303
    assert re.search(r"column B &#34;Name&#34;: role [^<]*\(answered\)", ask(app, at).body.decode())
    assert post(app, f"{at}answers", ("say", "column Nonsense=role")).status == 400


def test_the_page_of_a_foreign_list_opens_with_its_reading_the_most_doubtful_first(app):
    data = (LISTS / "w01_theatre.xlsx").read_bytes()
    text = ask(app, drop(app, mics_xlsx=data)).body.decode()
    order = [text.index(f'id="{part}"') for part in ("read", "questions", "findings")]
    assert order == sorted(order)
    reading = text[order[0] : order[1]]
    signs = re.findall(r"<li>(?:<b>([?~]) )?<bdi>([^<]+)", reading)
    assert signs[0][0] == "~" and signs[0][1].startswith("sheet OLD: leave")
    assert [sign for sign, _ in signs] == sorted((sign for sign, _ in signs), key="?~".__contains__, reverse=True)
    assert len(signs) > 20 and "--answer" not in reading and reading.index("<bdi>") < reading.index("<details>")


def test_the_page_of_a_show_file_has_no_reading(app):
    assert b'id="read"' not in ask(app, drop(app, show_yaml=SHOW)).body
