"""Where a shawl may end, and how that would look."""

import pytest
from halfhank.model.marks_and_stops.stops import candidates, one_more, stops

from tests.model.texts import GARTER
from tests.model.weighings.knits import BANDED, PLAIN, logged, plan_of, shawl_of

EVEN = BANDED.replace("garter 5, 2, 4 ridges", "garter 4 ridges")


def test_every_stop_ends_a_band_and_is_paid_for() -> None:
    made = plan_of(BANDED)
    shawl = made.shawl
    found = stops(made)
    assert [stop.row for stop in found] == sorted(stop.row for stop in found)
    ends = {band.last_row for band in shawl.bands}
    for stop in found:
        assert stop.beyond or stop.row in ends
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
    assert stop.left.chance_positive == pytest.approx(alone.yarn.chance_enough)
    assert stop.size.wingspan_cm == pytest.approx(alone.outline.size.wingspan_cm)
    assert stop.left_out == ("kerb",)


def test_more_passes_than_planned_are_offered_while_they_are_paid_for() -> None:
    made = plan_of(BANDED)
    shawl = made.shawl
    beyond = [stop for stop in stops(made) if stop.beyond]
    text = BANDED.replace('part "kerb"\n  garter 3 ridges\n', "")
    more = shawl_of(text.replace("as yarn allows", f"{shawl.allowed + 1} times"))
    ends = {band.last_row: band.stitches_at_end for band in more.bands}
    assert beyond and all(ends[stop.row] == stop.stitches for stop in beyond)
    planned_end = shawl.parts[1].last_row
    assert {stop.row for stop in beyond} <= {row for row in ends if row > planned_end}


def test_an_even_sequence_looks_cut_off_inside_a_pass_and_an_uneven_one_nowhere() -> None:
    looks = {(stop.stitch, stop.finish.finished) for stop in stops(plan_of(EVEN)) if not stop.planned}
    assert looks == {("eyelets", False), ("garter", False), ("drop", True)}
    assert all(stop.finish.finished for stop in stops(plan_of(BANDED)))


def test_a_row_inside_a_band_is_a_stop_where_the_yarn_ends_there() -> None:
    """Too long a plain piece: the row to bind off by lies inside its only band, where nothing is broken off."""
    made = plan_of(PLAIN.replace("48 ridges", "100 ridges"))
    shawl = made.shawl
    row = shawl.marks.bind_off_by.row
    stop = next(stop for stop in stops(made) if stop.row == row)
    assert stop.finish.finished and stop.left.mean >= shawl.yarn.keep_g


def test_an_even_sequence_cut_inside_a_band_looks_cut_off() -> None:
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


def test_turned_back_only_the_planned_end_is_finished() -> None:
    text = PLAIN.replace(" and 1 at spine", "") + "turn back\n"
    assert {(stop.planned, stop.finish.finished) for stop in stops(plan_of(text))} == {(True, True), (False, False)}


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
    near = [stop for stop in candidates(made) if 0 <= stop.left.mean <= 0.4 * 1.05 * skein_g]
    assert len(near) > 12
    assert [stop.row for stop in found] == [stop.place.row for stop in near[-12:]]


def test_the_last_three_stops_where_little_of_the_skein_is_used() -> None:
    made = plan_of(banded(6, 20 * used_g(6, 100.0)))
    found = stops(made)
    assert made.shawl.yarn.skein_g - found[-1].left.mean < 0.6 * made.shawl.yarn.skein_g
    assert [stop.row for stop in found] == [one.place.row for one in candidates(made)[-3:]]
