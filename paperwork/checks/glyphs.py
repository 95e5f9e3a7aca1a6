"""Texts that would be printed, against the signs that the shipped fonts have."""

from collections.abc import Iterator, Mapping
from dataclasses import fields
from typing import Any, NamedTuple

from paperwork.finding import Finding, Subject, find
from paperwork.model import Output, Show, Where
from paperwork.model.fields import SECTIONS, SINGLES, fields_by_attr
from paperwork.place import Place
from paperwork.text.glyphs import clean_text, lacking_extras, missing_glyphs


class _Text(NamedTuple):
    """A text that would be printed, where it is written and whom it is about."""

    text: str
    place: Place
    about: tuple[Subject, ...]


def check_glyphs(show: Show) -> Iterator[Finding]:
    """Every text can be seen and drawn; each that never can is reported once, and each extra that is missing once."""
    lacking: dict[str, list[tuple[str, _Text]]] = {}
    seen: set[str] = set()
    for one in _list_texts(show):
        if one.text in seen:
            continue
        seen.add(one.text)
        if not clean_text(one.text):
            points = ", ".join(dict.fromkeys(f"U+{ord(sign):04X}" for sign in one.text))
            yield find("text-invisible", one.place, about=one.about, signs=points)
        signs = missing_glyphs(one.text)
        if signs:
            named = " ".join(f"{sign} (U+{ord(sign[-1]):04X})" for sign in signs)
            yield find("glyph-missing", one.place, about=one.about, text=one.text, signs=named)
        for script in lacking_extras(one.text):
            lacking.setdefault(script.extra, []).append((script.name, one))
    for extra, texts in lacking.items():
        yield _name_extra(extra, texts)


def _name_extra(extra: str, texts: list[tuple[str, _Text]]) -> Finding:
    """What to install, at the first text that needs it; the others are one fault with it."""
    texts = sorted(texts, key=lambda pair: pair[1].place)
    script, first = texts[0]
    more = len({one.text for _, one in texts}) - 1
    return find(
        "script-not-installed",
        first.place,
        about=tuple(dict.fromkeys(subject for _, one in texts for subject in one.about)),
        others=tuple(one.place for _, one in texts[1:]),
        text=first.text,
        script=script,
        extra=extra,
        more=f"; {more} other texts need the same" if more > 1 else "; 1 other text needs the same" if more else "",
    )


def _list_texts(show: Show) -> Iterator[_Text]:
    """The texts of all records that are not plain ASCII, in the order of the show."""
    yield from _list_record("show", show.production)
    for section in (name for name in SECTIONS if name not in SINGLES):
        records = getattr(show, section)
        for record in records.values() if isinstance(records, Mapping) else records:
            yield from _list_record(section, record)


def _list_record(section: str, record: Any) -> Iterator[_Text]:
    about = (Subject(section, record.id),) if section not in SINGLES else ()
    for field in fields(record):
        value = getattr(record, field.name)
        for text in value if isinstance(value, tuple) else (value,):
            if isinstance(text, Output) and not text.console.isascii():
                yield _Text(text.console, text.place, about)
            if isinstance(text, str) and not text.isascii():
                yield _Text(text, _place_of(section, record.where, field.name), about)


def _place_of(section: str, where: Where, attr: str) -> Place:
    """The place of an attribute's field; a role's name came in with `role` or `shared` of its channel."""
    if attr == "id":
        return where.record
    row = fields_by_attr(section)[attr]
    return where["shared" if attr in ("roles", "by") and section == "channels" and row.name not in where else row.name]


CHECKS = (check_glyphs,)
