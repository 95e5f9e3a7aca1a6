"""Channels and the slots of the racks."""

from collections.abc import Iterator, Sequence

from paperwork.finding import Finding, Subject, find
from paperwork.model import Channel, Rack, Show
from paperwork.place import Place
from paperwork.text.names import join_words


def check_slots(show: Show) -> Iterator[Finding]:
    """Each slot holds one channel, and each channel sits in one slot that its rack has."""
    claims: dict[str, list[Channel]] = {}
    for channel in show.channels.values():
        for id in dict.fromkeys(slot.rack for slot in channel.slots):
            claims.setdefault(id, []).append(channel)
    for rack in show.racks.values():
        yield from _check_rack(rack, claims.get(rack.id, []))
    for channel in show.channels.values():
        if len(set(channel.slots)) > 1:
            first, second = channel.slots[:2]
            yield find(
                "channel-in-two-slots",
                second.place,
                about=(Subject("channels", channel.id),),
                others=(first.place,),
                channel=channel.id,
                first=first,
                second=second,
            )


def _check_rack(rack: Rack, claimants: Sequence[Channel]) -> Iterator[Finding]:
    """The same for one rack and the channels that claim a slot of it."""
    holders: dict[int, Channel] = {}
    beyond = []
    free = _name_free_slot(rack, claimants)
    for channel in claimants:
        for slot in channel.slots:
            if slot.rack != rack.id:
                continue
            if not 1 <= slot.number <= rack.slots:
                beyond.append((channel, slot))
                continue
            first = holders.setdefault(slot.number, channel)
            if first is not channel:
                yield find(
                    "slot-doubled",
                    max(slot.place, _place_in(first, rack, slot.number)),
                    about=(Subject("channels", first.id), Subject("channels", channel.id), Subject("racks", rack.id)),
                    slot=slot,
                    first=first.id,
                    second=channel.id,
                    free=free,
                )
    if beyond:
        listed = join_words(f"channel {channel.id} in {slot}" for channel, slot in beyond)
        yield find(
            "slot-beyond-rack",
            beyond[0][1].place,
            about=(*(Subject("channels", channel.id) for channel, _ in beyond), Subject("racks", rack.id)),
            others=(rack.where["slots"],),
            rack=rack.id,
            slots=rack.slots,
            channels=listed,
        )


def _place_in(channel: Channel, rack: Rack, number: int) -> Place:
    return next(slot.place for slot in channel.slots if slot.rack == rack.id and slot.number == number)


def _name_free_slot(rack: Rack, claimants: Sequence[Channel]) -> str:
    taken = {slot.number for channel in claimants for slot in channel.slots if slot.rack == rack.id}
    free = next((number for number in range(1, rack.slots + 1) if number not in taken), None)
    return f", for example {rack.id}.{free}" if free else ""


CHECKS = (check_slots,)
