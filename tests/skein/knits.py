"""Descriptions that the tests of the skein share."""

from halfhank.grammar.parse import parse
from halfhank.model.planning import plan_parsed
from halfhank.model.rows.worked import work
from halfhank.model.scale.yarn_model import Accounts, accounts_of
from halfhank.model.shawl import Plan, Shawl
from halfhank.model.yarn.row_yarn import RowYarn
from halfhank.model.yarn.stitch_table import StitchTable

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


def planned(text: str) -> Plan:
    """The plan, problems included."""
    return plan_parsed(parse(text))


def shawl_of(text: str) -> Shawl:
    """The shawl of a description without mistakes."""
    plan = planned(text)
    assert plan.shawl is not None, plan.problems
    return plan.shawl


def accounts(shawl: Shawl) -> Accounts:
    """The accounts of a shawl as it was planned before its log."""
    room = StitchTable(shawl.description)
    parts, problem = work(room, shawl.allowed or 0)
    assert problem is None
    return accounts_of(room, RowYarn(room), parts)


def codes(plan: Plan) -> list[tuple[str, int]]:
    """Codes and lines of the problems, but for what is not done yet."""
    return [(p.code, p.span.line if p.span else 0) for p in plan.problems if p.code != "not-yet"]
