"""A plot with people down, mics across, and in its cells the scenes: `1.1-1.3, 2.2`."""

from paperwork.files.grid import GridCell
from paperwork.intake.ledger import Ledger
from paperwork.intake.records.draft import ShowDraft
from paperwork.intake.records.plots.players import find_roles
from paperwork.intake.records.plots.worn import WornPacks, drop_clashes, settle_worn
from paperwork.intake.tables.versions import SortedTable
from paperwork.intake.texts.scenes import expand_scenes
from paperwork.place import Place
from paperwork.text.names import natural_key


def read_mic_columns(table: SortedTable, draft: ShowDraft, ledger: Ledger) -> None:
    """Enter the channels that head columns, and who wears each in the scenes that the cells list."""
    known = [record.id for record in draft.records("scenes")]
    said: list[tuple[str, str, str, GridCell]] = []
    heads = {n: cell for n in table.columns.scenes if (cell := table.table.headings[n])}
    for head in heads.values():
        draft.add("channels", head.text.strip(), head.place)
    for row in table.rows:
        roles = find_roles(row, None, draft, ledger)
        for cell, head in ((row.cells[n], head) for n, head in heads.items() if n in row.cells):
            scenes = expand_scenes(ledger.text(cell), known)
            said += [(role, scene, head.text.strip(), cell) for role in roles for scene in scenes]
    ids = known or sorted({scene for _, scene, _, _ in said}, key=natural_key)
    order = {id: at for at, id in enumerate(dict.fromkeys([*ids, *(scene for _, scene, _, _ in said)]))}
    worn, live = WornPacks(), dict[str, dict[str, Place]]()
    for role, scene, mic, cell in said:
        worn.enter(order[scene], role, [draft.add("channels", mic, cell.place)], cell)
    scenes_by_place = {at: id for id, at in order.items()}
    drop_clashes(worn, scenes_by_place, ledger)
    for stint in worn.stints.values():
        live.setdefault(scenes_by_place[stint.column], {}).setdefault(stint.role, stint.cell.place)
    for id in order:
        place = next(iter(live.get(id, {}).values()), table.place)
        record = draft.add("scenes", id, place)
        record.put("name", id, place)
        record.put_list("live", live.get(id, {}).items(), place)
    settle_worn(worn, scenes_by_place, draft)
