"""Plain words for what the YAML parser stumbles over: what is wrong at this place, and what would fix it."""

import re
from collections.abc import Sequence

from paperwork.model.fields import SECTIONS

QUOTE = 'put the whole value in quotes, as "..."'

_FIELDS = frozenset(name for section in SECTIONS.values() for name in section.fields)

_MHZ_FIELDS = frozenset({"mhz", "asked", "granted"})
"""Fields of one frequency: a comma in one is a decimal comma, and in any other field it parts a list."""

_STARTERS = {"@": "a value cannot begin with @", "`": "a value cannot begin with `", "%": "a value cannot begin with %"}

_TABLE: tuple[tuple[str, str, str], ...] = (
    (
        "mapping values are not allowed",
        "there is a second colon in one value, or this line is indented under a value",
        f"{QUOTE}; or check the indentation, and the space after each colon here and on the line above",
    ),
    ("tab character", "a tab is used to indent here", "use spaces in place of the tab"),
    ("entries are not allowed", "a list's hyphen cannot be here", "begin the list on a line of its own"),
    (
        "could not find expected ':'",
        "a name without a colon, or the next line of a value that is not indented",
        "write `name: value` with a space after the colon, and indent what belongs to the line above",
    ),
    (
        "expected key",
        "something follows a value that has ended, or the line is not in column with its neighbours",
        "check the indentation; within single quotes write an apostrophe twice, or use double quotes",
    ),
    (
        "<block end>",
        "something follows a value that has ended, or the line is not in column with its neighbours",
        "check the indentation; within single quotes write an apostrophe twice, or use double quotes",
    ),
    ("node content", "a value is missing, or begins with a character that it cannot", QUOTE),
    (
        "escape",
        "a backslash within double quotes is followed by a character that means nothing",
        "double the backslash, or use single quotes",
    ),
    ("alias", "a value cannot begin with * here", QUOTE),
    ("anchor", "a value cannot begin with & here", QUOTE),
    ("comment or line break", "text follows | or > on its line", f"begin the text on the next line; or {QUOTE}"),
    ("chomping", "text follows | or > on its line", f"begin the text on the next line; or {QUOTE}"),
    ("directive", "a line cannot begin with %", QUOTE),
    ("document start", "a line cannot begin with %", QUOTE),
    ("tag", "a value cannot begin with ! here", QUOTE),
)
"""Words of the parser (both its C and its Python form), ours for the problem, ours for the remedy."""

_OPENING = re.compile(r'(?:[:,\[{-][ \t]+|[\[{])"')
"""A double quote that opens a value: behind a colon, a comma, a hyphen or a bracket."""


def explain_error(error: object, text: str) -> tuple[int, str, str]:
    """The index in `text` to point at, the problem and its remedy, for an error with the parser's marks."""
    problem_mark = getattr(error, "problem_mark", None)
    context_mark = getattr(error, "context_mark", None)
    words = str(getattr(error, "problem", None) or "")
    context = str(getattr(error, "context", None) or "")
    mark = problem_mark or context_mark
    index = mark.index if mark else 0
    opened = context_mark.index if context_mark else index
    if "quoted scalar" in context and ("end of stream" in words or "document" in words):
        return opened, "the quote that opens here is never closed", "close it where the value ends"
    if "flow" in context:
        return _explain_bracket(text, opened, index)
    if "cannot start any token" in words:
        return index, *_explain_starter(text[index : index + 1])
    ended = (
        re.search(r"[}\]][ \t]*$", text[:index]) if "expected" in words and text[index : index + 1] in ",}]" else None
    )
    if ended:
        brace = ended[0][0]
        problem = f"the entry ends at this {brace}, but more follows on its line"
        return ended.start(), problem, f"delete this {brace} if it is a slip, or put what follows on a line of its own"
    quote = _find_quote(text, index) if "expected" in words else None
    if quote is not None:
        return quote, "the quote that opens here is not closed on its line", "close it where the value ends"
    for parser_words, problem, remedy in _TABLE:
        if parser_words in words:
            return index, problem, remedy
    return index, f"this is not YAML ({words or 'unknown problem'})", "check brackets, quotes and colons near here"


def explain_strays(before: tuple[str, str] | None, strays: Sequence[str]) -> tuple[str, str]:
    """The problem and its remedy for words without a colon within braces. `before` is the entry in front, name and value."""
    first, listed = strays[0], ", ".join(strays)
    if brace := next((sign for one in strays for sign in one if sign in "{}[]"), ""):
        return f"there is a {brace} within a value here", f"delete the {brace} if it is a slip; else {QUOTE}"
    field = next((name for name in sorted(_FIELDS, key=len, reverse=True) if first.startswith(f"{name} ")), "")
    if field and len(strays) == 1:
        return f"{first} has no colon", f"write `{field}: {first.removeprefix(field).strip()}`"
    name, colon, value = first.partition(":")
    if colon and value:
        return f"{first} has no blank behind its colon", f"write `{name}: {value}`"
    if before and len(strays) == 1 and before[1].isdigit() and first.isdigit() and before[0] in _MHZ_FIELDS:
        return (
            f"{before[0]}: {before[1]},{first} is cut at its comma",
            f"write `{before[0]}: {before[1]}.{first}`, with a point",
        )
    if before:
        whole = f'`{before[0]}: "{before[1]}, {listed}"`'
        problem = f"{listed} {'has' if len(strays) == 1 else 'have'} no colon and no value"
        return problem, f"if it belongs to {before[0]}, write {whole}; every other entry is `name: value`"
    return f"{listed} has no colon and no value", "within { } every entry is `name: value`; a list is within [ ]"


def _find_quote(text: str, index: int) -> int | None:
    """Where a double quote opens a value that no later line closes before the line of an error, or closes by opening another."""
    opened = None
    start = 0
    for line in text[: index + 1].splitlines(keepends=True):
        opening = _OPENING.search(line)
        if opened is None:
            if opening and line.count('"') % 2 and "#" not in line[: opening.start()]:
                opened = start + opening.end() - 1
        elif opening:
            return opened
        elif '"' in line:
            opened = None
        start += len(line)
    return opened


def _explain_starter(character: str) -> tuple[str, str]:
    if character == "\t":
        return "there is a tab here", "use spaces; or put the value in quotes if the tab belongs to it"
    problem = _STARTERS.get(character, f"a value cannot begin with {character}")
    return problem, QUOTE


def _explain_bracket(text: str, opened: int, index: int) -> tuple[int, str, str]:
    bracket = text[opened : opened + 1]
    if bracket not in ("{", "["):  # the parser lost its way behind the bracket, or names the end of the file
        opened = max(text.rfind("{", 0, opened), text.rfind("[", 0, opened), 0)
        bracket = text[opened : opened + 1]
    if bracket not in ("{", "["):
        return index, "a bracket is not closed, or is closed twice", "check the brackets near here"
    closing = {"[": "]", "{": "}"}.get(bracket, "}")
    if text[index : index + 1] == ":" and not re.search(r"[\r\n]", text[opened:index]):
        return index, "there is a second colon in one value", QUOTE
    cut = re.compile(r"[ \t]#").search(text, opened, index)
    if cut and text.count('"', opened, cut.start()) % 2 == 0:
        problem = f"the # begins a comment, so the {bracket} opened before it is never closed"
        return cut.end() - 1, problem, 'put the value with the # in quotes, as "..."'
    problem = f"the {bracket} opened here is not closed, or a comma is missing before the next entry"
    return opened, problem, f"close it with {closing}, and put a comma between entries"
