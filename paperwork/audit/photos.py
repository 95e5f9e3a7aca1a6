"""Photographs: opened upright and in grey, and every QR code in them with its place."""

import math
from collections.abc import Iterator, Sequence
from io import BytesIO
from statistics import median
from typing import TYPE_CHECKING, Any, NamedTuple

from paperwork import limits
from paperwork.files.refusal import Refused
from paperwork.finding import find
from paperwork.place import Place

if TYPE_CHECKING:
    from PIL.Image import Image

ENOUGH = (3_000, 3_000)
"""A JPEG of more than twice this size is opened at half or less: enough for a tray of labels, in less memory."""

TILE = 1_400
"""Side in pixels of the pieces in which a large photograph is looked at again: a reader that halves a whole picture
to find codes loses small ones. Pieces overlap by half, so that every code is whole in one. Found by trying."""

LEAST_SQUARE = 0.8
LEAST_SIZE, MOST_SIZE = 0.8, 1.3
"""How square a code that cannot be decoded is at least, and how large beside those that are read. Found by trying: nine
sharp photographs, in which two versions of the reader took 4 to 95 specks each for codes, have none of these then, and
blurred ones keep theirs."""

SHOWN = 1_600
"""The longer side in pixels of a photograph as it is shown with its marks."""


class Seen(NamedTuple):
    """One code in a photograph: its text, the middle of it and its size in pixels, and in which part it is.

    A text of "" is a code that is seen and cannot be decoded.
    """

    text: str
    x: int
    y: int
    size: int
    part: str = ""


class Photo(NamedTuple):
    """A photograph that was read: its codes, the size that their places are in, itself as a grey, upright JPEG."""

    codes: tuple[Seen, ...]
    width: int
    height: int
    shown: bytes


def read_photo(data: bytes, name: str) -> tuple[Seen, ...]:
    """Every QR code in a photograph, from the top left. Raises Refused; ImportError without the extra `audit`."""
    import zxingcpp

    return _read_all(_open_photo(data, name), zxingcpp)


def look_at(data: bytes, name: str) -> Photo:
    """The same, with the photograph to be shown beside it: nothing that the camera noted goes along."""
    import zxingcpp
    from PIL import Image

    picture = _open_photo(data, name)
    codes, (width, height) = _read_all(picture, zxingcpp), picture.size
    picture.thumbnail((SHOWN, SHOWN), Image.Resampling.LANCZOS)
    shown = Image.new("L", picture.size)
    shown.paste(picture)
    buffer = BytesIO()
    shown.save(buffer, "JPEG", quality=80)
    return Photo(codes, width, height, buffer.getvalue())


def _open_photo(data: bytes, name: str) -> "Image":
    """The photograph upright, in grey. A strange one makes the library raise anything."""
    from pi_heif import register_heif_opener
    from PIL import Image, ImageOps, UnidentifiedImageError

    register_heif_opener()
    Image.MAX_IMAGE_PIXELS = None
    try:
        with Image.open(BytesIO(data), formats=("JPEG", "HEIF", "PNG", "WEBP", "TIFF", "GIF", "BMP")) as opened:
            opened.draft("L", ENOUGH)
            if opened.width * opened.height > limits.PHOTO_PIXELS:
                raise Refused(find("photo-large", Place(name), name=name, most=f"{limits.PHOTO_PIXELS:,}"))
            picture = opened.convert("L")
        ImageOps.exif_transpose(picture, in_place=True)
        return picture
    except Refused:
        raise
    except UnidentifiedImageError:
        reason = "it is not a picture that can be opened"
    except Exception as error:  # noqa: BLE001
        reason = f"it is damaged ({error})"
    raise Refused(find("photo-unreadable", Place(name), name=name, reason=reason))


def _read_all(picture: "Image", zxingcpp: Any) -> tuple[Seen, ...]:
    """What is read, and what is seen and cannot be."""
    found: list[Seen] = []
    for left, top, zoom in _looks(picture):
        box = (left, top, min(picture.width, left + TILE), min(picture.height, top + TILE))
        piece = picture if not zoom else picture.crop(box)
        if zoom > 1:
            piece = piece.resize((piece.width * zoom, piece.height * zoom))
        for code in zxingcpp.read_barcodes(piece, formats=zxingcpp.BarcodeFormat.QRCodeModel2, return_errors=True):
            place = code.position
            corners = [
                (one.x, one.y) for one in (place.top_left, place.top_right, place.bottom_right, place.bottom_left)
            ]
            x, y = (sum(ways) // 4 // max(zoom, 1) for ways in zip(*corners, strict=True))
            size = round(sum(_list_sides(corners)) / 4 / max(zoom, 1))
            part = _name_part((left + x) / picture.width, (top + y) / picture.height)
            seen = Seen(code.text if code.valid else "", left + x, top + y, size, part)
            if (code.valid or _is_square(corners)) and not any(_is_same(seen, other) for other in found):
                found.append(seen)
    read = [seen for seen in found if seen.text]
    found = read + [seen for seen in found if not seen.text and _is_label(seen, read)]
    return tuple(sorted(found, key=lambda seen: (seen.y, seen.x)))


def _list_sides(corners: Sequence[tuple[int, int]]) -> list[float]:
    return [math.dist(corners[at - 1], corners[at]) for at in range(4)]


def _is_square(corners: Sequence[tuple[int, int]]) -> bool:
    """Whether four corners are nearly those of a square: what is taken for a code in noise seldom is one."""
    sides, diagonals = _list_sides(corners), [math.dist(corners[at], corners[at + 2]) for at in range(2)]
    return min(sides) * min(diagonals) > LEAST_SQUARE * max(sides) * max(diagonals)


def _is_label(seen: Seen, read: Sequence[Seen]) -> bool:
    """Whether what cannot be decoded is as large as what is read beside it, and is not what is read there."""
    if any(_share_place(seen, one) for one in read):
        return False
    usual = median(one.size for one in read) if read else seen.size
    return LEAST_SIZE * usual <= seen.size <= MOST_SIZE * usual


def _name_part(across: float, down: float) -> str:
    """The ninth of a photograph that a place is in, as one says it."""
    rows, columns = ("top", "middle", "bottom"), ("left", "", "right")
    row, column = rows[min(2, max(0, int(down * 3)))], columns[min(2, max(0, int(across * 3)))]
    return f"{row} {column}".strip()


def _looks(picture: "Image") -> Iterator[tuple[int, int, int]]:
    """The whole picture (zoom 0), then pieces of it as they are, then the same at twice the size."""
    yield 0, 0, 0
    for zoom in (1, 2):
        for top in range(0, max(1, picture.height - TILE // 2), TILE // 2):
            for left in range(0, max(1, picture.width - TILE // 2), TILE // 2):
                yield left, top, zoom


def _is_same(one: Seen, other: Seen) -> bool:
    """Whether the first reading is the second again: the same text, or none, at its place."""
    return one.text in (other.text, "") and _is_at(one, other)


def _share_place(one: Seen, other: Seen) -> bool:
    """Whether two readings share a place: a code that was read elsewhere, or corners of several taken for one code."""
    return 2 * max(abs(one.x - other.x), abs(one.y - other.y)) < one.size + other.size


def _is_at(one: Seen, other: Seen) -> bool:
    """Whether two readings are less than half a code apart."""
    return 2 * max(abs(one.x - other.x), abs(one.y - other.y)) < max(one.size, other.size)
