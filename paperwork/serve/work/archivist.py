"""The archivist's work: archives made, verified and put back, the line of revisions, and any two of them compared."""

from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path

from starlette.requests import Request
from starlette.responses import HTMLResponse, JSONResponse, RedirectResponse, Response
from starlette.routing import Route

from paperwork import limits
from paperwork.archive import pick_inputs, verify_archive
from paperwork.archive.history import carry_on
from paperwork.editions import keep_revision, line_folder, name_archive
from paperwork.files.refusal import Refused
from paperwork.files.sniff import load_file
from paperwork.finding import Finding, find
from paperwork.output import OutputError, add_files, write_new
from paperwork.place import Place
from paperwork.revisions import rebuild_archive
from paperwork.serve.bundles import read_files
from paperwork.serve.edit.editor import Desk
from paperwork.serve.guard import read_form
from paperwork.serve.pages import POLICY, SCRIPTS
from paperwork.serve.replies import make_download
from paperwork.serve.shelf import Shelf
from paperwork.serve.shows import Opened
from paperwork.serve.wording import say_refusal
from paperwork.serve.work.comparing import compare
from paperwork.text.templating import render_policy, render_template


@dataclass
class Verified:
    """The archive that was looked at last: its name and bytes, what was found, and what came of it."""

    name: str
    data: bytes
    findings: tuple[Finding, ...]
    digest: str
    sound: int
    expected: str = ""
    is_rebuilt: bool = False
    restored: tuple[str, ...] = ()


class Archivist:
    """The answers to the addresses of archives. What is dropped is held until the next one is looked at."""

    def __init__(self, desk: Desk, shelf: Shelf) -> None:
        self._desk, self._shelf = desk, shelf
        self._last: Verified | None = None

    def list_routes(self) -> list[Route]:
        """The addresses beside those of shows, and one below them."""
        return [
            Route("/archives/", self.archives),
            Route("/archives/drop", self.drop, methods=["POST"]),
            Route("/archives/verify", self.verify, methods=["POST"]),
            Route("/archives/restore", self.restore, methods=["POST"]),
            Route("/archives/compare", self.compare, methods=["POST"]),
            Route("/shows/{id}/archive", self.make, methods=["POST"]),
        ]

    async def archives(self, request: Request) -> Response:
        """The line of revisions, and what was looked at last."""
        return await self._show()

    async def _show(self, said: Sequence[str] = (), status: int = 200) -> Response:
        return HTMLResponse(await self._desk.work(self._render, said), status)

    def _render(self, said: Sequence[str]) -> str:
        lined, wrong = line_folder(self._shelf.folder, self._shelf.folder.name)
        return render_template(
            "archives.html.j2",
            policy=render_policy(styles=("look.css",), scripts=SCRIPTS, **POLICY),
            base=self._desk.base,
            said=said,
            folder=self._shelf.folder.name,
            lined=[{"one": one, "odd": odd} for one, odd in lined],
            wrong=[f"{finding.place}: {finding.text}" for finding in wrong],
            files=self._shelf.list_files().names,
            last=self._last,
        )

    async def drop(self, request: Request) -> Response:
        """Verifies an archive that was dropped."""
        ((name, data),) = list((await read_files(request)).items())[:1]
        try:
            self._last = await self._verify(name, data)
        except Refused as refused:
            return JSONResponse({"wrong": say_refusal(refused)}, 400)
        return JSONResponse({"go": f"{self._desk.base}archives/#verdict"})

    async def verify(self, request: Request) -> Response:
        """Verifies one of the folder, or the last one again, against a digest that was noted."""
        given = dict(await read_form(request))
        try:
            name = given.get("name", "")
            data = self._last.data if self._last and self._last.name == name else await self._load(name)
            expected, rebuild = given.get("expect", "").strip().lower(), "rebuild" in given
            self._last = await self._verify(name, data, expected, rebuild)
        except Refused as refused:
            return await self._show([say_refusal(refused)], 400)
        return RedirectResponse(f"{self._desk.base}archives/#verdict", 303)

    async def _verify(self, name: str, data: bytes, expected: str = "", rebuild: bool = False) -> Verified:
        """Raises Refused, and OverBudget."""
        values = (name, data, expected, rebuild)
        verified: Verified = await self._desk.work(self._shelf.do_aside, _verify, *values, seconds=limits.PRINT_SECONDS)
        return verified

    async def _load(self, name: str) -> bytes:
        """An archive of the folder by its name. Raises Refused."""
        data: bytes = await self._desk.work(_load, self._shelf.folder, name)
        return data

    async def restore(self, request: Request) -> Response:
        """Puts the files of the archive that was looked at last into a new folder beside it."""
        await read_form(request)
        if self._last is None:
            return await self._show(["Look at an archive first."], 400)
        try:
            self._last.restored = await self._desk.work(_restore, self._shelf.folder, self._last)
        except Refused as refused:
            return await self._show([f"{refused.finding.text}; nothing was put back."], 400)
        except OutputError as error:
            return await self._show([f"{error}; nothing was put back."], 400)
        return RedirectResponse(f"{self._desk.base}archives/#verdict", 303)

    async def compare(self, request: Request) -> Response:
        """Opens the later of two, and compares it with the earlier."""
        given = dict(await read_form(request))
        try:
            return await self._compare(given.get("old", ""), given.get("new", ""))
        except Refused as refused:
            return await self._show([say_refusal(refused)], 400)

    async def _compare(self, old: str, new: str) -> Response:
        def read(name: str) -> bytes:
            return self._shelf.load(name) if name in self._shelf.list_files().names else _load(self._shelf.folder, name)

        def open_new() -> Opened:
            return (
                self._shelf.open(new) if new in self._shelf.list_files().names else self._shelf.drop({new: read(new)})
            )

        opened = await self._desk.begin(open_new)
        wrong = await self._desk.work(compare, opened, old, await self._desk.work(read, old))
        if wrong:
            return await self._show([wrong], 400)
        return RedirectResponse(f"{self._desk.base}shows/{opened.id}/#changes", 303)

    async def make(self, request: Request) -> Response:
        """Makes an archive of a show, in its folder or to be kept."""
        opened, given = self._desk.find(request), dict(await read_form(request))
        try:
            name, data = await self._desk.work(opened.do_aside, _make, "public" in given, given.get("after", ""))
            if opened.folder is None:
                return make_download(data, name, "application/zip")
            await self._desk.work(write_new, opened.folder / name, data)
            self._last = await self._verify(name, data)
        except Refused as refused:
            return await self._desk.again(opened, [say_refusal(refused)])
        except (OutputError, ValueError) as error:
            return await self._desk.again(opened, [str(error)])
        return RedirectResponse(f"{self._desk.base}archives/#verdict", 303)


