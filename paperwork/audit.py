"""Photographs of the mic table or the label tray, held against the show: what is there, missing, foreign, stale.

    list_labels(show, ...)   the labels that the show prints today, by number
    read_photo(data, name)   every QR code in a photograph, and where it stands
    compare(labels, photos)  present, missing, foreign, doubled, out of date

A label counts by its number and its code; its revision does not, since a label whose facts did not change stays good.
"""

import math
import re
from collections import Counter
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from io import BytesIO
from statistics import median
from typing import TYPE_CHECKING, Any, NamedTuple

from paperwork import limits
from paperwork.files.refusal import Refused
from paperwork.finding import Finding, find
from paperwork.model import Show
from paperwork.place import Place
from paperwork.plan.walls import put_on_walls, walls_of
from paperwork.reading import redact_for_print
from paperwork.text.fingerprint import ALPHABET
from paperwork.text.names import natural_key

if TYPE_CHECKING:
    from PIL.Image import Image

ENOUGH = (3_000, 3_000)
"""A JPEG of more than twice this size is opened at half, or at less: enough for a tray of labels, at a quarter of the memory."""

TILE = 1_400
"""Side in pixels of the pieces in which a large photograph is looked at again: a reader that halves a whole picture
to find codes loses small ones. Pieces overlap by half, so that every code is whole in one. Found by trying."""

LEAST_SQUARE = 0.8
LEAST_SIZE, MOST_SIZE = 0.8, 1.3
"""How square a code that cannot be decoded is at least, and how large beside those that are read. Found by trying: nine
sharp photographs, in which two versions of the reader took 4 to 95 specks each for codes, have none of these then, and
blurred ones keep theirs."""

_OURS = re.compile(rf"(?P<number>[^:]+):(?P<role>[^:]*):(?P<revision>[^:]*):(?P<code>[{ALPHABET}]{{4}})")


class Seen(NamedTuple):
    """One code in a photograph: its text, the middle of it and its size in pixels, and in which part it is.

    A text of "" is a code that is seen and cannot be decoded.
    """

    text: str
    x: int
    y: int
    size: int
    part: str = ""


@dataclass(frozen=True, slots=True)
class Audit:
    """What came of it. Numbers are packs as labels call them; each list in the order of numbers.

    `stale` holds number and the text that was read, `foreign` texts, `doubled` number, photograph and how often.
    `blurred` holds photograph, part of it and how many codes there cannot be decoded, 0 where nothing in it can. While
    there are such, no pack is called missing: it is `unknown`.
    """

    present: tuple[str, ...]
    missing: tuple[str, ...]
    foreign: tuple[str, ...]
    stale: tuple[tuple[str, str], ...]
    doubled: tuple[tuple[str, str, int], ...]
    unknown: tuple[str, ...] = ()
    blurred: tuple[tuple[str, str, int], ...] = ()

    @property
    def is_whole(self) -> bool:
        """Whether every pack is there once, with a label that is good."""
        return not (self.missing or self.unknown or self.foreign or self.stale or self.doubled)


def list_labels(show: Show, findings: Iterable[Finding]) -> dict[str, frozenset[str]]:
    """The codes that are good today, by the number that a label's QR text begins with."""
    from paperwork.document.facts import tags_of
    from paperwork.sheets import SHEETS
    from paperwork.sheets.stamps import stamp_sheet

    found: dict[str, set[str]] = {}
    findings = tuple(findings)
    certain, hidden = redact_for_print(show, findings), walls_of(show).hide(findings)
    for paper in SHEETS:
        for sheet in paper.make(certain):
            for _, payload in tags_of(stamp_sheet(paper, sheet, certain, hidden)):
                number, _, rest = payload.partition(":")
                found.setdefault(number, set()).add(rest.rpartition(":")[2])
    return {number: frozenset(codes) for number, codes in found.items()}


def compare(labels: Mapping[str, frozenset[str]], photos: Mapping[str, Sequence[Seen]], each: int = 1) -> Audit:
    """The labels held against what photographs show. `each` is how many labels of one pack a photograph may show."""
    present: set[str] = set()
    stale: set[tuple[str, str]] = set()
    foreign: set[str] = set()
    doubled: list[tuple[str, str, int]] = []
    for name, codes in photos.items():
        counts: Counter[str] = Counter()
        for seen in (one for one in codes if one.text):
            match = _OURS.fullmatch(seen.text)
            if match is None or match["number"] not in labels:
                foreign.add(seen.text)
                continue
            number = match["number"]
            counts[number] += 1
            if match["code"] in labels[number]:
                present.add(number)
            else:
                stale.add((number, seen.text))
        doubled += ((number, name, count) for number, count in counts.items() if count > each)
    unseen = tuple(sorted(set(labels) - present - {number for number, _ in stale}, key=natural_key))
    blurred = tuple(_list_blurred(photos)) if unseen else ()
    return Audit(
        tuple(sorted(present, key=natural_key)),
        () if blurred else unseen,
        tuple(sorted(foreign)),
        tuple(sorted(stale, key=lambda one: (natural_key(one[0]), one[1]))),
        tuple(sorted(doubled, key=lambda one: (natural_key(one[0]), one[1]))),
        unseen if blurred else (),
        blurred,
    )


def _list_blurred(photos: Mapping[str, Sequence[Seen]]) -> Iterator[tuple[str, str, int]]:
    for name, codes in photos.items():
        counts = Counter(seen.part for seen in codes if not seen.text)
        yield from ((name, part, count) for part, count in counts.items())
        if not codes:
            yield name, "", 0


def describe_packs(show: Show) -> dict[str, str]:
    """Who and where each label's number is, children by their initials: role, performer, pack, slots, pouch."""
    walls, found = put_on_walls(show), {}
    for channel in walls.channels.values():
        people = walls.performers_of(channel)
        pouches = dict.fromkeys(walls.people[name].pouch for name in people if name in walls.people)
        named = channel.roles or (("spare",) if channel.spare else ())
        texts = (
            *dict.fromkeys((*named, *people)),
            channel.pack and f"pack {channel.pack}",
            " ".join(map(str, channel.slots)),
            *(f"pouch {pouch}" for pouch in pouches if pouch),
        )
        found[channel.id] = ", ".join(filter(None, texts))
    for other in walls.others.values():
        found |= {pack: ", ".join(filter(None, (other.kind, *other.listeners))) for pack in other.packs}
    return {"".join(number.upper().split()): text for number, text in found.items()}


def read_photo(data: bytes, name: str) -> tuple[Seen, ...]:
    """Every QR code in a photograph, from the top left. Raises Refused; ImportError without the extra `audit`."""
    import zxingcpp

    return _read_all(_open_photo(data, name), zxingcpp)


def _open_photo(data: bytes, name: str) -> "Image":
    """The photograph upright, in grey. A library for pictures lets through whatever a strange one makes Python raise."""
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
        for code in zxingcpp.read_barcodes(piece, formats=zxingcpp.BarcodeFormat.QRCode, return_errors=True):
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
