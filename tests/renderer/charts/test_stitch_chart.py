"""The stitch chart's page, by its scene: squares, numbers, box, symbols, key."""

from collections.abc import Iterator
from itertools import combinations

import pytest
from halfhank.grammar.builtin.built_in_stitches import built_in_stitch
from halfhank.grammar.builtin.stitch_patterns import STITCH_PATTERNS
from halfhank.model.stitch_counts.appearance import Sign, sign_of, units
from halfhank.model.stitches.chart import Chart, chart_of
from halfhank.model.stitches.pattern import built_in_pattern, pattern_of
from halfhank.renderer.charts.stitch_chart import Captions, entries_of, stitch_chart
from halfhank.renderer.charts.symbols import symbol
from halfhank.renderer.charts.symbols.pen import SymbolBox
from halfhank.renderer.paper.scene import Circle, Element, Group, Label, Path, Rect, Scene
from halfhank.renderer.paper.svg import to_svg

from tests.model.stitches.test_checks import GOOD
from tests.model.stitches.writing import items, stitch
from tests.renderer import checks

CAPTIONS = Captions("fern", ("multiple of 8 sts + 1, 12 rows", "19 sts 30 rows over 10 cm"), 19 / 30)
EVERY = (
    "k1, p1, k1 tbl, p1 tbl, sl1, sl1 wyif, yo, k2tog, ssk, p2tog, ssp, k3tog, sssk, sk2p, s2kp, p3tog, sssp, s2pp, "
    "k2tog tbl, p2tog tbl, kfb, pfb, m1, m1l, m1r, m1lp, m1rp, cast on 1, bind off 1, "
    "k1 with 2 wraps, k1 with 3 wraps, p1 with 3 wraps, k2tog with 2 wraps, "
    "2/2 rc, 2/2 lc, 2/1 rc, 1/2 rc, 2/1 lc, 1/2 lc, [k1, yo, k1] in 1, [k1, p1, k1] in 1, [k1, yo, k1] in 3"
)
SIGNS = list(dict.fromkeys(sign_of(item, side) for side in (False, True) for item in units(items(EVERY))))


def chart(rows: str = GOOD, multiple: str = "8 sts + 1") -> Chart:
    pattern = pattern_of(stitch(rows, multiple))
    assert pattern
    return chart_of(pattern)


def group(scene: Scene, name: str) -> Group:
    return next(item for item in scene.items if isinstance(item, Group) and item.name == name)


def leaves(items: tuple[Element, ...]) -> Iterator[Element]:
    for item in items:
        if isinstance(item, Group):
            yield from leaves(item.items)
        else:
            yield item


def points(item: Element) -> list[tuple[float, float]]:
    """What an item reaches, control points included."""
    match item:
        case Path():
            flat = [numbers for _, numbers in item.data]
            return [(n[i], n[i + 1]) for n in flat for i in range(0, len(n), 2)]
        case Circle():
            return [(item.x - item.radius, item.y - item.radius), (item.x + item.radius, item.y + item.radius)]
        case Rect():
            return [(item.x, item.y), (item.x + item.width, item.y + item.height)]
    return []


PAGES = [
    ("row 1: k1, *yo, k2tog*\nrow 2: purl", "2 sts + 1"),
    (GOOD, "8 sts + 1"),
    ("row 1: *k3, s2kp, k3*\nrow 2: purl\nrow 3: *k3, [k1, yo, k1] in 1, k3*\nrow 4: purl", "9 sts"),
    ("row 1: *2/2 rc, k3 with 2 wraps, kfb, k2tog, p40*\nrow 2: purl", "50 sts"),
    (f"row 1: *{EVERY}*\nrow 2: purl", ""),
]


@pytest.mark.parametrize(("rows", "multiple"), PAGES)
def test_nothing_overlaps_or_leaves_the_page(rows: str, multiple: str) -> None:
    scene = stitch_chart(chart(rows, multiple), CAPTIONS)
    boxes = checks.text_boxes(scene)
    for box in boxes:
        left, top, right, bottom = box.bounds
        assert left >= 0 and top >= 0 and right <= scene.width and bottom <= scene.height
    assert not [(a.label.text, b.label.text) for a, b in combinations(boxes, 2) if a.meets(b)]
    assert all(
        0 <= x <= scene.width and 0 <= y <= scene.height for item in leaves(scene.items) for x, y in points(item)
    )
    assert to_svg(scene) == to_svg(stitch_chart(chart(rows, multiple), CAPTIONS))


