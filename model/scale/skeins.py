"""One shawl from skeins of other lengths: what a pattern tells the people who buy it.

The gauge stays, and so does the yarn of a stitch in metres: a finer or a fuller yarn is knitted to the same fabric. A
swatch that was weighed is therefore taken as the length that it holds; what the log has taught of the yarn is kept, its
weighings are not: they belong to another skein.
"""

from typing import NamedTuple

from halfhank.grammar.description import Description, Length, Stitch
from halfhank.grammar.problems import Problem
from halfhank.model.planning import plan
from halfhank.model.rows.worked import work
from halfhank.model.scale.forecast import learn, listen
from halfhank.model.scale.yarn_model import accounts_of
from halfhank.model.shawl import Shawl
from halfhank.model.yarn.corrections import NOTHING, Learned
from halfhank.model.yarn.row_yarn import RowYarn
from halfhank.model.yarn.stitch_table import StitchTable, metres_per_gram


class SkeinPlan(NamedTuple):
    """The shawl from a skein of so many metres per 100 g; `shawl` is None where `problems` are in the way."""

    metres_per_100g: float
    shawl: Shawl | None
    problems: tuple[Problem, ...]


def skein_plans(shawl: Shawl, metres_per_100g: list[float]) -> list[SkeinPlan]:
    """The same shawl from each of the skeins, in the order given. Skeins weigh what the description's label says."""
    learned = taught(shawl)
    return [_planned(shawl.description, metres, learned) for metres in metres_per_100g]


def taught(shawl: Shawl) -> Learned:
    """What the log says of the yarn in each stitch and the ends, without the skein's own mass."""
    description = shawl.description
    if not any(weighing.row for weighing in description.log):
        return NOTHING
    room = StitchTable(description)
    parts, _ = work(room, shawl.allowed or 0)
    accounts = accounts_of(room, RowYarn(room), parts)
    weighed = frozenset(fabric.name for fabric in shawl.fabrics if fabric.basis == "weighed")
    return learn(accounts, listen(accounts, description.log), weighed)._replace(skein_g=None)


def with_skein(description: Description, metres_per_100g: float) -> Description:
    """The description with another skein of the same mass, and swatches as the lengths that they hold."""
    skein = description.yarn.skein
    metres = metres_per_100g * skein.mass.g / 100
    label = skein._replace(length=Length(metres, "m", skein.length.span))
    stitches = tuple(_measured(stitch, metres_per_gram(description)) for stitch in description.stitches)
    return description._replace(yarn=description.yarn._replace(skein=label), stitches=stitches, log=(), log_span=None)


def _measured(stitch: Stitch, gram_m: float) -> Stitch:
    """The stitch with its weighed swatch as a length of yarn."""
    swatch = stitch.swatch
    if swatch is None or swatch.mass is None:
        return stitch
    length = Length(swatch.mass.g * gram_m, "m", swatch.mass.span)
    return stitch._replace(swatch=swatch._replace(mass=None, length=length))


def _planned(description: Description, metres: float, learned: Learned) -> SkeinPlan:
    planned = plan(with_skein(description, metres), learned)
    return SkeinPlan(metres, planned.shawl, planned.problems)
