"""Codes of people, roles, scenes and capsules."""

from paperwork.codes.row import Code

TABLE: tuple[Code, ...] = (
    Code(
        name="pack-on-two-bodies",
        severity="error",
        stage="sense",
        says="the pack of channel {channel} is on {first} and on {second} at once, in {scene}",
        fix="take {role} out of the scene, or put {role} on another channel",
        explains=(
            "A shared pack is on one body at a time. In this scene two roles of one channel are live, and different "
            "people play them."
        ),
    ),
    Code(
        name="capsule-missing",
        severity="error",
        stage="sense",
        says="no capsule is told for handheld {channel}",
        fix="add capsule: to the channel, or say fit: fixed for radio {radio} if its head cannot be changed",
        explains=(
            "The radio type has a capsule connector, so the handheld comes without a head. It will be silent until one "
            "is screwed on."
        ),
    ),
    Code(
        name="capsule-misfit",
        severity="error",
        stage="sense",
        says="capsule {capsule} fits {needs}, and radio {radio} of channel {channel} has {has}",
        fix="choose a capsule that fits {has}, or correct the fit of one of the two",
        explains="The connector of the capsule is not the connector of the transmitter.",
    ),
    Code(
        name="role-silent",
        severity="warning",
        stage="sense",
        says="role {role} is live in {scene}{more}, and no channel carries it",
        fix="put {role} on a channel, or mark the role unmiked: yes",
        explains=(
            "A role that is live has a microphone, or is said to need none. It is told once, at the first of its scenes."
        ),
    ),
    Code(
        name="body-in-two-places",
        severity="error",
        stage="sense",
        says="{person} is {first} and {second} at once, in {scene}",
        fix="take one of the roles out of the scene, give it to somebody else, or tell in moves when each is off",
        explains=(
            "One person is live in two roles at one time, on two worn packs. Two roles on one pack, or a handheld beside "
            "a pack, are no fault; nor are two stints in one scene whose moves say that the first is over before the "
            "second."
        ),
    ),
    Code(
        name="role-on-two-packs",
        severity="warning",
        stage="sense",
        says="{role} is on channel {first} and on channel {second}, and neither is declared the second pack of the other",
        fix="add doubles: {first} to channel {second}, or give one of them another role",
        explains=(
            "A lead may wear two packs, and then one doubles the other. Two worn packs of one role that do not say so "
            "are mostly a slip of the pen. A handheld beside a pack, alternates and exclusive channels are no fault."
        ),
    ),
    Code(
        name="double-on-another-body",
        severity="warning",
        stage="sense",
        says="channel {channel} doubles channel {lead}, and {body} wears it, not {other}",
        fix="give both channels the same role, or take doubles: out",
        explains=(
            "A second pack belongs on the body of the channel that it doubles. Here the two are on different people."
        ),
    ),
    Code(
        name="name-two-ways",
        severity="warning",
        stage="sense",
        says="{one} and {other} are one name, spelled two ways",
        fix="write it one way throughout: two spellings are two people on every paper",
        explains=(
            "The two differ only in accents, in two letters for one (ue for \u00fc, ss for \u00df), in hyphens, stops or case, or in "
            "the order of surname and given name. Whoever is named so has two entries on lists, and is not seen to be in two "
            "places. Names that differ in a letter, as those of brothers and sisters do, are not told."
        ),
    ),
    Code(
        name="team-unknown",
        severity="warning",
        stage="sense",
        says="the day's team is {team}, and nobody belongs to it",
        fix="correct day: team, or give the people of it team: {team}; the teams are {known}",
        explains=(
            "The day names a cast or children's team, and no entry of people has it, so nobody was changed for it."
        ),
    ),
    Code(
        name="listener-without-pack",
        severity="warning",
        stage="sense",
        says="{other} has no receiver for {missing}: listeners {listeners}, receivers {packs}",
        fix="add a receiver to packs:, or take a listener out",
        explains=(
            "An in-ear carrier can have any number of listeners, each of whom wears a receiver. Where receivers are told,"
            " there is one for each."
        ),
    ),
    Code(
        name="swap-too-fast",
        severity="warning",
        stage="sense",
        says=(
            "the pack of channel {channel} has {seconds} from {first} to {second}, before {scene}, and {wanted} are "
            "wanted"
        ),
        fix=(
            "move the swap to an earlier exit or a later entrance, give {second} a pack of their own, or set day: swap to"
            " what you have timed"
        ),
        explains=(
            "The time between the exit and the entrance that the moves tell is shorter than a swap takes: 90 s for a pack"
            " and 30 s for a handheld unless the day says otherwise (common practice, no source). Where times are not "
            "told, nothing is said."
        ),
    ),
    Code(
        name="swap-across-stage",
        severity="warning",
        stage="sense",
        says=(
            "the pack of channel {channel} leaves {exit} with {first} and is wanted {enter} by {second} after {seconds}, "
            "before {scene}; swap and crossing take {wanted}"
        ),
        fix="swap on one side, find more time, or set day: crossing to what you have walked",
        explains=(
            "The pack comes off on one side of the stage and goes on at another. The time is long enough for the swap, "
            "but not for the swap and the way round."
        ),
    ),
    Code(
        name="move-not-live",
        severity="warning",
        stage="sense",
        says="{role} moves in {scene}, and is not live in it",
        fix="add {role} to live: of the scene, or take the move out",
        explains=(
            "A move tells the entrance and exit of a role in a scene in which that role is not live, so it is used for "
            "nothing."
        ),
    ),
    Code(
        name="cover-is-performer",
        severity="warning",
        stage="sense",
        says="{by} covers {role}, and is who plays it",
        fix="name somebody else, or take the cover out",
        explains="A cover goes on when the performer is off, so it cannot be the performer.",
    ),
    Code(
        name="cover-without-pack",
        severity="warning",
        stage="sense",
        says="{by} covers {role}, and there is no pack for it: no channel carries the role, and the cover names none",
        fix="add channel: to the cover, or put the role on a channel",
        explains="A cover goes on with the channel of the role, or with the channel that the cover names.",
    ),
    Code(
        name="cover-without-capsule",
        severity="warning",
        stage="sense",
        says="{by} covers {role} on channel {channel}, and there is no capsule for it",
        fix="add capsule: to the cover or to the channel",
        explains=(
            "The transmitter has a capsule connector, and neither the cover nor the channel says which capsule goes on."
        ),
    ),
    Code(
        name="cover-colour",
        severity="warning",
        stage="sense",
        says="{by} covers {role} with capsule {capsule} of colour {has}, and wants colour {wants}",
        fix="add capsule: of colour {wants} to the cover{free}",
        explains="The person's capsule colour is told in people, and the capsule that would be used has another one.",
    ),
    Code(
        name="look-doubled",
        severity="warning",
        stage="sense",
        says="looks {first} and {second} of {person} both begin {begin}",
        fix="let one of them begin in another scene, or make one look of both",
        explains=(
            "A look says what somebody wears from a scene on, where the pack sits and where the capsule goes. Two that "
            "begin at once contradict each other, and the quick-change sheet would print a change between them."
        ),
    ),
)
