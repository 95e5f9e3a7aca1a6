"""A beloved ten-year-old workbook: twelve tabs and thirty thousand cells of what a decade leaves in one."""

import io

import openpyxl
from openpyxl.comments import Comment
from openpyxl.styles import Font, PatternFill

FIRST = ("Mara", "Max", "Ana", "Tomas", "Rhea", "Imke", "Piet", "Bo", "Noor", "Leif", "Siân", "Jun")
LAST = ("Lind", "Ried", "Cole", "Quell", "Vos", "Arends", "Dahl", "Haddad", "Holm", "Gwilym", "Okabe", "Falk")
SCENES = [f"{act}.{number}" for act in (1, 2, 3) for number in range(1, 14)]


def name_of(number: int) -> str:
    """One of 144 invented names."""
    return f"{FIRST[number % 12]} {LAST[number // 12 % 12]}"


def make_beloved() -> bytes:
    """The workbook: this year's list and grid, in-ears, wardrobe, stock, and last years' tabs, some of them hidden."""
    book = openpyxl.Workbook()
    book.remove(book.active)
    _add_list(book.create_sheet("MICS 2027 today"), 64, 0)
    _add_grid(book.create_sheet("who is where"), 64)
    _add_ears(book.create_sheet("IEM"))
    for number, title in enumerate(("MICS 2027 old", "yesterday", "MICS 2026-05-01", "MICS 2025-05-01")):
        _add_list(book.create_sheet(title), 60, number)
    for title in ("stock", "hire", "tape"):
        _add_stock(book.create_sheet(title))
    for title in ("2019 DO NOT USE", "scratch"):
        sheet = book.create_sheet(title)
        _add_list(sheet, 60, 3)
        sheet.sheet_state = "hidden"
    buffer = io.BytesIO()
    book.save(buffer)
    return buffer.getvalue()


def _add_list(sheet, count: int, shift: int) -> None:
    sheet.append(["THE GLASS FERRY"])
    sheet.append(["mic list", None, "Rev H", None, "2027-03-01"])
    sheet.append([])
    heads = [
        "Ch",
        "Actor",
        "Character",
        "Freq (MHz)",
        "Pack",
        "Mic",
        "Rack",
        "Input",
        "Battery",
        "Notes",
        "Old freq?",
        "Tape",
    ]
    sheet.append(heads)
    for cell in sheet[4]:
        cell.font = Font(bold=True)
        cell.fill = PatternFill("solid", fgColor="DDDDDD")
    sheet.merge_cells("A1:L1")
    for number in range(1, count + 1):
        if number == 33:
            sheet.append(["ACT TWO ADDITIONS"])
            sheet.append(heads)
        mhz = 470 + (number * 1.65 + shift * 0.025)
        value = round(mhz, 3) if number % 3 else f"{mhz:.3f}".replace(".", ",")
        sheet.append(
            [
                number,
                name_of(number),
                f"ROLE {number}",
                value,
                f"P{number:02d}",
                "lav",
                f"{(number - 1) // 4 + 1}{'ABCD'[(number - 1) % 4]}",
                number,
                0.8,
                "left side" if number % 5 else None,
                None,
                "B",
            ]
        )
        sheet.cell(sheet.max_row, 9).number_format = "0%"
    sheet.append([f"{count} mics"])
    sheet["B8"].comment = Comment("sweats, tape B", "A2")
    sheet.column_dimensions["K"].hidden = True


def _add_grid(sheet, count: int) -> None:
    sheet.append(["Character", "Actor", *SCENES])
    for number in range(1, count + 1):
        sheet.append(
            [
                f"ROLE {number}",
                name_of(number),
                *("x" if (number * 7 + place) % 3 == 0 else None for place in range(len(SCENES))),
            ]
        )


def _add_ears(sheet) -> None:
    sheet.append(["IEM", "Name", "Freq"])
    for number in range(1, 9):
        sheet.append([f"IEM {number}", name_of(100 + number), 640 + number * 1.3])


def _add_stock(sheet) -> None:
    sheet.append(["shelf", "what", "how many", "bought", "state", "owner", "box"])
    for number in range(1, 1100):
        sheet.append([f"S{number % 40}", f"thing {number}", number % 9, "2019", "ok", "house", f"B{number % 30}"])
