"""The facts of a show as plain tables, one file a section, for whoever has no program of ours."""

import json
from collections.abc import Iterator, Mapping
from typing import Any

from paperwork.files.csv.write import write_csv
from paperwork.place import Place
from paperwork.raw import Map, Text

_NOWHERE = Place("")


def write_tables(facts: Mapping[str, Any]) -> dict[str, bytes]:
    """A table of comma-separated values for each section that holds something, by its path. `facts` is canonical.

    Frequencies are whole hertz and times whole seconds, as the column says; lists stand with `; ` between.
    """
    return {
        f"tables/{section}.csv": _write_table(list(_rows(records)))
        for section, records in facts.items()
        if records and section not in ("production", "day", "spectrum")
    }


def _rows(records: Any) -> Iterator[tuple[str, Mapping[str, Any]]]:
    """Records by id; those of a section whose order counts stand in it."""
    listed = records if isinstance(records, list) else records.values()
    for record in listed:
        yield record["id"], {field: value for field, value in record.items() if field != "id"}


def _write_table(rows: list[tuple[str, Mapping[str, Any]]]) -> bytes:
    """What shows of the first release did not have is only where it is stated."""
    known = dict.fromkeys(field for _, record in rows for field in record)
    fields = [field for field in known if any(record.get(field) not in (None, "", [], False) for _, record in rows)]
    table = tuple(
        (
            Text(id, _NOWHERE),
            Map(
                tuple((Text(field, _NOWHERE), Text(_write_value(record.get(field)), _NOWHERE)) for field in fields),
                _NOWHERE,
            ),
        )
        for id, record in rows
    )
    return write_csv(Map(table, _NOWHERE), fields)


def _write_value(value: Any) -> str:
    if value is None or value == []:
        return ""
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, list):
        return "; ".join(
            _write_value(item) if not isinstance(item, list | dict) else _write_group(item) for item in value
        )
    return _write_group(value) if isinstance(value, dict) else str(value)


def _write_group(value: Any) -> str:
    """A slot as `R1.3`; whatever else is made of parts as JSON."""
    if isinstance(value, dict) and set(value) == {"rack", "number"}:
        return f"{value['rack']}.{value['number']}"
    return json.dumps(value, ensure_ascii=False, sort_keys=True)
