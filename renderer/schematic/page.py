"""The schematic: everything put together on one page, from the title down to the scale bar."""

import math

from halfhank.grammar.record import NamedTuple
from halfhank.model.shawl import Shawl
from halfhank.model.words.drawn_words import phrase, phrase_of
from halfhank.renderer.paper.page_block import PageBlock, PageColumn, PageStack
from halfhank.renderer.paper.ramp import RAMPS, Ramp
from halfhank.renderer.paper.scene import Element, Group, Scene, moved
from halfhank.renderer.schematic.annotations.badges import badge_group
from halfhank.renderer.schematic.annotations.contour_numbers import contour_numbers
from halfhank.renderer.schematic.annotations.direction import arrow_group
from halfhank.renderer.schematic.annotations.flags import flag_group
from halfhank.renderer.schematic.drawing_layout import DrawingLayout
from halfhank.renderer.schematic.fabric import edge_lines
from halfhank.renderer.schematic.fabric.drawn_marks import mark_notes
from halfhank.renderer.schematic.fabric.mark_lines import mark_lines
from halfhank.renderer.schematic.fabric.shading import fabric_group
from halfhank.renderer.schematic.fabric.textures import textures_of
from halfhank.renderer.schematic.heading import heading
from halfhank.renderer.schematic.legend import legend
from halfhank.renderer.schematic.options import TITLE_AND_TABLE, OptionError, Options, check
from halfhank.renderer.schematic.page_facts import facts_block, part_names, remarks, shawl_facts
from halfhank.renderer.schematic.page_fit import SMALLEST_MM, Sheet, scales_to_try, sheets_at
from halfhank.renderer.schematic.skein_ruler import ruler
from halfhank.renderer.schematic.table.parts_key import parts_key
from halfhank.renderer.schematic.table.parts_table import parts_table
from halfhank.renderer.schematic.turned import can_be_turned, turned
from halfhank.renderer.text_alternatives.shawl_description import describe_shawl

SLACK_MM = 26.0
"""What flags, badges and words may take less of a page's height at a smaller scale."""

NEARLY_AS_LARGE = 1.26
"""On a page of its own choice a long thin piece lies on its side, if it is so much smaller at most: 1:15 for 1:12."""


def draw_schematic(shawl: Shawl, options: Options = Options()) -> Scene:  # noqa: B008 (immutable)
    """The page for a shawl. Raises `OptionError` for options that cannot be followed."""
    return drawn_to_scale(shawl, options)[0]


def drawn_to_scale(shawl: Shawl, options: Options) -> tuple[Scene, float]:
    """The page for a shawl and N of the scale 1:N that the piece is drawn at. Raises `OptionError` as above."""
    check(options)
    if options.units is not None:
        shawl = shawl._replace(units=options.units)
    lying, *upright = [_best_page(way, options) for way in _ways_to_lie(shawl, options)]
    best = lying
    if upright and upright[0].scale * (1 if options.width_mm else NEARLY_AS_LARGE) < lying.scale:
        best = upright[0]
    if best.scene is None:
        raise OptionError(_too_low(options, best.least))
    return best.scene, best.scale


class Page(NamedTuple):
    """A page at the largest `scale` that fits, or none (None) and the least height (`least`, mm) that it needs."""

    scene: Scene | None
    scale: float
    least: float


def _ways_to_lie(shawl: Shawl, options: Options) -> list[Shawl]:
    """A long thin piece may be laid on its side, which is tried first; not where its scale is given."""
    return [turned(shawl), shawl] if options.scale is None and can_be_turned(shawl) else [shawl]


def _best_page(shawl: Shawl, options: Options) -> Page:
    least, most = math.inf, math.inf
    for scale in scales_to_try(shawl, options):
        high = 10 * shawl.outline.size.depth_cm / scale
        if high > most:
            continue
        for sheet in sheets_at(shawl, options, scale):
            scene = _page(shawl, sheet, options)
            if options.height_mm is None or scene.height <= options.height_mm:
                return Page(scene, scale, scene.height)
            least = min(least, scene.height - high + SMALLEST_MM)
            over = scene.height - options.height_mm
            most = high - over + SLACK_MM
            if over > SLACK_MM:
                break
    return Page(None, math.inf, least)


def _too_low(options: Options, least: float) -> str:
    words = "" if options.only else ", or ask for the drawing alone (--only drawing)"
    needed = max(math.ceil(least), math.floor(options.height_mm or 0.0) + 1)
    return f"the page needs about {needed:,} mm of height at this width{words}"


