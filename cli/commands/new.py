"""`halfhank new`: a commented description to start from, one for every shape."""

import os

import click
from halfhank.cli import files
from halfhank.cli.click_options import FileName, example, helped
from halfhank.cli.errors import ALL_WELL, CommandError

SHAPES = ("triangle", "rectangle", "crescent", "half-circle", "tip-to-tip", "asymmetric")
_FOLDER = os.path.join(os.path.dirname(os.path.dirname(__file__)), "starters")


@click.command("new", epilog=example("halfhank new triangle -o mine.shawl"))
@click.argument("shape", metavar="[SHAPE]", type=click.Choice(SHAPES), default=SHAPES[0])
@click.option("-o", "--output", metavar="FILE", type=FileName(), default=files.STANDARD, help="Where to write it.")
@helped
def command(shape: str, output: str) -> int:
    """Write a commented description to start from.

    SHAPE is triangle (unless another is given), rectangle, crescent, half-circle, tip-to-tip or asymmetric. The
    description goes to standard output, or with -o to a file that does not exist yet.
    """
    if output != files.STANDARD and os.path.lexists(output):
        raise CommandError(f"{output} exists already: nothing was written", "give another name with -o")
    files.write(output, starter(shape))
    return ALL_WELL


def starter(shape: str) -> bytes:
    """The starting description of one of `SHAPES`."""
    with open(os.path.join(_FOLDER, f"{shape}.shawl"), "rb") as file:
        return file.read()
