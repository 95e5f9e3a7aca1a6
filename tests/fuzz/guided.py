"""A run that follows the branches which inputs take, one reader at a time. Needs atheris, which no test does.

    python -m tests.fuzz.guided READER FOLDER [options of libFuzzer, as -max_total_time=600]

FOLDER keeps the corpus in `READER/` and what was found in `READER-found/`, one input for each place that raised. Our own
mutations take turns with those of libFuzzer. What is found becomes a test by hand.
"""

import hashlib
import sys
import tempfile
import traceback
from collections.abc import Callable
from contextlib import suppress
from pathlib import Path
from random import Random
from typing import Any

import atheris

with atheris.instrument_imports(include=["paperwork"]):
    from paperwork.archive import pick_inputs, read_revision, verify_archive
    from paperwork.audit import read_photo
    from paperwork.files.decode import decode_text
    from paperwork.files.refusal import Refused
    from paperwork.files.sweep import parse_sweep
    from paperwork.intake import read_source_bytes
    from paperwork.intake.answers import read_answers_bytes
    from paperwork.reading import judge_source
    from paperwork.serve import app as _page  # noqa: F401  so that its branches are followed

from tests.archive.test_inputs import repack
from tests.fuzz.packages import spoil_archive, spoil_book, spoil_photo, unpack
from tests.fuzz.requests import make_requests, read_requests, write_requests
from tests.fuzz.runner import run_requests
from tests.fuzz.seeds import Seeds, load_seeds
from tests.fuzz.texts import encode, spoil_bytes, spoil_text
from tests.fuzz.trees import spoil_tree
from tests.fuzz.ways import Try

SHEET = "xl/worksheets/sheet1.xml"


def _read_no_sweep(*_) -> tuple:
    return (), ()


def read_show(data: bytes, name: str) -> None:
    """A show file as `check` reads it."""
    judge_source(read_source_bytes(data, name, lambda: ({}, ())), _read_no_sweep)


def read_workbook(data: bytes) -> None:
    """A workbook whose first sheet is the input, ours and somebody's."""
    import io
    import zipfile

    for book in load_seeds().workbooks[1:3]:
        buffer = io.BytesIO()
        with zipfile.ZipFile(buffer, "w") as archive:
            for name, part in unpack(book).items():
                archive.writestr(name, data if name == SHEET else part)
        read_show(buffer.getvalue(), "show.xlsx")


def read_sweep(data: bytes) -> None:
    """A sweep."""
    with suppress(Refused):
        parse_sweep(decode_text(data, "a.csv"), "a.csv")


def read_answers(data: bytes) -> None:
    """Answers to a list, and the list with them."""
    answers, wrong = read_answers_bytes(data, "a")
    judge_source(read_source_bytes(load_seeds().lists[0], "list.csv", lambda: (answers, wrong)), _read_no_sweep)


def read_archive(data: bytes) -> None:
    """An archive as it is, and one that says of itself what the input says."""
    whole = (data,) if data.startswith(b"PK") else (repack({**unpack(load_seeds().archives[0]), "archive.json": data}),)
    for one in whole:
        verify_archive(one, "a.zip")
        for act in (pick_inputs, read_revision):
            with suppress(Refused):
                act(one, "a.zip")


def read_book(data: bytes) -> None:
    """A show book."""
    with suppress(Refused):
        pick_inputs(b"%PDF-" + data[5:], "a.pdf")


def read_picture(data: bytes) -> None:
    """A photograph, small enough to be looked at a thousand times."""
    with suppress(Refused):
        read_photo(data, "a.jpg")


def ask_page(data: bytes) -> None:
    """Requests to the page, in a folder with one show."""
    with tempfile.TemporaryDirectory() as folder:
        (Path(folder) / "here.yaml").write_bytes(load_seeds().small[0])
        run_requests(Try({}, requests=read_requests(data)), Path(folder))


