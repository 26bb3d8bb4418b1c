"""Which scale a page is drawn at, and how much stands around the piece then. Lengths in mm."""

from collections.abc import Iterator

from halfhank.grammar.record import NamedTuple
from halfhank.model.outline.outline import Size
from halfhank.model.shawl import Shawl
from halfhank.renderer.paper.house_style import MARGIN
from halfhank.renderer.paper.page_block import PageColumn
from halfhank.renderer.paper.page_sizes import (
    TALLEST_MM,
    WIDEST_MM,
    all_scales,
    fine_scales,
    margin_of,
    scales,
    tallest_on,
)
from halfhank.renderer.schematic.detail import DETAILS, EVERYTHING, PLAINER, UPRIGHT_MM, Detail
from halfhank.renderer.schematic.drawing_layout import Annotations, DrawingLayout, place_annotations, with_dimensions
from halfhank.renderer.schematic.options import Options

CONTENT_MM = 122.0
"""The least width of the column of text, so that small pieces still have room for their words."""
SIDE_SHARE = 0.12
"""What is left beside the piece for its depth is at most so much of the column."""
LEAST_SHARE = 0.65
"""The piece takes at least so much of a page's given width, but for pieces that are too high then; where no round scale
does it, one between two is taken."""
SMALLEST_MM = 12.0
"""A piece is drawn at least so large; a page that is too low for that cannot be made."""


class Sheet(NamedTuple):
    """A drawing with the page that it is meant for: its width and its margins, at the sides and above and below."""

    scale: float
    layout: DrawingLayout
    width: float
    margin: float
    margin_above: float

    @property
    def column(self) -> PageColumn:
        """What all blocks keep to."""
        return PageColumn(self.margin, self.width - 2 * self.margin)


def scales_to_try(shawl: Shawl, options: Options) -> Iterator[float]:
    """The scales at which the piece itself fits, the largest first; the one that was asked for, alone."""
    if options.scale is not None:
        yield options.scale
        return
    size = shawl.outline.size
    first = _first_scale(size, options)
    yield first
    for scale in scales() if options.height_mm is None else fine_scales():
        if scale > first:
            yield scale
        if 10 * max(size.wingspan_cm, size.depth_cm) / scale < SMALLEST_MM:
            return


def _first_scale(size: Size, options: Options) -> float:
    """The largest round scale at which the piece fits; a finer one where a given width is not filled by it.

    It hangs on the page alone, so that a wider page never has a smaller piece.
    """
    wide, high = _room(options)

    def fits(scale: float) -> bool:
        return 10 * size.wingspan_cm / scale <= wide and 10 * size.depth_cm / scale <= high

    before = round_scale = 0.0
    for round_scale in scales() if options.width_mm is None else all_scales():
        if fits(round_scale):
            break
        before = round_scale
    filled = options.width_mm is None or 10 * size.wingspan_cm / round_scale >= LEAST_SHARE * options.width_mm
    if filled or not before or 10 * size.depth_cm / before > high:
        return round_scale
    return next(scale for scale in fine_scales() if fits(scale))


def _room(options: Options) -> tuple[float, float]:
    """The widest and the highest piece."""
    if options.width_mm is None:
        return WIDEST_MM - 2 * MARGIN, TALLEST_MM if options.height_mm is None else options.height_mm
    column = options.width_mm - 2 * margin_of(options.width_mm, MARGIN)
    high = tallest_on(options.width_mm) if options.height_mm is None else options.height_mm
    return column - min(UPRIGHT_MM, SIDE_SHARE * column), high


def sheets_at(shawl: Shawl, options: Options, scale: float) -> Iterator[Sheet]:
    """The sheets of a scale that are not too wide, from the fullest drawing to the plainest."""
    above = MARGIN if options.height_mm is None else margin_of(options.height_mm, MARGIN)
    if options.width_mm is None:
        details = (EVERYTHING,) if options.scale is not None else (EVERYTHING, PLAINER)
        for layout in _layouts(shawl, scale, CONTENT_MM, details, narrow=False):
            width = max(layout.bounds.width, CONTENT_MM) + 2 * MARGIN
            if width <= WIDEST_MM or options.scale is not None:
                yield Sheet(scale, layout, width, MARGIN, above)
        return
    margin = margin_of(options.width_mm, MARGIN)
    above = min(above, margin) if options.height_mm is None else above
    room = options.width_mm - 2 * margin
    for layout in _layouts(shawl, scale, room, DETAILS, narrow=True):
        if layout.bounds.width <= room + 0.005:
            yield Sheet(scale, layout, options.width_mm, margin, above)


def _layouts(
    shawl: Shawl, scale: float, content: float, details: tuple[Detail, ...], narrow: bool
) -> Iterator[DrawingLayout]:
    """The layouts with so much detail, in a narrow column those whose flags find room; what several have in common is
    placed once."""
    placed: dict[tuple[str, bool], Annotations] = {}
    for detail in details:
        key = detail.flags, detail.depth
        if key not in placed:
            placed[key] = place_annotations(shawl, scale, content, detail, narrow)
        if placed[key].flags is not None or not narrow:
            yield with_dimensions(placed[key], detail)
