"""Straight strokes cut where their group's clip cuts them, as areas: whatever shows the drawing needs no clip then.

Polygons are cut by one edge of the clip after the other (Sutherland and Hodgman 1974), which takes a convex clip.
"""

import math
from itertools import pairwise

from halfhank.model.outline.curve import Point
from halfhank.renderer.paper.scene import Element, Group, Path, PathData, Scene, Style
from halfhank.renderer.plane.path_data import polyline

Polygon = list[Point]


def cut_strokes(scene: Scene) -> Scene:
    """The scene with its hatchings cut; other clips stay."""
    return scene._replace(items=_cut_all(scene.items))


def _cut_all(items: tuple[Element, ...]) -> tuple[Element, ...]:
    return tuple(_cut(item._replace(items=_cut_all(item.items))) if isinstance(item, Group) else item for item in items)


def _cut(group: Group) -> Group:
    """The group without its clip, where that is convex and all that is in it are straight strokes without gaps."""
    clip = None if group.clip is None else _straight(group.clip)
    if clip is None or not _is_convex(clip) or not all(_is_hatching(item) for item in group.items):
        return group
    areas = [_areas(item, clip) for item in group.items if isinstance(item, Path)]
    return group._replace(items=tuple(areas), clip=None)


def _is_hatching(item: Element) -> bool:
    if not isinstance(item, Path) or item.style.fill is not None or item.style.dash or item.style.cap != "butt":
        return False
    return [letter for letter, _ in item.data] == ["M", "L"] * (len(item.data) // 2)


def _areas(item: Path, clip: Polygon) -> Path:
    data: PathData = ()
    points = [(numbers[0], numbers[1]) for _, numbers in item.data]
    for start, end in zip(points[::2], points[1::2], strict=True):
        cut = _inside(_stroke(start, end, item.style.width), clip)
        data += (*polyline(cut), ("Z", ())) if len(cut) > 2 else ()
    return Path(data, Style(fill=item.style.stroke), item.title)


def _stroke(start: Point, end: Point, width: float) -> Polygon:
    """The four corners of a straight stroke."""
    (px, py), (qx, qy) = start, end
    length = math.dist(start, end) or 1.0
    nx, ny = -(qy - py) / length * width / 2, (qx - px) / length * width / 2
    return [(px + nx, py + ny), (qx + nx, qy + ny), (qx - nx, qy - ny), (px - nx, py - ny)]


def _inside(polygon: Polygon, clip: Polygon) -> Polygon:
    """What of a polygon lies in a convex one."""
    if _turns(clip)[0] < 0:
        clip = clip[::-1]
    for one, other in pairwise([*clip, clip[0]]):
        polygon = _beside(polygon, one, other)
    return polygon


def _beside(polygon: Polygon, one: Point, other: Point) -> Polygon:
    """What of a polygon lies on the right of a line, as seen on the page."""
    kept: Polygon = []
    for here, there in pairwise([*polygon, *polygon[:1]]):
        first, last = _side(one, other, here), _side(one, other, there)
        if first >= 0:
            kept.append(here)
        if first * last < 0:
            share = first / (first - last)
            kept.append((here[0] + share * (there[0] - here[0]), here[1] + share * (there[1] - here[1])))
    return kept


def _side(one: Point, other: Point, point: Point) -> float:
    return (other[0] - one[0]) * (point[1] - one[1]) - (other[1] - one[1]) * (point[0] - one[0])


def _straight(data: PathData) -> Polygon | None:
    """The corners of a closed path of straight lines, None for another one."""
    if [letter for letter, _ in data] != ["M", *["L"] * (len(data) - 2), "Z"]:
        return None
    return [(numbers[0], numbers[1]) for _, numbers in data[:-1]]


def _turns(polygon: Polygon) -> list[float]:
    around = [*polygon, *polygon[:2]]
    return [_side(*around[k : k + 3]) for k in range(len(polygon))]


def _is_convex(polygon: Polygon) -> bool:
    turns = _turns(polygon) if len(polygon) > 2 else [0.0]
    return all(turn > 0 for turn in turns) or all(turn < 0 for turn in turns)
