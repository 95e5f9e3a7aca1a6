"""A label of two lines or of one, on tape and small dies: the number, the role, frequency and revision with code."""

from paperwork.document import Label
from paperwork.render.boxes import Room
from paperwork.render.labels.grid import CODE_GAP_UM, SIDE_GAP_UM, LabelGrid, frequency_text
from paperwork.render.labels.ink import DOUBT_SIGN, LabelInk, LabelSigns, column, set_frequency, set_pack
from paperwork.render.labels.texts import choose_texts


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
