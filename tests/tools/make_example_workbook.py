"""Write example_show/show.xlsx, the twin of show.yaml: `python -m tests.tools.make_example_workbook`."""

from pathlib import Path

from paperwork.files import read_file
from paperwork.files.xlsx.write import write_workbook
from paperwork.schema import fields_of, sections

EXAMPLE = Path(__file__).resolve().parents[2] / "example_show"


def make_workbook() -> bytes:
    """The workbook that says what show.yaml says, with the schema's order of columns."""
    raw, findings = read_file(EXAMPLE / "show.yaml", "show.yaml")
    assert raw is not None and not findings
    return write_workbook(raw, {section: tuple(fields_of(section)) for section in sections()})


if __name__ == "__main__":
    (EXAMPLE / "show.xlsx").write_bytes(make_workbook())
