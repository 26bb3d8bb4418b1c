"""The schematic: everything put together on one page, from the title down to the scale bar."""

from typing import NamedTuple

from halfhank.model.shawl import Shawl
from halfhank.renderer import edges, legend
from halfhank.renderer.arrangement import Arrangement, moved
from halfhank.renderer.badges import Badge, badge_group, inner_badges, outer_badges
from halfhank.renderer.block import Column
from halfhank.renderer.dimensions import Dimension, along_edge, depth, spine, wingspan
from halfhank.renderer.direction import Arrow, arrow_group, arrow_of
from halfhank.renderer.flags import Flag, flag_group, place_flags
from halfhank.renderer.frame import LEFT, RIGHT, Frame
from halfhank.renderer.geometry import Box, Points, length_of
from halfhank.renderer.heading import heading
from halfhank.renderer.marks import DrawnMark, drawn_marks, mark_lines, mark_notes
from halfhank.renderer.options import NARROWEST_MM, TALLEST_MM, WIDEST_MM, Options, check, scales
from halfhank.renderer.parts import parts_table
from halfhank.renderer.ramp import RAMPS, Ramp
from halfhank.renderer.ruler import ruler
from halfhank.renderer.scene import Group, Item, Scene
from halfhank.renderer.shading import fabric_group
from halfhank.renderer.style import MARGIN
from halfhank.renderer.textures import patterns_of
from halfhank.renderer.words import length_words

CONTENT_MM = 122.0
"""The least width of the column of text, so that small pieces still have room for their words."""


class Sheet(NamedTuple):
    """The drawing laid out in the piece's own mm: what surrounds the fabric, and the box around it all."""

    frame: Frame
    marks: list[DrawnMark]
    flags: list[Flag]
    badges: list[Badge]
    dimensions: list[Dimension]
    untold: list[str]
    arrow: Arrow | None
    bounds: Box


def schematic(shawl: Shawl, options: Options = Options()) -> Scene:  # noqa: B008 (immutable)
    """The page for a shawl. Raises `OptionError` for options that cannot be followed."""
    check(options)
    if options.units is not None:
        from dataclasses import replace

        shawl = replace(shawl, units=options.units)
    scale, sheet = _choose_scale(shawl, options)
    return _page(shawl, sheet, scale, options)


def _choose_scale(shawl: Shawl, options: Options) -> tuple[float, Sheet]:
    if options.scale is not None:
        return options.scale, lay_out(shawl, options.scale)
    if options.width_mm is not None:
        return _scale_for_width(shawl, options.width_mm)
    size = shawl.outline.size
    for scale in scales():
        wide, high = 10 * size.wingspan_cm / scale, 10 * size.depth_cm / scale
        if wide <= WIDEST_MM - 2 * MARGIN and high <= TALLEST_MM:
            for edges_too in (True, False):
                sheet = lay_out(shawl, scale, edges_too=edges_too)
                if page_width(sheet) <= WIDEST_MM:
                    return scale, sheet
    raise AssertionError("the scales have no end")


def _scale_for_width(shawl: Shawl, width: float) -> tuple[float, Sheet]:
    """The scale at which the page is so wide: what stands beside the piece keeps its size, so a second try is exact."""
    room = width - 2 * MARGIN
    scale = 10 * shawl.outline.size.wingspan_cm / room
    sheet = lay_out(shawl, scale, room)
    for _ in range(6):
        beside = sheet.bounds.width - sheet.frame.width
        scale = 10 * shawl.outline.size.wingspan_cm / max(room - beside, room / 4)
        sheet = lay_out(shawl, scale, room)
        if sheet.bounds.width <= room + 0.005:
            break
    return scale, sheet


def page_width(sheet: Sheet) -> float:
    """Width of the page that a sheet needs."""
    return max(sheet.bounds.width, CONTENT_MM) + 2 * MARGIN


def lay_out(shawl: Shawl, scale: float, content: float = CONTENT_MM, edges_too: bool = True) -> Sheet:
    """Places everything around the fabric, from the inside outwards, each thing clear of those before it.

    Without `edges_too` the lengths of sides and last edge are told in words only, which takes less room.
    """
    frame = Frame(shawl, 10 / scale)
    overhang = edges.OVERHANG.get(shawl.bind_off.method, 0.3)
    marks = drawn_marks(shawl)
    taken = Arrangement(Box(0, 0, frame.width, frame.height).grown(overhang))
    lines: list[Points] = [frame.points(mark.row) for mark in marks]
    arrow = arrow_of(frame, lines)
    if shawl.outline.spine:
        lines.append([(x * frame.mm, y * frame.mm) for x, y in shawl.outline.spine])
    if arrow is not None:
        lines.append([arrow.tail, arrow.tip])
    inner = inner_badges(frame, lines, taken)
    spare = max(0.0, content - frame.width) / 2
    flags = place_flags(frame, marks, taken, (-spare, frame.width + spare), overhang)
    missing = [k for k in range(1, len(shawl.parts) + 1) if k not in inner]
    outer = outer_badges(frame, missing, taken, overhang)
    dimensions, untold = _dimensions(frame, taken, overhang, edges_too)
    return Sheet(frame, marks, flags, [*inner.values(), *outer], dimensions, untold, arrow, taken.bounds)


