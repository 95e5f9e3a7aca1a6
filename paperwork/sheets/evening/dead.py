"""Dead packs and bad frequencies on the tonight sheet: the spare that takes each one's place, what to set it to, or
why none reaches."""

from collections.abc import Iterator, Sequence

from paperwork.document import Panel
from paperwork.frozen import frozen
from paperwork.model import Channel, Show
from paperwork.plan.evening import Obstacle, find_spare, find_spare_channel, list_channel_obstacles, list_obstacles
from paperwork.plan.patch import outputs_of
from paperwork.sheets.forms import power_of
from paperwork.sheets.frame import phrase, title_of
from paperwork.text.names import shorten_ids
from paperwork.text.units import format_edge, format_mhz
from paperwork.text.words import list_words


@frozen
class Dead:
    """A pack that died or lost its frequency, and the spare that takes its place; None without one, and then why."""

    channel: Channel
    spare: Channel | None
    obstacles: tuple[tuple[Channel | None, Obstacle], ...] = ()


def pair_spares(show: Show, dead: Sequence[Channel]) -> tuple[Dead, ...]:
    """Each dead pack with a spare of its own."""
    taken: list[str] = [channel.id for channel in dead]
    pairs = []
    for channel in dead:
        spare = find_spare(show, channel, taken)
        pairs.append(Dead(channel, spare, () if spare else list_obstacles(show, channel, taken)))
        taken += [spare.id] if spare else []
    return tuple(pairs)


def describe_dead(show: Show, dead: Dead, capsule: str) -> Panel:
    """What to do about one dead pack: the line to programme and the line to log; where no spare reaches, why."""
    channel, spare = dead.channel, dead.spare
    called = title_of(show, channel)
    title = phrase(show, "tonight dead", pack=channel.pack, title=called)
    first = phrase(show, "tonight dead off", pack=channel.pack)
    if spare is None:
        none = phrase(show, "tonight dead none", channel=channel.id)
        facts = (channel.id, channel.pack, "no spare", *_list_obstacle_facts(dead))
        return Panel(title, (first, none, _say_why(show, dead)), facts=facts)
    settings = _settings(show, channel)
    mhz = format_mhz(channel.hz) if channel.hz is not None else "______.______"
    step = phrase(show, "tonight dead set") if channel.hz is not None else phrase(show, "tonight dead blank")
    third = phrase(show, "tonight dead capsule", capsule=capsule) if capsule else phrase(show, "tonight dead stay")
    parts = {"channel": channel.id, "title": called, "pack": channel.pack, "spare": spare.pack, "mhz": mhz}
    log = phrase(show, "tonight dead log", **parts)
    lines = (first, step.format(spare=spare.pack, settings=settings), third, log)
    return Panel(title, lines, facts=(channel.id, channel.pack, spare.pack, *_list_settings(show, channel), capsule))


def _say_why(show: Show, dead: Dead) -> str:
    return phrase(show, "tonight dead why", reasons=phrase(show, "break").join(_list_reasons(show, dead)))


def _list_obstacle_facts(dead: Dead) -> Iterator[str]:
    """Why none reaches as facts, without a language."""
    yield from (" ".join((spare.pack if spare else "", what)) for spare, what in dead.obstacles)


def _list_reasons(show: Show, dead: Dead) -> Iterator[str]:
    """Why no spare can take the place of a dead pack, spare by spare."""
    if not dead.obstacles:
        yield phrase(show, "spare none")
    for spare, obstacle in dead.obstacles:
        if spare is None:
            for rack in dict.fromkeys(slot.rack for slot in dead.channel.slots):
                if span := show.racks[rack].window:
                    low, high = format_edge(span.low_hz), format_edge(span.high_hz)
                    yield phrase(show, "spare window", rack=rack, low=low, high=high)
            continue
        radio, backs = show.radio_of(spare), shorten_ids(spare.backs)
        spans = (f"{format_edge(one.low_hz)}–{format_edge(one.high_hz)}" for one in (radio.tunes if radio else ()))
        yield phrase(show, f"spare {obstacle}", spare=spare.pack, channels=backs, tunes=", ".join(spans))


def _list_settings(show: Show, channel: Channel) -> tuple[str, ...]:
    """The same as facts, without a language."""
    transmitter = show.transmitters.get(channel.pack)
    own = (transmitter.gain, transmitter.display, f"lock {transmitter.lock}") if transmitter else ()
    return (str(channel.hz), power_of(show, channel), *own)


def _settings(show: Show, channel: Channel) -> str:
    """Everything that the spare has to be set to: what the dead pack was set to."""
    transmitter = show.transmitters.get(channel.pack)
    parts = [f"{format_mhz(channel.hz)} MHz" if channel.hz is not None else "", power_of(show, channel)]
    if transmitter:
        parts += [
            phrase(show, "gain", gain=transmitter.gain) if transmitter.gain else "",
            phrase(show, "display", display=transmitter.display) if transmitter.display else "",
            phrase(show, "locked") if transmitter.lock else "",
        ]
    return ", ".join(filter(None, parts))


def describe_bad(show: Show, channel: Channel, lost_hz: int | None, dead: Sequence[Channel]) -> Panel:
    """What to do about a frequency that is lost: the channel's backup, which is its frequency tonight, else a spare
    channel with its own pack. `dead` are channels whose pack is out."""
    called, mhz = title_of(show, channel), format_mhz(lost_hz) if lost_hz is not None else "______.______"
    title = phrase(show, "tonight bad", mhz=mhz, channel=channel.id, title=called)
    now, facts = _list_backup_steps(show, channel)
    if channel.hz == lost_hz:
        now, facts = _list_spare_steps(show, channel, dead)
    *steps, on = now
    log = phrase(show, "tonight bad log", channel=channel.id, title=called, mhz=mhz, now=on)
    return Panel(title, (*steps, log) if on else tuple(steps), facts=(channel.id, mhz, *facts))


def _list_backup_steps(show: Show, channel: Channel) -> tuple[list[str], list[str]]:
    """The steps to the frequency that the channel has tonight, then what it is on; and their facts."""
    backup = format_mhz(channel.hz) if channel.hz is not None else "______.______"
    slot = str(channel.slot or "")
    step = phrase(
        show, "tonight bad slot" if slot else "tonight bad backup", slot=slot, backup=backup, pack=channel.pack
    )
    return [step, phrase(show, "tonight bad stay"), f"{backup} MHz"], [backup, channel.pack, slot]


def _list_spare_steps(show: Show, channel: Channel, dead: Sequence[Channel]) -> tuple[list[str], list[str]]:
    """The same for a spare channel, with nothing that it is on where none stands behind the channel."""
    spare = find_spare_channel(show, channel, [one.id for one in dead])
    if spare is None:
        lost = Dead(channel, None, list_channel_obstacles(show, channel, [one.id for one in dead]))
        none = phrase(show, "tonight dead none", channel=channel.id)
        return [none, _say_why(show, lost), ""], ["no spare", *_list_obstacle_facts(lost)]
    inputs = [f"{output.console} {output.input}" for output in outputs_of(show, spare) if output.kind == "analogue"]
    steps = [phrase(show, "bad frequency 1", pack=spare.pack, channel=spare.id, slot=spare.slot or "–")]
    if inputs:
        steps.append(phrase(show, "bad frequency 2", inputs=list_words(inputs, show.production.language)))
    on = phrase(show, "tonight bad on", channel=spare.id, mhz=format_mhz(spare.hz or 0))
    return [*steps, phrase(show, "bad frequency 3"), on], [spare.pack, spare.id, str(spare.hz), *inputs]
