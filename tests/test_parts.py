"""A part of a paper: one label, some labels, any count; the pages that show a channel or a rack; and what is no part."""

import io

import numpy as np
import pypdf
import pypdfium2
import pytest
import zxingcpp

from tests.terminal import run


@pytest.fixture(scope="module")
def folder(tmp_path_factory):
    folder = tmp_path_factory.mktemp("parts")
    (folder / "show.yaml").write_text(make_show(), encoding="utf-8")
    return folder


def make_show(slots: int = 4) -> str:
    """Twelve channels in three racks, each rack with outputs, each channel on somebody."""
    racks = "".join(
        f"  R{n}: {{slots: {slots}, channels: {4 * n - 3:02d}-{4 * n:02d}, analogue 1: FOH {slots * (n - 1) + 1}-{slots * n}}}\n"
        for n in (1, 2, 3)
    )
    khz = (470_200, 471_050, 472_075, 473_800, 474_750, 476_700, 477_825, 479_125, 486_275, 488_250, 492_750, 493_525)
    lines = (f"  {n:02d}: {{role: ROLE{n}, by: Person {n}, mhz: {one / 1000:.3f}}}\n" for n, one in enumerate(khz, 1))
    ears = "others:\n  EARS: {kind: in-ear, mhz: 606.500, listeners: Jo}\n"
    return f"show: {{title: Gala, revision: C}}\nracks:\n{racks}{ears}channels:\n{''.join(lines)}"


def build(folder, only, *part):
    return run("build", "show.yaml", "-o", "out", "--only", only, *part, cwd=folder)


def labels_in(folder):
    """The number that each code on the sheet says, read from pixels, from the top left."""
    found = []
    for page in pypdfium2.PdfDocument((folder / "out/wardrobe/pack-labels.pdf").read_bytes()):
        grey = np.asarray(page.render(scale=300 / 72, grayscale=True).to_pil())
        codes = zxingcpp.read_barcodes(grey, formats=zxingcpp.BarcodeFormat.QRCodeModel2)
        places = sorted((code.position.top_left.y // 100, code.position.top_left.x, code.text) for code in codes)
        found += [text.partition(":")[0] for _, _, text in places]
    return found


def text_of(folder, path):
    return " ".join(page.extract_text() for page in pypdf.PdfReader(folder / "out" / path).pages)


@pytest.mark.parametrize(
    ("part", "numbers"),
    [
        (("--channels", "05,11", "--copies", "1"), ["05", "11"]),
        (("--channels", "5"), ["05", "05"]),
        (("--channels", "09-11; 2", "--copies", "3"), [one for one in ("02", "09", "10", "11") for _ in range(3)]),
        (("--channels", "12, ears", "--copies", "1"), ["12", "EARS"]),
        (("--racks", "R1", "--copies", "1"), None),
    ],
    ids=str,
)
def test_as_many_labels_come_of_those_channels_as_were_asked_for(folder, part, numbers):
    done = build(folder, "pack-labels", *part, "--start", "4")
    assert done.returncode < 2, done.stderr
    found = labels_in(folder)
    assert found == numbers if numbers else len(found) == len({*found}) > 1


def test_a_label_by_itself_has_the_code_that_it_has_on_the_whole_sheet(folder):
    def codes():
        page = pypdfium2.PdfDocument((folder / "out/wardrobe/pack-labels.pdf").read_bytes())[0]
        grey = np.asarray(page.render(scale=300 / 72, grayscale=True).to_pil())
        return {code.text for code in zxingcpp.read_barcodes(grey, formats=zxingcpp.BarcodeFormat.QRCodeModel2)}

    build(folder, "pack-labels")
    whole = codes()
    build(folder, "pack-labels", "--channels", "05", "--copies", "1")
    assert len(codes()) == 1 and codes() < whole


def test_of_a_paper_that_is_read_whole_those_pages_come_that_show_the_rack(folder):
    (folder / "long.yaml").write_text(make_show(24), encoding="utf-8")
    line = ("build", "long.yaml", "-o", "long", "--only", "patch-sheet")
    run(*line, cwd=folder)
    whole = pypdf.PdfReader(folder / "long/rack/patch-sheet.pdf")
    done = run(*line, "--racks", "r2", cwd=folder)
    assert done.returncode < 2, done.stderr
    kept = pypdf.PdfReader(io.BytesIO((folder / "long/rack/patch-sheet.pdf").read_bytes()))
    texts = [page.extract_text() for page in whole.pages]
    assert 0 < len(kept.pages) < len(texts)
    assert all(page.extract_text() in texts and "R2" in page.extract_text() for page in kept.pages)


def test_cards_and_squares_of_one_channel_come_alone(folder):
    assert build(folder, "pouch-cards,mic-table-squares", "--channels", "01").returncode < 2
    for name in ("pouch-cards", "mic-table-squares"):
        said = text_of(folder, f"wardrobe/{name}.pdf")
        assert "Person 1" in said and "Person 3" not in said


@pytest.mark.parametrize(
    ("only", "part", "said"),
    [
        (
            "pack-labels",
            ("--channels", "99"),
            "Invalid value for --channels: the show has no channel 99; it has 01–12, EARS",
        ),
        ("pack-labels", ("--channels", "11-9"), "11-9 runs backwards"),
        ("pack-labels", ("--channels", ","), ", names no channel"),
        ("pack-labels", ("--racks", "R11"), "Invalid value for --racks: the show has no rack R11; did you mean R1?"),
        ("show-book", ("--channels", "01"), "--channels: a part needs --only"),
        ("pouch-cards", ("--channels", "ears"), "nothing of that is on pouch-cards"),
        ("pack-labels", ("--channels", "01", "--copies", "0"), "Invalid value for '--copies'"),
    ],
    ids=str,
)
def test_what_is_no_part_is_said_and_nothing_is_printed(folder, only, part, said):
    build(folder, "pack-labels")
    before = (folder / "out/wardrobe/pack-labels.pdf").read_bytes()
    done = build(folder, only, *part)
    assert done.returncode == 2 and said in done.stderr, done.stderr
    assert (folder / "out/wardrobe/pack-labels.pdf").read_bytes() == before


def test_a_channel_without_a_certain_frequency_has_no_label_and_that_is_said(tmp_path):
    (tmp_path / "show.yaml").write_text(
        "channels:\n  01: {role: VERA, mhz: 486.200}\n  02: {role: TOM}\n", encoding="utf-8"
    )
    done = build(tmp_path, "pack-labels", "--channels", "02")
    assert done.returncode == 2 and "labels of channels 02 (no certain frequency for them)" in done.stderr
    assert "02" not in build(tmp_path, "pack-labels", "--channels", "01").stdout
