"""Codes of names that records share: zones, parts of the bill, exclusive groups, carriers, teams, antennas."""

from paperwork.codes.row import Code

TABLE: tuple[Code, ...] = (
    Code(
        "group-unknown",
        "error",
        "{what} {name} is used {count} and not declared{hint}",
        "{remedy}",
        "Carriers of two zones, of parts of the bill that never meet, or of a group with one on at a time may share a "
        "frequency. A slip in such a name would let two share one that are on together. So declare the name in the "
        "section groups, or use it in two records or more. A part of the bill may also be a scene: its id, name or "
        "act. A name one slip away from another must be declared.",
        advice="spell the name as the others do, or declare it in the section groups",
        topics=("frequency",),
        decides=True,
    ),
    Code(
        "group-misspelled",
        "error",
        "{what} {name} is used {count} and not declared{hint}",
        "{remedy}",
        "Racks of one antenna, or people of one team, are found by its name. This one is one slip away from another "
        "that is declared, or used more often.",
        advice="spell the name as the others do, or declare it in the section groups",
        topics=("slot", "body"),
        decides=True,
    ),
    Code(
        "team-of-one",
        "warning",
        "{person} is alone in team {team}, and alternates with nobody",
        "correct team, delete it, or add it to the section groups with `kind: team`",
        "The team of the day decides who plays a shared role. A team of one makes sense if its member alternates with "
        "somebody; if not, it may be a slip.",
        advice="correct team, delete it, or declare it in the section groups",
    ),
    Code(
        "team-empty",
        "warning",
        "performance {performance} is for team {team}, but nobody is in it",
        "correct team{hint}, or give it to the people of that team",
        "The team of a performance decides who plays a shared role. With nobody in it, each role is played by the "
        "first person it names.",
        advice="correct team, or give it to the people of that team",
        edit="performances/{performance}/team={near}",
        decides=True,
    ),
    Code(
        "live-outside-bill",
        "warning",
        "channel {channel} is on in {bill}, {times}, but live in {scene}, {at}{rest}",
        "add that part to bill of the channel, or correct from and until of the part or the times of the scene",
        "A channel with a part of the bill is on the air in that part alone, and others may have its frequency before and "
        "after. Here a scene in which it is live is outside.",
    ),
    Code(
        "antenna-without-first",
        "warning",
        "rack {rack} is at place {socket} of antenna {antenna}, but no rack is at place 1",
        "correct antenna or place, or add the antenna to the section groups with `kind: antenna`",
        "Places count from the antenna. Without the rack before this one its window is left out, and the antenna name "
        "may be a slip.",
        advice="correct antenna or place, or declare the antenna in the section groups",
    ),
)
