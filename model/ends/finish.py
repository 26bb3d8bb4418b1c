"""Whether a shawl that ends after some row would look finished or cut off."""

from collections.abc import Iterator
from typing import NamedTuple

from halfhank.grammar.description import Band, Description, Drop, Repeat
from halfhank.grammar.problems import Span
from halfhank.model.ends.sequences import fabrics_in, is_even
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


def finish_of(description: Description, place: EndPlace, last: bool) -> Finish:
    """How an end there would look; `last`: it is the planned end."""
    if last:
        return Finish(True, "the planned end")
    if description.turn_back is not None:
        return Finish(False, "before the way back is done")
    repeat = _repeat_around(description, place.run.source.span)
    if repeat is None or len(fabrics_in(repeat)) == 1:
        return Finish(True, "nothing to break off") if place.inside else Finish(True, "at a band's end")
    if not is_even(repeat):
        return Finish(True, "uneven, may end anywhere")
    if place.inside:
        return Finish(False, "inside a band")
    return Finish(True, "between two passes") if _ends_pass(repeat, place) else Finish(False, "inside a pass")


def _repeat_around(description: Description, span: Span) -> Repeat | None:
    """The outermost repeat around a band."""
    repeats = [piece for part in description.parts for piece in part.bands if isinstance(piece, Repeat)]
    return next((repeat for repeat in repeats if any(leaf.span == span for leaf in _leaves(repeat))), None)


def _leaves(repeat: Repeat) -> Iterator[Band | Drop]:
    for piece in repeat.bands:
        if isinstance(piece, Repeat):
            yield from _leaves(piece)
        else:
            yield piece


def _ends_pass(repeat: Repeat, place: EndPlace) -> bool:
    """Whether what follows opens the next pass, or lies outside the repeat."""
    spans = [leaf.span for leaf in _leaves(repeat)]
    following = place.following
    return following is None or following.source.span == spans[0] or following.source.span not in spans
