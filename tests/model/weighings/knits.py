"""Descriptions that the tests of the skein share."""

from halfhank.grammar.parse import parse
from halfhank.model.plan import Plan, Planned
from halfhank.model.planning.planning import plan_parsed
from halfhank.model.shawl import Shawl
from halfhank.model.weighings.log import model_of
from halfhank.model.weighings.weighing_model import WeighingModel

PLAIN = """shawl "Sluice"
yarn
  skein 100 g 380 m
  keep 5%
needles 4 mm
stitch garter
  gauge 20 sts 40 rows over 10 cm
  swatch 40 sts 60 rows weighs 11.2 g
shape triangle
  garter tab 3 sts 6 rows
  increase 1 at each edge and 1 at spine every 2 rows
part "neck"
  garter 16 ridges
part "body"
  garter 48 ridges
"""

BANDED = """shawl "Millrace"
yarn "plain"
  skein 100 g 390 m
  keep 4%
needles 4 mm
stitch garter
  gauge 20 sts 40 rows over 10 cm
  swatch 40 sts 60 rows weighs 10.6 g
stitch eyelets
  multiple of 2 sts + 1
  gauge 19 sts 32 rows over 10 cm
  row 1: k1, *yo, k2tog*
  row 2: purl
shape triangle
  garter tab 3 sts 6 rows
  edge 3 sts garter
  increase 1 at each edge and 1 at spine every 2 rows
part "collar"
  garter 14 ridges
part "body"
  repeat as yarn allows
    eyelets 4 rows
    garter 5, 2, 4 ridges "bank"
    drop 3 wraps "race"
part "kerb"
  garter 3 ridges
bind off picot
"""


def logged(text: str, *weighings: str) -> str:
    """The description with a log of these lines."""
    return text + "weighed\n" + "".join(f"  {line}\n" for line in weighings)


def planned(text: str) -> Planned:
    """The plan, problems included."""
    return plan_parsed(parse(text))


def plan_of(text: str) -> Plan:
    """The plan of a description without mistakes."""
    found = planned(text)
    assert found.plan is not None, found.problems
    return found.plan


def shawl_of(text: str) -> Shawl:
    """The shawl of a description without mistakes."""
    return plan_of(text).shawl


def weighing_model(plan: Plan) -> WeighingModel:
    """The weighing model of a shawl as it was planned before its log."""
    return model_of(plan)


def codes(plan: Planned) -> list[tuple[str, int]]:
    """Codes and lines of the problems, but for what is not done yet."""
    return [(p.code, p.span.line if p.span else 0) for p in plan.problems if p.code != "not-yet"]
