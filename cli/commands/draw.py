"""`halfhank draw`: the schematic, drawn to scale, as SVG, PNG or PDF."""

from typing import TYPE_CHECKING, Any

import click
from halfhank import draw
from halfhank.cli import drawing_files, files, planned_file, terminal
from halfhank.cli.click_options import EMBED, FileName, example, helped
from halfhank.cli.errors import ALL_WELL, MISTAKES, CommandError

if TYPE_CHECKING:
    from halfhank.model.plan import Plan
    from halfhank.renderer.schematic.options import Options

RAMPS = ("tide", "haze")


def _scale(context: click.Context, parameter: click.Parameter, text: str | None) -> float | None:
    """N of a scale written 1:N."""
    if text is None:
        return None
    number = text.removeprefix("1:")
    digits = number.replace(".", "", 1)
    if number == text or not (digits.isascii() and digits.isdigit()) or len(digits) > 12:
        raise click.BadParameter(f"{text!r} is not a scale; write it as 1:10", context, parameter)
    return float(number)


def _width(context: click.Context, parameter: click.Parameter, text: str | None) -> float | None:
    """A number of millimetres, whether `mm` is written after it or not."""
    if text is None:
        return None
    try:
        return float(text.removesuffix("mm"))
    except ValueError:
        raise click.BadParameter(f"{text!r} is not a number of mm", context, parameter) from None


@click.command("draw", epilog=example("halfhank draw mine.shawl -o mine.png --width 150"))
@click.argument("file", type=FileName())
@click.option("-o", "--output", metavar="OUT", type=FileName(), help="Where to draw: .svg, .png, .pdf, or - for SVG.")
@click.option("--scale", metavar="1:N", callback=_scale, help="The scale; else the largest round scale that fits.")
@click.option("--width", "width_mm", metavar="MM", callback=_width, help="The width in mm, in place of a scale.")
@click.option("--height", "height_mm", metavar="MM", callback=_width, help="The most that the page may be high, in mm.")
@click.option("--units", type=click.Choice(("cm", "in")), help="The units named first; else those of the description.")
@click.option("--ramp", type=click.Choice(RAMPS), default=RAMPS[0], show_default=True, help="Shading: haze saves ink.")
@click.option("--contours", is_flag=True, help="Draw a line every 10 g (0.5 oz) of yarn, or in larger steps.")
@click.option("--only", type=click.Choice(("drawing",)), help="Leave out title, skein, table and remarks.")
@click.option("--without", type=click.Choice(("table",)), help="Leave out the table of parts; a key names them.")
@click.option("--transparent", is_flag=True, help="Leave out the white sheet behind the drawing.")
@click.option("--embed", is_flag=True, help=EMBED)
@click.option("--as-planned", is_flag=True, help="Leave the log out: draw the plan before any weighing.")
@helped
def command(
    file: str,
    output: str | None,
    scale: float | None,
    width_mm: float | None,
    height_mm: float | None,
    units: str | None,
    ramp: str,
    contours: bool,
    only: str | None,
    without: str | None,
    transparent: bool,
    embed: bool,
    as_planned: bool,
) -> int:
    """Draw the schematic of FILE, shaded by the yarn used.

    NAME.shawl becomes NAME.svg in the same folder unless -o says otherwise. From standard input an SVG goes to standard
    output.
    """
    target = output if output is not None else drawing_files.beside(file)
    format_ = ".svg" if output is None else drawing_files.format_of(output)
    options = _options(scale, width_mm, units, ramp, contours, height_mm, only, transparent, without)
    found = planned_file.plan_file(file)
    found = found.without_log() if as_planned else found
    planned_file.print_problems(found)
    if found.plan is None:
        return MISTAKES
    files.write(target, _render(found.plan, options, format_, embed), found.source)
    if target != files.STANDARD:
        terminal.out(f"{terminal.safe(target)}\n")
    return ALL_WELL


def _options(*chosen: Any) -> "Options":
    from halfhank.renderer.schematic.options import OptionError, Options, check

    options = Options(*chosen)
    try:
        check(options)
    except OptionError as error:
        raise CommandError(str(error), "see halfhank draw --help") from error
    return options


def _render(plan: "Plan", options: "Options", format_: str, embed: bool) -> bytes:
    if embed:
        drawing_files.check_embedded(format_)
    return drawing_files.made(lambda: draw(plan, format=format_[1:], embed=embed, **options._asdict()))
