"""The problems that planning finds, apart from those of written rows: every wording, and each code's line of the
reference."""

from halfhank.grammar.problems.problem import ADVICE, MISTAKE, ProblemKind

# Measures and yarn.

ODD_GAUGE = ProblemKind(
    "odd-gauge",
    ADVICE,
    "{fabric} has {rows_to_stitch:.2f} rows to a stitch here; {least:g} to {most:g} are usual.",
    "count the swatch again: stitches first, then rows",
)
ODD_SWATCH = ProblemKind(
    "odd-swatch",
    ADVICE,
    (
        "This swatch is {weight} for this yarn: a swatch of {stitches:,} sts x {rows:,} rows usually ",
        "{does} {low} to {high} {unit}.{question}",
    ),
    "check the swatch, its gauge and the skein's length",
)
ASSUMED_GAUGE = ProblemKind("assumed-gauge", ADVICE, "`{stitch:.40}` has no gauge; that of {source:.40} is used.")
ASSUMED_GAUGE_OF_BUILT_IN = ProblemKind(
    "assumed-gauge",
    ADVICE,
    "`{stitch:.40}` has no gauge; its usual size relative to garter is used.",
    "write `stitch {stitch}`, and below it `as {stitch}` and its gauge, such as `gauge 20 sts 36 rows over 10 cm`",
)
MEASURES_ONLY = ProblemKind(
    "measures-only",
    ADVICE,
    "This block gives only measures of `{stitch}`; its built-in rows are not worked.",
    "write `as {stitch}` in the block to work them",
    "as {stitch}\n{indent}",
)
KEEP_TOO_LARGE = ProblemKind("keep-too-large", MISTAKE, "The margin is the whole skein: no yarn is left to knit with.")
YARN_TOO_SHORT = ProblemKind(
    "yarn-too-short",
    MISTAKE,
    "Worked only once, the whole shawl uses {needed}; {there} may be used.",
    "take a larger skein, or make the other bands shorter",
)
YARN_SHORT = ProblemKind(
    "yarn-short",
    ADVICE,
    "The shawl uses {total}; the skein has {skein}.",
    "work fewer rows, or one band `as yarn allows`",
)
YARN_SHORT_BY_SCALE = YARN_SHORT._replace(
    message="The bind-off takes {bind_off}; after row {row:,} the scale shows less.",
    mend="weigh again",
)
MARGIN_SHORT = ProblemKind(
    "margin-short",
    ADVICE,
    "{left} would be left over, less than the margin of {keep}.",
    "work fewer rows, or `keep` less",
)
NOT_BY_YARN = ProblemKind(
    "not-by-yarn", ADVICE, "Something other than the yarn limits the count to {count:,}. {reason}"
)
EVEN_SEQUENCE = ProblemKind(
    "even-sequence",
    ADVICE,
    (
        "The yarn decides where this even sequence ends; inside a repeat it looks unfinished",
        ", and after a whole one {fabric} at the bind-off edge",
        ".",
    ),
)
EVEN_SEQUENCE_TO_VARY = EVEN_SEQUENCE._replace(
    mend="write `{stitch} {counts} {unit}`: the same total in three repeats", edit="{counts}"
)

# Weighings.

TOO_MANY_WEIGHINGS = ProblemKind(
    "too-many-weighings",
    MISTAKE,
    "The log has {weighings:,} weighings after rows; the most is {most}.",
    "remove some of the earliest",
)
NO_SUCH_ROW = ProblemKind("no-such-row", MISTAKE, "There is no row {row:,}: the shawl has {rows:,}.")
NO_SUCH_ROW_FOR_YARN = ProblemKind(
    "no-such-row", MISTAKE, "This shawl does not reach row {row:,} with this skein; at most it reaches row {reached:,}."
)
LOG_DISAGREES = ProblemKind(
    "log-disagrees",
    ADVICE,
    (
        "After row {row:,} the scale should show {mean} (90 % range {low} to {high}); this is ",
        "{less} less.",
        "{more} more.",
    ),
    "weigh again, and check the row count",
)
LOG_DISAGREES_MUCH = ProblemKind(
    "log-disagrees",
    ADVICE,
    (
        "By the other weighings, the scale should show {mean} after row {row:,} (90 % range {low} to {high}); this is ",
        "{less} less. It is counted very little, because it does not fit the other weighings.",
        "{more} more. It is counted very little, because it does not fit the other weighings.",
    ),
    "weigh again, and check this line",
)
LOG_DISAGREES_IN_DOUBT = ProblemKind(
    "log-disagrees",
    ADVICE,
    "The weighing after row {row:,} and another contradict each other; the forecast has a wide range.",
    "weigh again, and check which line is right",
)

# Rows and their stitches.

