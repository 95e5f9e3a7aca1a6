"""What is lent to telephones: turned on and off on the page of its show, one show at a time."""

from collections.abc import Callable, Mapping
from typing import Any

from anyio.abc import TaskGroup
from starlette.requests import Request
from starlette.responses import RedirectResponse, Response
from starlette.routing import Route

from paperwork.render.labels.qr import QUIET_MODULES, qr_runs
from paperwork.serve.edit.editor import Desk
from paperwork.serve.guard import Keys, read_form
from paperwork.serve.share.lent import Lent, find_end, make_lent_app, pick_files
from paperwork.serve.share.listening import LOCAL, SideServer, listen, make_config
from paperwork.serve.shows import Opened


class Lending:
    """Whether papers may be lent, and what is. `address` is that of a network, "" where nobody asked for it; times are
    minutes, and `beats_per_s` is how often the server calls `beat`."""

    def __init__(
        self,
        address: str,
        minutes: int,
        read_clock: Callable[[], str],
        name_next: Callable[[], str],
        beats_per_s: int = 4,
    ) -> None:
        self.address, self.minutes = address, minutes
        self.lent: Lent | None = None
        self.tasks: TaskGroup | None = None
        self._read_clock, self._name_next, self._beats_per_s = read_clock, name_next, beats_per_s
        self._server: SideServer | None = None

    def lend(self, opened: Opened, files: Mapping[str, bytes], host: str) -> Lent:
        """Lends files of a show at a host; what was lent before is not any more. Raises ValueError where there are
        no papers, or where the time is not known."""
        if opened.papers is None:
            raise ValueError("There are no papers: make them first.")
        try:
            until = find_end(self._read_clock(), self.minutes)
        except ValueError:
            raise ValueError("The time is not known, so nothing is shared for a time.") from None
        keys = Keys(self._name_next(), self._name_next(), {self._name_next()})
        beats = self.minutes * 60 * self._beats_per_s
        self.stop()
        self.lent = Lent(opened.id, opened.papers, files, keys, host, until, beats)
        return self.lent

    def pair_another(self) -> None:
        """A new ticket; one that nobody used is void."""
        if self.lent:
            self.lent.keys.tickets = {self._name_next()}

    def beat(self) -> None:
        """A moment has passed."""
        if self.lent:
            self.lent.beats -= 1
            if self.lent.is_over(self._read_clock()):
                self.stop()

    def stop(self) -> None:
        """Lends nothing any more; who is reading is cut off."""
        if self._server:
            self._server.should_exit = self._server.force_exit = True
        self.lent = self._server = None

    def serve(self, opened: Opened, files: Mapping[str, bytes]) -> None:
        """Lends at a port of its own. Raises ValueError as `lend` does, OSError where the address cannot be used."""
        listener = listen(self.address, 0)
        try:
            lent = self.lend(opened, files, f"{self.address}:{listener.getsockname()[1]}")
        except ValueError:
            listener.close()
            raise
        self._server = SideServer(make_config(make_lent_app(lent, self._read_clock)))
        if self.tasks:
            self.tasks.start_soon(self._server.serve, [listener])

    def count_paired(self, opened: Opened) -> int:
        """How many telephones were let in; -1 where its papers are not lent."""
        return self.lent.keys.taken if self.lent and self.lent.id == opened.id else -1

    def describe(self, opened: Opened) -> dict[str, Any] | None:
        """What the page of a show says of it; None where it was not asked for."""
        if not self.address:
            return None
        lent = self.lent if self.lent and self.lent.id == opened.id else None
        said: dict[str, Any] = {"minutes": self.minutes, "listens": self.address, "alone": self.address == LOCAL}
        said |= {"other": self.lent is not None and lent is None, "lent": None}
        if lent:
            size, runs = qr_runs(lent.address) if lent.address else (0, ())
            until = f"{lent.until[-4:-2]}:{lent.until[-2:]}"
            said["lent"] = {"address": lent.address, "host": lent.host, "until": until, "paired": lent.keys.taken}
            said["lent"] |= {
                "size": size,
                "runs": runs,
                "quiet": QUIET_MODULES,
                "old": lent.papers is not opened.papers,
            }
        return said


class Sharing:
    """The answers to the addresses of lending."""

    def __init__(self, desk: Desk, lending: Lending) -> None:
        self._desk, self._lending = desk, lending

    def list_routes(self) -> list[Route]:
        """The addresses below that of a show."""
        return [Route("/share", self.share, methods=["POST"])]

    async def share(self, request: Request) -> Response:
        """Turns it on, pairs another telephone, or turns it off."""
        opened, wanted = self._desk.find(request), dict(await read_form(request)).get("do", "")
        if not self._lending.address:
            return Response(status_code=404)
        try:
            if wanted == "on":
                self._lending.serve(opened, await self._desk.work(opened.do_aside, pick_files))
            elif wanted == "another":
                self._lending.pair_another()
            else:
                self._lending.stop()
        except ValueError as error:
            return await self._desk.again(opened, [str(error)])
        except OSError as error:
            said = f"{self._lending.address} cannot be listened on: {error.strerror or error}"
            return await self._desk.again(opened, [said])
        return RedirectResponse(f"{self._desk.base}shows/{opened.id}/#share", 303)
