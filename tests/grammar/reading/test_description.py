"""What the records say, and that lines with a mistake are left out of them."""

from halfhank.grammar.description import (
    Across,
    Band,
    BindOff,
    Cable,
    CastOn,
    Description,
    Drop,
    InOne,
    PinnedStraight,
    PinnedTo,
    Repeat,
    ShapingLine,
    Times,
    WholeRow,
    Work,
)
from halfhank.grammar.parse import parse

TEXT = """\
shawl "Mallow Yard"
  by "an attic"

yarn "Attic sock"
  skein 115 g 410 m
  fibre "80% wool, 20% hemp"
  keep 6%

needles 4.5 mm

stitch garter
  gauge 16 sts 32 rows over 12 cm
  swatch 33 sts 48 rows weighs 9.4 g

stitch ladder
  multiple of 4 sts + 3
  gauge 15 sts 24 rows over 10 cm
  row 1: k1, *k2tog, yo, k2*, k2
  row 2: purl

shape triangle
  garter tab 2 sts 8 rows
  edge 2 sts garter
  spine 3 sts
  increase 2 at each edge and 1 at spine every 4 rows

part "nape"
  garter 12 ridges

part "field"
  repeat as yarn allows
    ladder 6 rows
    drop 3 wraps
    garter 2, 6, 1 ridges

part "hem"
  garter 3 ridges

bind off picot

weighed
  before cast on 116.3 g
  after row 24 108.9 g left
"""


def _read(old: str = "", new: str = "", mistakes: bool = False) -> Description:
    assert old in TEXT
    parsed = parse(TEXT.replace(old, new, 1) if old else TEXT)
    assert bool(parsed.problems) is mistakes, parsed.problems
    assert parsed.description is not None
    return parsed.description


def test_the_head_of_a_description() -> None:
    read = _read()
    assert (read.title.value, read.by and read.by.value, read.units) == ("Mallow Yard", "an attic", "cm")
    assert (read.yarn.skein.mass.g, read.yarn.skein.length.m) == (115, 410)
    assert read.yarn.keep is not None and read.yarn.keep.value == 6
    assert (read.needles.value, read.needles.unit) == (4.5, "mm")
    garter, ladder = read.stitches
    assert garter.gauge and garter.swatch and garter.swatch.mass and ladder.multiple
    assert (garter.gauge.stitch_cm, garter.gauge.row_cm, garter.swatch.mass.decimals) == (0.75, 0.375, 1)
    assert (ladder.multiple.stitches, ladder.multiple.extra) == (4, 3)
    assert [(one.row, one.mass.g, one.used) for one in read.log] == [(0, 116.3, False), (24, 108.9, False)]


def test_the_shape_and_its_shaping() -> None:
    shape = _read().shape
    assert shape.start.stitches == 8
    line = shape.shaping[0]
    assert [(one.amount, one.place) for one in line.places] == [(2, "each edge"), (1, "spine")]
    assert (line.action, line.every, line.from_row, line.until, line.evenly_to) == ("increase", 4, 1, None, None)


def _shaping(text: str) -> ShapingLine:
    return _read("  spine 3 sts", f"  spine 3 sts\n  {text}").shape.shaping[0]


def test_shaping_lines() -> None:
    line = _shaping("bind off 5 at lower edge every row from row 7 until 12 sts")
    assert (line.action, line.every, line.from_row, line.until) == ("bind off", 1, 7, 12)
    line = _shaping("decrease 8 evenly from row 4")
    assert (line.action, line.every, line.from_row, line.places[0].place) == ("decrease", None, 4, "evenly")
    assert [placed.method for placed in line.places] == [None]
    line = _shaping("increase 1 yo at each edge and 2 at spine every 2 rows")
    assert [(one.amount, one.place, one.method) for one in line.places] == [(1, "each edge", "yo"), (2, "spine", None)]
    line = _shaping("decrease 4 sssk evenly every 8 rows")
    assert [(one.amount, one.place, one.method) for one in line.places] == [(4, "evenly", "sssk")]
    line = _shaping("increase evenly to 120 sts from row 9")
    assert (line.places, line.every, line.from_row, line.evenly_to) == ((), None, 9, 120)


def test_ways_to_start_and_to_block() -> None:
    shape = _read("garter tab 2 sts 8 rows", "cast on 7 sts\n  pinned to 60 in by 1 m").shape
    assert isinstance(shape.start, CastOn) and shape.start.stitches == 7
    assert isinstance(shape.pinned, PinnedTo) and (shape.pinned.width.cm, shape.pinned.depth.cm) == (152.4, 100)
    assert isinstance(_read("spine 3 sts", "pinned straight").shape.pinned, PinnedStraight)