def test_odd_rows_are_numbered_at_the_right_and_even_ones_at_the_left() -> None:
    scene = stitch_chart(chart(), CAPTIONS)
    grid = group(scene, "squares").items[-1]
    left, right = min(x for x, _ in points(grid)), max(x for x, _ in points(grid))
    labels = [item for item in group(scene, "row-numbers").items if isinstance(item, Label)]
    assert [label.text for label in labels] == [str(number) for number in range(1, 13)]
    assert all(label.x > right if int(label.text) % 2 else label.x < left for label in labels)
    heights = [label.y for label in labels]
    assert heights == sorted(heights, reverse=True)


def test_squares_have_the_gauges_proportions() -> None:
    """19 sts and 30 rows over the same length: a stitch is 30/19 as wide as a row is high."""
    lines = points(group(stitch_chart(chart(), CAPTIONS), "squares").items[-1])
    columns, rows = sorted({round(x, 4) for x, _ in lines}), sorted({round(y, 4) for _, y in lines})
    assert len(columns) == 17 + 1 and len(rows) == 12 + 1
    assert (columns[1] - columns[0]) / (rows[1] - rows[0]) == pytest.approx(30 / 19, rel=1e-3)


def test_the_box_is_heavy_and_as_wide_as_the_multiple() -> None:
    scene = stitch_chart(chart(), CAPTIONS)
    (box,) = group(scene, "multiple").items
    assert isinstance(box, Path) and box.style.stroke == "#000000" and box.style.width >= 0.6
    lines = sorted({round(x, 4) for x, _ in points(group(scene, "squares").items[-1])})
    xs = [x for x, _ in points(box)]
    assert (max(xs) - min(xs)) == pytest.approx(8 * (lines[1] - lines[0]))


def test_squares_without_a_stitch_are_grey_and_in_the_key() -> None:
    scene = stitch_chart(chart(*PAGES[2]), CAPTIONS)
    grey = [item for item in group(scene, "squares").items if isinstance(item, Rect)]
    assert len(grey) == 4 and {item.style.fill for item in grey} == {"#c9ced1"}
    assert "no stitch" in [label.text for label in leaves(group(scene, "key").items) if isinstance(label, Label)]


def test_the_key_names_every_symbol_that_occurs_once_with_its_abbreviations() -> None:
    names = [entry.name for entry in entries_of(chart())]
    assert names == ["k on RS, p on WS", "yo", "s2kp", "k2tog", "ssk", "repeat the boxed stitches"]


def test_the_key_says_that_extra_wraps_are_dropped_in_a_line_for_each_number() -> None:
    entries = entries_of(chart_of(built_in_pattern(built_in_stitch("drop-wave"))))
    wrapped = {entry.name: entry.words for entry in entries if entry.sign and entry.sign.wraps > 1}
    assert list(wrapped) == ["k wrapping yarn twice", "k wrapping yarn 3 times", "k wrapping yarn 4 times"]
    assert set(wrapped.values()) == {"knit; drop the extra wraps in the next row"}
    both = entries_of(chart("row 1: *k1 with 3 wraps*\nrow 2: *p1 with 3 wraps*", "1 st"))[0]
    assert both.words == "knit on RS, purl on WS; drop the extra wraps in the next row"
    wrong = entries_of(chart("row 1: knit\nrow 2: *k1 with 3 wraps*", "1 st"))[1]
    assert wrong.words == "knit on WS; drop the extra wraps in the next row"


def test_the_key_says_the_side_where_a_stitch_has_two_signs() -> None:
    garter = entries_of(chart("row 1: knit\nrow 2: knit", "1 st"))
    assert [(entry.name, entry.words) for entry in garter[:2]] == [("k", "knit on RS"), ("k", "knit on WS")]
    lace = {entry.name: entry.words for entry in entries_of(chart())}
    assert lace["k on RS, p on WS"] == "knit on RS, purl on WS" and not lace["ssk"].endswith("RS")
    cable = entries_of(chart("row 1: purl\nrow 2: *2/2 rc*", "4 sts"))[-1]
    assert cable.words.startswith("on WS: hold 2")


def test_the_page_says_which_side_it_shows() -> None:
    reading = [item.text for item in group(stitch_chart(chart(), CAPTIONS), "reading").items if isinstance(item, Label)]
    assert " ".join(reading).endswith(". The chart shows the right side.")


