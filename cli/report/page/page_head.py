"""What stands below a page's title: who designed it, and those of its facts that the page has."""

from collections.abc import Iterator

from halfhank.cli.report.page.page_parts import GAUGE, NEEDLES, SIZE, YARN
from halfhank.grammar.description import GRAMS_IN
from halfhank.model.instructions.counts import metres
from halfhank.model.instructions.opening.head_facts import head_facts
from halfhank.model.plan import Plan
from halfhank.model.report_tree import Content, Paragraph, joined
from halfhank.model.shawl import SkeinMass
from halfhank.model.words.catalogue import said, say
from halfhank.model.words.drawn_words import phrase_of


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
            shown = _yarn(plan) if lead == said("head.yarn") else text
            yield Paragraph(shown, f"{lead[:1].upper()}{lead[1:]}")


def _yarn(plan: Plan) -> Content:
    """The yarn and its fibre as the description has them, and how many skeins."""
    yarn, skein = plan.shawl.yarn, plan.shawl.skein
    bought = say("page.one-skein", mass=label_mass(skein), length=metres(skein.label_m))
    return joined(", ", [*((words,) for words in (yarn.name, yarn.fibre) if words), bought])


def label_mass(skein: SkeinMass) -> str:
    """The mass on the label, as it is there; ounces with grams beside them."""
    grams = phrase_of("measure", "g", number=f"{skein.label_g:.4g}")
    if skein.unit == "g":
        return grams
    own = phrase_of("measure", skein.unit, number=f"{skein.label_g / GRAMS_IN[skein.unit]:.4g}")
    return said("page.both-masses", first=own, second=grams)
