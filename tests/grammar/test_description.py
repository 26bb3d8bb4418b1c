"""What the records say, and that lines with a mistake are left out of them."""

from halfhank.grammar.parse import parse
from halfhank.grammar.syntax import (
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

from tests.grammar.cases import CASES

TERN = (CASES / "tern-lane.shawl").read_text(encoding="utf-8")


def _read(old: str = "", new: str = "", mistakes: bool = False) -> Description:
    assert old in TERN
    parsed = parse(TERN.replace(old, new, 1) if old else TERN)
    assert bool(parsed.problems) is mistakes, parsed.problems
    assert parsed.description is not None
    return parsed.description


def test_the_head_of_a_description() -> None:
    read = _read()
    assert (read.title.value, read.by and read.by.value, read.units) == ("Tern Lane", "the demo workroom", "cm")
    assert (read.yarn.skein.mass.g, read.yarn.skein.length.m) == (100, 380)
    assert read.yarn.keep is not None and read.yarn.keep.value == 5
    assert (read.needles.value, read.needles.unit) == (4, "mm")
    garter, mesh = read.stitches
    assert garter.gauge and garter.swatch and garter.swatch.mass and mesh.multiple
    assert (garter.gauge.stitch_cm, garter.gauge.row_cm, garter.swatch.mass.decimals) == (0.5, 0.25, 1)
    assert (mesh.multiple.stitches, mesh.multiple.extra) == (6, 1)
    assert [(one.row, one.mass.g, one.used) for one in read.log] == [(0, 101.2, False), (32, 94.7, False)]


def test_the_shape_and_its_shaping() -> None:
    shape = _read().shape
    assert shape.start.stitches == 9
    line = shape.shaping[0]
    assert [(one.amount, one.place) for one in line.places] == [(1, "each edge"), (1, "spine")]
    assert (line.action, line.every, line.from_row, line.until, line.evenly_to) == ("increase", 2, 1, None, None)


def _shaping(text: str) -> ShapingLine:
    return _read("  spine 1 st", f"  spine 1 st\n  {text}").shape.shaping[0]


def test_shaping_lines() -> None:
    line = _shaping("bind off 5 at lower edge every row from row 7 until 12 sts")
    assert (line.action, line.every, line.from_row, line.until) == ("bind off", 1, 7, 12)
    line = _shaping("decrease 8 evenly from row 4")
    assert (line.action, line.every, line.from_row, line.places[0].place) == ("decrease", None, 4, "evenly")
    line = _shaping("increase evenly to 120 sts from row 9")
    assert (line.places, line.every, line.from_row, line.evenly_to) == ((), None, 9, 120)


def test_ways_to_start_and_to_block() -> None:
    shape = _read("garter tab 3 sts 6 rows", "cast on 7 sts\n  pinned to 60 in by 1 m").shape
    assert isinstance(shape.start, CastOn) and shape.start.stitches == 7
    assert isinstance(shape.pinned, PinnedTo) and (shape.pinned.width.cm, shape.pinned.depth.cm) == (152.4, 100)
    assert isinstance(_read("spine 1 st", "pinned straight").shape.pinned, PinnedStraight)


def test_parts_and_bands() -> None:
    neck, body, _ = _read("  garter 16 ridges", '  even\n  garter 1 ridge "edge"').parts
    assert neck.even is not None
    assert [(b.stitch.value, b.counts[0].value, b.unit) for b in neck.bands if isinstance(b, Band)] == [
        ("garter", 1, "ridges")
    ]
    repeat = body.bands[0]
    assert isinstance(repeat, Repeat) and repeat.as_yarn_allows
    mesh, drop, garter = repeat.bands
    assert isinstance(drop, Drop) and drop.wraps == 2
    assert isinstance(garter, Band) and [one.value for one in garter.counts] == [3, 5, 4]
    assert isinstance(mesh, Band) and (mesh.unit, mesh.label) == ("rows", None)
    allows = (
        _read("  repeat as yarn allows\n    mesh 8 rows", "  garter as yarn allows\n  repeat 2 times").parts[1].bands
    )
    assert isinstance(allows[0], Band) and allows[0].as_yarn_allows and allows[0].unit is None


def test_ways_to_end() -> None:
    def end(method: str) -> tuple[object, ...]:
        found = _read("bind off picot", f"bind off {method}").bind_off
        assert isinstance(found, BindOff)
        return found[:4]

    assert end("picot") == ("picot", 2, 4, None)
    assert end("picot cast on 3 bind off 7") == ("picot", 3, 7, None)
    assert end("i-cord") == ("i-cord", 0, 0, None)
    assert end("draw through") == ("draw through", 0, 0, None)
    assert end("takes 4.5 times the width") == ("measured", 0, 0, 4.5)
    read = _read("bind off picot", 'turn back around "border"\n')
    assert read.bind_off is None and read.turn_back and read.turn_back.around
    assert read.turn_back.around.value == "border"


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
    assert _read("keep 5%", "keep 2,5%", mistakes=True).yarn.keep is None
    assert _read("edge 3 sts garter", "edge 3 sts gartr", mistakes=True).shape.edge is None
    assert _read("multiple of 6 sts", "multiple of 6 stitches", mistakes=True).stitches[1].multiple is None
    assert _read("row 2: purl", "row 3: purl", mistakes=True).stitches[1].rows == ()
    assert _read("row 2: purl", "as mesh", mistakes=True).stitches[1].base is None
    assert _read("bind off picot", "bind off picott", mistakes=True).bind_off is None
    assert _read("bind off picot", 'turn back around "neck"', mistakes=True).turn_back is None
    assert [len(part.bands) for part in _read("garter 16 ridges", "garter 0 rows", mistakes=True).parts] == [0, 1, 1]
    assert [w.row for w in _read("after row 32 94.7 g", "after row 32 194.7 g", mistakes=True).log] == [0]


def test_without_a_required_fact_there_is_no_description() -> None:
    for line in (
        'shawl "Tern Lane"',
        "  skein 100 g 380 m",
        "needles 4 mm",
        "shape triangle",
        "  garter tab 3 sts 6 rows",
    ):
        parsed = parse(TERN.replace(line + "\n", ""))
        assert parsed.description is None and parsed.problems, line
    no_gauge = "\n".join(line for line in TERN.split("\n") if "gauge" not in line)
    assert parse(no_gauge).description is None
    assert [problem.code for problem in parse(no_gauge).problems] == ["missing-fact"]
