"""Flags: the words of a mark outside its row's end, in lanes above, below or beside the piece, with a leader each."""

from collections.abc import Iterator
from itertools import combinations, permutations, product

from halfhank.grammar.record import NamedTuple
from halfhank.model.outline.curve import Point
from halfhank.model.outline.region import LEFT, RIGHT
from halfhank.renderer.paper.house_style import LIGHT, RED, TEXT, THIN
from halfhank.renderer.paper.scene import Circle, Element, Group, Label, Path, Style
from halfhank.renderer.paper.text_widths import CAP_HEIGHT, text_width
from halfhank.renderer.plane.boxes import Box
from halfhank.renderer.plane.crossings import crosses, lines_meet
from halfhank.renderer.plane.obstacles import Obstacles
from halfhank.renderer.plane.path_data import polyline
from halfhank.renderer.plane.polygons import inside
from halfhank.renderer.plane.polylines import Points
from halfhank.renderer.plane.spreading import spread
from halfhank.renderer.plane.text_boxes import label_box
from halfhank.renderer.schematic.fabric.drawn_marks import DrawnMark
from halfhank.renderer.schematic.fabric.drawn_piece import DrawnPiece

LANE, LINE = 5.0, 4.2
FIRST_LANE = 3.2
APART = 2.4
ROOM = 1.0
"""What stays free around a flag's words, mm."""
OFF_LINE = 0.8
"""What is between a flag's words and the extension lines of the wingspan, mm."""
UP, DOWN, LEFTWARDS, RIGHTWARDS = "up", "down", "left", "right"
FAR = 1e6


class Exit(NamedTuple):
    """Where a mark's leader leaves the piece, and in which direction it sees no fabric."""

    point: Point
    direction: str


class Flag(NamedTuple):
    """A placed flag: its leader from the row's end, and its lines of text, all in one ink."""

    leader: tuple[Point, ...]
    labels: tuple[Label, ...]

    @property
    def ink(self) -> str:
        """The ink of its words, leader and dot."""
        return self.labels[0].fill

    def add_to(self, obstacles: Obstacles) -> None:
        """Makes the flag an obstacle."""
        obstacles.add_line(self.leader)
        for label in self.labels:
            obstacles.add_label(label)


def exit_of(piece: DrawnPiece, row: int) -> Exit:
    """The end of a row from which a leader sees no fabric; downwards first where the piece is worked sideways."""
    left, right = piece.end(LEFT, row), piece.end(RIGHT, row)
    if piece.shawl.outline.sideways:
        choices = [(right, DOWN), (left, UP), (right, RIGHTWARDS), (left, LEFTWARDS), (right, UP), (left, DOWN)]
    else:
        choices = [(right, UP), (left, UP), (right, DOWN), (right, RIGHTWARDS), (left, DOWN), (left, LEFTWARDS)]
    for point, direction in choices:
        if _clear(piece.silhouette, point, direction):
            return Exit(point, direction)
    return Exit(right, RIGHTWARDS)


def corridor(piece: DrawnPiece, row: int) -> tuple[Point, ...]:
    """The path of a mark's leader for its first 30 mm; beside the piece also the room of its text."""
    (x, y), direction = exit_of(piece, row)
    if direction in (UP, DOWN):
        return ((x, y), (x, y + (30 if direction == DOWN else -30)))
    sign = 1 if direction == RIGHTWARDS else -1
    return tuple((x + sign * dx, y + dy) for dx, dy in ((2, -4), (35, -4), (35, 0), (2, 0), (2, 4), (35, 4)))


def _clear(silhouette: Points, point: Point, direction: str) -> bool:
    """Whether nothing of the outline lies ahead, a corridor of 1.2 mm to each side and the first 2.5 mm left out."""
    x, y = point
    ahead = {
        UP: Box(x - 1.2, -FAR, x + 1.2, y - 2.5),
        DOWN: Box(x - 1.2, y + 2.5, x + 1.2, FAR),
        LEFTWARDS: Box(-FAR, y - 1.2, x - 2.5, y + 1.2),
        RIGHTWARDS: Box(x + 2.5, y - 1.2, FAR, y + 1.2),
    }[direction]
    near = {UP: (x, y - 1.0), DOWN: (x, y + 1.0), LEFTWARDS: (x - 1.0, y), RIGHTWARDS: (x + 1.0, y)}[direction]
    closed = [*silhouette, silhouette[0]]
    return not crosses(closed, ahead) and not inside(near, silhouette)


