"""One located problem: what is wrong, where, about whom, what would fix it, and the fix as edits of the show file."""

from typing import TYPE_CHECKING, Any

from paperwork.frozen import frozen
from paperwork.place import Place

if TYPE_CHECKING:
    from paperwork.codes import Code, Severity, Stage

_QUOTED = (("%", "%25"), ("/", "%2F"), ("=", "%3D"))


@frozen
class Subject:
    """The record that a finding is about, as `("channels", "05")`; a sheet that shows it carries the stamp."""

    section: str
    id: str


@frozen
class Edit:
    """A change of the show file: a field of it gets the text `value`, or goes where that is "".

    Without a field it is the record itself, and without a record the section: `value` is its new name, and an empty one
    removes it. With `renames` it is the name of the field that is changed, of one record, or of all where no record is
    named. The sections that describe one thing have fields and no records.
    """

    section: str
    record: str
    field: str
    value: str
    renames: bool = False

    def __str__(self) -> str:
        """`channels/08/mhz=516.750`, `spectrum/region=Europe`, `channels/1/=01`, `chanels//=channels`,
        `channels/08/mzh/=mhz`. In what comes before the value, `/`, `=` and `%` are written as `%2F`, `%3D` and `%25`."""
        path = [self.section, self.record, self.field, *([""] if self.renames else [])]
        if self.field and not self.record and not self.renames:
            path.remove("")
        return f"{'/'.join(map(_quote, path))}={self.value}"

    @property
    def is_rename(self) -> bool:
        """Whether `value` is the new name of a field, a record or a section."""
        return bool(self.value) and (self.renames or not self.field)

    @property
    def path(self) -> str:
        """What it changes, in words: `channels 08 mhz`."""
        return " ".join(part for part in (self.section, self.record, self.field) if part)

    @property
    def words(self) -> str:
        """The edit as somebody would write it into the file: `mhz: 516.750`."""
        return f"{self.field}: {self.value}"


def parse_edit(text: str) -> Edit:
    """The edit of a text, as `str` writes it. Raises ValueError for anything else."""
    path, equals, value = text.partition("=")
    parts = [_unquote(part) for part in path.split("/")]
    renames = len(parts) == 4 and not parts[3] and bool(parts[2])
    if not equals or not parts[0] or not (2 <= len(parts) <= 3 or renames) or (len(parts) == 2 and not parts[1]):
        raise ValueError(f"{text} is not an edit, as channels/08/mhz=516.750")
    record, field = ("", parts[1]) if len(parts) == 2 else parts[1:3]
    return Edit(parts[0], record, field, value, renames)


def _quote(part: str) -> str:
    for sign, code in _QUOTED:
        part = part.replace(sign, code)
    return part


def _unquote(part: str) -> str:
    for sign, code in reversed(_QUOTED):
        part = part.replace(code, sign)
    return part


@frozen
class Finding:
    """One problem. `text` says what is wrong, `fix` what would correct it, both in plain words. `edits` is the same
    fix for the show file: all of them together, none where the fix is not one definite change."""

    code: str
    place: Place
    text: str
    fix: str
    subjects: tuple[Subject, ...] = ()
    others: tuple[Place, ...] = ()
    edits: tuple[Edit, ...] = ()

    @property
    def row(self) -> "Code":
        """All that the table of codes says of its code."""
        return _read_row(self.code)

    @property
    def severity(self) -> "Severity":
        """`error` or `warning`, from the table of codes."""
        return self.row.severity

    @property
    def stage(self) -> "Stage":
        """`read`, `shape`, `reference` or `sense`: how far the way through it was found."""
        return self.row.stage


def find(
    code: str, place: Place, *, about: tuple[Subject, ...] = (), others: tuple[Place, ...] = (), **facts: Any
) -> Finding:
    """A finding worded by the table of codes from the given facts.

    The fact `near` is the word that was probably meant, "" if none is near: it gives `{hint}`. A fact that is a
    Subject is its section and id in an edit. Raises KeyError for a code or a fact that the table does not have: a bug,
    not a slip of the user.
    """
    row = _read_row(code)
    edits = _fill_edits(row.edit, facts)
    near = facts.get("near")
    words = {
        "hint": f"; did you mean {near}?" if near else "",
        "edit": " and ".join(edit.words for edit in edits),
        **facts,
    }
    return Finding(code, place, row.says.format_map(words), row.fix.format_map(words), about, others, edits)


def _read_row(code: str) -> "Code":
    """The table is read with the first finding: most shows that are checked have none."""
    from paperwork.codes import CODES

    return CODES[code]


def _fill_edits(template: str, facts: dict[str, Any]) -> tuple[Edit, ...]:
    """The edits of a template; none where one of its facts is missing or empty."""
    from string import Formatter

    needed = {name for _, name, _, _ in Formatter().parse(template) if name}
    if not template or any(facts.get(name) in (None, "") for name in needed):
        return ()
    path_facts = {
        name: f"{_quote(fact.section)}/{_quote(fact.id)}" if isinstance(fact, Subject) else _quote(str(fact))
        for name, fact in facts.items()
    }
    edits = []
    for one in template.split("; "):
        path, _, value = one.partition("=")
        edits.append(parse_edit(f"{path.format_map(path_facts)}={value.format_map(facts)}"))
    return tuple(edits)


def order_findings(findings: "list[Finding] | tuple[Finding, ...]") -> tuple[Finding, ...]:
    """The findings in reading order of the source, errors before warnings at one place, doubles removed."""
    unique = dict.fromkeys(findings)
    return tuple(sorted(unique, key=lambda f: (f.place, f.severity != "error", f.code, f.text)))
