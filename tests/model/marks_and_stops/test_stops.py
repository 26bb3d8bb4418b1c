"""Where a shawl may end, and how that would look."""

import pytest
from halfhank.model.marks_and_stops.stops import candidates, finish_in, one_more, repeat_number, stops

from tests.model.texts import GARTER
from tests.model.texts import text as described_as
from tests.model.weighings.knits import BANDED, PLAIN, logged, plan_of, shawl_of

EVEN = BANDED.replace("garter 5, 2, 4 ridges", "garter 4 ridges")


def test_every_stop_ends_a_band_and_is_paid_for() -> None:
    made = plan_of(BANDED)
    shawl = made.shawl
    found = stops(made)
    assert [stop.row for stop in found] == sorted(stop.row for stop in found)
    ends = {band.last_row for band in shawl.bands}
    ends |= {band.first_row + 1 for band in shawl.bands if band.stitch == "eyelets"}
    for stop in found:
        assert stop.beyond or stop.repeats or stop.row in ends
        assert stop.left.mean >= 0
    (end,) = [stop for stop in found if stop.planned]
    assert (end.row, end.stitches, end.left_out) == (shawl.rows.count, shawl.rows.stitches[-1], ())
    assert end.left.mean == pytest.approx(shawl.yarn.left_g)
    assert end.bind_off_g == pytest.approx(shawl.yarn.bind_off_g)
    assert end.left.chance_positive == pytest.approx(shawl.yarn.chance_enough)
    assert end.size == shawl.outline.size


def test_a_stop_is_what_the_shawl_ended_there_would_be() -> None:
    """The stop after the fifth race, worked as a shawl of its own with five passes and no kerb."""
    stop = next(stop for stop in stops(plan_of(BANDED)) if stop.stitch == "drop" and not stop.beyond)
    text = BANDED.replace('part "kerb"\n  garter 3 ridges\n', "")
    passes = next(
        n for n in range(1, 9) if shawl_of(text.replace("as yarn allows", f"{n} times")).rows.count == stop.row
    )
    alone = shawl_of(text.replace("as yarn allows", f"{passes} times"))
    assert stop.stitches == alone.rows.stitches[-1]
    assert stop.left.mean == pytest.approx(alone.yarn.left_g)
    assert stop.left.chance_positive == pytest.approx(alone.yarn.chance_enough, abs=0.005)
    assert stop.size.wingspan_cm == pytest.approx(alone.outline.size.wingspan_cm)
    assert stop.left_out == ("kerb",)


def test_more_passes_than_planned_are_offered_while_they_are_paid_for() -> None:
    made = plan_of(BANDED)
    shawl = made.shawl
    beyond = [stop for stop in stops(made) if stop.beyond and not stop.repeats]
    text = BANDED.replace('part "kerb"\n  garter 3 ridges\n', "")
    more = shawl_of(text.replace("as yarn allows", f"{shawl.allowed + 1} times"))
    ends = {band.last_row: band.stitches_at_end for band in more.bands}
    ends |= {row - 2: more.rows.stitches[row - 2] for row in ends}
    assert beyond and all(ends[stop.row] == stop.stitches for stop in beyond)
    planned_end = shawl.parts[1].last_row
    assert {stop.row for stop in beyond} <= {row for row in ends if row > planned_end}


def test_an_even_sequence_looks_unfinished_inside_a_repeat_and_an_uneven_one_nowhere() -> None:
    """But after a released elongated row, which gapes in both."""
    looks = {(stop.stitch, stop.finish.finished) for stop in stops(plan_of(EVEN)) if not stop.planned}
    assert looks == {("eyelets", False), ("garter", False), ("drop", False), ("garter", True)}
    assert all(stop.repeats for stop in stops(plan_of(EVEN)) if stop.finish.finished and not stop.planned)
    assert all(stop.finish.finished == (stop.stitch != "drop") for stop in stops(plan_of(BANDED)))
    reasons = {stop.stitch: stop.finish.why for stop in stops(plan_of(EVEN)) if not stop.finish.finished}
    assert reasons["drop"] == "the elongated row gapes" and reasons["garter"] == "inside a repeat"


def test_an_even_sequence_ends_between_two_repeats() -> None:
    text = EVEN.replace('    drop 3 wraps "race"', "    moss 2 rows")
    between = {stop.finish.why for stop in stops(plan_of(text)) if stop.finish.finished and not stop.planned}
    assert between == {"between two repeats", "all parts worked"}


CURLING = """stitch smooth
  gauge 20 sts 28 rows over 10 cm
  {rows}
"""


