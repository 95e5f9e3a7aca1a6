"""`paperwork convert A B`: the same show as YAML, as a workbook, or its channel list as separated values."""

from collections.abc import Mapping, Sequence
from pathlib import Path

import click

from paperwork.build import build_show
from paperwork.files import read_bytes
from paperwork.files.refusal import Refused
from paperwork.finding import order_findings
from paperwork.intake import Source, read_source
from paperwork.model.fields import SECTIONS
from paperwork.output import OutputError, write_new
from paperwork.raw import List, Map, Node, Text
from paperwork.schema import check_shape
from paperwork.terminal import Outcome
from paperwork.terminal.report import format_findings

KINDS = {".yaml": "YAML", ".yml": "YAML", ".xlsx": "a workbook", ".csv": "the channel list"}

_SPLIT_AT_BLANKS = frozenset({"live", "scenes", "revisions"})
"""Fields whose text is parted at blanks where it holds no comma: one item with a blank keeps a comma behind it."""


@click.command(
    epilog="Examples:  paperwork convert show.yaml show.xlsx  |  paperwork convert list.xlsx show.yaml  |  paperwork convert show.yaml list.csv"
)
@click.argument("a", type=click.Path())
@click.argument("b", type=click.Path())
def command(a: str, b: str) -> Outcome:
    """Write the show in A as B: YAML (.yaml), a workbook (.xlsx), or its channel list (.csv).

    A may be somebody's own list, a workbook or separated values, once its questions are answered. B must not exist.
    Facts, their order and the way numbers are written are kept; comments stay in A.
    """
    suffix = Path(b).suffix.lower()
    if suffix not in KINDS:
        return Outcome(aside=f"{b}: name it to end in .yaml, .xlsx or .csv\n", code=2)
    source = read_source(Path(a), a)
    aside = "".join(f"{line}\n" for line in source.lines)
    aside += format_findings(order_findings(source.findings), "text") if source.findings else ""
    if source.raw is None:
        return Outcome(aside=aside, code=2)
    if any(finding.severity == "error" for finding in source.findings):
        return Outcome(aside=f"{aside}nothing was written: settle the errors above first\n", code=1)
    try:
        data, left = write_show(source.raw, suffix)
        write_new(Path(b), data)
    except Refused as refused:
        return Outcome(aside=aside + format_findings((refused.finding,), "text"), code=1)
    except OutputError as error:
        return Outcome(aside=f"{aside}{error}\n", code=2)
    return Outcome(f"{b} is {KINDS[suffix]} of {a}\n" + _list_left(a, left, source, suffix), aside)


def write_show(raw: Map, suffix: str) -> tuple[bytes, tuple[str, ...]]:
    """The file's bytes, and the sections that this kind of file has no room for. Raises Refused.

    What was written is read again, and has to say the same.
    """
    if suffix == ".csv":
        return _write_list(raw)
    if suffix == ".xlsx":
        from paperwork.files.xlsx.write import write_workbook

        data = write_workbook(_flatten(raw), _headings_of(raw))
        back, _ = read_bytes(data, "copy.xlsx")
    else:
        from paperwork.files.yaml.write import write_yaml

        data = write_yaml(raw).encode("utf-8")
        back, _ = read_bytes(data, "copy.yaml")
    if back is None or not (back == raw or _is_same_show(raw, back)):
        raise _differs(raw)
    return data, ()


def _write_list(raw: Map) -> tuple[bytes, tuple[str, ...]]:
    from paperwork.files.csv.read import read_csv
    from paperwork.files.csv.write import write_csv
    from paperwork.intake.listing import read_listing

    channels = _flatten(raw).get("channels")
    records = channels if isinstance(channels, Map) else Map((), raw.place)
    fields = _headings_of(raw).get("channels", ())
    data = write_csv(records, fields)
    if records.items and read_listing(read_csv(data, "copy.csv")) is None:
        raise _differs(raw)
    return data, tuple(name.text for name, _ in raw.items if name.text != "channels")


def _differs(raw: Map) -> Refused:
    from paperwork.finding import find

    reason = "it would not read back as the same show"
    return Refused(find("workbook-cannot", raw.place, what="this show", reason=reason))


def _is_same_show(one: Map, other: Map) -> bool:
    """Whether two readings are one show in all facts; a show that is not sound is compared as it is written."""
    if check_shape(one) or check_shape(other):
        return _flatten(one) == other
    return build_show(one).show == build_show(other).show


def _headings_of(raw: Map) -> Mapping[str, Sequence[str]]:
    """The fields that each section uses, in the schema's order; fields that it does not know follow."""
    found = {}
    for name, records in raw.items:
        if not isinstance(records, Map) or name.text not in SECTIONS:
            continue
        rows = [record for _, record in records.items if isinstance(record, Map)] or [records]
        used = {field.text for row in rows for field, _ in row.items}
        found[name.text] = tuple(field for field in SECTIONS[name.text].fields if field in used)
    return found


def _flatten(node: Map) -> Map:
    """The same with each list of one item that holds a blank as a text that is not parted there."""
    return Map(tuple((key, _flatten_value(key, value)) for key, value in node.items), node.place)


def _flatten_value(key: Text, value: Node) -> Node:
    if isinstance(value, Map):
        return _flatten(value)
    if isinstance(value, List) and key.text in _SPLIT_AT_BLANKS and len(value.items) == 1:
        (item,) = value.items
        if isinstance(item, Text) and " " in item.text and "," not in item.text:
            return Text(f"{item.text},", item.place)
    return value


def _list_left(a: str, left: tuple[str, ...], source: Source, suffix: str) -> str:
    lines = [f"left in {a}, because a channel list has no room for it: {', '.join(left)}"] if left else []
    if source.understanding is None and Path(a).suffix.lower() in (".yaml", ".yml") and suffix != ".yaml":
        lines.append(f"comments stay in {a}")
    return "".join(f"{line}\n" for line in lines)
