"""Which columns of a table are the scenes of a plot, and what the rows of such a table are."""

from collections.abc import Mapping, Sequence, Set

from paperwork.files.grid import GridCell
from paperwork.intake.cells.sideways import says_scenes
from paperwork.intake.tables.column import ListColumn, TableColumns
from paperwork.intake.tables.find import SheetTable
from paperwork.intake.tables.values import is_mark
from paperwork.intake.texts.bodies import Body, are_repeated, is_mic, is_named_mic, read_body, split_turns
from paperwork.intake.texts.dates import is_day
from paperwork.intake.texts.headings import find_rank, mean_base, mean_label
from paperwork.intake.texts.ids import is_id
from paperwork.intake.texts.names import key_of_name
from paperwork.intake.texts.scenes import expand_scenes, is_scene, is_weekday, read_mark
from paperwork.text.headings import fold_heading, mean
from paperwork.text.vocabulary import fold_word, is_total, listed_words

_LONGEST_MARK = 7
"""Letters of what may be beside plain marks in a plot: `HH 1`, `(x)`."""


def find_mic_columns(columns: Mapping[int, ListColumn]) -> tuple[int, ...]:
    """The columns of a plot that are headed by mics and hold scenes, `1.1-1.3, 2.2`: three at least."""
    mics = [n for n, column in columns.items() if column.heading and is_named_mic(column.heading.text)]
    texts = [text for n in mics for text in columns[n].texts]
    are_scenes = all(is_scene(scene) for text in texts for scene in expand_scenes(text))
    return tuple(mics) if len(mics) > 2 and are_scenes and not all(map(is_mic, texts)) else ()


def find_cast_columns(columns: Mapping[int, ListColumn]) -> tuple[int, ...]:
    """The columns that say who plays each role of a list on a day: headed by days, two at least, with names in their cells."""
    days = [
        n for n, column in columns.items() if (cell := column.heading) and (cell.kind == "date" or _is_time(cell.text))
    ]
    meant = {column.options[:1] for n, column in columns.items() if n not in days}
    texts = [text for n in days for text in columns[n].texts if read_mark(text) != "idle"]
    is_cast = len(days) > 1 and ("role",) in meant and read_body(texts) == "names"
    return tuple(days) if is_cast else ()


def _is_time(heading: str) -> bool:
    """Whether a heading is a day, a week, or a performance: `6 Dec`, `Week 2`, `Premiere`, `2. Vorst.`."""
    return (
        is_day(heading) or is_weekday(heading) or bool(set(fold_word(heading).split()[:2]) & listed_words("time_word"))
    )


def find_scene_columns(columns: Mapping[int, ListColumn], table: SheetTable) -> tuple[int, ...]:
    """The columns of a plot: headed by scenes, two at least, or by anything else over the marks, mics or names of a plot."""
    headed = {
        n: one
        for n, column in columns.items()
        if (one := column.heading) and not (is_total(one.text) or _numbers_rows(column) or _is_of_pair(one.text))
    }
    if table.grid.head:
        return _list_turned(columns, headed, table)
    named = _list_named(headed)
    free = [n for n, cell in headed.items() if n in named or not mean_label(cell.text).fields]
    body, is_plot = _read_free(free, headed, table)
    if not named and (body == "other" or (body != "marks" and len(free) < 3)):
        return ()
    kin = _list_kin(free, named, columns, body)
    marked = {n for n in kin if _is_scene_column(columns[n], body, table, is_beside=bool(named) and not is_plot)}
    if not named:
        found = marked if len(marked) > 2 else set()
    else:
        found = _reach({*named, *marked}, named) if is_plot else {*named, *(n for n in marked if _is_between(n, named))}
    return tuple(sorted(found)) if len(found) > 1 else ()


def _list_named(headed: Mapping[int, GridCell]) -> list[int]:
    """The columns that scenes head, or two days of the week at least."""
    days = [n for n, cell in headed.items() if is_weekday(cell.text)]
    scenes = [n for n, cell in headed.items() if not mean(cell.text).fields and _is_scene_head(cell)]
    return sorted({*scenes, *(days if len(days) > 1 else ())})


def _read_free(free: Sequence[int], headed: Mapping[int, GridCell], table: SheetTable) -> tuple[Body, bool]:
    """What the cells of columns are that no field heads, and whether they can be nothing but a plot. Names beside those of
    people, or that do not come again, are those of a list."""
    lines = [[row[n].text for n in free if n in row] for row in table.rows.values()]
    body, comes_again = read_body([text for line in lines for text in line]), are_repeated(lines)
    meant = {field for cell in headed.values() for field in mean_label(cell.text).fields[:1]}
    if body == "names" and ({"performer", "role"} & meant or not comes_again):
        body = "other"
    return body, body == "marks" or (body in ("mics", "names") and comes_again)


def _list_kin(free: Sequence[int], named: Sequence[int], columns: Mapping[int, ListColumn], body: Body) -> list[int]:
    """The columns that may be scenes beside those that are headed so: with a mic of theirs in them."""
    own = {text for n in named for text in columns[n].texts}
    return [n for n in free if n in named or not own or body != "mics" or own & {*columns[n].texts}]


def _is_between(number: int, named: Sequence[int]) -> bool:
    return min(named) - 1 <= number <= max(named) + 1


def _is_of_pair(heading: str) -> bool:
    """Whether a heading is one of a pair of packs or frequencies, `Micro A`, `Freq 2`, and no mic by its number."""
    base = mean_base(heading).fields[:1] if find_rank(heading) else ()
    return base == ("frequency",) or (base in (("channel",), ("pack",)) and not any(map(str.isdigit, heading)))


