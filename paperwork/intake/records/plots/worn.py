"""Who wears which pack in which scene: the pack that is a role's own, and a move for each scene in which it has another."""

from collections import Counter
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from typing import NamedTuple

from paperwork.files.grid import GridCell
from paperwork.finding import Subject
from paperwork.intake.ledger import Ledger
from paperwork.intake.records.draft import DraftRecord, ShowDraft, User
from paperwork.intake.texts.names import name_role
from paperwork.raw import Text


class WornPack(NamedTuple):
    """One role in one scene: the channels whose packs it wears, one after the other, and the cell that says so."""

    column: int
    role: str
    worn: tuple[DraftRecord, ...]
    cell: GridCell


@dataclass(slots=True)
class WornPacks:
    """What a plot says of packs: the stint of each role in each scene, in the order of its cells."""

    stints: dict[tuple[int, str], WornPack] = field(default_factory=dict)

    def enter(self, column: int, role: str, worn: Sequence[DraftRecord], cell: GridCell) -> None:
        """Note that a role wears channels in the scene of a column; what a second cell says of it comes after the first."""
        known = self.stints.setdefault((column, role), WornPack(column, role, tuple(worn), cell))
        more = tuple(one for one in worn if one not in known.worn)
        self.stints[column, role] = known._replace(worn=known.worn + more)


def settle_worn(worn: WornPacks, scenes: Mapping[int, str], draft: ShowDraft) -> None:
    """Let each role be a user of its own channel, and enter a move for each scene in which it wears another. `scenes` are
    the ids of the scenes by column."""
    by_role: dict[str, list[WornPack]] = {}
    for stint in worn.stints.values():
        by_role.setdefault(stint.role, []).append(stint)
    own = _find_own(by_role, draft)
    for role, stints in by_role.items():
        if role not in own[role].roles:
            _add_user(own[role], role, stints[0].cell, draft)
    for column in dict.fromkeys(stint.column for stint in worn.stints.values()):
        here = [stint for stint in worn.stints.values() if stint.column == column]
        for stint, channel in _order_turns(here, own, draft):
            move = draft.add("moves", f"m{len(draft.table('moves')) + 1}", stint.cell.place)
            for name, text in (("role", stint.role), ("scene", scenes[column]), ("channel", channel.id)):
                move.put(name, text, stint.cell.place)


def _order_turns(
    here: Sequence[WornPack], own: Mapping[str, DraftRecord], draft: ShowDraft
) -> list[tuple[WornPack, DraftRecord]]:
    """Whose pack is said in one scene, in the order in which they have it: who wears another than their own, and everybody
    who has a pack before or after somebody else. Who takes another one in the scene has the first before all others."""
    who = {role: user.by for user in draft.users for role in user.roles if user.by}
    who |= {entry.id: by.text for entry in draft.records("roles") if isinstance(by := entry.fields.get("by"), Text)}
    bodies: dict[str, set[str]] = {}
    for stint in here:
        for channel in stint.worn:
            bodies.setdefault(channel.id, set()).add(who.get(stint.role, stint.role))
    said = []
    for stint in here:
        is_handed = len(bodies[stint.worn[0].id]) > 1
        if len(stint.worn) > 1 or is_handed or stint.worn != (own[stint.role],):
            turns = [1] if len(stint.worn) == 1 else [0, *(2 for _ in stint.worn[1:])]
            said += [(turn, stint, channel) for turn, channel in zip(turns, stint.worn, strict=True)]
    return [(stint, channel) for _, stint, channel in sorted(said, key=lambda one: one[0])]


def _find_own(by_role: Mapping[str, Sequence[WornPack]], draft: ShowDraft) -> dict[str, DraftRecord]:
    """The channel that a list gives to each role, else the one that it wears in the most scenes, the first of equals. One
    that would be nobody's own goes to who wears it most of those who share another."""
    listed = {role: one for one in reversed(draft.channels) if "doubles" not in one.fields for role in one.roles}
    counts = {role: Counter(channel.id for one in stints for channel in one.worn) for role, stints in by_role.items()}
    channels = {one.id: one for stints in by_role.values() for stint in stints for one in stint.worn}
    own = {role: listed.get(role) or channels[max(count, key=lambda id: count[id])] for role, count in counts.items()}
    for channel in channels.values():
        if channel.users or "spare" in channel.fields or channel in own.values():
            continue
        sharing = [
            role
            for role in by_role
            if role not in listed and counts[role][channel.id] and role != _find_main(own[role], own, counts)
        ]
        if sharing:
            own[max(reversed(sharing), key=lambda role: counts[role][channel.id])] = channel
    return own


def _find_main(channel: DraftRecord, own: Mapping[str, DraftRecord], counts: Mapping[str, Counter[str]]) -> str:
    """Who wears a channel most of those whose own it is."""
    return max((role for role, one in own.items() if one is channel), key=lambda role: counts[role][channel.id])


def _add_user(channel: DraftRecord, role: str, cell: GridCell, draft: ShowDraft) -> None:
    """Let a role be one more of a channel; it takes the place of a performer's own name."""
    by = next((user.by for user in channel.users if user.by), "")
    entry = draft.find("roles", role)
    if entry is not None and "by" in entry.fields:
        by = ""
    elif channel.users and channel.users[0].roles in ([], [name_role(by)]):
        channel.users = channel.users[1:]
    channel.users.append(User(by, [role], cell.place))


def drop_clashes(worn: WornPacks, scenes: Mapping[int, str], ledger: Ledger) -> None:
    """Take out, and report, who has a pack that somebody else has in the same scene, unless a cell says that it is handed
    on."""
    holders: dict[tuple[int, str], WornPack] = {}
    for key, stint in tuple(worn.stints.items()):
        for channel in stint.worn:
            other = holders.setdefault((stint.column, channel.id), stint)
            if other.role == stint.role or other.cell is stint.cell or len(other.worn) + len(stint.worn) > 2:
                continue
            worn.stints.pop(key, None)
            ledger.report(
                "mic-twice-in-scene",
                stint.cell.place,
                about=(Subject("channels", channel.id),),
                others=(other.cell.place,),
                channel=channel.id,
                scene=scenes[stint.column],
                first=f"{other.role} at {other.cell.address}",
                second=f"{stint.role} at {stint.cell.address}",
            )