def place_flags(
    piece: DrawnPiece, marks: list[DrawnMark], obstacles: Obstacles, limits: tuple[float, float], overhang: float
) -> list[Flag] | None:
    """All flags, placed among the obstacles; None where they do not all find room.

    `limits` are the leftmost and rightmost place of a text.
    """
    exits = [(mark, exit_of(piece, mark.row)) for mark in marks]
    placed: list[Flag] = []
    for direction in (UP, DOWN, RIGHTWARDS, LEFTWARDS):
        group = sorted([(e.point, m) for m, e in exits if e.direction == direction], key=lambda item: item[0])
        if direction in (UP, DOWN):
            flags = _in_lanes(piece, group, direction, obstacles, limits, overhang)
        else:
            flags = _beside(piece, sorted(group, key=lambda item: item[0][1]), direction, obstacles, limits)
        if flags is None:
            return None
        for flag in flags:
            flag.add_to(obstacles)
        placed += flags
    return placed


ExitMarks = list[tuple[Point, DrawnMark]]


def _in_lanes(
    piece: DrawnPiece,
    group: ExitMarks,
    direction: str,
    obstacles: Obstacles,
    limits: tuple[float, float],
    overhang: float,
) -> list[Flag] | None:
    """The cheapest lanes and sides at which no text meets another, a foreign leader or what is there already.

    In two lines are the texts that find no room in one, or none clear of the wingspan's extension lines; where that is
    not enough, all of them, and then those lines are broken.
    """
    xs = spread([point[0] for point, _ in group], APART, *limits)

    def options(whole: bool) -> list[list[PricedFlag]]:
        return [
            list(_lane_options(piece, p, x, m, direction, len(group), overhang, whole))
            for (p, m), x in zip(group, xs, strict=True)
        ]

    choices = [options(True), options(False)]
    if direction == UP:
        clear, broken = ([_clear_of_extensions(piece, priced) for priced in choice] for choice in choices)
        mixed = [c if _with_room(c, obstacles, limits) else b for c, b in zip(clear, broken, strict=True)]
        choices = [mixed, broken, *choices]
    tries = (_cheapest(choice, obstacles, limits) for choice in choices)
    return next((flags for flags in tries if flags is not None), None)


PricedFlag = tuple[float, Flag]


def _clear_of_extensions(piece: DrawnPiece, options: list[PricedFlag]) -> list[PricedFlag]:
    """Those whose words lie beside the upward lines at the piece's ends, from which the wingspan is measured."""
    return [
        (price, flag)
        for price, flag in options
        if not any(
            box.left - OFF_LINE < x < box.right + OFF_LINE
            for x in (0.0, piece.width)
            for box in map(label_box, flag.labels)
        )
    ]


class BoxedFlag(NamedTuple):
    """A flag that finds room by itself, its price, and the boxes of its texts."""

    price: float
    flag: Flag
    boxes: list[Box]


def _cheapest(options: list[list[PricedFlag]], obstacles: Obstacles, limits: tuple[float, float]) -> list[Flag] | None:
    """One of each flag's options, so that all go together at the lowest price; None where no choice does."""
    best: tuple[float, list[Flag]] | None = None
    for choice in product(*[_with_room(group, obstacles, limits) for group in options]):
        cost = sum(one.price for one in choice)
        if (best is None or cost < best[0]) and _compatible(choice):
            best = (cost, [one.flag for one in choice])
    return best[1] if best else None


def _with_room(options: list[PricedFlag], obstacles: Obstacles, limits: tuple[float, float]) -> list[BoxedFlag]:
    """Those that keep to the limits and meet no obstacle."""
    boxed = (BoxedFlag(price, flag, [label_box(label) for label in flag.labels]) for price, flag in options)
    return [
        one
        for one in boxed
        if all(limits[0] <= box.left and box.right <= limits[1] and obstacles.free(box, ROOM) for box in one.boxes)
        and obstacles.line_free(one.flag.leader[1:])
    ]


