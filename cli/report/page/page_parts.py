"""The parts of a pattern page by name, in their order, and which of them a page has."""

from halfhank.cli.errors import CommandError

SIZE, YARN, NEEDLES, GAUGE, NOTES, CONSTRUCTION = "size", "yarn", "needles", "gauge", "notes", "construction"
SCHEMATIC, INSTRUCTIONS, CHARTS, ABBREVIATIONS = "schematic", "instructions", "charts", "abbreviations"
CHECKPOINTS, SKEINS, YARN_CHART = "checkpoints", "skeins", "yarn-chart"
PARTS = (
    *(SIZE, YARN, NEEDLES, GAUGE, NOTES, CONSTRUCTION, SCHEMATIC, INSTRUCTIONS, CHARTS, ABBREVIATIONS),
    *(CHECKPOINTS, SKEINS, YARN_CHART),
)
"""All parts, in the order of the page."""
ON_REQUEST = frozenset({YARN_CHART})
"""Those that a page has only where they are asked for."""


def chosen_parts(without: tuple[str, ...] = (), asked: tuple[str, ...] = ()) -> frozenset[str]:
    """The parts of a page but for those `without`, with those `asked` for.

    Raises `CommandError` for a name that no part has, and for a part that is both.
    """
    for name in (*without, *asked):
        if name not in PARTS:
            raise CommandError(f"a page has no part {name!r}", f"its parts are {', '.join(PARTS)}")
    both = [name for name in asked if name in without]
    if both:
        raise CommandError(f"the part {both[0]!r} is both asked for and left out")
    return (frozenset(PARTS) - ON_REQUEST - frozenset(without)) | frozenset(asked)
