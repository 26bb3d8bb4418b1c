"""The problems of written rows, alone and in the shawl: every wording, and each code's line of the reference."""

from halfhank.grammar.problems.problem import ADVICE, MISTAKE, ProblemKind

# Whether the rows can be worked.

_UNBALANCED = (
    "Row {row} takes {taken:,} and leaves {left:,} {where}: {made:,} made, {decreased:,} decreased",
    "; row {needed_by} needs {needed}",
    ".",
)
ROW_UNBALANCED = ProblemKind(
    "row-unbalanced",
    MISTAKE,
    _UNBALANCED,
    ("make {short:,} more sts {where}", "decrease {over:,} more sts {where}"),
)
ROW_UNBALANCED_ONE_SHORT = ProblemKind("row-unbalanced", MISTAKE, _UNBALANCED, "add a yarn over, or remove a decrease")
ROW_UNBALANCED_ONE_OVER = ProblemKind("row-unbalanced", MISTAKE, _UNBALANCED, "add a decrease, or remove a yarn over")
_COUNTS = ("add {missing} {where}", "remove {over} {where}")
ROW_COUNT = ProblemKind("row-count", MISTAKE, "Row {row} takes {found}; row {before} leaves {there}.", _COUNTS)
ROW_COUNT_AT_START = ProblemKind("row-count", MISTAKE, "Row {row} takes {found}; the multiple is {there}.", _COUNTS)
WRONG_MULTIPLE = ProblemKind(
    "wrong-multiple",
    MISTAKE,
    "The rows are worked over {found}; this line says {said}.",
    "write `multiple of {multiple}`",
    "multiple of {multiple}",
)
COUNT_NOT_KEPT = ProblemKind(
    "count-not-kept",
    MISTAKE,
    "Row {row} leaves {left}; row 1 takes {taken}.",
    "let the last row leave what row 1 takes",
)
NO_STARS = ProblemKind(
    "no-stars",
    MISTAKE,
    "Row {row} has no `*…*`: it takes only {stitches:,} sts.",
    "write what is repeated between stars: `*…*`",
)
STARS_TAKE_NOTHING = ProblemKind(
    "stars-take-nothing",
    MISTAKE,
    "The items between the stars take no stitches: they would never reach the end of the row.",
)
IN_ONE_ITEM = ProblemKind("in-one-item", MISTAKE, "Only `k`, `p` and `yo` can be worked into the same stitches.")
ROW_TOO_WIDE = ProblemKind("row-too-wide", MISTAKE, "A row has at most {most:,} stitches.")
CHART_TOO_LARGE_IN_ROWS = ProblemKind(
    "chart-too-large", MISTAKE, "A chart has at most {most} rows; these are {rows:,}."
)
CHART_TOO_LARGE_IN_STITCHES = ProblemKind(
    "chart-too-large", MISTAKE, "A chart has at most {most} stitches; this one would have {stitches:,}."
)

# What a technical editor would say of them.

COUNT_CHANGES = ProblemKind(
    "count-changes", ADVICE, "The rows leave {left}, not {taken}: the count changes with every repeat."
)
ASTRIDE_THE_LINE = ProblemKind(
    "astride-the-line",
    ADVICE,
    "Row {row}: this {item} crosses the edge of the repeat: it takes stitches of two repeats, and does not fit in the "
    "chart's box.",
    "explain in the instructions where the repeat begins in this row",
)
YARN_OVERS_MEET = ProblemKind(
    "yarn-overs-meet",
    ADVICE,
    "Row {row}: where two repeats meet, two yarn overs are side by side; at each end one is alone.",
    "begin the stars with a plain stitch",
)
UNPAIRED_OUTSIDE = ProblemKind(
    "unpaired-outside",
    ADVICE,
    "Row {row}: this {item} before the stars has its partner only at the other end of the row.",
    "keep both at the same side of the stars",
)
DOUBLE_YARN_OVER = ProblemKind(
    "double-yarn-over",
    ADVICE,
    "Row {row} works both loops of the double yarn over of row {made_in} alike: they become one large hole.",
    "knit one and purl the other in row {row}",
)

# How they fit into the shawl.

