"""One role of several people, each on a channel of their own, as `VILLAGER` or `Commentator`: numbered, and a group."""

from paperwork.intake.ledger import Ledger
from paperwork.intake.records.draft import DraftRecord, ShowDraft
from paperwork.intake.texts.names import key_of_name
from paperwork.text.vocabulary import fold_word


def part_roles(draft: ShowDraft, ledger: Ledger) -> None:
    """Give each person of such a role a number after it, since a show has one performer for a role; a plot that has the role
    means all of them. Whoever plays it for another team is one of two casts, and is left."""
    taken = {fold_word(role) for user in draft.users for role in user.roles}
    holders: dict[str, dict[str, list[DraftRecord]]] = {}
    for record in draft.channels:
        by = record.by if len(record.users) == 1 and not record.mirrors else ""
        for role in record.roles if by else ():
            holders.setdefault(fold_word(role), {}).setdefault(key_of_name(by), []).append(record)
    for key, people in holders.items():
        first = next(iter(people.values()))[0]
        role = next(role for role in first.roles if fold_word(role) == key)
        if len(people) < 2:
            continue
        teams = [
            next((fact.text for fact in records[0].facts if fact.field == "team"), "") for records in people.values()
        ]
        are_teams = all(teams) and len(set(map(fold_word, teams))) == len(teams)
        names, number = [], 0
        for team, records in zip(teams, people.values(), strict=True):
            number = next(n for n in range(number + 1, number + 2 + len(taken)) if f"{key} {n}" not in taken)
            names.append((f"{role} {team if are_teams else number}", records[0].users[0].place))
            for user in (record.users[0] for record in records):
                user.roles = [names[-1][0] if fold_word(one) == key else one for one in user.roles]
        place = names[0][1]
        draft.add("roles", role, place).put_list("group", names, place)
        because = "each of them gets a role of their own"
        ledger.repair("roles of several people", place, role, ", ".join(name for name, _ in names), because)
