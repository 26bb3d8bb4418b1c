"""The schematic: everything put together on one page, from the title down to the scale bar."""

from halfhank.model.shawl import Shawl
from halfhank.renderer.paper.house_style import MARGIN
from halfhank.renderer.paper.page_block import PageColumn
from halfhank.renderer.paper.page_sizes import TALLEST_MM, WIDEST_MM, scales
from halfhank.renderer.paper.ramp import RAMPS, Ramp
from halfhank.renderer.paper.scene import Element, Group, Scene, moved
from halfhank.renderer.schematic.annotations.badges import badge_group
from halfhank.renderer.schematic.annotations.contour_numbers import contour_numbers
from halfhank.renderer.schematic.annotations.direction import arrow_group
from halfhank.renderer.schematic.annotations.flags import flag_group
from halfhank.renderer.schematic.drawing_layout import DrawingLayout, place_annotations, with_dimensions
from halfhank.renderer.schematic.fabric import edge_lines
from halfhank.renderer.schematic.fabric.drawn_marks import mark_notes
from halfhank.renderer.schematic.fabric.mark_lines import mark_lines
from halfhank.renderer.schematic.fabric.shading import fabric_group
from halfhank.renderer.schematic.fabric.textures import textures_of
from halfhank.renderer.schematic.heading import heading
from halfhank.renderer.schematic.legend import legend
from halfhank.renderer.schematic.options import Options, check
from halfhank.renderer.schematic.page_facts import facts_block, remarks, shawl_facts
from halfhank.renderer.schematic.parts_table import parts_table
from halfhank.renderer.schematic.skein_ruler import ruler
from halfhank.renderer.text_alternatives.shawl_description import describe_shawl

CONTENT_MM = 122.0
"""The least width of the column of text, so that small pieces still have room for their words."""


def draw_schematic(shawl: Shawl, options: Options = Options()) -> Scene:  # noqa: B008 (immutable)
    """The page for a shawl. Raises `OptionError` for options that cannot be followed."""
    check(options)
    if options.units is not None:
        shawl = shawl._replace(units=options.units)
    scale, layout = _choose_scale(shawl, options)
    return _page(shawl, layout, scale, options)


def _choose_scale(shawl: Shawl, options: Options) -> tuple[float, DrawingLayout]:
    if options.scale is not None:
        return options.scale, with_dimensions(place_annotations(shawl, options.scale, CONTENT_MM), edges_too=True)
    if options.width_mm is not None:
        return _scale_for_width(shawl, options.width_mm)
    size = shawl.outline.size
    for scale in scales():
        wide, high = 10 * size.wingspan_cm / scale, 10 * size.depth_cm / scale
        if wide <= WIDEST_MM - 2 * MARGIN and high <= TALLEST_MM:
            annotations = place_annotations(shawl, scale, CONTENT_MM)
            for edges_too in (True, False):
                layout = with_dimensions(annotations, edges_too)
                if page_width(layout) <= WIDEST_MM:
                    return scale, layout
    raise AssertionError("the scales have no end")


def _scale_for_width(shawl: Shawl, width: float) -> tuple[float, DrawingLayout]:
    """The scale at which the page is so wide; lengths along edges become words where the piece gains a fifth by it."""
    room = width - 2 * MARGIN
    scale, layout = _fitted(shawl, room, edges_too=True)
    larger, plain = _fitted(shawl, room, edges_too=False)
    return (larger, plain) if larger < scale / 1.2 else (scale, layout)


def _fitted(shawl: Shawl, room: float, edges_too: bool) -> tuple[float, DrawingLayout]:
    """The scale at which a sheet is so wide: what stands beside the piece keeps its size, so few tries are enough."""
    wingspan_mm = 10 * shawl.outline.size.wingspan_cm
    piece = room
    for _ in range(8):
        layout = with_dimensions(place_annotations(shawl, wingspan_mm / piece, room), edges_too)
        if layout.bounds.width <= room + 0.005:
            break
        piece = max(piece - (layout.bounds.width - room), room / 5) if piece > room / 5 else piece * 0.7
    return wingspan_mm / piece, layout


def page_width(layout: DrawingLayout) -> float:
    """Width of the page that a sheet needs."""
    return max(layout.bounds.width, CONTENT_MM) + 2 * MARGIN


def _page(shawl: Shawl, layout: DrawingLayout, scale: float, options: Options) -> Scene:
    width = options.width_mm or page_width(layout)
    column = PageColumn(MARGIN, width - 2 * MARGIN)
    ramp = RAMPS[options.ramp]
    head = heading(shawl, column, MARGIN)
    shift_x = _shift(layout, column)
    top = head.bottom + 6.0
    drawing = drawing_group(layout, (shift_x, top - layout.bounds.top), ramp, options)
    skein = ruler(shawl, column, top + layout.bounds.height + 7.0, ramp, layout.marks)
    table = parts_table(shawl, column, skein.bottom + 4.5, ramp)
    swatches = legend(shawl, column, table.bottom + 4.5, ramp)
    step = edge_lines.contour_step(layout.piece) if options.contours else 0
    contours = [f"A fine line follows each {step:,g} {shawl.skein.unit} of yarn used."] if options.contours else []
    sentences = shawl_facts(shawl) + _measures(layout) + mark_notes(shawl) + contours + remarks(shawl)
    facts = facts_block(shawl, column, swatches.bottom + 2.0, sentences, scale)
    groups = (head.group, drawing, skein.group, table.group, swatches.group, facts.group)
    return Scene(width, facts.bottom + MARGIN, shawl.title, describe_shawl(shawl, scale), groups)


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
