"""`paperwork request SHOW TABLE`: the frequency request as a table that a coordinator can fill in."""

from pathlib import Path

import click

from paperwork.output import OutputError, write_new
from paperwork.reading import read_show
from paperwork.terminal import Outcome
from paperwork.terminal.options import VENUE
from paperwork.terminal.report import format_findings

KINDS = (".csv", ".xlsx")


@click.command(epilog="Examples:  paperwork request show.yaml request.csv  |  paperwork request show.yaml request.xlsx")
@click.argument("show", type=click.Path())
@click.argument("table", type=click.Path())
@VENUE
def command(show: str, table: str, venue: str) -> Outcome:
    """Write the frequency request of SHOW as TABLE, a .csv file or a workbook (.xlsx).

    It has the rows and headings of the printed request. The coordinator fills in the last column: a frequency, or no.
    `paperwork reply` reads it back. TABLE must not be there yet. A request is not a licence.
    """
    suffix = Path(table).suffix.lower()
    if suffix not in KINDS:
        return Outcome(aside=f"{table}: name it to end in .csv or .xlsx\n", code=2)
    reading = read_show(Path(show), show, venue=venue)
    if reading.show is None:
        aside = f"{format_findings(reading.findings, 'text')}nothing was written\n"
        return Outcome(aside=aside, code=1 if reading.readable else 2)
    if not reading.show.channels:
        return Outcome(aside=f"{show} has no channels: there is nothing to ask for\n", code=1)
    from paperwork.sheets.production.request_table import list_rows

    rows = list_rows(reading.show)
    if suffix == ".csv":
        from paperwork.files.csv.write import write_rows

        data = write_rows(rows)
    else:
        from paperwork.files.xlsx import write

        data = write.write_rows("request", rows)
    try:
        write_new(Path(table), data)
    except OutputError as error:
        return Outcome(aside=f"{error}\n", code=2)
    blank = [row[0] for row in rows[1:] if not row[-2]]
    lines = [f"{table} written: {len(rows) - 1} rows"]
    lines += [f"no frequency to ask for yet: {', '.join(blank)}"] if blank else []
    return Outcome("".join(f"{line}\n" for line in lines))
