"""Write example_show/show.xlsx, the twin of show.yaml: `python -m tests.tools.make_example_workbook`."""

from pathlib import Path

from paperwork.files import read_file
from paperwork.files.xlsx.write import write_workbook
from paperwork.model.fields import SECTIONS

EXAMPLE = Path(__file__).resolve().parents[2] / "example_show"


def make_workbook() -> bytes:
    """The workbook that says what show.yaml says, the columns in the order of the schema."""
    raw, findings = read_file(EXAMPLE / "show.yaml", "show.yaml")
    assert raw is not None and not findings
    return write_workbook(raw, {name: tuple(section.fields) for name, section in SECTIONS.items()})


if __name__ == "__main__":
    (EXAMPLE / "show.xlsx").write_bytes(make_workbook())
