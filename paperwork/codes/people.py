"""Codes of people, roles, scenes and capsules."""

from paperwork.codes.row import Code

TABLE: tuple[Code, ...] = (
    Code(
        "pack-on-two-bodies",
        "error",
        "the pack of channel {channel} is on {first} and on {second} at once, in {scene}",
        "take {role} out of the scene, or put {role} on another channel",
        "A shared pack is on one person at a time. In this scene two roles of one channel are live, played by "
        "different people.",
        advice="take one role out of the scene, or put it on another channel",
        topics=("pack", "body"),
    ),
    Code(
        "capsule-missing",
        "error",
        "no capsule on {channel}",
        "add capsule to the channel, or write fit: fixed for radio {radio} if the head cannot be changed",
        "This radio type has a capsule connector, so the handheld comes without a head. It is silent until one is "
        "screwed on.",
        advice="add capsule to the channel, or write fit: fixed for the radio if the head cannot be changed",
        topics=("capsule",),
    ),
    Code(
        "capsule-misfit",
        "error",
        "capsule {capsule} has connector {needs}, but radio {radio} of {channel} has {has}",
        "choose another capsule, or correct the fit of one of the two",
        "The capsule's connector does not fit the transmitter.",
        topics=("capsule",),
    ),
    Code(
        "role-silent",
        "warning",
        "role {role} is live in {scene}{more}, but is on no channel",
        "put {role} on a channel, or write unmiked: yes at the role",
        "A live role has a microphone, or is marked as going without. Reported once, at the first of its scenes.",
        advice="put the role on a channel, or write unmiked: yes at it",
    ),
    Code(
        "body-in-two-places",
        "error",
        "{person} is on as {first} and as {second} at once, in {scene}",
        "take one of the roles out of the scene, give it to somebody else, or add moves that say when each is off",
        "One person is live in two roles at once, on two packs. Two roles on one pack are fine, and so is a handheld "
        "beside a pack, or two turns in one scene if moves say that the first is over before the second.",
        topics=("body",),
    ),
    Code(
        "role-on-two-packs",
        "warning",
        "{role} is on channels {first} and {second}, and neither is marked as the second pack of the other",
        "write `{edit}` at channel {second}, or give one of them another role; a pack for some scenes goes into moves",
        "A lead may wear two packs: then one doubles the other. Without that mark it is usually a slip. A pack for "
        "some scenes goes into moves. A handheld beside a pack, alternates and exclusive channels are fine.",
        advice="write doubles at the second channel, or give one of them another role",
        edit="channels/{second}/doubles={first}",
        decides=True,
    ),
    Code(
        "double-on-another-body",
        "warning",
        "channel {channel} doubles channel {lead}, but {body} wears it, not {other}",
        "give both channels the same role, or delete doubles",
        "A second pack goes on the person who wears the first. These two are on different people.",
    ),
    Code(
        "name-two-ways",
        "warning",
        "{one} and {other} are one name in two spellings",
        "spell it one way everywhere: two spellings are two people on paper",
        "The two differ only in accents, in two letters for one (ue for ü, ss for ß), in hyphens, full stops or "
        "capitals, or in the order of first name and surname. Spelled two ways, one person is on lists twice, and a "
        "clash between the two is missed. Names that differ by a letter, as of brothers and sisters, are not reported.",
        asked_first=True,
    ),
    Code(
        "team-unknown",
        "warning",
        "the team of the day is {team}, but nobody is in it",
        "correct day: team, or add team: {team} to its people; the teams are {known}{hint}",
        "The day names a team that nobody in people has, so nobody was swapped for it.",
        advice="correct day: team, or add the team to its people",
        edit="day/team={near}",
    ),
    Code(
        "listener-without-pack",
        "warning",
        "{other} has more listeners ({listeners}) than receivers ({packs}): none for {missing}",
        "add a receiver to packs, or remove a listener",
        "Any number of people can listen to one in-ear mix, each with a receiver. Where receivers are listed, there "
        "must be one each.",
    ),
    Code(
        "swap-too-fast",
        "warning",
        "the pack of channel {channel} has {seconds} from {first} to {second}, before {scene}; at least {wanted} "
        "needed{way}",
        "move the swap to an earlier exit or a later entrance, give {second} a pack of their own, or set day: swap to "
        "what you have timed",
        "There is less time between exit and entrance than a swap takes: 90 s for a pack and 30 s for a handheld "
        "unless the day says otherwise (common practice, no source), plus the crossing if the two are on different "
        "sides. Without times nothing is reported.",
        advice="move the swap to an earlier exit or a later entrance, give the second performer a pack of their own, or set "
        "day: swap to what you have timed",
    ),
    Code(
        "swap-across-stage",
        "warning",
        "the pack of channel {channel} comes off {first} at {exit}, and {second} needs it at {enter} {seconds} later, "
        "before {scene}; swap and crossing take {wanted}",
        "swap on one side, find more time, or set day: crossing to what you have walked",
        "The pack comes off on one side and goes on at the other. There is time for the swap, but not for the swap and "
        "the crossing.",
    ),
    Code(
        "move-not-live",
        "warning",
        "{role} moves in {scene}, but is not live in it",
        "add {role} to live of the scene, or delete the move",
        "A move gives entrance and exit of a role in a scene. The role is not live there, so the move is not used.",
        advice="add the role to live of the scene, or delete the move",
    ),
    Code(
        "move-takes-spare",
        "warning",
        "{role} wears channel {channel} in {scene}, but {channel} is a spare",
        "delete spare of channel {channel}, or give {role} another channel in the scene",
        "A move puts the pack of a spare on a role. A spare waits for a pack that dies: it is on no list of who is on, "
        "its batteries are not planned, and while somebody wears it, it can back nothing.",
        advice="delete spare of the channel, or give the role another channel in the scene",
    ),
    Code(
        "channel-never-worn",
        "warning",
        "channel {channel} is never worn: moves give {roles} another channel in every scene",
        "delete channel of one of these moves, or delete the role of channel {channel}",
        "The roles of this channel are live, but in every one of their scenes a move puts them on another. The pack "
        "would be fitted, checked and given batteries for nothing.",
        advice="delete channel of one of these moves, or delete the role of the channel",
    ),
    Code(
        "cover-is-performer",
        "warning",
        "{by} covers {role}, but already plays it",
        "name somebody else, or delete the cover",
        "A cover goes on when the performer is off, so it has to be somebody else.",
        edit="covers/{cover}/=",
        decides=True,
    ),
    Code(
        "cover-is-on",
        "warning",
        "{by} covers {role} in {scenes}, but is on there as {own}, and {own} has no other cover",
        "name a cover for {own}, name somebody else here, or limit the cover to scenes without {own}",
        "Whoever goes on for a role leaves their own in that scene. It is not played unless it has a cover too.",
        advice="name a cover for that role, name somebody else, or limit the cover to other scenes",
    ),
    Code(
        "role-group-endless",
        "error",
        "role {id} is a group that contains itself: {chain}",
        "take it out of one of these groups",
        "These groups contain each other in a circle, so no roles come out of them.",
        stage="reference",
    ),
    Code(
        "role-group-deep",
        "error",
        "role {id} is a group of groups more than {most} deep",
        "name its roles directly",
        "Groups may contain groups, but only a few deep.",
        stage="reference",
    ),
    Code(
        "cover-without-pack",
        "warning",
        "{by} covers {role}, but has no pack: neither the role nor the cover has a channel",
        "add channel to the cover, or put the role on a channel",
        "A cover goes on with the channel of the role, or with the one that the cover names.",
    ),
    Code(
        "cover-without-capsule",
        "warning",
        "{by} covers {role} on channel {channel}, which has no capsule",
        "add capsule to the cover or to the channel",
        "The transmitter has a capsule connector, and neither cover nor channel names a capsule.",
    ),
    Code(
        "cover-colour",
        "warning",
        "{by} covers {role} with capsule {capsule} in colour {has}, but needs {wants}",
        "give the cover a capsule in colour {wants}{free}",
        "people gives this person a capsule colour, and the capsule of the cover is another.",
        advice="give the cover a capsule in the person's colour",
        edit="covers/{cover}/capsule={suited}",
        decides=True,
    ),
    Code(
        "look-doubled",
        "warning",
        "looks {first} and {second} of {person} both begin {begin}",
        "start one of them in another scene, or make one look of both",
        "A look is what somebody wears from a scene on, where the pack sits and where the capsule goes. Two from the "
        "same scene contradict each other, and the quick-change sheet would show a change between them.",
    ),
    Code(
        "recast-unfinished",
        "warning",
        "{new} {are} not in people, and {old} {were} in people but named nowhere else",
        "if {new} took over from {old}, rename that row of people; else add a row for {new}",
        "Most of the company is listed in people. Somebody new who is not, beside somebody listed who no longer plays, "
        "is usually a recast that reached one place only: room, pouch and belt are still those of the old performer.",
        advice="rename the row of people, or add one for the new performer",
    ),
)
