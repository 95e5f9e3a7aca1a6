"""Codes of names that records share: zones, parts of the bill, exclusive groups, carriers, teams, antennas."""

from paperwork.codes.row import Code

TABLE: tuple[Code, ...] = (
    Code(
        "group-unknown",
        "error",
        "{what} {name} is used {count} and is not declared{hint}",
        "{remedy}",
        "Carriers of two zones, or of parts of the bill that never meet, may share a frequency, and so may a group of which "
        "one is powered. A slip in such a name sets carriers apart that are on the air together. So a name must be declared "
        "in the section groups, or be used by two records or more; a part of the bill may also be a scene's id, name or "
        "act. A name that differs by one slip from a declared name, or from one used more often, must be declared too.",
        advice="write the name as the others do, or declare it in the section groups",
        topics=("frequency",),
        decides=True,
    ),
    Code(
        "group-misspelled",
        "error",
        "{what} {name} is used {count} and is not declared{hint}",
        "{remedy}",
        "Racks of one antenna, or people of one team, are found by its name. This one differs by one slip from a name that "
        "is declared, or used more often.",
        advice="write the name as the others do, or declare it in the section groups",
        topics=("slot", "body"),
        decides=True,
    ),
    Code(
        "team-of-one",
        "warning",
        "{person} is the only one in team {team} and alternates with nobody of another team",
        "correct team, delete it, or add it to the section groups with `kind: team`",
        "The day's team decides which of several people plays a role. A team of one is usual where its member alternates "
        "with others; otherwise it may be a slip.",
        advice="correct team, delete it, or declare it in the section groups",
    ),
    Code(
        "team-empty",
        "warning",
        "performance {performance} is for team {team}, which nobody is in",
        "correct team{hint}, or give it to the people who are in it",
        "The team of a performance decides which of several people plays a role. Without anybody in it, each role is played "
        "by whom it names first.",
        advice="correct team, or give it to the people who are in it",
        edit="performances/{performance}/team={near}",
        decides=True,
    ),
    Code(
        "antenna-without-first",
        "warning",
        "rack {rack} is at place {socket} of antenna {antenna}, but no rack is at place 1",
        "correct antenna or place, or add the antenna to the section groups with `kind: antenna`",
        "Places are counted from the antenna. Where the rack before this one is missing, its window is not counted, and the "
        "antenna name may be a slip.",
        advice="correct antenna or place, or declare the antenna in the section groups",
    ),
)
