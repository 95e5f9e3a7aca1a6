"""What a search for frequencies found, and what a repair moved, in words."""

from paperwork.checks.air.repair import Mended, Retuned
from paperwork.coordinate.assign import Assigned, describe
from paperwork.finding import Edit
from paperwork.model import Show
from paperwork.text.names import join_words, shorten_ids
from paperwork.text.units import format_khz, format_mhz


def describe_assigned(found: Assigned, effort: int) -> list[str]:
    """One line for each that was placed, each reason for which some were not, and what is proved."""
    lines = describe(found)
    alike: dict[tuple[str, bool, str], list[str]] = {}
    for one in found.missing:
        alike.setdefault((one.section, one.is_backup, one.reason), []).append(one.channel)
    for (section, is_backup, reason), ids in alike.items():
        what = "backup" if is_backup else "frequency"
        whose = "channel" if section == "channels" else "other"
        lines.append(f"{whose}{'s' if len(ids) > 1 else ''} {shorten_ids(ids)}: no {what}; {reason}")
    if found.stopped:
        lines.append("the search was stopped early; this is the best so far")
    if found.placed or found.backups or found.others:
        kept = f", each with {format_khz(found.margin_hz or 0)} kHz more than its guards and distances"
        kept += ", the most possible" * found.is_widest
        margin = kept if found.margin_hz else ""
        left = f"; {len(found.missing)} left without" if found.missing else ""
        own = len(found.placed) + len(found.others)
        counts = [f"{own} placed"] if own or not found.backups else []
        counts += (
            [f"{len(set(found.backups.values()))} backup{'s' if len(set(found.backups.values())) > 1 else ''} placed"]
            if found.backups
            else []
        )
        lines.append(f"{', '.join(counts)}{margin}{left}")
    elif not found.missing:
        lines.append("every channel has its frequency already")
    if not found.is_most:
        lines.append(f"more might fit: --effort {effort * 4} searches four times as long")
    return lines


def describe_repair(found: Mended, effort: int) -> list[str]:
    """One line for each that moves, was and is and why, one for each that is left, and what is proved."""
    lines = [_describe_move(move) for move in found.moves]
    lines += (f"{name} stays as it is, and wrong: {why}" for name, why in found.left)
    if found.moves:
        proved = "; fewer cannot do it" if found.is_fewest else ""
        more = f"; each with {format_khz(found.margin_hz or 0)} kHz more than its guards and distances"
        kept = more if found.margin_hz else ""
        lines.append(f"{len(found.moves)} moved{proved}{kept}")
        if not found.is_fewest and not found.stopped:
            lines.append(f"fewer might do: --effort {effort * 4} searches four times as long")
    elif not found.left:
        lines.append("no frequency is wrong: nothing to move")
    return [*lines, "the search was stopped early; this is the best so far"] if found.stopped else lines


def _describe_move(move: Retuned) -> str:
    whose = "other" if move.section == "others" else f"channel{'s' if len(move.channels) > 1 else ''}"
    what = f"{'backup of ' * move.is_backup}{whose} {join_words(move.channels)}"
    again = "; ask for it again" if move.asked_anew else ""
    return f"{what}: {format_mhz(move.was_hz)} -> {format_mhz(move.hz)} MHz: {move.why}{again}"


def list_moves(show: Show, found: Mended) -> list[Edit]:
    """The new frequencies, where the show states the old ones, with which what was asked and granted goes."""
    edits: list[Edit] = []
    for move in found.moves:
        field = "backup" if move.is_backup else "mhz"
        for id in move.channels:
            where = getattr(show, move.section)[id].where
            if field in where:
                edits.append(Edit(move.section, id, field, format_mhz(move.hz)))
            if move.asked_anew and not move.is_backup:
                edits += (Edit(move.section, id, name, "") for name in ("asked", "granted") if name in where)
    return edits
