"""Files as they are made, on the disk until all are published: a long show is never in memory as a whole."""

from collections.abc import Iterator, MutableMapping
from tempfile import SpooledTemporaryFile
from threading import Lock
from weakref import finalize

from paperwork.output.disk import OutputError

MEMORY_BYTES = 16_000_000
"""Up to so many bytes nothing is written: the papers of most shows."""


class Spool(MutableMapping[str, bytes]):
    """Files by their paths. What is replaced or taken out keeps its room until the spool goes. Raises OutputError
    where the disk of temporary files takes no more."""

    def __init__(self) -> None:
        self._file = SpooledTemporaryFile(MEMORY_BYTES)  # noqa: SIM115  (open for as long as this is)
        finalize(self, self._file.close)
        self._places: dict[str, tuple[int, int]] = {}
        self._lock = Lock()

    def __setitem__(self, path: str, data: bytes) -> None:
        try:
            with self._lock:
                start = self._file.seek(0, 2)
                self._file.write(data)
        except OSError as error:
            text = f"papers could not be kept until all are made ({error.strerror or type(error).__name__})"
            raise OutputError(
                text, "free some space on the disk of temporary files, or name another by TMPDIR"
            ) from error
        self._places[path] = start, len(data)

    def __getitem__(self, path: str) -> bytes:
        start, length = self._places[path]
        with self._lock:
            self._file.seek(start)
            return self._file.read(length)

    def __delitem__(self, path: str) -> None:
        del self._places[path]

    def __iter__(self) -> Iterator[str]:
        return iter(self._places)

    def __len__(self) -> int:
        return len(self._places)
