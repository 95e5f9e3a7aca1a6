"""Who gets in: the browser that was handed a private file, once. Another user of the machine reads no secret anywhere."""

import os
import re
import subprocess
import sys
import urllib.error
import urllib.request

import anyio
import pytest

from paperwork.serve.app import make_app
from paperwork.serve.guard import Guard, Keys
from paperwork.serve.shelf import Shelf
from paperwork.serve.tabs import Tabs
from tests.serve.asgi import COOKIE, HOST, ask

ENTER = "/secret/enter/ticket"
STRANGER = {"cookie": None, "sec-fetch-site": "cross-site"}
"""What a browser sends that comes from a file of the disk."""


@pytest.fixture
def app(tmp_path):
    async def make():
        return make_app(Shelf(tmp_path, lambda: "show1"), "secret", Tabs())

    return Guard(anyio.run(make), HOST, Keys("secret", COOKIE, {"ticket"}))


def test_a_ticket_is_good_once_and_answered_with_a_cookie_for_the_page_alone(app):
    answer = ask(app, ENTER, headers=STRANGER)
    assert answer.status == 200 and b"url=/secret/" in answer.body
    assert answer.headers["set-cookie"] == f"paperwork={COOKIE}; Path=/secret/; HttpOnly; SameSite=Strict"
    again = ask(app, ENTER, headers=STRANGER)
    assert again.status == 403 and "set-cookie" not in again.headers


def test_whoever_is_in_may_come_by_a_used_ticket_and_gets_no_cookie_again(app):
    ask(app, ENTER, headers=STRANGER)
    answer = ask(app, ENTER)
    assert answer.status == 200 and "set-cookie" not in answer.headers


@pytest.mark.parametrize("cookie", (None, "", "paperwork=", f"paperwork={COOKIE}x", f"other={COOKIE}", COOKIE))
def test_the_address_alone_opens_nothing(app, cookie):
    for method, path in (("GET", "/secret/"), ("POST", "/secret/stop"), ("GET", "/secret/enter/")):
        answer = ask(app, path, method=method, headers={"cookie": cookie})
        assert answer.status == 403 and answer.body == b"refused: this browser did not open the page\n"


@pytest.mark.parametrize("headers", ({"host": "evil.example"}, {"origin": "https://evil.example"}))
def test_a_ticket_opens_nothing_for_another_host_or_origin_and_is_not_used_up_by_it(app, headers):
    assert ask(app, ENTER, headers={**STRANGER, **headers}).status == 403
    assert ask(app, ENTER, method="HEAD", headers=STRANGER).status == 403
    assert ask(app, "/secre/enter/ticket", headers=STRANGER).status == 403
    assert ask(app, ENTER, headers=STRANGER).status == 200


def assert_another_user_learns_nothing(private: str, secrets: list[str]) -> None:
    """What a user with another number reads: not the private file, not its folder, and no secret on any command line."""

    def read(*command: str) -> subprocess.CompletedProcess[bytes]:
        return subprocess.run(
            command, user=65_534, group=65_534, extra_groups=[], capture_output=True, cwd="/", check=False
        )

    assert read("id", "-u").stdout.strip() == b"65534"
    for command in (("cat", private), ("ls", os.path.dirname(private))):
        refused = read(*command)
        assert refused.returncode and not refused.stdout
    lines = read("sh", "-c", "cat /proc/[0-9]*/cmdline /proc/[0-9]*/environ").stdout
    assert b"paperwork" in lines and not [secret for secret in secrets if secret.encode() in lines]


@pytest.mark.skipif(sys.platform != "linux", reason="the opener is found on the search path")
def test_what_is_on_the_openers_command_line_leads_nobody_else_to_the_show(tmp_path):
    told = tmp_path / "told"
    os.mkfifo(told)
    opener = tmp_path / "xdg-open"
    opener.write_text(
        f"#!{sys.executable}\nimport os, sys\n"
        "path = sys.argv[1]\n"
        "modes = [oct(os.stat(one).st_mode & 0o777) for one in (path, os.path.dirname(path))]\n"
        f"open({str(told)!r}, 'w').write('\\n'.join([path, *modes, open(path).read()]))\n"
    )
    opener.chmod(0o755)
    served = subprocess.Popen(
        [sys.executable, "-u", "-m", "paperwork", "serve"],
        cwd=tmp_path,
        stdout=subprocess.PIPE,
        encoding="utf-8",
        env={**os.environ, "PATH": f"{tmp_path}{os.pathsep}{os.environ['PATH']}"},
    )
    try:
        typed = served.stdout.readline().split()[-1]
        served.stdout.readline()
        line, file_mode, folder_mode, text = told.read_text().split("\n", 3)
        assert os.path.isabs(line) and (file_mode, folder_mode) == ("0o600", "0o700")
        address = re.search(r'href="(http://127[^"]+)"', text)[1]
        base = typed.rpartition("enter/")[0]
        secrets = [*base.split("/")[3:4], typed.rpartition("/")[2], address.rpartition("/")[2]]
        assert len(set(secrets)) == 3 and not [secret for secret in secrets if secret in line]
        with pytest.raises(urllib.error.HTTPError, match="403"):
            urllib.request.urlopen(base)
        if os.geteuid() == 0:  # the machine allows to be somebody else
            assert_another_user_learns_nothing(line, secrets)
        with urllib.request.urlopen(address) as answer:
            cookie = answer.headers["set-cookie"].partition(";")[0]
        with urllib.request.urlopen(urllib.request.Request(base, headers={"cookie": cookie})) as answer:
            assert b"Drop a show here" in answer.read()
    finally:
        served.terminate()
        served.wait(20)
    assert not os.path.exists(line), "the private file goes with the server"


def test_the_page_is_set_in_the_faces_of_the_papers_from_the_package_and_from_nowhere_else(app):
    from fontpkg_fira_sans_condensed import ROOT

    ask(app, ENTER, headers=STRANGER)
    for weight, file in (("regular", "Regular"), ("semibold", "SemiBold"), ("bold", "Bold")):
        answer = ask(app, f"/secret/faces/{weight}.ttf")
        assert answer.headers["content-type"] == "font/ttf" and "max-age" in answer.headers["cache-control"]
        assert answer.body == (ROOT / "files" / f"FiraSansCondensed-{file}.ttf").read_bytes()
    assert ask(app, "/secret/faces/faces.css").headers["content-type"].startswith("text/css")
    assert [ask(app, f"/secret/faces/{name}").status for name in ("thin.ttf", "regular", "..%2Fregular.ttf")] == [
        404
    ] * 3
    assert ask(app, "/secret/faces/regular.ttf", headers={"cookie": None}).status == 403
    policy = re.search(r'Security-Policy" content="([^"]*)"', ask(app, "/secret/").body.decode())[1]
    assert "font-src &#39;self&#39;" in policy and "http" not in policy and "unsafe" not in policy