@pytest.mark.parametrize(("rows", "multiple"), PAGES)
def test_no_text_of_ours_is_cut(rows: str, multiple: str) -> None:
    scene = stitch_chart(chart(rows, multiple), CAPTIONS)
    assert not [item.text for item in leaves(scene.items) if isinstance(item, Label) and "\u2026" in item.text]


@pytest.mark.parametrize("name", STITCH_PATTERNS)
def test_each_symbol_has_one_line_of_the_key(name: str) -> None:
    scene = stitch_chart(chart_of(built_in_pattern(built_in_stitch(name))), CAPTIONS)
    entries = [entry for entry in group(scene, "key").items if isinstance(entry, Group)]
    lines = [{item.y for item in entry.items if isinstance(item, Label) and item.size > 3} for entry in entries]
    assert len(entries) > 1 and all(len(heights) == 1 for heights in lines)


def strokes(sign: Sign, box: SymbolBox) -> tuple[Element, ...]:
    return symbol(sign, box)


@pytest.mark.parametrize("size", [(5.0, 3.1), (5.0, 5.0), (3.0, 5.0)])
def test_every_sign_is_drawn_unlike_every_other_within_its_squares(size: tuple[float, float]) -> None:
    drawn: dict[tuple[int, tuple[Element, ...]], Sign] = {}
    for sign in SIGNS:
        found = strokes(sign, SymbolBox(0.0, 0.0, *size, sign.width))
        assert drawn.setdefault((sign.width, found), sign) == sign
        assert bool(found) == (sign != Sign("k"))
        for item in found:
            for x, y in points(item):
                assert 0 <= x <= sign.width * size[0] and 0 <= y <= size[1], sign


def test_leaning_strokes_lean_as_published() -> None:
    """Craft Yarn Council, from memory: k2tog and a right cross rise to the right, ssk and a left cross to the left."""

    def rises_right(name: str) -> bool:
        sign = sign_of(items(name)[0], False)
        (first, last) = points(symbol(sign, SymbolBox(0, 0, 5, 5, sign.width))[0])[:2]
        low, high = sorted((first, last), key=lambda point: -point[1])
        return high[0] > low[0]

    assert [rises_right(name) for name in ("k2tog", "k3tog", "p2tog", "p3tog", "2/2 rc", "1/3 rc")] == [True] * 6
    assert [rises_right(name) for name in ("ssk", "sssk", "sk2p", "ssp", "sssp", "2/2 lc")] == [False] * 6
    assert not rises_right("k2tog tbl")


def test_wraps_are_a_number_over_loops() -> None:
    found = symbol(sign_of(items("k1 with 3 wraps")[0], False), SymbolBox(0, 0, 5, 4))
    (label,) = [item for item in found if isinstance(item, Label)]
    (loops,) = [item for item in found if isinstance(item, Path)]
    assert label.text == "3" and label.y < min(y for _, y in points(loops)) + 0.3


@pytest.mark.parametrize("ratio", [0.4, 0.5, 1.0])
def test_numbers_of_wraps_can_be_read_in_flat_squares_too(ratio: float) -> None:
    drop = chart_of(built_in_pattern(built_in_stitch("drop")))
    symbols = group(stitch_chart(drop, CAPTIONS._replace(row_to_stitch=ratio)), "symbols")
    sizes = {item.size for item in leaves(symbols.items) if isinstance(item, Label)}
    assert sizes and min(sizes) >= 2.2


def test_symbols_use_no_glyph_but_the_wraps_number() -> None:
    for sign in SIGNS:
        labels = [item for item in symbol(sign, SymbolBox(0, 0, 5, 4, sign.width)) if isinstance(item, Label)]
        assert [label.text for label in labels] == ([str(sign.wraps)] if sign.wraps > 1 else [])


@pytest.mark.parametrize("name", STITCH_PATTERNS)
def test_every_built_in_is_drawn(name: str) -> None:
    scene = stitch_chart(chart_of(built_in_pattern(built_in_stitch(name))), CAPTIONS)
    assert b"<svg" in to_svg(scene)
    assert scene.width <= 180.001


def test_a_row_is_read_in_words() -> None:
    titles = [item.title for item in group(stitch_chart(chart(), CAPTIONS), "symbols").items if isinstance(item, Group)]
    assert titles[:2] == [
        "Row 1, right side: k; boxed: yo, 2 × k, s2kp, 2 × k, yo, k; yo, 2 × k, s2kp, 2 × k, yo, k",
        "Row 2, wrong side: 8 × p; boxed: 8 × p; p",
    ]
