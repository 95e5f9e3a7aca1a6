"""One label set after its plan: stacked, side by side, or in two lines."""

from dataclasses import replace

from paperwork.document import Label
from paperwork.document.styles import LABEL_CODE, LABEL_FREQUENCY, Style
from paperwork.render.boxes import LINE_UM, Fill, Frame, Room
from paperwork.render.labels.ink import (
    DOUBT_SIGN,
    LabelInk,
    LabelSigns,
    column,
    set_code,
    set_frequency,
    set_number,
    set_pack,
)
from paperwork.render.labels.plan import (
    CODE_GAP_UM,
    COLUMN_GAP_UM,
    LEAST_GAP_UM,
    LINE_GAP_UM,
    SIDE_GAP_UM,
    LabelPlan,
    frequency_text,
    frequency_top,
    name_lines,
    name_room,
    pack_text,
    tag_text,
    top_baseline,
)
from paperwork.render.labels.texts import list_steps, name_text, stack_um
from paperwork.render.text.faces import em_um
from paperwork.render.text.fitting import fit
from paperwork.render.text.setting import Typesetter, set_line

LABEL_CODE_SMALL = replace(LABEL_CODE, wanted_um=LABEL_CODE.floor_um)
LABEL_FREQUENCY_SMALL = replace(LABEL_FREQUENCY, wanted_um=LABEL_FREQUENCY.floor_um)


def set_label(label: Label, signs: LabelSigns, plan: LabelPlan, setter: Typesetter) -> LabelInk:
    """The label's ink."""
    ink = LabelInk(setter.of(label))
    set_number(label, plan, ink)
    if plan.dots and label.qr:
        set_code(signs.payload, plan, ink)
    if name_text(label) and not plan.names:
        ink.left_off.append(("performers", name_text(label)))
    if plan.shape == "stacked":
        _set_stack(label, signs, plan, ink)
    elif plan.foot_um:
        _set_beside(label, signs, plan, ink)
    else:
        _set_tiny(label, signs, plan, ink)
    return ink


def _set_stack(label: Label, signs: LabelSigns, plan: LabelPlan, ink: LabelInk) -> None:
    """A tall label: number and code, role, performers and capsule, foot."""
    sizes = plan.sizes
    name_foot = plan.height - plan.foot_um - sizes.gap
    role_foot = name_foot - plan.name_um
    drop = em_um("text-bold", sizes.role.wanted_um) * 27 // 100
    area = column(plan, 0, plan.width)
    ink.put(label.role, sizes.role, area._replace(width=plan.text_width), role_foot - drop)
    tag = tag_text(label)
    if tag and not _set_tag(tag, plan, ink) and not label.doubt:
        ink.left_off.append(("marks", tag))
    name_base = name_foot - em_um("text-regular", sizes.name.wanted_um) * 27 // 100
    if plan.name_um:
        names = name_room(label, plan.width, sizes.small, ink.metrics)
        width = min(names, plan.text_width) if plan.apart else names
        fitted = [fit(line, sizes.name, width, ink.metrics) for line in name_lines(label, plan)]
        bases = [name_base - sum(list_steps(fitted[index:])) for index in range(len(fitted))]
        for line, base in zip(name_lines(label, plan), bases, strict=True):
            ink.put(line, sizes.name, area._replace(width=width), base)
        start = names + SIDE_GAP_UM
        ink.put(label.capsule, sizes.small, column(plan, start, plan.width), name_base, "right")
    elif label.capsule:
        ink.left_off.append(("capsules", label.capsule))
    _set_foot(label, signs, plan, ink)


def _set_tag(mark: str, plan: LabelPlan, ink: LabelInk) -> bool:
    """A short text (a swap, a spare's pack) boxed, right of the number on its baseline, if there is room."""
    number = max(box.x + box.width for box in ink.boxes if isinstance(box, Fill))
    left = number + SIDE_GAP_UM + 700
    room = Room(left, 0, plan.number_width - left - 700, plan.number_zone)
    if not ink.fits(mark, plan.sizes.small, room.width):
        return False
    fitted = fit(mark, plan.sizes.small, room.width, ink.metrics)
    if fitted.rise_um + 900 > plan.number_um:
        return False
    text = set_line(fitted.lines[0], fitted, room, plan.number_um - 900, ink.metrics)
    width, height = text.ink.width + 1_400, fitted.cap_um + 1_800
    ink.boxes.append(Frame(left - 700, text.y - fitted.cap_um - 900, width, height, LINE_UM, 700))
    ink.boxes.append(text)
    return True


