"""Chromium as Debian installs it, and the local page served as the command serves it."""

import shutil
import subprocess
import sys
import urllib.request
from collections.abc import Iterator
from contextlib import contextmanager
from functools import cached_property
from pathlib import Path
from typing import Any

import pytest

from tests.browser.shows_text import GALA
from tests.shows_text import EXAMPLES

FLAGS = (
    "--no-sandbox",
    "--disable-gpu",
    "--disable-quic",
    "--no-first-run",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
)


@pytest.fixture(scope="session")
def browser():
    from playwright.sync_api import expect, sync_playwright

    program = shutil.which("chromium") or shutil.which("chromium-browser")
    if program is None:
        pytest.fail("these tests need Chromium: apt-get install chromium", pytrace=False)
    expect.set_options(timeout=30_000)  # a busy machine is no failure
    with sync_playwright() as playwright:
        browser = playwright.chromium.launch(executable_path=program, args=list(FLAGS), headless=True)
        yield browser
        browser.close()


@pytest.fixture
def page(browser):
    """A fresh page of desktop width that fails its test if a script fails or the policy stops something."""
    context = browser.new_context(viewport={"width": 1200, "height": 900}, accept_downloads=True)
    page, wrong = context.new_page(), []
    page.on("pageerror", lambda error: wrong.append(str(error)))
    page.on("console", lambda message: wrong.append(message.text) if message.type == "error" else None)
    page.on("dialog", lambda dialog: wrong.append(f"dialog {dialog.message}"))
    yield page
    context.close()
    assert not [text for text in wrong if "ERR_INCOMPLETE_CHUNKED" not in text], (
        "the one that tells of a page that outlives its server"
    )


@pytest.fixture(scope="session")
def printed(tmp_path_factory) -> Path:
    """The example with its papers, printed by the command."""
    folder = tmp_path_factory.mktemp("show")
    for name in ("show.yaml", "sweep.csv"):
        shutil.copy(EXAMPLES / name, folder)
    subprocess.run(
        [sys.executable, "-m", "paperwork", "build", "show.yaml", "-o", "papers"],
        cwd=folder,
        check=True,
        capture_output=True,
    )
    return folder


@pytest.fixture(scope="session")
def printed_gala(tmp_path_factory) -> Path:
    """The papers of a small show whose findings are on its index."""
    folder = tmp_path_factory.mktemp("gala")
    (folder / "show.yaml").write_text(GALA, encoding="utf-8")
    build = [sys.executable, "-m", "paperwork", "build", "show.yaml", "-o", "papers"]
    assert subprocess.run(build, cwd=folder, check=False, capture_output=True).returncode == 1
    return folder / "papers"


HASTY = "from paperwork.serve import run; run.GRACE_S = 7; from paperwork.cli import main; main()"
"""The command that waits less for its last page to come back."""


class Served:
    """A running `paperwork serve`: its address, and the process."""

    def __init__(self, folder: Path, *program: str, more: tuple[str, ...] = ()) -> None:
        self.folder = folder
        self.process = subprocess.Popen(
            [sys.executable, "-u", *(program or ("-m", "paperwork")), "serve", "--no-open", *more],
            cwd=folder,
            stdout=subprocess.PIPE,
            encoding="utf-8",
        )
        self.typed = self.process.stdout.readline().split()[-1]
        self.address = self.typed.rpartition("enter/")[0]

    @cached_property
    def cookie(self) -> dict[str, str]:
        """What its one ticket is answered with."""
        with urllib.request.urlopen(self.typed) as answer:
            name, _, value = answer.headers["set-cookie"].partition(";")[0].partition("=")
        return {"name": name, "value": value, "url": self.address}

    def open(self, page) -> None:
        """Opens the start in a browser that is let in."""
        page.context.add_cookies([self.cookie])
        page.goto(self.address)

    def stop(self) -> None:
        """Ends it, if closing its pages has not."""
        self.process.terminate()
        self.process.wait(20)


@contextmanager
def open_alone(page, folder: Path) -> Iterator[Any]:
    """The page with the show of a folder open, from a server of its own that ends with it."""
    served = Served(folder)
    served.open(page)
    page.get_by_role("button", name="show.yaml").click()
    yield page
    page.close()
    served.stop()


@pytest.fixture(scope="session")
def served(browser, tmp_path_factory):
    """A server for all tests: a page of its own stays open, so that no test's end is the end of it."""
    served = Served(tmp_path_factory.mktemp("served"))
    keeper = browser.new_context().new_page()
    served.open(keeper)
    yield served
    keeper.context.close()
    served.stop()


@pytest.fixture
def served_here(tmp_path):
    """A server for the folder of one test."""
    served = Served(tmp_path)
    yield served
    served.stop()


@pytest.fixture
def served_alone(tmp_path):
    """A server that no other page keeps."""
    served = Served(tmp_path, "-c", HASTY)
    yield served
    served.stop()
