"""The sentences of the written instructions, in English."""

from halfhank.model.words.templates import Template, forms

INSTRUCTIONS: dict[str, Template] = {
    "count.stitches": forms("count", one="{count} st", other="{count} sts"),
    "start.heading": "Start",
    "start.cast-on": "Cast on {stitches}.",
    "start.tab": forms("rows", one="Cast on {stitches}. Knit 1 row.", other="Cast on {stitches}. Knit {rows} rows."),
    "start.pick-up": forms(
        "ridges",
        one="Turn the work 90° clockwise; pick up and knit 1 st in the ridge, "
        "then {along} from the cast-on edge ({stitches}).",
        other="Turn the work 90° clockwise; pick up and knit 1 st in each of the {ridges} ridges, "
        "then {along} from the cast-on edge ({stitches}).",
    ),
    "start.set-up-row": "Set-up row (WS): knit ({stitches}).",
    "start.next-row": "Turn. The next row is row 1, a right-side row.",
}
