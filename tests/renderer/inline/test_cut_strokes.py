"""Hatchings cut at their clips: the areas are those that the clip would leave, by another library's geometry."""

import pytest
import shapely
from halfhank import plan
from halfhank.model.weighings.forecast import forecast
from halfhank.renderer.charts.yarn_chart import yarn_chart
from halfhank.renderer.inline.cut_strokes import cut_strokes
from halfhank.renderer.paper.scene import Circle, Element, Group, Path, PathData, Scene, Style

from tests.cli.running import GOOD
from tests.renderer import checks

BOX: PathData = (("M", (0.0, 0.0)), ("L", (10.0, 0.0)), ("L", (10.0, 4.0)), ("L", (0.0, 4.0)), ("Z", ()))
SLANTED: PathData = (("M", (-2.0, 4.0)), ("L", (1.0, 0.0)), ("M", (3.0, 5.0)), ("L", (6.0, -1.0)), ("M", (20.0, 4.0)))
SLANTED += (("L", (22.0, 0.0)),)
STROKE = Style(stroke="#000000", width=0.6)


def cut(*items: Element, clip: PathData | None = BOX) -> Group:
    (group,) = cut_strokes(Scene(20, 20, "", "", (Group("outer", (Group("g", items, clip=clip),)),))).items
    assert isinstance(group, Group) and isinstance(group.items[0], Group)
    return group.items[0]


def polygons(path: Path) -> shapely.Geometry:
    closed = [k for k, (letter, _) in enumerate(path.data) if letter == "Z"]
    runs = [path.data[a + 1 : b] for a, b in zip([-1, *closed[:-1]], closed, strict=True)]
    return shapely.union_all([shapely.Polygon([numbers for _, numbers in run]) for run in runs])


@pytest.mark.parametrize("clip", [BOX, (*[("L" if k else "M", p[1]) for k, p in enumerate(BOX[3::-1])], ("Z", ()))])
def test_strokes_are_the_areas_that_the_clip_leaves(clip: PathData) -> None:
    group = cut(Path(SLANTED, STROKE), clip=clip)
    (path,) = group.items
    assert group.clip is None and isinstance(path, Path) and path.style == Style(fill="#000000")
    lines = [shapely.LineString([SLANTED[k][1], SLANTED[k + 1][1]]) for k in (0, 2, 4)]
    wanted = shapely.union_all([line.buffer(0.3, cap_style="flat") for line in lines]) & shapely.box(0, 0, 10, 4)
    assert wanted.area > 3 and polygons(path).symmetric_difference(wanted).area < 1e-9


@pytest.mark.parametrize(
    "item",
    [
        Circle(1, 1, 1, STROKE),
        Path(SLANTED, STROKE._replace(dash=(1.0, 1.0))),
        Path(SLANTED, STROKE._replace(cap="round")),
        Path((("M", (0.0, 0.0)), ("C", (1.0, 1.0, 2.0, 1.0, 3.0, 3.0))), STROKE),
    ],
)
def test_other_things_keep_their_clip(item: Element) -> None:
    assert cut(item) == Group("g", (item,), clip=BOX)


def test_a_clip_that_is_not_convex_stays() -> None:
    arrow: PathData = (*BOX[:2], ("L", (4.0, 2.0)), *BOX[2:])
    strokes = Path(SLANTED, STROKE)
    assert cut(strokes, clip=arrow) == Group("g", (strokes,), clip=arrow)
    assert cut(strokes, clip=None) == Group("g", (strokes,))


def test_a_charts_hatchings_are_all_cut() -> None:
    made = plan(GOOD).plan
    assert made is not None
    scene = yarn_chart(made.shawl, forecast(made))
    clipped = [group.name for group in checks.groups(scene.items) if group.clip is not None]
    assert {"bind-off-column", "bind-off-yarn"} <= set(clipped)
    assert not [group for group in checks.groups(cut_strokes(scene).items) if group.clip is not None]
