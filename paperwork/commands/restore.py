"""`paperwork restore FILE -o FOLDER`: the files that a revision was made from, byte for byte."""

from pathlib import Path
from shlex import quote

import click

from paperwork.terminal import Outcome
from paperwork.terminal.report import format_findings


@click.command(
    epilog="Examples:  paperwork restore show-C.zip -o revision-C  |  paperwork restore show-book.pdf -o revision-C"
)
@click.argument("file", type=click.Path())
@click.option("-o", "--output", type=click.Path(), required=True, help="Folder for the files.")
def command(file: str, output: str) -> Outcome:
    """Put back the files that FILE, an archive or a show book, was made from.

    A file that is there is never replaced. All files are written, or none.
    """
    from paperwork import limits
    from paperwork.archive import pick_inputs
    from paperwork.files.refusal import Refused
    from paperwork.files.sniff import load_file
    from paperwork.output import OutputError, add_files

    try:
        inputs = pick_inputs(load_file(Path(file), file, most=limits.ARCHIVE_BYTES), file)
        was_cut_off = add_files(Path(output), inputs.files)
    except Refused as refused:
        return Outcome(aside=f"{format_findings((refused.finding,), 'text')}nothing was restored\n", code=2)
    except OutputError as error:
        return Outcome(aside=f"{error}\nnothing was restored\n", code=2)
    lines = ["an earlier run was cut off: its files were finished first"] if was_cut_off else []
    lines += [str(Path(output) / path) for path in inputs.files]
    venue = f" --venue {quote(inputs.venue)}" if inputs.venue else ""
    lines.append(f"print it again: paperwork build {quote(str(Path(output) / inputs.show))}{venue}")
    return Outcome("\n".join(lines) + "\n")
