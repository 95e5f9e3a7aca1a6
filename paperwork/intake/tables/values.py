"""What the values of a column look like: which field they fit, whether they are marks, names or data about a person."""

from collections.abc import Callable, Sequence

from paperwork.files.grid import GridCell
from paperwork.intake.texts.frequencies import read_frequency
from paperwork.intake.texts.ids import is_id, is_plain_prefix, read_id, read_place
from paperwork.intake.texts.names import is_blank, is_spare
from paperwork.intake.texts.scenes import read_mark
from paperwork.text.vocabulary import fold_word, listed_words


def choose_field(options: Sequence[str], texts: Sequence[str]) -> str:
    """The field among some that the texts of a column fit best, the first of equals."""
    return list_best(options, texts)[0]


def list_best(options: Sequence[str], texts: Sequence[str]) -> list[str]:
    """The fields among some that the texts of a column fit equally, and better than the others; of no texts the first."""
    texts = [text for text in texts if not is_blank(text)]
    if len(options) == 1 or not texts:
        return [options[0]]
    fits = {name: fit(name, texts) for name in options}
    return [name for name in options if fits[name] == max(fits.values())]


def fit(name: str, texts: Sequence[str]) -> float:
    """How many of the values look like the field: quarters, so that a stray cell decides nothing."""
    test = _TESTS.get(name)
    if not texts or test is None:
        return 0.5
    is_repeated = name in ("channel", "performer") and len(set(texts)) * 2 < len(texts)
    return round(4 * sum(map(test, texts)) / len(texts)) / 4 - (0.5 if is_repeated else 0)


def looks_like_frequency(text: str) -> bool:
    """Whether a text is a frequency, points at one, or is in doubt between some."""
    reading = read_frequency(text)
    return bool(reading.mhz or reading.same or reading.choices)


def looks_like_words(text: str) -> bool:
    """Whether a text has three letters and is no number of a mic."""
    return sum(char.isalpha() for char in text) >= 3 and not is_id(text)


def looks_like_number(text: str) -> bool:
    """Whether a text is the number of a channel or a pack."""
    parts = read_id(text)
    is_short = is_plain_prefix(parts.prefix) or len(parts.prefix) <= 3
    return bool(parts.digits) and is_short and not read_frequency(text).mhz


_TESTS: dict[str, Callable[[str], bool]] = {
    "channel": looks_like_number,
    "pack": looks_like_number,
    "frequency": looks_like_frequency,
    "tv": lambda text: bool(read_id(text).digits) and 2 <= int(read_id(text).digits) <= 69,
    "performer": looks_like_words,
    "role": looks_like_words,
    "capsule": looks_like_words,
    "receiver": lambda text: bool(read_place(text)[0]),
    "child": lambda text: read_mark(text) in ("live", "idle"),
    "type": lambda text: any(word in listed_words("handheld") for word in fold_word(text).split()),
}


def are_names(texts: Sequence[str]) -> bool:
    """Whether some texts may be names: words that begin as names do, most of them different."""
    texts = [text for text in texts if not is_spare(text)]
    are_words = bool(texts) and fit("performer", texts) == 1 and len(set(texts)) * 2 > len(texts)
    return are_words and not any(text.strip()[0].islower() for text in texts)


def are_shouted(texts: Sequence[str]) -> bool:
    """Whether most of some texts are in capitals throughout, as roles often are and little else is."""
    return sum(text.isupper() for text in texts) * 2 > len(texts)


def is_capsule(text: str) -> bool:
    """Whether a text is a kind of capsule: `lav`, `headset`."""
    return bool(set(fold_word(text).split()) & listed_words("lavalier"))


def is_mark(cell: GridCell) -> bool:
    """Whether a cell of a grid says that somebody is live by a sign, and not by a number."""
    return read_mark(cell.text) == "live" and not cell.text.strip().isdigit()