def _load(folder: Path, name: str) -> bytes:
    if name not in {one.name for one in folder.glob("*.zip")}:
        raise Refused(find("file-missing", Place(name), name=name, nearest=""))
    return load_file(folder / name, name, most=limits.ARCHIVE_BYTES)


def _verify(name: str, data: bytes, expected: str, rebuild: bool) -> Verified:
    verdict = verify_archive(data, name, expected)
    found = verdict.findings
    if any(finding.row.stops for finding in found):
        raise Refused(found[0])
    if rebuild and not found:
        found = rebuild_archive(data, name)
    return Verified(name, data, found, verdict.digest, verdict.sound, expected, rebuild)


def _restore(folder: Path, last: Verified) -> tuple[str, ...]:
    inputs = pick_inputs(last.data, last.name)
    target = folder / f"{Path(last.name).stem}-restored"
    add_files(target, inputs.files)
    return tuple(f"{target.name}/{path}" for path in inputs.files)


def _make(opened: Opened, public: bool, after: str) -> tuple[str, bytes]:
    """Raises Refused, and ValueError for a show that has none or that is not saved."""
    show = opened.reading.show
    if show is None:
        raise ValueError("There is no show in this file.")
    if opened.is_edited:
        raise ValueError("Save your changes first: an archive keeps what is in the file.")
    inputs = {} if public else opened.gather()
    if not public and not inputs:
        raise ValueError("A file that the show names cannot be put into an archive; see its findings.")
    history = carry_on(_load(opened.folder, after), after) if after and opened.folder else ()
    reading = opened.judge() if opened.on else opened.reading  # an archive is of the whole run
    kept = keep_revision(reading, inputs, opened.name, venue=opened.venue, history=history)
    return name_archive(Path(opened.name).stem, kept.show, public=public), kept.data
