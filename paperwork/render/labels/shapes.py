"""One label set on its grid: stacked or side by side."""

from paperwork.document import Label
from paperwork.render.boxes import LINE_UM, Fill, Frame, Room
from paperwork.render.labels.grid import (
    CODE_GAP_UM,
    COLUMN_GAP_UM,
    INK_GAP_UM,
    SIDE_GAP_UM,
    LabelGrid,
    frequency_text,
    pack_text,
    tag_text,
)
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
from paperwork.render.labels.texts import choose_texts, list_steps, name_text
from paperwork.render.text.fitting import fit
from paperwork.render.text.setting import Typesetter, set_line


def set_label(label: Label, signs: LabelSigns, grid: LabelGrid, setter: Typesetter) -> LabelInk:
    """The label's ink."""
    ink = LabelInk(setter.of(label))
    set_number(label, grid, ink)
    if grid.dots and label.qr:
        set_code(signs.payload, grid, ink)
    if name_text(label) and not grid.name_lines:
        ink.left_off.append(("performers", name_text(label)))
    {"stacked": _set_stack, "beside": _set_beside, "two lines": set_low, "line": set_low}[grid.shape](
        label, signs, grid, ink
    )
    return ink


def _set_texts(label: Label, grid: LabelGrid, ink: LabelInk) -> int:
    """Role and performers; returns where the ink of the role's last line ends on the right."""
    texts = choose_texts(label, grid, 0, ink.setter)
    ink.left_off += texts.lost
    area = column(grid, grid.left, grid.right)
    for one in (*((texts.role,) if texts.role else ()), *texts.names):
        ink.boxes.extend(ink.setter.lines(one.fitted, area, one.first))
    fitted = texts.role.fitted if texts.role else None
    return ink.metrics.width_um(fitted.lines[-1], fitted.face, fitted.cap_um) if fitted else 0


def _set_stack(label: Label, signs: LabelSigns, grid: LabelGrid, ink: LabelInk) -> None:
    """A tall label: number and code, role, performers and capsule, foot."""
    taken = _set_texts(label, grid, ink)
    tag = tag_text(label)
    if tag and not _set_tag(tag, grid, ink) and not label.doubt:
        ink.left_off.append(("marks", tag))
    if label.capsule and grid.name_lines:
        names = [box.ink.right for box in ink.texts if box.y == grid.name_base]
        start = max(names, default=0) + SIDE_GAP_UM
        ink.put(label.capsule, grid.sizes.small, column(grid, start, grid.width), grid.name_base, "right")
    elif label.capsule:
        ink.left_off.append(("capsules", label.capsule))
    _set_foot(label, signs, grid, ink, taken)


def _set_tag(mark: str, grid: LabelGrid, ink: LabelInk) -> bool:
    """A short text (a tape, a spare's pack) boxed, right of the number on its baseline, if there is room: on one line,
    or its first word over the others."""
    number = max(box.x + box.width for box in ink.boxes if isinstance(box, Fill))
    left = number + SIDE_GAP_UM + 700
    room = Room(left, 0, grid.number_width - left - 700, grid.number_zone)
    ways = ((mark,), tuple(mark.split(maxsplit=1)))
    lines = next((way for way in ways if all(ink.fits(line, grid.sizes.small, room.width) for line in way)), ())
    fitted = [fit(line, grid.sizes.small, room.width, ink.metrics) for line in lines]
    steps = list_steps(fitted)
    if not fitted or fitted[0].rise_um + sum(steps) + 900 > grid.number_um:
        return False
    bases = [grid.number_um - 900 - sum(steps[index:]) for index in range(len(fitted))]
    texts = [set_line(line, one, room, base, ink.metrics) for line, one, base in zip(lines, fitted, bases, strict=True)]
    width, height = max(text.ink.width for text in texts) + 1_400, fitted[0].cap_um + sum(steps) + 1_800
    ink.boxes.append(Frame(left - 700, texts[0].y - fitted[0].cap_um - 900, width, height, LINE_UM, 700))
    ink.boxes += texts
    return True


def _set_foot(label: Label, signs: LabelSigns, grid: LabelGrid, ink: LabelInk, role_um: int) -> None:
    """Frequency, pack, and revision with code on one base line; a pack that has no room there stands elsewhere."""
    height = grid.height
    code = ink.width(signs.text, grid.sizes.code)
    band = column(grid, 0, grid.width)
    ink.put(signs.text, grid.sizes.code, band._replace(x=grid.width - code, width=code), height, "right")
    taken = set_frequency(label, grid, ink, band._replace(width=grid.width - code - SIDE_GAP_UM), height)
    left = taken + (COLUMN_GAP_UM if taken else 0)
    room = band._replace(x=left, width=grid.width - code - COLUMN_GAP_UM - left)
    pack = pack_text(label, signs.words)
    if label.pack != label.number and not ink.stands(label.pack, grid.sizes.small, room, height, grid.foot_top):
        for text in (pack, label.pack):
            if _set_pack_aside(grid, ink, text, role_um):
                return
        if not tag_text(label) and _set_tag(label.pack, grid, ink):
            return
    set_pack(label, signs.words, grid, ink, room)


def _set_pack_aside(grid: LabelGrid, ink: LabelInk, pack: str, role_um: int) -> bool:
    """A pack that is not the number, at the right of a short role on its base line."""
    style, base = grid.sizes.small, grid.role_base
    room = column(grid, role_um + SIDE_GAP_UM, grid.width)
    top = max(grid.code_span, grid.role_top)
    below = min((box.ink.y for box in ink.texts if box.y == grid.name_base), default=grid.foot_top)
    text = fit(pack, style, max(1, room.width), ink.metrics)
    if not ink.stands(pack, style, room, base, top) or base + text.drop_um + INK_GAP_UM > below:
        return False
    ink.put(pack, style, room, base, "right")
    return True