TOO_MANY_ROWS = ProblemKind("too-many-rows", MISTAKE, "The parts have {rows:,} rows; a shawl has at most {most:,}.")
TOO_MANY_ROWS_AS_YARN_ALLOWS = ProblemKind("too-many-rows", MISTAKE, "A shawl has at most {most:,} rows.")
TOO_MANY_STITCHES = ProblemKind(
    "too-many-stitches", MISTAKE, "Row {row:,} would have {stitches:,} stitches; a row has at most {most:,}."
)
TOO_MANY_STITCHES_AT_START = ProblemKind(
    "too-many-stitches",
    MISTAKE,
    "The shawl would start with {stitches:,} stitches; a row has at most {most:,}.",
)
TOO_MANY_STITCHES_ON_WAY_BACK = ProblemKind(
    "too-many-stitches", MISTAKE, "In the mirrored second half, row {row:,} would have {stitches:,} stitches."
)
TOO_FEW_STITCHES = ProblemKind(
    "too-few-stitches",
    MISTAKE,
    "Row {row:,} has only {stitches}, too few to take {taken:,} away.",
    "add `until … sts` to this line, or make the part shorter",
)
TOO_FEW_STITCHES_AT_ONCE = TOO_FEW_STITCHES._replace(
    mend="add `from row …`: without it the line acts in the first row",
)
TOO_FEW_STITCHES_ON_WAY_BACK = ProblemKind(
    "too-few-stitches", MISTAKE, "In the mirrored second half, row {row:,} would have {stitches:,} stitches."
)
WRONG_WAY_UP = ProblemKind(
    "wrong-way",
    MISTAKE,
    "Row {row:,} has {stitches:,} stitches already; {total:,} is not an increase.",
)
WRONG_WAY_DOWN = ProblemKind(
    "wrong-way",
    MISTAKE,
    "Row {row:,} has only {stitches:,} stitches; {total:,} is not a decrease.",
)
TEETH_TURN_BACK = ProblemKind(
    "teeth-turn-back",
    MISTAKE,
    "A sawtooth edge cannot be mirrored: stitches that are bound off cannot be worked again.",
    "make the part with the teeth the middle (`turn back around`), or remove `turn back`",
)
TOO_MANY_WRAPS = ProblemKind("too-many-wraps", MISTAKE, "A stitch has at most {most} wraps.")
PICOT_MULTIPLE = ProblemKind(
    "picot-multiple",
    ADVICE,
    "Each picot uses {each}; {stitches:,} live stitches are not a multiple of that plus 1.",
)
MANY_DRAWN_TOGETHER = ProblemKind(
    "many-drawn-together",
    ADVICE,
    "{stitches} are drawn together at the end; at most about {most} usually are (common practice).",
    "decrease before the end, or write `bind off standard`",
)
WIDE_EDGES = ProblemKind(
    "wide-edges", ADVICE, "The two edges have {edges:,} stitches, more than a row of {stitches:,}."
)
WRONG_SIDE_START = ProblemKind(
    "wrong-side-start",
    ADVICE,
    "This line first acts on row {row:,}, a wrong-side row: an odd number of rows comes before.",
    "make the part before it a row longer or shorter",
)
WRONG_SIDE_START_ON_WAY_BACK = ProblemKind(
    "wrong-side-start",
    ADVICE,
    "In the mirrored second half this line first acts on row {row:,}, a wrong-side row.",
    "make the first half a row longer or shorter",
)
WRONG_SIDE_START_OF_ROWS = ProblemKind(
    "wrong-side-start",
    ADVICE,
    "Row 1 of `{stitch}` falls on row {row:,}, a wrong-side row.",
    "work an even number of rows before it",
)
LINE_LOST = ProblemKind(
    "line-lost",
    ADVICE,
    "Row {row:,} is in part “{part}”, which has shaping lines of its own: this line is ignored.",
    "write it in that part",
)
ACTS_ONCE = ProblemKind(
    "acts-once",
    ADVICE,
    "This line acts in row 1 only.",
    "add how often, as in `every 2 rows`, or `from row …` to say in which row",
)
IDLE_LINE = ProblemKind("idle-line", ADVICE, "This line never acts in the {rows:,} rows that are worked.")
IDLE_LINE_IN_PART = ProblemKind(
    "idle-line",
    ADVICE,
    "This line never acts in the {rows:,} rows of its part.",
    "in a part, `from row` counts from the part's first row",
)

# The shape.

