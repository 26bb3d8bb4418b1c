"""The sentences of the pattern page, in English; those that the written instructions have too stand among theirs."""

from halfhank.model.words.templates import Template

PAGE: dict[str, Template] = {
    "page.by": "by {designer}",
    "page.construction": "Construction",
    "page.schematic": "Schematic",
    "page.schematic-caption": "The blocked shawl, drawn to scale and shaded by the yarn used.",
    "page.instructions": "Instructions",
    "page.parts": "The parts in working order",
    "page.charts": "Stitch patterns",
    "page.chart-caption": "Chart of {name}",
    "page.checkpoints": "Weighings to expect",
    "page.checkpoints-caption": "What the scale should show, skein and live stitches together.",
    "page.checkpoints-note": "In 9 of 10 shawls the weight is in the 90 % range. Weigh the yarn that is left, write "
    "the weight down and tick the line.",
    "page.after-row": "after row",
    "page.worked": "worked",
    "page.done": "done",
    "page.skeins": "Other skeins",
    "page.skeins-caption": "The same shawl from skeins of other lengths, at the same gauge.",
    "page.piece": "{caption} Table {number} of {count}.",
    "page.yarn-chart": "Yarn chart",
    "page.yarn-chart-caption": "What is on the scale after each row.",
    "page.ticked": "done",
    "page.unticked": "to do",
}
