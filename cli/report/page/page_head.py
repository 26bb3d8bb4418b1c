"""What stands below a page's title: who designed it, and those of its facts that the page has."""

from collections.abc import Iterator

from halfhank.cli.report.page.page_parts import GAUGE, NEEDLES, SIZE, YARN
from halfhank.model.instructions.opening.head_facts import head_facts
from halfhank.model.plan import Plan
from halfhank.model.report_tree import Paragraph
from halfhank.model.words.catalogue import said, say


def page_head(plan: Plan, parts: frozenset[str]) -> Iterator[Paragraph]:
    """The designer, and the facts of the parts."""
    if plan.design.by:
        yield Paragraph(say("page.by", designer=plan.design.by))
    part_of = {
        said("head.size"): SIZE,
        said("head.yarn"): YARN,
        said("head.yarn-used"): YARN,
        said("head.needles"): NEEDLES,
        said("head.gauge"): GAUGE,
    }
    for text, lead in head_facts(plan):
        if lead and part_of[lead] in parts:
            yield Paragraph(text, f"{lead[:1].upper()}{lead[1:]}")
