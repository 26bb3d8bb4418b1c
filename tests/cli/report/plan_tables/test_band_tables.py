"""Parts and bands: neighbours of one stitch are one line, and counts that never change are said once."""

import json
import re

import pytest

from tests.cli.running import halfhank

HEAD = """shawl "Groyne"

yarn "Sea"
  skein 100 g 400 m

needles 4 mm

stitch garter
  gauge 20 sts 40 rows over 10 cm
  swatch 40 sts 60 rows weighs 10.8 g

"""
RECTANGLE = 'shape rectangle\n  cast on 40 sts\n\npart "walk"\n'
TRIANGLE = "shape triangle\n  garter tab 3 sts 6 rows\n  increase 1 at each edge and 1 at spine every 2 rows\n\n"


def planned(text: str, *options: str) -> str:
    result = halfhank("plan", "-", *options, stdin=(HEAD + text).encode())
    assert result.status == 0, result.err
    return result.out.decode()


def bands_of(text: str) -> list[list[str]]:
    """The cells of the table of bands, its heading first."""
    table = planned(text).partition("\nBands\n")[2].partition("\n\n")[0]
    return [re.split(" {2,}", line) for line in table.splitlines()]


@pytest.mark.parametrize(
    ("bands", "line"),
    [
        ("repeat 60 times\n    garter 1 row", ["walk", "garter", "1-60"]),
        ("repeat 9 times\n    garter 6 rows", ["walk", "garter", "9 bands of 6 rows", "1-54"]),
        ("repeat 4 times\n    garter 6, 8 rows", ["walk", "garter", "4 bands", "1-28"]),
        ('garter 6 rows "a"', ["walk", "garter", "a", "1-6"]),
    ],
)
def test_bands_of_one_stitch_are_one_line(bands: str, line: list[str]) -> None:
    _, only = bands_of(f"{RECTANGLE}  {bands}\n")
    rows = int(line[-1].split("-")[1])
    assert only[: len(line)] == line and only[len(line)] == f"{rows / 4:.1f} cm"


def test_a_fold_has_the_sums_of_its_bands() -> None:
    """Against the same rows as one band."""
    folded = bands_of(f"{RECTANGLE}  repeat 9 times\n    garter 6 rows\n")[1]
    assert folded[3:] == bands_of(f"{RECTANGLE}  garter 54 rows\n")[1][2:]


def test_other_stitches_labels_and_parts_are_lines_of_their_own() -> None:
    first = '  garter 6 rows\n  garter 6 rows "reef"\n  stockinette 4 rows\n  garter 2 rows\n\n'
    bands = bands_of(f'{RECTANGLE}{first}part "quay"\n  garter 2 rows\n')
    assert [line[-4] for line in bands[1:]] == ["1-6", "7-12", "13-16", "17-18", "19-20"]


def test_counts_that_never_change_are_said_once() -> None:
    text = planned(RECTANGLE + "  garter 20 rows\n")
    assert text.count("sts") == 2 and "20; 40 sts in every row, 800 in all" in text and "cast on 40 sts" in text
    growing = planned(TRIANGLE + 'part "walk"\n  garter 20 rows\n')
    assert growing.count("sts at end") == 2 and "in every row" not in growing


def test_the_mirrored_half_is_called_so_and_keeps_its_name_in_json() -> None:
    shape = "shape tip-to-tip\n  cast on 5 sts\n  increase 1 at lower edge every 4 rows\n\n"
    text = f'{shape}part "quay"\n  garter 40 rows\n\nturn back\n'
    assert re.search(r"\nquay, mirrored +41-80 ", planned(text))
    plan = json.loads(planned(text, "--json"))
    assert [part["name"] for part in plan["parts"]] == ["quay", "quay, back"]
    assert {band["part"] for band in plan["bands"]} == {"quay", "quay, back"}


@pytest.mark.parametrize(
    ("bands", "options", "rows"),
    [
        ("repeat 60 times\n    garter 1 row", (), [0, 60]),
        ("repeat 60 times\n    garter 1 row", ("--every", "25"), [0, 25, 50, 60]),
        ("repeat 3 times\n    garter 12 rows", (), [0, 12, 24, 36]),
        ("repeat 3 times\n    garter 2 rows\n    stockinette 2 rows", (), [0, 2, 4, 6, 8, 10, 12]),
    ],
)
def test_very_short_bands_of_one_stitch_have_one_checkpoint(
    bands: str, options: tuple[str, ...], rows: list[int]
) -> None:
    text = planned(f"{RECTANGLE}  {bands}\n", "--checkpoints", *options)
    assert [int(row) for row in re.findall(r"^ *(\d+) ", text, re.MULTILINE)] == rows


def test_a_weighed_row_stays_among_the_checkpoints() -> None:
    log = "\nweighed\n  after row 21 93.2 g left\n"
    text = planned(f"{RECTANGLE}  repeat 60 times\n    garter 1 row\n{log}", "--checkpoints")
    assert re.findall(r"^ *(\d+) .*\[(.)\]$", text, re.MULTILINE) == [("0", " "), ("21", "x"), ("60", " ")]