def _set_foot(label: Label, signs: LabelSigns, plan: LabelPlan, ink: LabelInk) -> None:
    height = plan.height
    code = ink.width(signs.text, LABEL_CODE)
    band = column(plan, 0, plan.width)
    ink.put(signs.text, LABEL_CODE, band._replace(x=plan.width - code, width=code), height, "right")
    taken = set_frequency(label, plan, ink, band._replace(width=plan.width - code - SIDE_GAP_UM), height)
    left = taken + (COLUMN_GAP_UM if taken else 0)
    room = band._replace(x=left, width=plan.width - code - COLUMN_GAP_UM - left)
    pack = pack_text(label, signs.words)
    if not ink.fits(label.pack, plan.sizes.small, room.width):
        for text in (pack, label.pack):
            if _set_pack_aside(label, plan, ink, text):
                return
        if label.pack != label.number and not tag_text(label) and _set_tag(label.pack, plan, ink):
            return
    set_pack(label, signs.words, plan.sizes.small, ink, room, height)


def _set_pack_aside(label: Label, plan: LabelPlan, ink: LabelInk, pack: str) -> bool:
    """A pack that is not the number, at the right of a short role where the code leaves room for it."""
    role = fit(label.role, plan.sizes.role, plan.text_width, ink.metrics)
    taken = ink.metrics.width_um(role.lines[-1], role.face, role.cap_um)
    room = column(plan, taken + SIDE_GAP_UM, plan.width)
    free = plan.height - plan.foot_um - plan.name_um - plan.sizes.gap
    base = free - em_um("text-bold", plan.sizes.role.wanted_um) * 27 // 100
    if label.pack == label.number or not ink.fits(pack, plan.sizes.small, room.width):
        return False
    text = fit(pack, plan.sizes.small, room.width, ink.metrics)
    top = base - text.rise_um
    if top < plan.number_zone or (plan.dots and label.qr and plan.code_span > top):
        return False
    ink.put(pack, plan.sizes.small, room, base, "right")
    return True


def _set_beside(label: Label, signs: LabelSigns, plan: LabelPlan, ink: LabelInk) -> None:
    """A low, wide label: number over revision and code, texts, QR code over capsule and pack."""
    width, height = plan.width, plan.height
    start = max(plan.number_width, plan.space.signs_um) + COLUMN_GAP_UM
    ink.put(signs.text, LABEL_CODE, column(plan, 0, start - COLUMN_GAP_UM), height)
    end = width - (plan.code_span or plan.space.signs_um)
    left_over = _set_right(label, signs, plan, ink, end)
    room = column(plan, start, end)
    taken = _set_middle(label, plan, ink, room)
    x = start + taken + (COLUMN_GAP_UM if taken else 0)
    for kind, shown in left_over:
        own_pack = kind == "packs" and label.pack == label.number
        texts = (shown, label.pack) if kind == "packs" and not own_pack else (shown,)
        text = next((one for one in texts if x + ink.width(one, plan.sizes.small) <= end - SIDE_GAP_UM), "")
        if text:
            need = ink.width(text, plan.sizes.small)
            ink.put(text, plan.sizes.small, Room(x, room.y, need, room.height), height)
            x += need + COLUMN_GAP_UM
        elif not own_pack and shown != label.doubt:
            ink.left_off.append((kind, shown))