def _lane_options(
    piece: DrawnPiece,
    point: Point,
    x: float,
    mark: DrawnMark,
    direction: str,
    lanes: int,
    overhang: float,
    whole: bool,
) -> Iterator[PricedFlag]:
    """Every lane and side of one flag with its price: further out costs more, pointing away from the middle a bit."""
    sign = -1 if direction == UP else 1
    edge = -overhang if direction == UP else piece.height + overhang
    texts = (mark.words,) if whole else tuple(filter(None, mark.lines))
    deep = LINE * (len(texts) - 1)
    for lane in range(lanes + 3):
        for side in ("end", "start"):
            near = edge + sign * (FIRST_LANE + lane * (LANE + deep))
            first = near - deep if sign < 0 else near + TEXT * CAP_HEIGHT
            tip = first - TEXT * CAP_HEIGHT if sign < 0 else first + deep
            gap = -1.0 if side == "end" else 1.0
            labels = [
                Label(x + gap, first + k * LINE, text, TEXT, mark.ink, anchor=side) for k, text in enumerate(texts)
            ]
            away = (side == "start") == (x > piece.width / 2)
            yield lane + (0.3 if away else 0.0), Flag(_leader(point, x, tip, sign), tuple(labels))


def _leader(point: Point, x: float, tip: float, sign: int) -> tuple[Point, ...]:
    """Straight up or down, after a short slant where the leader had to move aside."""
    if abs(x - point[0]) < 0.01:
        return (point, (x, tip))
    return (point, (x, point[1] + sign * 1.8), (x, tip))


def _compatible(flags: tuple[BoxedFlag, ...]) -> bool:
    """Whether no text or leader of one meets another's."""
    for one, other in permutations(flags, 2):
        if _runs_into(other.flag.leader, one.boxes) or lines_meet(other.flag.leader, one.flag.leader):
            return False
    return not any(
        box.grown(0.3).meets(others)
        for one, other in combinations(flags, 2)
        for box in one.boxes
        for others in other.boxes
    )


def _runs_into(line: Points, boxes: list[Box]) -> bool:
    return any(crosses(line, box.grown(0.6)) for box in boxes)


def _beside(
    piece: DrawnPiece, group: ExitMarks, direction: str, obstacles: Obstacles, limits: tuple[float, float]
) -> list[Flag] | None:
    """Texts at the height of their rows' ends, in two lines where the room is narrow, apart where rows lie close."""
    if not group:
        return []
    sign = 1 if direction == RIGHTWARDS else -1
    start = piece.width + 5.5 if sign > 0 else -5.5
    room = max(limits[1] - start, 27.0) if sign > 0 else max(start - limits[0], 27.0)
    whole = all(text_width(mark.words, TEXT) <= room for _, mark in group)
    texts = [[mark.words] if whole else list(mark.lines) for _, mark in group]
    pitch = LANE * (1 if whole else 1.85)
    heights = spread([point[1] for point, _ in group], pitch, -FAR, FAR)
    flags = []
    for (point, mark), lines, y in zip(group, texts, heights, strict=True):
        edge = piece.width if sign > 0 else 0.0
        bent = ((edge + sign * 1.6, point[1]), (edge + sign * 4.4, y)) if abs(y - point[1]) > 0.01 else ()
        leader = (point, *bent, (start - sign * 0.8, y))
        first = y + TEXT * CAP_HEIGHT / 2 - (len(lines) - 1) * LINE / 2
        anchor = "start" if sign > 0 else "end"
        labels = [Label(start, first + k * LINE, text, TEXT, mark.ink, anchor=anchor) for k, text in enumerate(lines)]
        flags.append(Flag(leader, tuple(labels)))
    free = all(obstacles.free(label_box(label), ROOM) for flag in flags for label in flag.labels)
    clear = all(obstacles.line_free(flag.leader[1:]) for flag in flags)
    crossed = any(lines_meet(flag.leader, line) for flag in flags for line in obstacles.lines)
    return flags if free and clear and not crossed else None


def flag_group(flags: list[Flag]) -> Group:
    """Leaders with a dot on the row's end, and the words."""
    items: list[Element] = []
    for flag in flags:
        data = polyline(flag.leader)
        items.append(Path(data, Style(stroke=flag.ink, width=THIN + 0.05)))
        items.append(Circle(*flag.leader[0], 0.85 if flag.ink == RED else 0.65, Style(flag.ink, LIGHT, THIN)))
        items.extend(flag.labels)
    return Group("flags", tuple(items))
