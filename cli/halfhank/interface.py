"""Halfhank from Python: a description's text to its plan, and to a drawing. The commands go the same way.

It comes in with the package, before the command has done anything: so it imports nothing by itself.
"""

TYPE_CHECKING = False
if TYPE_CHECKING:
    from collections.abc import Callable, Sequence

    from halfhank.grammar.problems.problem import Problem
    from halfhank.model.plan import Plan, Planned
    from halfhank.renderer.paper.scene import Scene


class DescriptionError(ValueError):
    """A description with mistakes where a drawing was asked for; `problems` are all that were found, with places."""

    def __init__(self, problems: "Sequence[Problem]") -> None:
        first = problems[0]
        place = f"line {first.span.line}: " if first.span else ""
        super().__init__(f"{place}{first.message}")
        self.problems = tuple(problems)


def plan(text: str | bytes) -> "Planned":
    """The plan of a description, given as text or as the bytes of a file in UTF-8.

    What comes back has the `plan` (None where mistakes are in the way) and all `problems`, mistakes and advice, in the
    order of the file. `plan.shawl` holds every row, band and part, the outline in cm, the yarn in g, the marks. Nothing
    that a person may write raises.
    """
    from halfhank.grammar.parse import parse, parse_bytes
    from halfhank.model.planning.planning import plan_parsed

    return plan_parsed(parse(text) if isinstance(text, str) else parse_bytes(text))


def draw(
    text: "str | bytes | Plan",
    *,
    format: str = "svg",
    scale: float | None = None,
    width_mm: float | None = None,
    units: str | None = None,
    ramp: str = "tide",
    contours: bool = False,
    height_mm: float | None = None,
    only: str | None = None,
    transparent: bool = False,
    as_planned: bool = False,
    without: str | None = None,
    embed: bool = False,
) -> bytes:
    """The schematic of a description, or of a plan made before, as the bytes of a file.

    `format` is `svg`, `png` or `pdf`. `scale` is the N of 1:N; in its place `width_mm` gives the page's width; without
    either the largest round scale is taken that fits a page. `units` (`cm` or `in`) lead; else the description's do.
    `ramp` is `tide` or `haze`; `contours` draws a line every 10 g (0.5 oz) of yarn, or in larger steps.
    `height_mm` is the most that the page may be high; `only="drawing"` leaves out title, skein, table and remarks;
    `without="table"` leaves out the table of parts alone, and a key names the parts; `transparent` leaves out the white
    sheet.
    `as_planned` leaves the log out: the shawl is drawn as it was before anything was weighed.
    `embed` gives the `svg` element alone, to stand inline in a page of HTML: as wide as its place there, without ids
    and style rules; a transparent one takes the page's colour of text.

    Raises `DescriptionError` for a description with mistakes, `halfhank.renderer.OptionError` (a `ValueError`) for
    options that no drawing can follow, and `halfhank.renderer.ExportError` where a PNG or PDF cannot be made.
    """
    from halfhank import renderer

    if format not in ("svg", "png", "pdf"):
        raise renderer.OptionError(f"a drawing is svg, png or pdf, not {format!r}")
    if embed and format != "svg":
        raise renderer.OptionError(f"a drawing to embed is svg, not {format}")
    options = renderer.Options(scale, width_mm, units, ramp, contours, height_mm, only, transparent, without)
    drawn = _drawable(text)
    if as_planned:
        drawn = _without_log(drawn)
    scene = renderer.draw_schematic(drawn.shawl, options)
    return _writer(format, embed)(scene)


def _writer(format_: str, embed: bool) -> "Callable[[Scene], bytes]":
    if embed:
        from halfhank.renderer.inline.inline_svg import to_inline_svg

        return to_inline_svg
    from halfhank import renderer

    write: Callable[[Scene], bytes] = getattr(renderer, f"to_{format_}")
    return write


def _drawable(text: "str | bytes | Plan") -> "Plan":
    if not isinstance(text, str | bytes):
        return text
    return _planned(plan(text))


def _without_log(made: "Plan") -> "Plan":
    from halfhank.model.planning.planning import plan_without_log

    return _planned(plan_without_log(made))


def _planned(planned: "Planned") -> "Plan":
    if planned.plan is None or planned.has_mistakes:
        raise DescriptionError(planned.problems)
    return planned.plan