def _reach(columns: Set[int], named: Sequence[int]) -> set[int]:
    """The columns from the first that is named to the last, and those that follow one another at either end."""
    low, high = min(named), max(named)
    while low - 1 in columns:
        low -= 1
    while high + 1 in columns:
        high += 1
    return {n for n in columns if low <= n <= high}


def _list_turned(
    columns: Mapping[int, ListColumn], headed: Mapping[int, GridCell], table: SheetTable
) -> tuple[int, ...]:
    """The scenes of a plot that was turned: all that is headed like nothing else, and holds what the others hold."""
    free = [
        n
        for n, cell in headed.items()
        if n > min(columns) and (_is_scene_head(cell) or not mean_label(cell.text).fields)
    ]
    body = read_body([text for n in free for text in columns[n].texts])
    if not any(_is_scene_head(headed[n]) for n in free):
        lines = [[row[n].text for n in free if n in row] for row in table.rows.values()]
        corner = headed.get(min(columns))
        is_few = len(free) * 2 < len(headed) and not (corner and says_scenes(corner.text))
        if is_few or (body in ("names", "other") and not are_repeated(lines)):
            return ()  # a list that lay on its side, with columns that nobody knows
    return tuple(n for n in free if _is_scene_head(headed[n]) or _fits(columns[n].texts, body))


def _numbers_rows(column: ListColumn) -> bool:
    """Whether a column under the corner of a plot has the mics of its rows, `Musical number` over `Mic 1, Mic 2`: no scene
    has each of them once, by its name."""
    is_numbered = len(set(column.texts)) == len(column.texts) > 2 and all(map(is_named_mic, column.texts))
    return is_numbered and column.key in listed_words("scene_corner")  # `KW 33` is a scene


def _fits(texts: Sequence[str], body: Body) -> bool:
    """Whether a scene of a plot may hold some texts."""
    are_mics = all(is_mic(part) for text in texts for part in split_turns(text)[0])
    return read_body(texts) in (body, "marks", "") or (body == "mics" and are_mics)


def _is_scene_head(cell: GridCell) -> bool:
    """Whether a heading is a scene's, or a day."""
    return is_scene(cell.text) or cell.kind == "date"


def _is_scene_column(column: ListColumn, body: Body, table: SheetTable, *, is_beside: bool) -> bool:
    """Whether a column may be a scene by what is in it. Beside scenes only marks say so; a list of people has more columns
    of names, and of numbers."""
    texts = column.texts
    if not texts:
        return not is_beside and bool(table.grid.fills or body)
    if is_beside:
        return all(map(is_mark, column.cells))
    if body == "marks":
        return (
            any(map(is_mark, column.cells)) and all(len(text.strip()) < _LONGEST_MARK for text in texts)
        ) or read_body(texts) == "marks"
    return _fits(texts, body)


def name_rows(found: TableColumns, scenes: Sequence[int]) -> None:
    """What the rows of a plot are, where the corner over them says nothing, or what its columns are: mics by their numbers,
    else people, or roles where another column has the people."""
    first = found.columns.get(min(found.columns, default=0))
    if first is None or first.number > min(scenes) or first.number in found.taken or not first.texts:
        return
    meant = {name for column in found.columns.values() for name in column.options[:1] if column is not first}
    meant |= set(found.taken.values())
    corner = first.heading is not None and not found.table.grid.head
    if corner and not (first.options[:1] == ("scenes",) or _is_corner(first.key)):
        return
    texts = [
        text for text in first.texts if is_mic(text) or not (mean_label(text).fields or _is_corner(fold_heading(text)))
    ]
    are_mics = sum(map(is_named_mic, texts)) * 3 >= len(texts) * 2 or all(map(is_mic, texts))
    are_mics = are_mics or (all(map(is_id, texts)) and _find_body(found.table, scenes) == "names")
    if texts and are_mics and not {"channel", "pack"} & meant:
        name = "channel"
    else:
        name = "role" if "performer" in meant else "performer"
    if name not in meant:
        found.decide(first, name, "it heads the plot")
    for number in (n for n in found.columns if first.number < n < min(scenes)):
        if number not in found.taken:
            _name_second(found, found.columns[number], name)


def _name_second(found: TableColumns, column: ListColumn, first: str) -> None:
    """A column of names without a heading beside the first of a plot: who plays them, which is asked."""
    if column.heading is None and first == "performer" and read_body(column.texts) == "names":
        roles = next(one for one, name in found.taken.items() if name == first)
        question = f"{column.title} holds {column.sample}, beside {found.columns[roles].sample} of the plot"
        choices = {"performer": "who plays them", "role": "whom they play", "notes": "only a note"}
        answer = found.ask(
            column, column.key, "names beside the first of the plot", question, choices, value="performer"
        )
        found.taken[column.number] = answer
        found.taken[roles] = "role" if answer == "performer" else first


def _find_body(table: SheetTable, scenes: Sequence[int]) -> Body:
    return read_body([row[n].text for row in table.rows.values() for n in scenes if n in row])


def _is_corner(key: str) -> bool:
    return bool({key, *key.split()[:1]} & listed_words("scene_corner"))


def says_which_way(table: SheetTable, scenes: Sequence[int], names: Set[str]) -> bool:
    """Whether anything tells people from scenes in a plot: a word in its corner, a scene's heading, a known name, or the
    numbers of mics. `names` are the keys of those whom the lists of the book name."""
    labels = [n for n in table.headings if n < min(scenes)]
    heads = [cell for n in scenes if (cell := table.headings[n])]
    if table.grid.head or any(table.headings[n] for n in labels) or any(map(_is_scene_head, heads)):
        return True
    texts = [row[n].text for row in table.rows.values() for n in labels if n in row]
    return all(map(is_mic, texts)) or any(key_of_name(text) in names for text in texts)
