"""Pages of the demos, each made once."""

from functools import cache
from pathlib import Path

from halfhank.cli.planned_file import plan_file
from halfhank.cli.report.html.html_page import PageForm, html_bytes
from halfhank.cli.report.page.page_parts import PARTS
from halfhank.cli.report.page.pattern_page import PageOptions, pattern_page
from halfhank.model.plan import Plan

DEMOS = sorted((Path(__file__).parents[4] / "gallery_demo").glob("*.shawl"))
WHOLE = PageOptions(frozenset(PARTS))
LARGE = PageOptions(frozenset(PARTS), PageForm("letter", True), "haze")
FIRST = next(path for path in DEMOS if path.stem == "hedge-and-ditch")


@cache
def plan_of(path: Path) -> Plan:
    plan = plan_file(str(path)).plan
    assert plan is not None
    return plan


@cache
def page_of(path: Path, options: PageOptions = WHOLE) -> bytes:
    """The page of a demo as HTML."""
    return html_bytes(pattern_page(plan_of(path), options))