_TIMES = " This happens in {begun} of the {worked} repeats."
_LATER_OR_MORE = ("start {later:,} rows later", "start with {more} more{wings}")
NO_MULTIPLE_FITS = ProblemKind(
    "no-multiple-fits",
    ADVICE,
    ("Row {row:,} begins `{stitch:.40}` on {there}{wings}; its rows need at least {least}.", _TIMES),
    _LATER_OR_MORE,
)
MULTIPLE_OVER = ProblemKind(
    "multiple-over",
    ADVICE,
    ("Row {row:,} begins `{stitch:.40}` on {there}{wings}: {held}, and {over} over, worked in {fill}.", _TIMES),
    _LATER_OR_MORE,
)
GROWTH_OUT_OF_STEP_GAINED = ProblemKind(
    "growth-out-of-step",
    ADVICE,
    "At the {place} each repeat of {rows:,} rows gains {stitches}, the multiple is {multiple:,}: whole multiples are "
    "added every {every:,} rows.",
)
GROWTH_OUT_OF_STEP_LOST = ProblemKind(
    "growth-out-of-step",
    ADVICE,
    "At the {place} each repeat of {rows:,} rows loses {stitches}, the multiple is {multiple:,}: whole multiples are "
    "lost every {every:,} rows.",
)
ENDS_INSIDE_REPEAT = ProblemKind(
    "ends-inside-repeat",
    ADVICE,
    "`{stitch:.40}` repeats over {rows:,} rows; {worked:,} rows end with its row {last:,}.",
    "work {fewer:,} or {more:,} rows",
)
ENDS_INSIDE_REPEAT_FIRST = ENDS_INSIDE_REPEAT._replace(mend="work {more:,} rows")
ODD_REPEAT = ProblemKind(
    "odd-repeat",
    ADVICE,
    "`{stitch:.40}` repeats over {rows:,} rows: every other time row 1 is a wrong-side row.",
    "write it over an even number of rows",
)
YARN_OVER_BESIDE_INCREASE = ProblemKind(
    "yarn-over-beside-increase",
    ADVICE,
    "Row {row:,} (row {number:,} of `{stitch:.40}`) has a yarn over right beside the increase at the {place}.",
    "leave a plain stitch between the two",
)
UNEVEN_WINGS = ProblemKind(
    "uneven-wings",
    ADVICE,
    "Row {row:,} is worked on {stitches:,} sts: edges {edge} + {edge}, spine {spine}, wings {right:,} and {left:,}. "
    "The wings are not mirror images.",
)
EVENLY_IN_PATTERN_GAINED = ProblemKind(
    "evenly-in-pattern",
    ADVICE,
    "Row {row:,} is row {number:,} of `{stitch:.40}`: stitches made evenly across it break the pattern.",
    "increase in a plain row before or after the pattern",
)
EVENLY_IN_PATTERN_LOST = EVENLY_IN_PATTERN_GAINED._replace(
    message="Row {row:,} is row {number:,} of `{stitch:.40}`: decreases evenly across it break the pattern.",
    mend="decrease in a plain row before or after the pattern",
)

MEANINGS = {
    "row-unbalanced": "a row makes more or fewer stitches than it takes, and a later one needs them",
    "row-count": "a row takes other stitches than the row before leaves",
    "wrong-multiple": "the rows agree on another multiple",
    "count-not-kept": "row 1 takes another number of stitches than the last row leaves",
    "no-stars": "nothing is worked across the row",
    "stars-take-nothing": "the stars would never reach the end",
    "in-one-item": "something other than `k`, `p`, `yo` worked into the same stitches",
    "row-too-wide": "more than 20,000 stitches",
    "chart-too-large": "more rows or stitches than a chart holds; reported only by `chart stitch`",
    "count-changes": "a repeat leaves other multiples than it began with, and row 1 fits on them",
    "astride-the-line": "a decrease or cable that crosses the edge of the repeat: the chart's box cannot hold it",
    "yarn-overs-meet": "two yarn overs side by side where two repeats meet",
    "unpaired-outside": "a yarn over or decrease with its partner at the other end of the row",
    "double-yarn-over": "both loops of a double yarn over worked alike, or together",
    "no-multiple-fits": "less than a multiple, or stitches over, where a band begins, and how to fix it",
    "multiple-over": "less than a multiple, or stitches over, where a band begins, and how to fix it",
    "growth-out-of-step": "the gain at a side in one repeat and the multiple, and after how many rows whole "
    "multiples are added",
    "ends-inside-repeat": "a band that ends inside the repeat; row 1 on the wrong side every other time",
    "odd-repeat": "a band that ends inside the repeat; row 1 on the wrong side every other time",
    "yarn-over-beside-increase": "a yarn over with no plain stitch between it and the shaping",
    "uneven-wings": "edges, spine and wings that do not divide evenly",
    "evenly-in-pattern": "stitches made or decreased evenly across a row of a pattern over a multiple; in a plain last "
    "row of a band they may be",
}