def _set_beside(label: Label, signs: LabelSigns, grid: LabelGrid, ink: LabelInk) -> None:
    """A low, wide label: number over revision and code, texts, QR code over capsule and pack."""
    height, style = grid.height, grid.sizes.small
    ink.put(signs.text, grid.sizes.code, column(grid, 0, grid.left - COLUMN_GAP_UM), height)
    _set_texts(label, grid, ink)
    area = column(grid, grid.left, grid.right)
    taken = set_frequency(label, grid, ink, area, height)
    left = grid.left + taken + (COLUMN_GAP_UM if taken else 0)
    for kind, shown, bare in _list_small(label, signs):
        under = column(grid, grid.right + 500, grid.width)
        beside = column(grid, left, grid.right)
        is_free = not any(box.x >= grid.right and box.y == height for box in ink.texts)
        for text in filter(None, (shown, bare)):
            if is_free and ink.stands(text, style, under, height, max(grid.code_span, 0)):
                ink.put(text, style, under, height, "right")
                break
            if ink.stands(text, style, beside, height, grid.foot_top):
                ink.put(text, style, beside, height)
                left += ink.width(text, style) + COLUMN_GAP_UM
                break
        else:
            if shown != label.doubt and not (kind == "packs" and label.pack == label.number):
                ink.left_off.append((kind, shown))


def _list_small(label: Label, signs: LabelSigns) -> list[tuple[str, str, str]]:
    """Pack, mark and capsule as (kind, words, what is enough), first what is needed most: a spare's number says
    nothing of its pack."""
    is_other = bool(label.pack) and label.pack != label.number
    pack = ("packs", pack_text(label, signs.words), label.pack if is_other else "")
    others = [("marks", tag_text(label), ""), ("capsules", label.capsule, "")]
    return [one for one in ([pack, *others] if is_other else [*others, pack]) if one[1]]


def set_low(label: Label, signs: LabelSigns, grid: LabelGrid, ink: LabelInk) -> None:
    """Role over frequency and code; on one line the role, and at its right the frequency over the code."""
    one = grid.shape == "line"
    room = column(grid, grid.left, grid.right)
    frequency = ink.width(frequency_text(label), grid.sizes.frequency) if frequency_text(label) else 0
    shown = _say_signs(signs, frequency, room.width, grid, ink)
    code = ink.width(shown, grid.sizes.code)
    corner = room._replace(x=grid.right - code, width=code)
    ink.put(shown, grid.sizes.code, corner, grid.height, "right")
    aside = max(code, frequency)
    texts = choose_texts(label, grid, aside + SIDE_GAP_UM, ink.setter)
    ink.left_off += texts.lost
    end = grid.left
    if texts.role:
        lines = ink.setter.lines(texts.role.fitted, room, texts.role.first)
        ink.boxes.extend(lines)
        end += ink.metrics.width_um(texts.role.fitted.lines[0], texts.role.fitted.face, texts.role.fitted.cap_um)
    if one:
        base = grid.sizes.frequency.wanted_um
        set_frequency(label, grid, ink, room._replace(x=grid.right - aside, width=aside), base)
        _set_other_pack(label, signs, grid, ink, (room._replace(x=end, width=grid.right - aside - end),))
    else:
        taken = set_frequency(label, grid, ink, room._replace(width=room.width - code - CODE_GAP_UM), grid.height)
        beside = room._replace(x=grid.left + taken, width=corner.x - SIDE_GAP_UM - grid.left - taken)
        top = texts.role.bottom if texts.role else 0
        _set_other_pack(label, signs, grid, ink, (beside, room._replace(x=end, width=grid.right - end)), top)
    for kind, text in (("capsules", label.capsule), ("marks", "" if label.doubt else label.mark)):
        if text:
            ink.left_off.append((kind, text))


def _say_signs(signs: LabelSigns, frequency: int, width: int, grid: LabelGrid, ink: LabelInk) -> str:
    """Revision and code; the broken bar alone marks a doubt where its sign would take the frequency's room."""
    shown = signs.text.replace("  ", " ")
    has_room = grid.shape == "line" or frequency + CODE_GAP_UM + ink.width(shown, grid.sizes.code) <= width
    return shown if has_room else shown.removeprefix(DOUBT_SIGN).strip()


def _set_other_pack(
    label: Label, signs: LabelSigns, grid: LabelGrid, ink: LabelInk, rooms: tuple[Room, ...], role_bottom: int = 0
) -> None:
    """A pack that is not the number: beside the frequency, else beside the role, whose line it shares."""
    if not label.pack or label.pack == label.number:
        return
    bases = (grid.height, grid.role_base) if len(rooms) > 1 else (grid.role_base,)
    tops = (role_bottom, -grid.space.over_um) if len(rooms) > 1 else (-grid.space.over_um,)
    for room, base, top in zip(rooms, bases, tops, strict=True):
        inner = room._replace(x=room.x + SIDE_GAP_UM, width=room.width - SIDE_GAP_UM)
        if ink.stands(label.pack, grid.sizes.small, inner, base, top):
            set_pack(label, signs.words, grid, ink, inner, base, top)
            return
    ink.left_off.append(("packs", label.pack))
