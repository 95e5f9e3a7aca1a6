"""Archives on the page: made as the command makes them, verified, put back, in line, and any two compared."""

import hashlib
import zipfile
from urllib.parse import urlencode

import pytest

from paperwork.archive.container import pack_files
from paperwork.cli import root
from tests.archive.test_verify import files_of
from tests.serve.asgi import ask
from tests.serve.test_edit import SHOW, Page
from tests.serve.test_page import drop


def post(page: Page, path: str, **fields: str):
    return ask(page.app, f"/secret/{path}", method="POST", body=urlencode(fields).encode())


def shown(page: Page) -> str:
    return ask(page.app, "/secret/archives/").body.decode()


@pytest.fixture(scope="module")
def kept(tmp_path_factory):
    """A folder with a show and its archives of revisions B and C, made on the page."""
    folder = tmp_path_factory.mktemp("kept")
    page = Page(
        folder, SHOW.replace(b"revision: C, revisions: [A, B]", b"revision: B, revisions: [A], reason: <b>new</b>")
    )
    assert post(page, "shows/show1/archive").headers["location"] == "/secret/archives/#verdict"
    (folder / "show.yaml").write_bytes(SHOW)
    page.opened.refresh()
    post(page, "shows/show1/archive", after="show-B.zip")
    return page, folder


def test_an_archive_is_the_commands_byte_for_byte_and_is_never_replaced(kept, tmp_path):
    page, folder = kept
    arguments = [
        "archive",
        str(folder / "show.yaml"),
        "--after",
        str(folder / "show-B.zip"),
        "-o",
        str(tmp_path / "a.zip"),
    ]
    root.main(arguments, standalone_mode=False, obj={"made": ""})
    assert (folder / "show-C.zip").read_bytes() == (tmp_path / "a.zip").read_bytes()
    answer = post(page, "shows/show1/archive", after="show-B.zip")
    assert answer.status == 400 and b"show-C.zip" in answer.body


def test_what_is_not_saved_is_not_kept(tmp_path):
    page = Page(tmp_path)
    page.edit("channels/01/mhz=487.1")
    answer = post(page, "shows/show1/archive")
    assert answer.status == 400 and b"Save your changes first" in answer.body and not list(tmp_path.glob("*.zip"))


def test_what_was_altered_is_named_and_a_noted_digest_is_compared(kept):
    page, folder = kept
    data = (folder / "show-C.zip").read_bytes()
    digest = hashlib.sha256(data).hexdigest()
    post(page, "archives/verify", name="show-C.zip", expect=digest.upper(), rebuild="yes")
    body = shown(page)
    assert "as it was noted" in body and digest in body and "facts and papers made again are the same" in body
    post(page, "archives/verify", name="show-C.zip", expect="0" * 64)
    assert "not what was noted" in shown(page)
    altered = pack_files({**files_of(data), "inputs/show.yaml": b"show: {title: Other}\n"})
    assert drop_archive(page, altered).status == 200
    body = shown(page)
    assert "not as it was made" in body and "inputs/show.yaml" in body and "archive-altered" in body


def drop_archive(page: Page, data: bytes):
    headers = {"x-files": f"sent.zip {len(data)}"}
    return ask(page.app, "/secret/archives/drop", method="POST", body=data, headers=headers)


def test_what_is_no_archive_is_refused_in_words(kept):
    page, _ = kept
    answer = drop_archive(page, b"PK\x03\x04 nothing")
    assert answer.status == 400 and b'"wrong"' in answer.body


@pytest.mark.parametrize("name", ("../show-C.zip", "/etc/passwd", "none.zip", "show.yaml", ""))
def test_only_archives_of_the_folder_are_read(kept, name):
    page, _ = kept
    assert post(page, "archives/verify", name=name).status == 400
    assert post(page, "archives/compare", old=name if name != "show.yaml" else "x", new="show-C.zip").status == 400


def test_files_are_put_back_byte_for_byte_and_nothing_is_written_over(kept):
    page, folder = kept
    post(page, "archives/verify", name="show-C.zip")
    post(page, "archives/restore")
    assert (folder / "show-C-restored" / "show.yaml").read_bytes() == SHOW
    assert "show-C-restored/show.yaml" in shown(page)
    (folder / "show-C-restored" / "show.yaml").write_bytes(b"mine")
    assert post(page, "archives/restore").status == 400
    assert (folder / "show-C-restored" / "show.yaml").read_bytes() == b"mine"


def test_the_line_of_revisions_has_its_order_its_reasons_as_text_and_what_is_odd(kept):
    page, _ = kept
    line = shown(page).partition('id="line"')[2]
    assert line.index("show-B.zip") < line.index("show-C.zip") and "&lt;b&gt;new&lt;/b&gt;" in line
    assert "revision A, which it replaces, is not here" in line


def test_any_two_are_compared(kept):
    page, _ = kept
    answer = post(page, "archives/compare", old="show-B.zip", new="show-C.zip")
    assert answer.status == 303 and answer.headers["location"].endswith("/#changes")
    body = ask(page.app, answer.headers["location"].partition("#")[0]).body.decode()
    assert "B to C" in body and "No fact changed" in body
    assert post(page, "archives/compare", old="show-B.zip", new="show.yaml").status == 303


def test_a_dropped_show_is_kept_as_a_download_and_a_public_one_names_nobody(tmp_path):
    page = Page(tmp_path)
    here = drop(page.app, gala_yaml=SHOW.replace(b"Ann", b"Quillon Zimtstern")).removeprefix("/secret/")
    answer = post(page, f"{here}archive", public="yes")
    assert answer.headers["content-disposition"] == "attachment; filename*=UTF-8''gala-C-public.zip"
    (tmp_path / "sent.zip").write_bytes(answer.body)
    with zipfile.ZipFile(tmp_path / "sent.zip") as archive:
        assert not [name for name in archive.namelist() if b"Zimtstern" in archive.read(name)]