@pytest.mark.parametrize(
    ("rows", "looks"),
    [
        ("row 1: knit\n  row 2: purl", False),
        ("row 1: purl\n  row 2: knit", False),
        ("as stockinette", False),
        ("rows 1-2: knit", True),
        ("row 1: *k1, p1*\n  row 2: *k1, p1*", True),
        ("row 1: *k1 with 2 wraps*\n  row 2: knit", False),
        ("row 1: *k1 with 2 wraps*\n  rows 2-4: knit", True),
    ],
)
def test_stockinette_curls_and_an_elongated_row_gapes_at_the_planned_end(rows: str, looks: bool) -> None:
    text = PLAIN.replace("shape triangle", CURLING.format(rows=rows) + "shape triangle")
    made = plan_of(text.replace("garter 48 ridges", "smooth 48 rows"))
    (end,) = [stop for stop in stops(made) if stop.planned]
    assert end.finish.finished == looks, end.finish


def test_nothing_curls_that_is_edge_all_over() -> None:
    lines = "  cast on 44 sts\n  edge 3 sts garter\n  decrease 1 at each edge every 2 rows until {} sts\n"
    for until, finished in ((6, True), (8, False)):
        head = PLAIN[: PLAIN.index("  garter tab")]
        body = 'part "all"\n  stockinette 60 rows\n'
        made = plan_of(head + lines.format(until) + body)
        (end,) = [stop for stop in stops(made) if stop.planned]
        assert (end.stitches, end.finish.finished) == (until, finished)


def test_a_row_inside_a_band_is_a_stop_where_the_yarn_ends_there() -> None:
    """Too long a plain piece: the row to bind off by lies inside its only band, where nothing is broken off."""
    made = plan_of(PLAIN.replace("48 ridges", "100 ridges"))
    shawl = made.shawl
    row = shawl.marks.bind_off_by.row
    stop = next(stop for stop in stops(made) if stop.row == row)
    assert stop.finish.finished and stop.left.mean >= shawl.yarn.keep_g


def test_an_even_sequence_cut_inside_a_band_looks_unfinished() -> None:
    text = EVEN.replace("repeat as yarn allows", "repeat 12 times").replace("garter 4 ridges", "garter 9 ridges")
    made = plan_of(text)
    shawl = made.shawl
    row = shawl.marks.bind_off_by.row
    inside = [stop for stop in stops(made) if stop.row == row]
    assert row not in {band.last_row for band in shawl.bands}
    assert [stop.finish.finished for stop in inside] == [False]


def test_what_is_knitted_is_no_stop_any_more() -> None:
    made = plan_of(logged(BANDED, "before cast on 100.0 g", "after row 100 45.0 g left"))
    assert min(one.place.row for one in candidates(made)) >= 100


LONG = """stitch fern
  gauge 20 sts 30 rows over 10 cm
  multiple of 2 sts
  row 1: *k2tog, yo*
  rows 2, {plain}: purl
  rows 3, 5, 7, 9, {more}: *yo, ssk*
"""


def long_text(plain: str, more: str) -> str:
    """A rectangle of 60 stitches in one band of 80 rows of a stitch with 12 rows."""
    head = PLAIN[: PLAIN.index("shape")].replace("100 g 380 m", "40 g 152 m")
    return f'{head}{LONG.format(plain=plain, more=more)}shape rectangle\n  cast on 60 sts\npart "all"\n  fern 80 rows\n'


def test_a_long_pattern_may_be_left_after_its_repeats_and_at_their_plain_halves() -> None:
    """Of 80 rows: after 12, 24 … whole repeats, and after row 6, 18 … where row 6 of the pattern is purl."""
    every = [one.place.row for one in candidates(plan_of(long_text("4, 6, 8, 10, 12", "11")))]
    assert every == [*range(6, 80, 6), 80]
    whole = [one.place.row for one in candidates(plan_of(long_text("4, 8, 10, 12", "6, 11")))]
    assert whole[:6] == [12, 24, 36, 48, 60, 72]
    assert all(stop.finish.finished for stop in stops(plan_of(long_text("4, 6, 8, 10, 12", "11"))))


def test_a_row_that_only_the_yarn_ends_is_unfinished_inside_a_pattern() -> None:
    made = plan_of(long_text("4, 6, 8, 10, 12", "11").replace("fern 80 rows", "fern 400 rows"))
    row = made.shawl.marks.bind_off_by.row
    looks = [stop.finish for stop in stops(made) if stop.row == row]
    assert looks and all(one.finished == (row % 6 == 0) for one in looks)


