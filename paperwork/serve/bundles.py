"""Many files in one request or one answer, or inside another file."""

from collections.abc import Mapping
from io import BytesIO
from urllib.parse import unquote
from zipfile import ZIP_DEFLATED, ZipFile, ZipInfo

from starlette.exceptions import HTTPException
from starlette.requests import Request

from paperwork import limits
from paperwork.archive import Inputs, is_archive, is_book, pick_inputs
from paperwork.files.sniff import sniff
from paperwork.pipeline import Papers
from paperwork.serve.guard import read_body


async def read_files(request: Request) -> dict[str, bytes]:
    """The files of one body: `x-files` holds `name length` of each, percent-encoded and with commas between."""
    parts = [part.rpartition(" ") for part in request.headers.get("x-files", "").split(",")]
    if (
        not parts
        or len(parts) > limits.DROPPED_FILES
        or not all(size.isascii() and size.isdigit() and name for name, _, size in parts)
    ):
        raise HTTPException(400, f"drop one to {limits.DROPPED_FILES} files")
    if any(len(size) > 9 or int(size) > limits.SWEEP_BYTES for _, _, size in parts):
        raise HTTPException(413, f"a file is larger than {limits.SWEEP_BYTES:,} bytes")
    data = await read_body(request, limits.REQUEST_BYTES)
    files, at = {}, 0
    for name, _, size in parts:
        plain = unquote(name).replace("\\", "/").rpartition("/")[2]
        files[plain] = data[at : at + int(size)]
        at += int(size)
    return files


def pack_papers(papers: Papers) -> bytes:
    """All files in one archive of the common kind, with one date for all, so that equal papers give equal bytes."""
    buffer = BytesIO()
    with ZipFile(buffer, "w", ZIP_DEFLATED) as archive:
        for path, data in sorted(papers.files.items()):
            archive.writestr(ZipInfo(path), data, ZIP_DEFLATED)
    return buffer.getvalue()


def unpack(name: str, files: Mapping[str, bytes]) -> Inputs:
    """The show and all files: those inside if the named one is an archive or a show book.

    Raises Refused where there is no show in it.
    """
    data = files[name]
    if not is_archive(data) and not is_book(data):
        sniff(data, name)
        return Inputs(name, files)
    return pick_inputs(data, name)