def test_parts_and_bands() -> None:
    nape, field, _ = _read("  garter 12 ridges", '  even\n  garter 1 ridge "edge"').parts
    assert nape.even is not None
    assert [(b.stitch.value, b.counts[0].value, b.unit) for b in nape.bands if isinstance(b, Band)] == [
        ("garter", 1, "ridges")
    ]
    repeat = field.bands[0]
    assert isinstance(repeat, Repeat) and repeat.as_yarn_allows
    ladder, drop, garter = repeat.bands
    assert isinstance(drop, Drop) and drop.wraps == 3
    assert isinstance(garter, Band) and [one.value for one in garter.counts] == [2, 6, 1]
    assert isinstance(ladder, Band) and (ladder.unit, ladder.label) == ("rows", None)
    allows = (
        _read("  repeat as yarn allows\n    ladder 6 rows", "  garter as yarn allows\n  repeat 2 times").parts[1].bands
    )
    assert isinstance(allows[0], Band) and allows[0].as_yarn_allows and allows[0].unit is None


def test_ways_to_end() -> None:
    def end(method: str) -> tuple[object, ...]:
        found = _read("bind off picot", f"bind off {method}").bind_off
        assert isinstance(found, BindOff)
        return found[:4]

    assert end("picot") == ("picot", 0, 0, None)
    assert end("picot cast on 3 bind off 7") == ("picot", 3, 7, None)
    assert end("i-cord") == ("i-cord", 0, 0, None)
    assert end("draw through") == ("draw through", 0, 0, None)
    assert end("takes 4.5 times the width") == ("measured", 0, 0, 4.5)
    assert end("takes 2.5 sts each") == ("measured each", 0, 0, 2.5)
    assert end("takes 1 st each") == ("measured each", 0, 0, 1.0)
    read = _read("bind off picot", 'turn back around "hem"\n')
    assert read.bind_off is None and read.turn_back and read.turn_back.around
    assert read.turn_back.around.value == "hem"


def test_working_notation() -> None:
    row = "k3 tbl, *yo, p1; rep from * to end, [k1, yo, k1] in 2, [sl1 wyif] 3 times"
    items = _read("row 2: purl", f"row 2: {row}, 2/3 lc, yo twice, p2 with 3 wraps").stitches[1].rows[1].items
    knit, across, in_one, times, cable, over, wrapped = items
    assert isinstance(knit, Work) and (knit.kind, knit.count, knit.tbl) == ("k", 3, True)
    assert isinstance(across, Across) and [one.kind for one in across.items if isinstance(one, Work)] == ["yo", "p"]
    assert isinstance(in_one, InOne) and (len(in_one.items), in_one.stitches) == (3, 2)
    assert isinstance(times, Times) and times.times == 3
    assert isinstance(times.items[0], Work) and times.items[0].wyif
    assert isinstance(cable, Cable) and (cable.first, cable.second, cable.turn) == (2, 3, "lc")
    assert isinstance(over, Work) and over.twice
    assert isinstance(wrapped, Work) and (wrapped.kind, wrapped.count, wrapped.wraps) == ("p", 2, 3)
    rows = _read("row 2: purl", "rows 2-4, 6: purl\n  row 5: knit").stitches[1].rows
    assert [row.numbers for row in rows] == [(1,), (2, 3, 4, 6), (5,)]
    assert isinstance(rows[1].items[0], WholeRow)


def test_lines_with_a_mistake_are_left_out() -> None:
    assert _read("keep 6%", "keep 2,5%", mistakes=True).yarn.keep is None
    assert _read("edge 2 sts garter", "edge 2 sts gartr", mistakes=True).shape.edge is None
    assert _read("multiple of 4 sts", "multiple of 4 stitches", mistakes=True).stitches[1].multiple is None
    assert _read("row 2: purl", "row 3: purl", mistakes=True).stitches[1].rows == ()
    assert _read("row 2: purl", "as ladder", mistakes=True).stitches[1].base is None
    assert _read("bind off picot", "bind off picott", mistakes=True).bind_off is None
    assert _read("bind off picot", 'turn back around "nape"', mistakes=True).turn_back is None
    assert [len(part.bands) for part in _read("garter 12 ridges", "garter 0 rows", mistakes=True).parts] == [0, 1, 1]
    assert [w.row for w in _read("after row 24 108.9 g", "after row 24 194.7 g", mistakes=True).log] == [0]


def test_without_a_required_fact_there_is_no_description() -> None:
    for line in (
        'shawl "Mallow Yard"',
        "  skein 115 g 410 m",
        "needles 4.5 mm",
        "shape triangle",
        "  garter tab 2 sts 8 rows",
    ):
        parsed = parse(TEXT.replace(line + "\n", ""))
        assert parsed.description is None and parsed.problems, line
    no_gauge = "\n".join(line for line in TEXT.split("\n") if "gauge" not in line)
    assert parse(no_gauge).description is None
    assert [problem.code for problem in parse(no_gauge).problems] == ["missing-fact"]