UNKNOWN_SHAPE = ProblemKind("unknown-shape", MISTAKE, "Unknown shape `{shape:.40}`.", "write one of {shapes}")
SHAPING_NOT_ALLOWED = ProblemKind(
    "shaping-not-allowed",
    MISTAKE,
    "A {shape} has no shaping: every row has the stitches of the cast-on.",
    "remove the line, or write `shape asymmetric` for a strip on the bias",
)
PLACE_NOT_ALLOWED = ProblemKind(
    "place-not-allowed", MISTAKE, "A {shape} cannot be shaped {where}.", "shape it {places}"
)
MORE_THAN_CENTRED = ProblemKind(
    "more-than-centred",
    MISTAKE,
    "Over a spine of 1 st there is one `{method}` in a row, which decreases 2 stitches.",
    "write `2 {method} at spine`",
    "2 {method} at spine",
)
UNSHAPED = ProblemKind(
    "unshaped",
    ADVICE,
    "Nothing shapes this triangle: every row has the stitches of the cast-on.",
    "add a line such as `increase 1 at each edge every 2 rows`",
)
NARROW_TAIL = ProblemKind(
    "narrow-tail",
    ADVICE,
    "Rows {first:,} to {last:,} are a narrow tail, {length} long and at most {stitches} wide.",
    "work fewer of them, or increase more often there",
)
UNLIKE_SHAPE_STRIP = ProblemKind(
    "unlike-shape",
    ADVICE,
    "This {shape} is a strip, {wide} wide and {deep} deep.",
    "work more rows, or increase less often at the edges",
)
UNLIKE_SHAPE_SIDEWAYS_STRIP = UNLIKE_SHAPE_STRIP._replace(mend="work fewer rows, or increase more often")
UNLIKE_SHAPE_DEEP = ProblemKind(
    "unlike-shape",
    ADVICE,
    "This {shape} is too deep for its name, {wide} wide and {deep} deep.",
    "work fewer rows, or increase more often at the edges",
)
UNLIKE_SHAPE_SIDEWAYS_DEEP = UNLIKE_SHAPE_DEEP._replace(mend="work more rows, or increase less often")
UNLIKE_SHAPE_NARROW_FAN = ProblemKind(
    "unlike-shape",
    ADVICE,
    "The rows make {degrees:.0f} degrees of a circle; a half-circle has 180 degrees.",
    "increase more stitches, or more often",
)
UNLIKE_SHAPE_NO_FAN = ProblemKind(
    "unlike-shape",
    ADVICE,
    "The rows hardly get longer, so the piece is a strip, not a half-circle.",
    "add a line such as `increase 8 evenly every 8 rows`, or write `shape rectangle`",
)
UNLIKE_SHAPE_WIDE_FAN = UNLIKE_SHAPE_NARROW_FAN._replace(mend="increase fewer stitches, or less often")
UNLIKE_SHAPE_BLUNT = ProblemKind(
    "unlike-shape",
    ADVICE,
    "This triangle has no point: its narrow end has {narrow}, its longest row {most}.",
    "make its narrow end narrower: start, or end, with fewer stitches",
)
VERY_LARGE = ProblemKind(
    "very-large",
    ADVICE,
    "The shawl is {length} {way}; few are over 3 m (118 in).",
    "work fewer rows, or fewer stitches, and check the gauge",
)
NO_SPINE = ProblemKind(
    "no-spine",
    ADVICE,
    "A {shape} has no spine; these stitches are worked like the rest.",
    "remove the line",
)
NARROW_START = ProblemKind(
    "narrow-start",
    ADVICE,
    "The shawl starts with {start}, fewer than the edges ({edges}) and the spine ({spine}) need.",
    "start with at least {least}",
    "cast on {cast_on} sts",
)
UNEVEN_START = ProblemKind(
    "uneven-start",
    ADVICE,
    "Without the edges ({edges}) and the spine ({spine}), {wings} cannot be divided evenly between two wings.",
    "start with {fewer:,} or {more:,}",
)
RUFFLES = ProblemKind(
    "ruffles",
    ADVICE,
    "The rows grow so fast that they would make {degrees:,.0f} degrees; beyond {most:.0f} the fabric ruffles, which "
    "the drawing does not show.",
    "increase less, or less often",
)
RUFFLES_INWARDS = ProblemKind(
    "ruffles",
    ADVICE,
    "The rows shrink so fast that they would make {degrees:,.0f} degrees; beyond {most:.0f} the fabric ruffles, "
    "which the drawing does not show.",
    "decrease less, or less often",
)
RUFFLES_AT_END = ProblemKind(
    "ruffles",
    ADVICE,
    "From row {row:,} on, rows are up to {times:.1f} times as long as the fabric before them: they ruffle. The size is "
    "that of the fabric without the ruffle.",
    "increase less, or earlier, for an edge that lies flat",
)
WINGED_TRIANGLE = ProblemKind(
    "winged-triangle",
    ADVICE,
    "Each edge gains {edge:.2g} sts a row, each side of the spine {spine:.2g}: a triangle shaped so is usually "
    "blocked as a crescent, wider and less deep than it is drawn.",
    "write `shape crescent`, with all increases at the edges",
)
NOT_FLAT = ProblemKind(
    "not-flat",
    ADVICE,
    "With a mirrored second half, a piece shaped at its spine cannot lie flat; it is drawn with level rows.",
    "shape it at the edges only, or remove `turn back`",
)
FAN_NOT_STRAIGHT = ProblemKind(
    "fan-not-straight",
    MISTAKE,
    "The edges meet at {degrees:.0f} degrees; between {least:.0f} and {most:.0f} a top edge can be pinned straight.",
    "change the shaping, or remove `pinned straight`",
    "",
)
OVERSTRETCHED = ProblemKind(
    "overstretched",
    ADVICE,
    "Pinned so, the fabric is stretched by {stretch} {direction} its rows at row {row:,}; {fabric} stretches by about "
    "{bears} at most.",
    "pin it to less, or change the shaping",
)
OVERSTRETCHED_BY_CURVE = ProblemKind(
    "overstretched",
    ADVICE,
    "Blocked to this curve, the fabric is stretched by {stretch} {direction} its rows at the ends of row {row:,}; "
    "{fabric} stretches by about {bears} at most.",
    "block it to a flatter curve, or increase more often at the edges",
)
PINNED_IN_VAIN = ProblemKind(
    "pinned-in-vain",
    ADVICE,
    "`pinned straight` changes nothing here: it is for half-circles and for triangles with rows that rise.",
    "remove it, or write `pinned to … by …`",
    "",
)

