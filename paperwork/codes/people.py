"""Codes of people, roles, scenes and capsules."""

from paperwork.codes.row import Code

TABLE: tuple[Code, ...] = (
    Code(
        "pack-on-two-bodies",
        "error",
        "the pack of channel {channel} is on {first} and on {second} at once, in {scene}",
        "take {role} out of the scene, or put {role} on another channel",
        "A shared pack is on one person at a time. In this scene two roles of one channel are live, and different "
        "people play them.",
        advice="take one role out of the scene, or put it on another channel",
        topics=("pack", "body"),
    ),
    Code(
        "capsule-missing",
        "error",
        "handheld {channel} has no capsule",
        "add capsule to the channel, or write fit: fixed for radio {radio} if its head cannot be changed",
        "The radio type has a capsule connector, so the handheld comes without a head. It is silent until one is "
        "screwed on.",
        advice="add capsule to the channel, or write fit: fixed for the radio if its head cannot be changed",
        topics=("capsule",),
    ),
    Code(
        "capsule-misfit",
        "error",
        "capsule {capsule} has the connector {needs}, but radio {radio} of channel {channel} has {has}",
        "choose another capsule, or correct the fit of one of the two",
        "The capsule's connector does not fit the transmitter.",
        topics=("capsule",),
    ),
    Code(
        "role-silent",
        "warning",
        "role {role} is live in {scene}{more}, but is on no channel",
        "put {role} on a channel, or mark the role unmiked: yes",
        "A role that is live has a microphone, or is marked as needing none. It is reported once, at the first of its "
        "scenes.",
        advice="put the role on a channel, or mark it unmiked: yes",
    ),
    Code(
        "body-in-two-places",
        "error",
        "{person} plays {first} and {second} at once, in {scene}",
        "take one of the roles out of the scene, give it to somebody else, or add moves that say when each is off",
        "One person is live in two roles at one time, on two worn packs. Two roles on one pack, or a handheld beside "
        "a pack, are fine. So are two stints in one scene whose moves say that the first is over before the second.",
        topics=("body",),
    ),
    Code(
        "role-on-two-packs",
        "warning",
        "{role} is on channel {first} and on channel {second}, but neither is marked as the second pack of the other",
        "write `{edit}` at channel {second}, or give one of them another role; a pack for some scenes is channel in moves",
        "A lead may wear two packs, and then one doubles the other. Two worn packs of one role without that mark are "
        "mostly a slip. A pack that a role has in some scenes alone is said in moves. A handheld beside a pack, alternates and exclusive channels are fine.",
        advice="write doubles at the second channel, or give one of them another role",
        edit="channels/{second}/doubles={first}",
        decides=True,
    ),
    Code(
        "double-on-another-body",
        "warning",
        "channel {channel} doubles channel {lead}, but {body} wears it, not {other}",
        "give both channels the same role, or delete doubles",
        "A second pack belongs on the person who wears the first. Here the two are on different people.",
    ),
    Code(
        "name-two-ways",
        "warning",
        "{one} and {other} are one name, spelled two ways",
        "spell it one way throughout: two spellings are two people on every paper",
        "The two differ only in accents, in two letters for one (ue for ü, ss for ß), in hyphens, stops or capitals, "
        "or in the order of surname and given name. With two spellings one person has two entries on lists, and a "
        "clash between them is missed. Names that differ in a letter, as those of brothers and sisters do, are not "
        "reported.",
        asked_first=True,
    ),
    Code(
        "team-unknown",
        "warning",
        "the day's team is {team}, but nobody belongs to it",
        "correct day: team, or add team: {team} to its people; the teams are {known}{hint}",
        "The day names a cast or a children's team that nobody in people has, so nobody was changed for it.",
        advice="correct day: team, or add the team to its people",
        edit="day/team={near}",
    ),
    Code(
        "listener-without-pack",
        "warning",
        "{other} has more listeners than receivers ({listeners} and {packs}): none for {missing}",
        "add a receiver to packs, or remove a listener",
        "An in-ear carrier can have any number of listeners, each of whom wears a receiver. Where receivers are "
        "listed, there must be one for each.",
    ),
    Code(
        "swap-too-fast",
        "warning",
        "the pack of channel {channel} has {seconds} from {first} to {second}, before {scene}; at least {wanted} needed{way}",
        "move the swap to an earlier exit or a later entrance, give {second} a pack of their own, or set day: swap to "
        "what you have timed",
        "There is less time between the exit and the entrance than a swap takes: 90 s for a pack and 30 s for a "
        "handheld unless the day says otherwise (common practice, no source), and the way round where the two are on "
        "different sides. Where times are missing, nothing is reported.",
        advice="move the swap to an earlier exit or a later entrance, give the second performer a pack of their own, or set "
        "day: swap to what you have timed",
    ),
    Code(
        "swap-across-stage",
        "warning",
        "the pack of channel {channel} leaves {exit} with {first} and is needed {enter} by {second} {seconds} later, "
        "before {scene}; swap and crossing take {wanted}",
        "swap on one side, find more time, or set day: crossing to what you have walked",
        "The pack comes off on one side of the stage and goes on at the other. The time is long enough for the swap, "
        "but not for the swap and the way round.",
    ),
    Code(
        "move-not-live",
        "warning",
        "{role} moves in {scene}, but is not live in it",
        "add {role} to live of the scene, or delete the move",
        "A move gives the entrance and exit of a role in a scene where that role is not live, so it is not used.",
        advice="add the role to live of the scene, or delete the move",
    ),
    Code(
        "move-takes-spare",
        "warning",
        "{role} has channel {channel} in {scene}, but {channel} is a spare",
        "delete spare of channel {channel}, or give {role} another channel in the scene",
        "A move gives a role the pack of a spare. A spare waits for a pack that dies: it is on no list of who is on, "
        "its batteries are not planned, and while it is worn it can back nothing.",
        advice="delete spare of the channel, or give the role another channel in the scene",
    ),
    Code(
        "channel-never-worn",
        "warning",
        "channel {channel} is never worn: moves give {roles} another channel in every scene",
        "delete channel of one of these moves, or delete the role of channel {channel}",
        "The roles of the channel are live, but in each of their scenes a move says that they carry another channel. The "
        "pack would be fitted, checked and given batteries for nothing.",
        advice="delete channel of one of these moves, or delete the role of the channel",
    ),
    Code(
        "cover-is-performer",
        "warning",
        "{by} covers {role}, but already plays it",
        "name somebody else, or delete the cover",
        "A cover goes on when the performer is off, so it cannot be the performer.",
        edit="covers/{cover}/=",
        decides=True,
    ),
    Code(
        "cover-is-on",
        "warning",
        "{by} covers {role} in {scenes}, but is on there as {own}, and nobody else covers {own}",
        "name a cover for {own}, name somebody else here, or give scenes without them",
        "Whoever covers a role gives up their own in that scene. It falls away unless somebody covers it in turn.",
        advice="name a cover for the role that would fall away, name somebody else, or give scenes without them",
    ),
    Code(
        "role-group-endless",
        "error",
        "role {id} is a group of itself: {chain}",
        "take it out of one of these groups",
        "A group means the roles in it. These groups hold each other in a circle.",
        stage="reference",
    ),
    Code(
        "role-group-deep",
        "error",
        "role {id} is a group of groups, more than {most} deep",
        "name its roles, without groups between",
        "A group means the roles in it, through a few groups at most, so that they can be found.",
        stage="reference",
    ),
    Code(
        "cover-without-pack",
        "warning",
        "{by} covers {role}, but has no pack: the role is on no channel, and the cover names none",
        "add channel to the cover, or put the role on a channel",
        "A cover goes on with the channel of the role, or with the channel that the cover names.",
    ),
    Code(
        "cover-without-capsule",
        "warning",
        "{by} covers {role} on channel {channel}, which has no capsule",
        "add capsule to the cover or to the channel",
        "The transmitter has a capsule connector, and neither the cover nor the channel names a capsule.",
    ),
    Code(
        "cover-colour",
        "warning",
        "{by} covers {role} with capsule {capsule} of colour {has}, but needs colour {wants}",
        "give the cover a capsule of colour {wants}{free}",
        "The person has a capsule colour in people, and the capsule for the cover has another one.",
        advice="give the cover a capsule in the person's colour",
        edit="covers/{cover}/capsule={suited}",
        decides=True,
    ),
    Code(
        "look-doubled",
        "warning",
        "looks {first} and {second} of {person} both begin {begin}",
        "let one of them begin in another scene, or make one look of both",
        "A look says what somebody wears from a scene on, where the pack sits and where the capsule goes. Two that "
        "begin at once contradict each other, and the quick-change sheet would print a change between them.",
    ),
)