def test_fewer_and_more_repeats_are_offered_with_all_that_follows() -> None:
    """Each against the shawl with that count written out; the eighth fits once the margin may be used."""
    made = plan_of(BANDED.replace("keep 4%", "keep 20%"))
    whole = [stop for stop in stops(made) if stop.repeats]
    assert [stop.repeats - made.shawl.allowed for stop in whole] == [1]
    made = plan_of(BANDED)
    whole += [stop for stop in stops(made) if stop.repeats]
    assert [stop.repeats - made.shawl.allowed for stop in whole[1:]] == [-1]
    for stop in whole:
        alone = shawl_of(BANDED.replace("as yarn allows", f"{stop.repeats} times"))
        assert (stop.row, stop.stitches) == (alone.rows.count, alone.rows.stitches[-1])
        assert (stop.left_out, stop.part, stop.finish.finished) == ((), "kerb", True)
        assert stop.left.mean == pytest.approx(alone.yarn.left_g)
        assert stop.left.chance_positive == pytest.approx(alone.yarn.chance_enough, abs=0.005)
        assert stop.size == alone.outline.size
        assert stop.beyond == (stop is whole[0])


def test_other_counts_are_not_offered_once_what_follows_is_knitted() -> None:
    kerb = plan_of(BANDED).shawl.parts[2].first_row
    for row, offered in ((kerb - 2, True), (kerb + 1, False)):
        made = plan_of(logged(BANDED, "before cast on 100.0 g", f"after row {row} 18.0 g left"))
        assert made.shawl.parts[2].first_row == kerb, "the log is on plan"
        assert (one_more(made) is not None) == offered
        assert any(stop.repeats or stop.beyond for stop in stops(made)) == offered


def test_no_stop_is_nearer_the_neck_than_sixty_per_cent_of_the_skein() -> None:
    for text in (BANDED, EVEN, PLAIN, banded(8, 100.0), BANDED.replace("100 g 390 m", "300 g 1170 m")):
        made = plan_of(text)
        skein_g = made.shawl.yarn.skein_g
        early = [stop for stop in stops(made) if skein_g - stop.left.mean < 0.6 * skein_g]
        assert all(stop.planned for stop in early)
    assert [stop.planned for stop in stops(plan_of(PLAIN.replace("48 ridges", "8 ridges")))] == [True]


def test_turned_back_only_the_planned_end_is_finished() -> None:
    text = PLAIN.replace(" and 1 at spine", "") + "turn back\n"
    assert {(stop.planned, stop.finish.finished) for stop in stops(plan_of(text))} == {(True, True), (False, False)}


def test_turned_back_rows_of_the_second_half_are_not_before_it() -> None:
    """Two parts, which come back in turn: 128 rows, and 128 more."""
    made = plan_of(PLAIN.replace(" and 1 at spine", "").replace("100 g 380 m", "200 g 760 m") + "turn back\n")
    looks = {one.place.row: finish_in(made, one).why for one in candidates(made) if not one.planned}
    before, inside = "before the mirrored second half", "inside the mirrored second half"
    assert looks == {32: before, 128: before, 224: inside}


def test_one_more_repeat_is_reckoned_with_all_that_follows() -> None:
    made = plan_of(BANDED)
    shawl = made.shawl
    more = one_more(made)
    counted = shawl_of(BANDED.replace("as yarn allows", f"{shawl.allowed + 1} times"))
    assert more is not None and more.left.mean == pytest.approx(counted.yarn.left_g)
    assert more.takes_g == pytest.approx(counted.yarn.total_g - shawl.yarn.total_g)
    assert more.left.mean < shawl.yarn.keep_g
    fixed = plan_of(BANDED.replace("as yarn allows", f"{shawl.allowed} times"))
    assert one_more(fixed).left.mean == pytest.approx(more.left.mean)
    assert one_more(plan_of(PLAIN)) is None


def banded(times: int, skein_g: float) -> str:
    head = f'shawl "Bands"\nyarn\n  skein {skein_g} g {4 * skein_g} m\nneedles 4 mm\n{GARTER}\nshape rectangle\n'
    return f'{head}  cast on 60 sts\npart "all"\n  repeat {times} times\n    garter 3, 5 rows\n'


def used_g(times: int, skein_g: float) -> float:
    """What a shawl that ends there takes, worked alone."""
    return shawl_of(banded(times, skein_g)).yarn.total_g


@pytest.mark.parametrize("share", [0.599, 0.601])
def test_stops_are_near_the_end_from_sixty_per_cent_of_the_skein_on(share: float) -> None:
    """The skein is such that a shawl of 14 repeats takes just less, or just more, than 60 % of it."""
    skein_g = used_g(14, 100.0) / share
    assert used_g(14, skein_g) / skein_g == pytest.approx(share, abs=5e-4)
    rows = {stop.row for stop in stops(plan_of(banded(20, skein_g)))}
    assert (56 in rows) == (share > 0.6)
    assert 59 in rows and 51 not in rows, "the ends of the bands after and before, 3 and 5 rows by turns"


