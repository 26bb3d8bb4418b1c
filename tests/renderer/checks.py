"""What holds for every scene, and the scene taken apart for the tests."""

from collections.abc import Callable, Iterator

from halfhank.model.outline.curve import Curve
from halfhank.renderer.paper.scene import Circle, Element, Group, Label, Path, PathData, Rect, Scene
from halfhank.renderer.plane.text_boxes import TextBox, text_box
from halfhank.renderer.schematic.fabric.drawn_piece import DrawnPiece

Point = tuple[float, float]
Boundary = Callable[[float, float], Curve]


def group(scene: Scene, name: str) -> Group:
    """The one group of that name."""
    (found,) = [g for g in groups(scene.items) if g.name == name]
    return found


def groups(items: tuple[Element, ...]) -> Iterator[Group]:
    """All groups, outer ones first."""
    for item in items:
        if isinstance(item, Group):
            yield item
            yield from groups(item.items)


def leaves(items: tuple[Element, ...]) -> Iterator[Element]:
    """All items that are no groups."""
    for item in items:
        if isinstance(item, Group):
            yield from leaves(item.items)
        else:
            yield item


def unclipped(items: tuple[Element, ...]) -> Iterator[Element]:
    """All items that no clip confines."""
    for item in items:
        if not isinstance(item, Group):
            yield item
        elif item.clip is None:
            yield from unclipped(item.items)


def texts(scene: Scene) -> list[str]:
    """All texts in drawing order."""
    return [item.text for item in leaves(scene.items) if isinstance(item, Label)]


def text_boxes(scene: Scene) -> list[TextBox]:
    """The boxes of all texts, in drawing order."""
    return [text_box(item) for item in leaves(scene.items) if isinstance(item, Label)]


def meetings(scene: Scene) -> list[tuple[str, str]]:
    """Pairs of texts that share room."""
    boxes = text_boxes(scene)
    pairs = [(a, b) for k, a in enumerate(boxes) for b in boxes[:k] if a.bounds.meets(b.bounds)]
    return [(a.label.text, b.label.text) for a, b in pairs if a.meets(b)]


def strays(scene: Scene) -> list[object]:
    """Items that leave the page, their strokes' widths included."""
    found: list[object] = [box.label for box in text_boxes(scene) if not _on_page(box_points(box), scene)]
    for item in unclipped(scene.items):
        if not isinstance(item, Label | Group) and not _on_page(points_of(item), scene, item.style.width / 2):
            found.append(item)
    return found


def box_points(box: TextBox) -> list[Point]:
    return list(box.corners)


def _on_page(points: list[Point], scene: Scene, margin: float = 0.0) -> bool:
    low, wide, high = margin - 1e-9, scene.width - margin + 1e-9, scene.height - margin + 1e-9
    return all(low <= x <= wide and low <= y <= high for x, y in points)


def points_of(item: Element) -> list[Point]:
    """Points that span an item."""
    match item:
        case Path():
            return flattened(item.data)
        case Circle():
            return [(item.x - item.radius, item.y - item.radius), (item.x + item.radius, item.y + item.radius)]
        case Rect():
            return [(item.x, item.y), (item.x + item.width, item.y + item.height)]
        case _:
            raise TypeError(item)


def flattened(data: PathData, steps: int = 48) -> list[Point]:
    """The points of a path, each cubic in equal steps of its parameter."""
    points: list[Point] = []
    for letter, numbers in data:
        pairs = list(zip(numbers[::2], numbers[1::2], strict=True))
        if letter in "ML":
            points += pairs
        elif letter == "C":
            a, (b, c, d) = points[-1], pairs
            points += [_bezier(a, b, c, d, k / steps) for k in range(1, steps + 1)]
    return points


def _bezier(a: Point, b: Point, c: Point, d: Point, t: float) -> Point:
    s = 1 - t
    i, j, k, m = s**3, 3 * s * s * t, 3 * s * t * t, t**3
    return i * a[0] + j * b[0] + k * c[0] + m * d[0], i * a[1] + j * b[1] + k * c[1] + m * d[1]


def strips(scene: Scene) -> list[Path]:
    """The filled strips of the fabric in drawing order."""
    return [p for p in leaves(group(scene, "fabric").items) if isinstance(p, Path) and p.style.fill]


def outline(piece: DrawnPiece) -> list[Point]:
    """The piece's outline straight from the model's boundaries, in mm from its upper left corner."""
    model, last, mm = piece.shawl.outline, piece.last, piece.mm
    ends = [(model.ends(row), model.ends(row, True)) for row in range(last + 1)]
    left = [p for before, after in ends for p in (before[0], after[0])]
    right = [p for before, after in ends for p in (before[1], after[1])]
    start, end = model.boundary(0, True).flattened(0.0005), model.boundary(last).flattened(0.0005)
    return [(x * mm, y * mm) for x, y in [*start, *right[2:-1], *end[::-1], *left[-2:1:-1]]]