def _page(shawl: Shawl, sheet: Sheet, options: Options) -> Scene:
    layout, column, ramp = sheet.layout, sheet.column, RAMPS[options.ramp]
    blocks = PageStack(sheet.margin_above)
    if options.only is None and options.without != TITLE_AND_TABLE:
        blocks.add(0.0, lambda top: heading(shawl, column, top, compact=options.height_mm is not None))
    blocks.add(6.0, lambda top: _drawing_block(sheet, top, ramp, options))
    if options.only is None:
        blocks.add(7.0, lambda top: ruler(shawl, column, top, ramp, layout.marks))
        blocks.add(4.5, lambda top: _parts_block(shawl, sheet, top, ramp, options))
    blocks.add(4.5, lambda top: legend(shawl, column, top, ramp))
    facts, fitted = _sentences(shawl, layout, options), options.scale is None
    blocks.add(2.0, lambda top: facts_block(shawl, column, top, facts, sheet.scale, fitted))
    height = blocks.bottom + sheet.margin_above
    described = describe_shawl(shawl, sheet.scale)
    return Scene(sheet.width, height, shawl.title, described, tuple(blocks.groups), not options.transparent)


def _parts_block(shawl: Shawl, sheet: Sheet, top: float, ramp: Ramp, options: Options) -> PageBlock:
    """The table, or what the drawing needs of it where it is left out."""
    if options.without is None:
        return parts_table(shawl, sheet.column, top, ramp)
    return parts_key(shawl, sheet.column, top, ramp, named=bool(sheet.layout.names))


def _drawing_block(sheet: Sheet, top: float, ramp: Ramp, options: Options) -> PageBlock:
    bounds = sheet.layout.bounds
    shift = (_shift(sheet.layout, sheet.column), top - bounds.top)
    return PageBlock(drawing_group(sheet.layout, shift, ramp, options), top + bounds.height)


def _sentences(shawl: Shawl, layout: DrawingLayout, options: Options) -> list[str]:
    """What the foot of the page says: lengths and marks that are not on the drawing, notes, remarks."""
    found = shawl_facts(shawl) + _measures(layout)
    if options.contours:
        step = f"{edge_lines.contour_step(layout.piece):,g}"
        found.append(phrase("facts.contours", mass=phrase_of("measure", shawl.skein.unit, number=step)))
    if options.only is not None:
        return [*found, part_names(shawl)]
    return found + mark_notes(shawl) + (remarks(shawl) if options.without != TITLE_AND_TABLE else [])


def _shift(layout: DrawingLayout, column: PageColumn) -> float:
    """How far the drawing is moved to the right: the piece in the middle, as far as what surrounds it has room."""
    low, high = column.left - layout.bounds.left, column.right - layout.bounds.right
    middle = column.left + (column.width - layout.piece.width) / 2
    return min(max(middle, low), high) if low <= high else (low + high) / 2


def _measures(layout: DrawingLayout) -> list[str]:
    """What found no room on the drawing: measures as one sentence, each mark as its own."""
    sentences = [", ".join(layout.in_words), *layout.marks_in_words]
    return [words[0].upper() + words[1:] for words in sentences if words]


def drawing_group(layout: DrawingLayout, shift: tuple[float, float], ramp: Ramp, options: Options) -> Group:
    """The drawing at its place on the page, from the fabric up to the dimensions."""
    piece = layout.piece
    items: list[Element] = [
        edge_lines.edge_behind(piece),
        fabric_group(piece, textures_of(piece.shawl), ramp),
        edge_lines.part_bounds(piece),
        edge_lines.spine_line(piece),
    ]
    if piece.ruffle is not None:
        items.append(edge_lines.ruffle_folds(piece, ramp))
    if edge_lines.drawn_together(piece):
        items.append(edge_lines.gathers(piece, ramp))
    if options.contours:
        items.append(edge_lines.contour_lines(piece, ramp))
    items += [edge_lines.side_lines(piece), edge_lines.edge_before(piece), edge_lines.start_line(piece)]
    items.append(mark_lines(piece, layout.marks))
    items += [dimension.group for dimension in layout.dimensions]
    if layout.arrow is not None:
        items.append(arrow_group(layout.arrow))
    if options.contours:
        items.append(contour_numbers(piece, layout.marks, layout.badges, layout.arrow))
    items += [flag_group(layout.flags), badge_group(layout.badges), Group("part-names", tuple(layout.names))]
    return moved(Group("drawing", tuple(items)), shift)