MEANINGS = {
    "fan-not-straight": "`pinned straight` where the edges meet at less than 100 or more than 260 degrees",
    "more-than-centred": "more than the 2 stitches of one `s2kp` or `s2pp` over a spine of 1 st",
    "no-such-row": "a weighing after a row that the shawl does not have",
    "place-not-allowed": "shaping at a place that the shape does not have",
    "shaping-not-allowed": "shaping in a rectangle",
    "teeth-turn-back": "stitches bound off in a part that is mirrored",
    "too-few-stitches": "a decrease or bind-off of more stitches than there are",
    "too-many-rows": "more than 20,000 rows",
    "too-many-stitches": "more than 20,000 stitches in a row",
    "too-many-weighings": "more than 200 weighings after rows",
    "too-many-wraps": "more than 100 wraps",
    "wrong-way": "`increase evenly to` a lower count, or `decrease evenly to` a higher one",
    "yarn-too-short": "the yarn is not enough for one repeat or row `as yarn allows`",
    "acts-once": "a shaping line of the shape that says neither how often nor in which row",
    "assumed-gauge": "a stitch without a gauge, and what is used in its place",
    "measures-only": "a block of a built-in's name that has neither rows nor `as`: the built-in's rows are not worked",
    "even-sequence": "the yarn ends an even sequence of bands, with a list that would vary it",
    "idle-line": "a shaping line that never acts",
    "line-lost": "a line of the shape on a row of a part that has lines of its own: it is ignored",
    "log-disagrees": "a weighing far from what the other weighings show",
    "many-drawn-together": "more stitches drawn together at the end than usual: about 20 at most (common practice)",
    "margin-short": "the shawl uses some of the margin",
    "narrow-start": "too few stitches for edges and spine at the start",
    "narrow-tail": "few stitches over a great length: at most 5 cm wide over more than 60 cm",
    "no-spine": "a spine in a shape that has none",
    "not-by-yarn": "something other than the yarn ends the count of `as yarn allows`",
    "not-flat": "a piece shaped at its spine with a mirrored second half, which cannot lie flat",
    "odd-gauge": "rows to a stitch that are not usual in garter or stockinette",
    "odd-swatch": "a stitch that takes much more or less yarn than is usual for its width",
    "overstretched": "pinned, or blocked to a curve, further than the fabric stretches",
    "picot-multiple": "picots do not come out even with the last row",
    "pinned-in-vain": "`pinned straight` where it does nothing",
    "ruffles": "rows that grow faster than a circle, or an end much longer than the fabric before it",
    "uneven-start": "stitches beside the spine that cannot be halved at the start",
    "unlike-shape": "a piece that is plainly not of the shape that it names: a strip, a triangle without a point, a "
    "half-circle of less than 120 or more than 250 degrees",
    "unshaped": "a triangle without shaping",
    "very-large": "a shawl of more than 3 m in one direction",
    "wide-edges": "edges wider than a row",
    "winged-triangle": "a triangle whose edges gain nearly every row and whose spine seldom: rather a crescent",
    "wrong-side-start": "shaping, or row 1 of a stitch, that falls on a wrong-side row since an odd number of rows "
    "lies before",
    "yarn-short": "the shawl uses more yarn than the skein has",
}
