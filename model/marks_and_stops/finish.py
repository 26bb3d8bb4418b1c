"""Whether a shawl that ends after some row would look finished or cut off."""

from halfhank.grammar.record import NamedTuple
from halfhank.model.design.band_walk import leaves
from halfhank.model.design.design import Band, Design, Elongated, Repeat
from halfhank.model.marks_and_stops.sequences import fabrics_in, is_even
from halfhank.model.rows.sections import Run


class Finish(NamedTuple):
    """`finished`: the end would look meant. `why` says it in words."""

    finished: bool
    why: str


class EndPlace(NamedTuple):
    """A place in the work: after `row`, in a band of `run`; `inside` where the band goes on.

    `following` is the next run of the same part, None after the last; `live` the stitches on the needle.
    """

    row: int
    part: int
    run: Run
    following: Run | None
    live: int
    inside: bool


def finish_of(design: Design, place: EndPlace, last: bool) -> Finish:
    """How an end there would look; `last`: it is the planned end."""
    if last:
        return Finish(True, "the planned end")
    if design.turns_back:
        return Finish(False, "before the way back is done")
    repeat = _repeat_around(design, place.run.source)
    if repeat is None or len(fabrics_in(repeat)) == 1:
        return Finish(True, "nothing to break off") if place.inside else Finish(True, "at a band's end")
    if not is_even(repeat):
        return Finish(True, "uneven, may end anywhere")
    if place.inside:
        return Finish(False, "inside a band")
    return Finish(True, "between two passes") if _ends_repeat(repeat, place) else Finish(False, "inside a pass")


def _repeat_around(design: Design, band: Band | Elongated) -> Repeat | None:
    """The outermost repeat around a band."""
    repeats = [piece for part in design.parts for piece in part.bands if isinstance(piece, Repeat)]
    return next(
        (repeat for repeat in repeats if any(leaf.number == band.number for leaf in leaves(repeat.bands))), None
    )


def _ends_repeat(repeat: Repeat, place: EndPlace) -> bool:
    """Whether what follows opens the next time through the repeat, or lies outside it."""
    numbers = [leaf.number for leaf in leaves(repeat.bands)]
    following = place.following
    return following is None or following.source.number == numbers[0] or following.source.number not in numbers
