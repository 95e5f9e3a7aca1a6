"""What a search for frequencies found, in words."""

from paperwork.coordinate.assign import Assigned, describe
from paperwork.text.names import shorten_ids
from paperwork.text.units import format_khz


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
        kept = f", all guards and distances kept with {format_khz(found.margin_hz or 0)} kHz to spare"
        kept += ", the most possible" * found.is_widest
        margin = kept if found.margin_hz else ""
        left = f", {len(found.missing)} left without" if found.missing else ""
        own = len(found.placed) + len(found.others)
        counts = [f"{own} placed"] if own or not found.backups else []
        counts += (
            [f"{len(set(found.backups.values()))} backup{'s' if len(set(found.backups.values())) > 1 else ''} placed"]
            if found.backups
            else []
        )
        lines.append(f"{', '.join(counts)}{left}{margin}")
    elif not found.missing:
        lines.append("every channel has its frequency already")
    if not found.is_most:
        lines.append(f"more might fit: --effort {effort * 4} searches four times as long")
    return lines