def _make_requests(dice: Random) -> bytes:
    seeds = load_seeds()
    name, files = dice.choice((("show.yaml", seeds.small), ("list.csv", seeds.lists)))
    return write_requests(make_requests(name, dice.choice(files), dice, seeds))


def _spoil_requests(data: bytes, dice: Random) -> bytes:
    return spoil_bytes(data, dice) if dice.random() < 0.5 else _make_requests(dice)


def _spoil_sheet(data: bytes, dice: Random) -> bytes:
    return spoil_text(data.decode("utf-8", "replace"), dice, data.decode("utf-8", "replace")).encode("utf-8", "replace")


def _spoil_words(data: bytes, dice: Random) -> bytes:
    return encode(spoil_text(data.decode("utf-8", "replace"), dice, dice.choice(load_seeds().small).decode()), dice)


def _spoil_show(data: bytes, dice: Random) -> bytes:
    try:
        return spoil_tree(data, dice, dice.choice(load_seeds().small)).encode("utf-8", "surrogatepass")
    except Exception:  # noqa: BLE001  what is no tree any more is spoiled as text
        return _spoil_words(data, dice)


READERS: dict[str, tuple[Callable[[bytes], None], Callable[[bytes, Random], bytes], Callable[[Seeds], Any]]] = {
    "yaml": (lambda data: read_show(data, "show.yaml"), _spoil_show, lambda seeds: seeds.small),
    "workbook": (read_workbook, _spoil_sheet, lambda seeds: [unpack(book)[SHEET] for book in seeds.workbooks]),
    "list": (lambda data: read_show(data, "list.csv"), _spoil_words, lambda seeds: seeds.lists),
    "sweep": (read_sweep, _spoil_words, lambda seeds: seeds.sweeps),
    "answers": (read_answers, _spoil_words, lambda seeds: seeds.answers),
    "archive": (
        read_archive,
        lambda data, dice: spoil_archive(dice.choice(load_seeds().archives), dice),
        lambda seeds: [*seeds.archives, unpack(seeds.archives[0])["archive.json"]],
    ),
    "book": (read_book, spoil_book, lambda seeds: seeds.books),
    "photo": (read_picture, spoil_photo, lambda seeds: seeds.photos),
    "requests": (ask_page, _spoil_requests, lambda seeds: [_make_requests(Random(number)) for number in range(60)]),
}
"""Each reader: what it runs, what spoils its inputs, and what it begins with."""


def main() -> None:
    """Runs one reader until libFuzzer ends it."""
    reader, folder = sys.argv[1], Path(sys.argv[2])
    act, spoil, begin = READERS[reader]
    corpus, found = folder / reader, folder / f"{reader}-found"
    for path in (corpus, found):
        path.mkdir(parents=True, exist_ok=True)
    for seed in begin(load_seeds()):
        (corpus / hashlib.sha256(seed).hexdigest()[:16]).write_bytes(seed)
    seen: set[str] = set()

    def attempt(data: bytes) -> None:
        try:
            act(data)
        except Exception as error:  # noqa: BLE001  whatever comes out is what is looked for
            last = traceback.extract_tb(error.__traceback__)[-1]
            place = f"{type(error).__name__}-{Path(last.filename).name}-{last.lineno}"
            if place not in seen:
                seen.add(place)
                (found / place).write_bytes(data)
                print(f"FOUND {place}: {error}", flush=True)

    def mutate(data: bytes, most: int, seed: int) -> bytes:
        dice = Random(seed)
        return (atheris.Mutate(data, most) if dice.random() < 0.5 else spoil(data, dice))[:most]

    options = [
        "-max_len=60000",
        "-rss_limit_mb=900",
        "-timeout=60",
        f"-artifact_prefix={found}/",
        *sys.argv[3:],
        str(corpus),
    ]
    atheris.Setup([sys.argv[0], *options], attempt, custom_mutator=mutate)
    atheris.Fuzz()


if __name__ == "__main__":
    main()