def test_at_most_twelve_stops_and_the_last_ones() -> None:
    skein_g = used_g(60, 100.0)
    made = plan_of(banded(60, 1.05 * skein_g))
    found = stops(made)
    assert len(found) == 12 and found[-1].row >= made.shawl.rows.count
    ends = [stop for stop in candidates(made) if not stop.place.inside]
    near = [stop for stop in ends if 0 <= stop.left.mean <= 0.4 * 1.05 * skein_g]
    assert len(near) > 12
    assert [stop.row for stop in found] == [stop.place.row for stop in near[-12:]]


def test_only_the_planned_end_where_little_of_the_skein_is_used() -> None:
    made = plan_of(banded(6, 20 * used_g(6, 100.0)))
    assert len(candidates(made)) > 12
    assert [(stop.row, stop.planned) for stop in stops(made)] == [(made.shawl.rows.count, True)]


LACE = """shawl "Lace"
yarn
  skein 100 g 400 m
needles 4 mm
stitch garter
  gauge 20 sts 40 rows over 10 cm
stitch lace
  gauge 20 sts 30 rows over 10 cm
  multiple of 2 sts
  {rows}
shape rectangle
  cast on 60 sts
part "body"
  repeat 8 times
    lace 36 rows
    garter 10 rows
"""


def test_a_short_pattern_is_not_left_inside_the_bands_of_an_even_sequence() -> None:
    """Bands of 36 and 10 rows: every place ends a band, but the row that the yarn itself ends."""
    made = plan_of(LACE.format(rows="row 1: *yo, k2tog*\n  row 2: purl"))
    mark = made.shawl.marks.bind_off_by
    inside = {stop.row for stop in stops(made) if stop.row % 46 not in (0, 36)}
    assert inside <= {mark.row}
    assert len(stops(made)) > 3


def test_a_long_pattern_is_left_inside_them_at_its_ends_and_halves() -> None:
    rows = "row 1: *yo, k2tog*\n  rows 2-12: purl"
    made = plan_of(LACE.format(rows=rows))
    done = {one.place.row % 46 for one in candidates(made)} - {made.shawl.marks.bind_off_by.row % 46}
    assert {12, 24, 6, 18, 30} <= done <= {0, 6, 12, 18, 24, 30, 36}


def test_ends_of_bands_come_before_places_inside_them() -> None:
    """Bands of six rows of lace, which may be left at two places inside each: more than twelve ends are near."""
    rows = "row 1: *yo, k2tog*\n  row 2: purl"
    text = LACE.format(rows=rows).replace("repeat 8 times\n    lace 36 rows", "repeat 40 times\n    lace 6 rows")
    made = plan_of(text.replace("    garter 10 rows", "    garter 2, 4 rows"))
    assert any(one.place.inside for one in candidates(made))
    found = stops(made)
    ends = {one.place.row for one in candidates(made) if not one.place.inside}
    assert len(found) == 12 and {stop.row for stop in found} <= ends


def test_the_planned_end_is_listed_before_twelve_later_ends() -> None:
    skein_g = used_g(60, 100.0)
    made = plan_of(banded(45, 1.05 * skein_g))
    found = stops(made)
    assert [stop.planned for stop in found] == [True] + 11 * [False]
    assert sum(one.beyond and one.left.mean >= 0 for one in candidates(made)) > 12


EYELETS = """stitch garter
  gauge 20 sts 40 rows over 10 cm
stitch eyelets
  gauge 20 sts 32 rows over 10 cm
  multiple of 2 sts
  row 1: *yo, k2tog*
  row 2: purl"""
NESTED = """part "body"
  garter 4 rows
  repeat 5 times
    garter 6 rows
    repeat 2 times
      garter 3 rows
      eyelets 2 rows
  garter 2 rows
"""


def test_stops_name_the_outermost_repeat_that_they_lie_in() -> None:
    """Each of the five repeats has 16 rows, from row 5 on: row 84 ends the fifth, and what follows is in none."""
    head = described_as("garter 2 rows", shape="rectangle", start="cast on 60 sts", stitches=EYELETS)
    made = plan_of(head[: head.index("part ")] + NESTED)
    assert made.rows.count == 86
    for one in candidates(made):
        row = one.place.row
        assert repeat_number(made, one) == (-(-(row - 4) // 16) if 4 < row <= 84 or one.beyond else 0), row


def test_repeats_of_a_mirrored_second_half_have_no_number() -> None:
    body = PLAIN.replace(" and 1 at spine", "").replace("garter 48 ridges", "repeat 4 times\n    garter 8, 4 ridges")
    made = plan_of(body + "turn back\n")
    half = made.rows.count // 2
    numbers = {(one.place.row > half, repeat_number(made, one)) for one in candidates(made)}
    assert numbers == {(False, 0), *((False, number) for number in range(1, 5)), (True, 0)}
