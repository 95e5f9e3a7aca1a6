"""`paperwork verify FILE`: every file of an archive that is not as it was made, and the container apart from them."""

from pathlib import Path

import click

from paperwork.terminal import Outcome
from paperwork.terminal.report import format_finding

_CANNOT = (
    "an archive cannot prove itself: whoever alters a file can alter the list beside it; keep its digest somewhere else, "
    "and verify with --expect DIGEST\n"
)


@click.command(
    epilog="Examples:  paperwork verify show-C.zip  |  paperwork verify show-C.zip --expect 9f86d081884c7d65...  |  "
    "paperwork verify show-C.zip --rebuild"
)
@click.argument("file", type=click.Path())
@click.option("--expect", default="", help="The digest noted when the archive was made.")
@click.option("--rebuild", is_flag=True, help="Also make its papers again from its show file, and compare.")
def command(file: str, expect: str, rebuild: bool) -> Outcome:
    """List every altered, missing, added or reordered file of the archive FILE.

    Exit code 0: as it was made. 1: it is not. 2: no archive.
    """
    from paperwork import limits
    from paperwork.archive import verify_archive
    from paperwork.files.refusal import Refused
    from paperwork.files.sniff import load_file
    from paperwork.revisions import rebuild_archive

    try:
        data = load_file(Path(file), file, most=limits.ARCHIVE_BYTES)
        verdict = verify_archive(data, file, expect)
        found = verdict.findings
        if rebuild and not found:
            found = rebuild_archive(data, file)
    except Refused as refused:
        return Outcome(aside="\n".join(format_finding(refused.finding)) + "\n", code=2)
    text = "".join(f"{line}\n" for finding in found for line in format_finding(finding))
    whole = f"{verdict.sound} files are as they were made\n"
    whole += "facts and papers made again are the same\n" if rebuild and not found else ""
    digest = f"sha256 {verdict.digest}" + (", as expected\n" if verdict.digest == expect.strip().lower() else "\n")
    unread = any(finding.row.stops for finding in found)
    text += digest if unread else whole + digest
    return Outcome(text, "" if expect else _CANNOT, 2 if unread else int(bool(found)))
