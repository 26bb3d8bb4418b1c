"""The picture between layout and export: frozen items in mm, x to the right and y downwards, nothing about files."""

from halfhank.grammar.record import NamedTuple

PathData = tuple[tuple[str, tuple[float, ...]], ...]


class Style(NamedTuple):
    """Paint of a shape: colours as `#rrggbb` or None, widths and dashes in mm."""

    fill: str | None = None
    stroke: str | None = None
    width: float = 0.0
    dash: tuple[float, ...] = ()
    cap: str = "butt"
    join: str = "round"


class Path(NamedTuple):
    """A path of SVG commands in absolute coordinates: `("M", (x, y))`, `("L", …)`, `("C", …)`, `("Z", ())`.

    `title` is shown on hovering.
    """

    data: PathData
    style: Style
    title: str | None = None


class Circle(NamedTuple):
    """A circle."""

    x: float
    y: float
    radius: float
    style: Style


class Rect(NamedTuple):
    """An upright rectangle."""

    x: float
    y: float
    width: float
    height: float
    style: Style


class Label(NamedTuple):
    """One line of text: `x`, `y` is its baseline's start, middle or end (`anchor`); `size` the font size in mm.

    `face` is `sans` or `serif`; `turn` is degrees clockwise about (x, y).
    """

    x: float
    y: float
    text: str
    size: float
    fill: str
    face: str = "sans"
    bold: bool = False
    anchor: str = "start"
    turn: float = 0


class Group(NamedTuple):
    """Items under one id of meaning (`shading`, `marks`, `ruler` …), drawn in order; `title` is shown on hovering.

    `clip` confines them to a closed path.
    """

    name: str
    items: tuple["Element", ...]
    title: str | None = None
    clip: PathData | None = None


Element = Path | Circle | Rect | Label | Group


class Scene(NamedTuple):
    """A page of `width` by `height` mm with its title and description for people who do not see it.

    `sheet`: whether a white sheet lies under everything, which is no item; without it the page is transparent.
    """

    width: float
    height: float
    title: str
    description: str
    items: tuple[Element, ...]
    sheet: bool = True


def moved(group: Group, by: tuple[float, float]) -> Group:
    """The group with all that is in it so much further to the right and down, mm."""
    clip = None if group.clip is None else _moved_data(group.clip, *by)
    return group._replace(items=tuple([_moved_item(item, by) for item in group.items]), clip=clip)


def _moved_item(item: Element, by: tuple[float, float]) -> Element:
    if isinstance(item, Group):
        return moved(item, by)
    if isinstance(item, Path):
        return item._replace(data=_moved_data(item.data, *by))
    return item._replace(x=item.x + by[0], y=item.y + by[1])


def _moved_data(data: PathData, x: float, y: float) -> PathData:
    return tuple(
        [
            (letter, (numbers[0] + x, numbers[1] + y))
            if len(numbers) == 2
            else (letter, tuple([value + (y if k % 2 else x) for k, value in enumerate(numbers)]))
            for letter, numbers in data
        ]
    )