def _dimensions(
    frame: Frame, taken: Arrangement, overhang: float, edges_too: bool
) -> tuple[list[Dimension], list[str]]:
    """All dimensions that find room, and what must be told in words instead."""
    placed: list[Dimension] = []
    untold: list[str] = []
    for name, cm, points in edge_candidates(frame):
        found = along_edge(frame, taken, overhang, name, cm, points) if points and edges_too else None
        if found is None:
            untold.append(f"{name} {length_words(cm, frame.shawl.units)}")
        else:
            found.take(taken)
            placed.append(found)
    upright = depth(frame, taken, overhang)
    side = LEFT if upright.label.x > frame.width / 2 else RIGHT
    along = spine(frame, taken, overhang, side)
    span = wingspan(frame, taken, overhang)
    for dimension in (upright, along, span):
        if dimension is not None:
            dimension.take(taken)
            placed.append(dimension)
    size = frame.shawl.outline.size
    if along is None and size.spine_cm is not None:
        untold.insert(0, f"spine {length_words(size.spine_cm, frame.shawl.units)}")
    return placed, untold


Candidate = tuple[str, float, list[tuple[float, float]]]


def edge_candidates(frame: Frame) -> list[Candidate]:
    """Edges worth a dimension: name, length in cm, and points with the outside on their right (none: in words only)."""
    size, units = frame.shawl.outline.size, frame.shawl.units
    told = {length_words(size.wingspan_cm, units), length_words(size.depth_cm, units)}
    found: list[Candidate] = []
    last = frame.points(frame.last)[::-1]
    arms = size.sides_cm is not None and abs(sum(size.sides_cm) - size.last_row_cm) < 0.01 * size.last_row_cm
    if arms and size.sides_cm is not None:
        half = len(frame.curve(frame.last).pieces) // 2
        left = frame.points(frame.last)[: half + 1] if half else []
        found.append(("side", size.sides_cm[0], left[::-1]))
        found.append(("last edge", size.last_row_cm, []))
        return [c for c in found if length_words(c[1], units) not in told]
    if size.sides_cm is not None and frame.shawl.outline.sideways:
        for side, name, cm in ((LEFT, "upper edge", size.sides_cm[0]), (RIGHT, "lower edge", size.sides_cm[1])):
            edge = frame.edge(side, 0, frame.last)
            found.append((name, cm, edge if side == LEFT else edge[::-1]))
    elif size.sides_cm is not None:
        found.append(("side", size.sides_cm[0], frame.edge(LEFT, 0, frame.last)[::-1]))
    found.append(("last edge", size.last_row_cm, last))
    chosen = [c for c in found if length_words(c[1], units) not in told and c[1] * frame.mm > 1]
    return [(name, cm, points if length_of(points) > 24 and len(points) < 400 else []) for name, cm, points in chosen]


def _page(shawl: Shawl, sheet: Sheet, scale: float, options: Options) -> Scene:
    width = options.width_mm or page_width(sheet)
    column = Column(MARGIN, width - 2 * MARGIN)
    ramp = RAMPS[options.ramp]
    head = heading(shawl, column, MARGIN)
    shift_x = column.left + (column.width - sheet.bounds.width) / 2 - sheet.bounds.left
    top = head.bottom + 6.0
    drawing = drawing_group(sheet, (shift_x, top - sheet.bounds.top), ramp, options)
    skein = ruler(shawl, column, top + sheet.bounds.height + 7.0, ramp, sheet.marks)
    table = parts_table(shawl, column, skein.bottom + 4.5)
    swatches = legend.legend(shawl, column, table.bottom + 4.5, ramp)
    told = legend.shawl_facts(shawl) + _measures(sheet) + mark_notes(shawl)
    facts = legend.facts(shawl, column, swatches.bottom + 2.0, told, scale)
    groups = (head.group, drawing, skein.group, table.group, swatches.group, facts.group)
    return Scene(width, facts.bottom + MARGIN, shawl.title, describe(shawl, scale), groups)


def _measures(sheet: Sheet) -> list[str]:
    if not sheet.untold:
        return []
    words = ", ".join(sheet.untold)
    return [words[0].upper() + words[1:]]


def drawing_group(sheet: Sheet, shift: tuple[float, float], ramp: Ramp, options: Options) -> Group:
    """The drawing at its place on the page, from the fabric up to the dimensions."""
    frame = sheet.frame
    frame.shift = shift
    items: list[Item] = [
        Group("edge-behind", tuple(edges.edge_behind(frame))),
        fabric_group(frame, patterns_of(frame.shawl), ramp),
        edges.part_bounds(frame),
        edges.spine_line(frame),
    ]
    if options.contours:
        items.append(edges.contour_lines(frame))
    items += [edges.side_lines(frame), edges.edge_before(frame), edges.start_line(frame)]
    items.append(mark_lines(frame, sheet.marks))
    loose: list[Item] = [dimension.group for dimension in sheet.dimensions]
    if sheet.arrow is not None:
        loose.append(arrow_group(sheet.arrow, frame, ramp))
    loose += [flag_group(sheet.flags), badge_group(sheet.badges)]
    return Group("drawing", (*items, *[moved(item, shift) for item in loose]))


def describe(shawl: Shawl, scale: float) -> str:
    """The drawing in one or two sentences, for those who do not see it."""
    size = shawl.outline.size
    parts = ", ".join(part.name for part in shawl.parts[:8])
    return (
        f"{shawl.summary}. Drawn at 1:{scale:.4g}: {length_words(size.wingspan_cm, shawl.units)} wide and "
        f"{length_words(size.depth_cm, shawl.units)} deep, {shawl.rows.count} rows. Parts: {parts}."
    )


MINIMUM = NARROWEST_MM
