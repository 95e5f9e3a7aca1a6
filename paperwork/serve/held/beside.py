"""The files that belong to a show on the page: dropped with it, or beside it in its folder."""

import os
from collections.abc import Callable, Iterable, Mapping
from pathlib import Path

from paperwork import limits
from paperwork.archive import find_unfit
from paperwork.files.decode import decode_text
from paperwork.files.refusal import Refused
from paperwork.files.sniff import load_file
from paperwork.files.sweep import Level, StatedUnit, lies_below, parse_sweep, read_sweep
from paperwork.finding import Finding, find
from paperwork.intake.answers import name_answers
from paperwork.place import Place


def load_beside(dropped: Mapping[str, bytes], folder: Path | None, name: str) -> bytes | None:
    """A file that the show names, None where there is none."""
    if name in dropped:
        return dropped[name]
    if folder is None or not lies_below(name) or not os.path.isfile(folder / name):
        return None
    return load_file(folder / name, name, most=limits.SWEEP_BYTES)


def load_sweep_beside(
    dropped: Mapping[str, bytes], folder: Path | None, sweep: str, stated: StatedUnit
) -> tuple[tuple[Level, ...], tuple[Finding, ...]]:
    """What a sweep measured, and what is wrong with it."""
    if sweep in dropped:
        try:
            return parse_sweep(decode_text(dropped[sweep], sweep), sweep, stated)
        except Refused as refused:
            return (), (refused.finding,)
    if folder:
        return read_sweep(folder / sweep, sweep, stated)
    return (), (find("file-missing", Place(sweep), name=sweep, nearest="; drop it on the page with the show"),)


def gather_beside(name: str, sweeps: Iterable[str], load: Callable[[str], bytes | None]) -> dict[str, bytes]:
    """The inputs of a show, in the order in which the command gathers them; none where one could not be put back."""
    from paperwork.intake.private import carry
    from paperwork.revisions import name_kept

    kept = name_kept(Path(name))
    wanted = {kept: name, name_answers(kept): name_answers(name)} | {sweep: sweep for sweep in sweeps}
    files = {path: data for path, source in wanted.items() if (data := load(source)) is not None}
    if any(find_unfit(path, files.keys() - {path}) for path in files):
        return {}
    return carry(files)