def _set_right(label: Label, signs: LabelSigns, plan: LabelPlan, ink: LabelInk, start: int) -> list[tuple[str, str]]:
    """Mark, capsule and pack under the code, the last on the foot's baseline; returns those without room.

    A pack that is not the number comes first: a spare's number says nothing of it.
    """
    style = plan.sizes.small
    pitch = em_um("text-semibold", style.wanted_um) * 112 // 100
    top = plan.code_span
    room = column(plan, start + 500, plan.width)
    kinds = [("marks", tag_text(label)), ("capsules", label.capsule)]
    worded = pack_text(label, signs.words)
    is_other = label.pack != label.number
    bare = is_other and not ink.fits(worded, style, room.width) and ink.fits(label.pack, style, room.width)
    pack = ("packs", label.pack if bare else worded)
    wanted = [pair for pair in ([pack, *kinds] if is_other else [*kinds, pack]) if pair[1]]
    fitted = [fit(text, style, room.width, ink.metrics) for _, text in wanted]
    rises = [one.rise_um for one in fitted]
    drops = [one.drop_um for one in fitted]
    pitch = max(pitch, max(rises, default=0) + max(drops, default=0) + LEAST_GAP_UM)
    lines = max(0, (plan.height - top - style.wanted_um) // pitch + 1)
    shown = [pair for pair in wanted if ink.fits(pair[1], style, room.width)][:lines]
    for index, (_, text) in enumerate(reversed(shown)):
        ink.put(text, style, room, plan.height - index * pitch, "right")
    return [pair for pair in wanted if pair not in shown]


def _set_middle(label: Label, plan: LabelPlan, ink: LabelInk, room: Room) -> int:
    """Role from the top, frequency at the foot, performers between; returns the width that the frequency takes."""
    taken = set_frequency(label, plan, ink, room, plan.height)
    foot = frequency_top(label, plan)
    style = plan.sizes.role
    role = fit(label.role, style, room.width, ink.metrics)
    base = top_baseline(role, plan) + (len(role.lines) - 1) * role.pitch_um
    if base > foot:
        style = replace(style, lines=1)
        role = fit(label.role, style, room.width, ink.metrics)
        base = top_baseline(role, plan)
    ink.put(label.role, style, room, base)
    if plan.names and name_text(label):
        top = base + role.drop_um
        (_set_names_apart if plan.apart else _set_names)(label, plan, ink, room, top, foot)
    return taken


def _set_names_apart(label: Label, plan: LabelPlan, ink: LabelInk, room: Room, top: int, foot: int) -> None:
    """A line for each performer: the plan has measured that they have room."""
    style = replace(plan.sizes.name, lines=1)
    fitted_lines = [fit(line, style, room.width, ink.metrics) for line in name_lines(label, plan)]
    y = top + max(LEAST_GAP_UM, min(plan.sizes.gap, foot - top - stack_um(fitted_lines, LINE_GAP_UM)))
    for fitted in fitted_lines:
        y += fitted.rise_um
        ink.put(fitted.lines[0], style, room, y)
        y += fitted.drop_um + LINE_GAP_UM


def _set_names(label: Label, plan: LabelPlan, ink: LabelInk, room: Room, top: int, foot: int) -> None:
    """The performers on two lines or one, whichever has room between the role's ink and the frequency."""
    text = name_text(label)
    for lines, gap in ((2, plan.sizes.gap), (2, 200), (1, plan.sizes.gap), (1, 200)):
        style = replace(plan.sizes.name, lines=lines)
        fitted = fit(text, style, room.width, ink.metrics)
        first = top + gap + fitted.rise_um
        last = first + (len(fitted.lines) - 1) * fitted.pitch_um
        if last + fitted.drop_um <= foot:
            ink.put(text, style, room, last)
            return
    ink.left_off.append(("performers", text))


def _set_tiny(label: Label, signs: LabelSigns, plan: LabelPlan, ink: LabelInk) -> None:
    """A label of two lines, on tape and small dies: number, role over frequency and code."""
    start, end = plan.number_width + SIDE_GAP_UM, plan.width - plan.code_span
    room = column(plan, start, end)
    one = replace(plan.sizes.role, lines=1)
    shown = _tiny_signs(label, signs, plan, ink, room.width)
    code = ink.width(shown, LABEL_CODE_SMALL)
    corner = room._replace(x=end - code, width=code)
    ink.put(shown, LABEL_CODE, corner, plan.height, "right")
    role = fit(label.role, one, room.width, ink.metrics)
    base = max(one.wanted_um, top_baseline(role, plan))
    said = fit(pack_text(label, signs.words), plan.sizes.small, room.width, ink.metrics)
    below = max(plan.sizes.frequency.wanted_um, said.rise_um if label.pack != label.number else 0)
    if base + role.drop_um < plan.height - below - 70:
        ink.put(label.role, one, room, base)
        taken = set_frequency(label, plan, ink, room._replace(width=room.width - code - CODE_GAP_UM), plan.height)
    else:
        taken = _set_role_aside(label, one, plan, ink, room, code)
    if label.pack and label.pack != label.number:
        left = start + taken + SIDE_GAP_UM
        pack = room._replace(x=left, width=end - code - SIDE_GAP_UM - left)
        beside = start + role.width_um(ink.metrics) + SIDE_GAP_UM
        if taken < room.width and not ink.fits(label.pack, plan.sizes.small, pack.width):
            set_pack(label, signs.words, plan.sizes.small, ink, room._replace(x=beside, width=end - beside), base)
        else:
            set_pack(label, signs.words, plan.sizes.small, ink, pack, plan.height)
    for kind, text in (("capsules", label.capsule), ("marks", "" if label.doubt else label.mark)):
        if text:
            ink.left_off.append((kind, text))


def _tiny_signs(label: Label, signs: LabelSigns, plan: LabelPlan, ink: LabelInk, width: int) -> str:
    """Revision and code; the broken bar alone marks a doubt where its sign would take the frequency's room."""
    shown = signs.text.replace("  ", " ")
    left = width - ink.width(shown, LABEL_CODE_SMALL) - CODE_GAP_UM
    has_room = ink.fits(frequency_text(label), plan.sizes.frequency, left)
    return shown if has_room else shown.removeprefix(DOUBT_SIGN).strip()


def _set_role_aside(label: Label, one: Style, plan: LabelPlan, ink: LabelInk, room: Room, code: int) -> int:
    """A role whose accents and descenders need the whole height: the frequency moves up, over revision and code."""
    width = max(code, ink.width(frequency_text(label), LABEL_FREQUENCY_SMALL) if frequency_text(label) else 0)
    right = room._replace(x=room.right - width, width=width)
    small = replace(plan, sizes=replace(plan.sizes, frequency=LABEL_FREQUENCY_SMALL))
    set_frequency(label, small, ink, right, plan.height - LABEL_CODE.floor_um - 900)
    left = room._replace(width=room.width - width - SIDE_GAP_UM)
    role = fit(label.role, one, left.width, ink.metrics)
    ink.put(label.role, one, left, max(top_baseline(role, plan), (plan.height + role.cap_um) // 2))
    return room.width
