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
        says="handheld {channel} needs a capsule and has none",
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
)
