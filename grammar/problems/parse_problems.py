"""The problems that reading finds: every wording of them. All are mistakes."""

from halfhank.grammar.problems.problem import MISTAKE, ProblemKind

# The file and its characters.

NOT_TEXT = ProblemKind("not-text", MISTAKE, "This file is not UTF-8 text.", "save it as UTF-8")
NOT_UTF_8 = ProblemKind("not-utf-8", MISTAKE, "This character is not in UTF-8.", "save the file as UTF-8")
EMPTY_DESCRIPTION = ProblemKind("empty-description", MISTAKE, "This description is empty.", 'start with `shawl "…"`')
FILE_TOO_LARGE = ProblemKind("file-too-large", MISTAKE, "The file has {size:,} bytes; the most is {most:,}.")
MORE_PROBLEMS = ProblemKind("more-problems", MISTAKE, "{rest:,} more problems are not shown.")
MORE_PROBLEMS_AT_LEAST = ProblemKind("more-problems", MISTAKE, "At least {rest:,} more problems are not shown.")
LINE_TOO_LONG = ProblemKind(
    "line-too-long", MISTAKE, "The line has {length:,} characters; the most is {most:,}.", "shorten it"
)
CURLY_QUOTE = ProblemKind(
    "curly-quote", MISTAKE, "Texts are written in straight double quotes.", 'write `"` on both sides'
)
CURLY_QUOTE_FOR_INCHES = ProblemKind("curly-quote", MISTAKE, "The sign `″` stands for inches.", "write `in`")
DASH = ProblemKind("dash", MISTAKE, "Use a hyphen.", "write `-`")
ODD_SPACE = ProblemKind("odd-space", MISTAKE, "{char} is not a plain space.", "write a plain space")
CONTROL_CHARACTER = ProblemKind(
    "control-character", MISTAKE, "This line holds the control character {char}.", "delete it"
)

# Indentation.

NESTING_TOO_DEEP = ProblemKind(
    "nesting-too-deep", MISTAKE, "Blocks may be nested {most} deep at most.", "write out a repeat"
)
UNEXPECTED_INDENT = ProblemKind(
    "unexpected-indent",
    MISTAKE,
    "This line is indented under a line that opens no block.",
    "start it in column {column}",
)
TAB_INDENTATION = ProblemKind("tab-indentation", MISTAKE, "This line is indented with a tab.", "indent with spaces")
INDENTED_HEADER = ProblemKind(
    "indented-header", MISTAKE, "A line that opens a block starts at the left margin.", "start it in column 1"
)
UNEVEN_INDENTATION = ProblemKind(
    "uneven-indentation", MISTAKE, "The lines of a block must start in the same column.", "start it in column {column}"
)
NOT_INDENTED = ProblemKind(
    "not-indented",
    MISTAKE,
    "`{word}` belongs inside a block, indented under its first line.",
    "indent it by two spaces",
)

NOT_INDENTED_OF_STITCH = NOT_INDENTED._replace(
    mend="write it under `stitch garter`, or another stitch, indented by two spaces"
)
NOT_INDENTED_OF_OTHER_BLOCK = NOT_INDENTED._replace(mend="write it under `{home}`, indented by two spaces")

# Lines that do not read.

UNKNOWN_WORD = ProblemKind(
    "unknown-word", MISTAKE, ("`{word}` does not fit here", "; expected {fits}", "."), "write `{meant}`"
)
UNKNOWN_WORD_OF_TRADE = ProblemKind("unknown-word", MISTAKE, "Halfhank writes `{written}` differently.", "{mend}")
UNKNOWN_WORD_NOT_KNOWN = ProblemKind("unknown-word", MISTAKE, "Halfhank does not know {term}.", "{mend}")
UNKNOWN_WORD_OF_OTHER_BLOCK = ProblemKind(
    "unknown-word", MISTAKE, "This line does not belong in a `{block}` block.", "write it in a `{home}` block"
)
UNKNOWN_WORD_OF_BLOCK = ProblemKind(
    "unknown-word", MISTAKE, "This line belongs inside a `{home}` block.", "write `{line}` there, indented"
)
UNKNOWN_WORD_WITHOUT_PLACE = ProblemKind("unknown-word", MISTAKE, "This shaping line does not say where.", "{mend}")
UNKNOWN_WORD_IN_LINE = ProblemKind(
    "unknown-word", MISTAKE, "Halfhank writes this line differently.", ("write `{shown}`", "`{other}`"), "{line}"
)
UNKNOWN_WORD_AS_HEADER = ProblemKind(
    "unknown-word",
    MISTAKE,
    ("Unknown block `{word}`", "; expected {fits}", "."),
    "write `{meant}` in a `{home}` block",
)
UNKNOWN_WORD_IN_BLOCK = ProblemKind(
    "unknown-word",
    MISTAKE,
    ("`{word}` does not fit in a `{block}` block", "; expected {fits}", "."),
    "write `{full}` in a `{home}` block",
)
MISSING_UNIT = ProblemKind("missing-unit", MISTAKE, "A unit is missing before `{word}`; expected {fits}.")
MISSING_UNIT_AT_END = ProblemKind(
    "missing-unit", MISTAKE, ("A unit is missing at the end of this line", "; expected {fits}", "."), "{mend}"
)
LINE_GOES_ON = ProblemKind("line-goes-on", MISTAKE, "Nothing may follow here.", "{mend}")
LINE_GOES_ON_WITH_WORDS = LINE_GOES_ON._replace(mend=("remove `{rest}`", "write `{own}` on a line of its own"))
LINE_GOES_ON_WITH_FACT = LINE_GOES_ON._replace(mend="write `{line}` on the next line, indented")
LINE_GOES_ON_WITH_BRACKET = LINE_GOES_ON._replace(mend="remove it, or open it with `[`")
LINE_GOES_ON_WITH_NUMBER = LINE_GOES_ON._replace(mend="write `{item}{written}`")
LINE_TOO_SHORT = ProblemKind(
    "line-too-short", MISTAKE, ("This line is not complete", "; expected {fits}", "."), "{mend}"
)
UNPAIRED_SIGN = ProblemKind(
    "unpaired-sign", MISTAKE, "This `{sign}` has no partner.", "write `{partner}` where the repeat begins or ends"
)
UNEXPECTED_NUMBER = ProblemKind(
    "unexpected-number", MISTAKE, ("The number `{number}` does not fit here", "; expected {fits}", ".")
)
UNEXPECTED_NUMBER_OF_TRADE = ProblemKind(
    "unexpected-number", MISTAKE, "Halfhank writes `{written}` differently.", "{mend}"
)
UNEXPECTED_TEXT = ProblemKind(
    "unexpected-text", MISTAKE, ("A text in quotes does not fit here", "; expected {fits}", ".")
)
UNEXPECTED_SIGN = ProblemKind(
    "unexpected-sign", MISTAKE, ("The sign `{sign}` does not fit here", "; expected {fits}", "."), "write `{meant}`"
)
UNEXPECTED_SIGN_OF_TRADE = ProblemKind("unexpected-sign", MISTAKE, "Halfhank writes `{written}` differently.", "{mend}")
WRONG_UNIT_OF_TRADE = ProblemKind("wrong-unit", MISTAKE, "Needles are given in mm, not as `{written}`.", "{mend}")

# Numbers, measures, texts and names.

NOT_WHOLE = ProblemKind("not-whole", MISTAKE, "`{number}` is a count, and must be a whole number.", "write `{whole}`")
ZERO_NUMBER = ProblemKind("zero-number", MISTAKE, "There must be at least one.")
ZERO_NUMBER_OF_MEASURE = ProblemKind("zero-number", MISTAKE, "This must be more than 0.")
ZERO_NUMBER_IN_CABLE = ProblemKind("zero-number", MISTAKE, "A cable crosses at least one stitch over one.")
ZERO_NUMBER_OF_STITCHES = ProblemKind("zero-number", MISTAKE, "This number of stitches cannot be worked.")
NUMBER_TOO_SMALL = ProblemKind("number-too-small", MISTAKE, "`{number}` is too small: the smallest measure is 0.001.")
NUMBER_TOO_LARGE = ProblemKind("number-too-large", MISTAKE, "The largest number is {most:,}.")
NUMBER_TOO_LARGE_IN_CABLE = ProblemKind("number-too-large", MISTAKE, "This cable is too wide to be worked.")
NUMBER_TOO_LARGE_OF_STITCHES = ProblemKind("number-too-large", MISTAKE, "This number of stitches cannot be worked.")
NEGATIVE_NUMBER = ProblemKind("negative-number", MISTAKE, "A number is written without a sign.", "write `{number}`")
COMMA_NUMBER = ProblemKind(
    "comma-number", MISTAKE, "There is a comma between digits, without a space.", "write {numbers}"
)
EXPONENT_NUMBER = ProblemKind(
    "exponent-number", MISTAKE, "A number is written without an exponent.", "write `{number}`"
)
BARE_POINT_AT_START = ProblemKind("bare-point", MISTAKE, "A number starts with a digit.", "write `0{number}`")
BARE_POINT_AT_END = ProblemKind("bare-point", MISTAKE, "A number does not end with a point.", "write `{number}`")
BARE_POINT_TWICE = ProblemKind("bare-point", MISTAKE, "`{number}` has more than one decimal point.")
WRONG_UNIT_FOR_LENGTH = ProblemKind(
    "wrong-unit", MISTAKE, "This must be a length, not a mass.", "write it in `cm`, `m`, `in` or `yd`"
)
WRONG_UNIT_FOR_MASS = ProblemKind(
    "wrong-unit", MISTAKE, "This must be a mass, not a length.", "write it in `g` or `oz`"
)
WRONG_UNIT_OF_NEEDLES = ProblemKind("wrong-unit", MISTAKE, "Needles are given in mm.", "write their size in `mm`")
WRONG_UNIT_SECOND_MASS = ProblemKind(
    "wrong-unit", MISTAKE, "A skein has a mass and a length; this is a second mass.", "write it in `m` or `yd`"
)
WRONG_UNIT_SECOND_LENGTH = ProblemKind(
    "wrong-unit", MISTAKE, "A skein has a mass and a length; this is a second length.", "write it in `g` or `oz`"
)
UNCLOSED_TEXT = ProblemKind("unclosed-text", MISTAKE, "This text has no closing quote on its line.", 'end it with `"`')
EMPTY_TEXT = ProblemKind("empty-text", MISTAKE, "This text is empty.")
UNKNOWN_ESCAPE = ProblemKind(
    "unknown-escape", MISTAKE, "`{escape}` has no meaning in a text.", r"write `\\` for a backslash"
)
ODD_NAME = ProblemKind("odd-name", MISTAKE, "`{char}` cannot be in a name: a name has letters, digits and hyphens.")

# Blocks and their lines.

MISSING_BLOCK = ProblemKind("missing-block", MISTAKE, "There is no `{block}` block.", "{mend}")
MISSING_FACT_OF_GAUGE = ProblemKind(
    "missing-fact",
    MISTAKE,
    "No stitch has a gauge.",
    "add `gauge … sts … rows over 10 cm` to a `stitch` block",
)
MISSING_FACT_OF_YARN = ProblemKind(
    "missing-fact", MISTAKE, "The skein is missing.", "add `skein MASS LENGTH`, as on the label"
)
MISSING_FACT_OF_SHAPE = ProblemKind(
    "missing-fact", MISTAKE, "The shape has no start.", "add `cast on N sts` or `garter tab A sts B rows`"
)
EMPTY_BLOCK = ProblemKind(
    "empty-block", MISTAKE, "This `{block}` block is empty.", "indent its lines under it, or remove it"
)
EMPTY_BLOCK_OF_REPEAT = ProblemKind("empty-block", MISTAKE, "This repeat is empty.", "indent its bands under it")
DUPLICATE_BLOCK = ProblemKind(
    "duplicate-block", MISTAKE, "A description has only one `{block}` block.", "remove this one or that of line {line}"
)
MISPLACED_BLOCK = ProblemKind("misplaced-block", MISTAKE, "{place}")
DUPLICATE_FACT = ProblemKind(
    "duplicate-fact", MISTAKE, "A block has only one such line.", "remove this line or line {line}"
)
DUPLICATE_FACT_OF_START = DUPLICATE_FACT._replace(message="A shape has only one start.")
DUPLICATE_FACT_OF_EVEN = ProblemKind("duplicate-fact", MISTAKE, "A part has only one `even`.")
DUPLICATE_NAME_OF_PART = ProblemKind(
    "duplicate-name", MISTAKE, "Two parts have the same name.", "rename this part or that of line {line}"
)
DUPLICATE_NAME_OF_STITCH = ProblemKind(
    "duplicate-name", MISTAKE, "There are two stitches `{stitch:.40}`.", "rename this stitch or that of line {line}"
)

# Yarn, shape, bind-off and log.

KEEP_TOO_LARGE = ProblemKind("keep-too-large", MISTAKE, "The margin is the whole skein: no yarn is left to knit with.")
UNKNOWN_SHAPE = ProblemKind(
    "unknown-shape", MISTAKE, "Unknown shape `{shape:.40}`.", ("write `{near}`", "write one of {shapes}")
)
UNKNOWN_SHAPE_NOT_KNOWN = ProblemKind("unknown-shape", MISTAKE, "Halfhank does not know {term}.", "{mend}")
ODD_TAB_ROWS = ProblemKind(
    "odd-tab-rows",
    MISTAKE,
    "A garter tab has an even number of rows: one stitch is picked up in each ridge.",
    "write `{rows}`",
)
PICOT_TOO_TIGHT = ProblemKind(
    "picot-too-tight",
    MISTAKE,
    "A picot must bind off more stitches than it casts on.",
    "bind off at least {least}",
)
NOT_LAST_PART = ProblemKind("not-last-part", MISTAKE, "Only the last part can be the middle.", "write {part}")
LOG_ORDER = ProblemKind(
    "log-order", MISTAKE, "The log's rows must be in ascending order.", "check the rows of this line and of line {line}"
)
LOG_ORDER_OF_CAST_ON = LOG_ORDER._replace(message="The weighing before the cast-on comes first in the log.")
LOG_MASS = ProblemKind("log-mass", MISTAKE, "More yarn than there was at the start.")
LOG_MASS_BACK = ProblemKind(
    "log-mass",
    MISTAKE,
    "More yarn than at the earlier weighing.",
    "check this line and line {line}, which has {mass:g}: one of the two is wrong",
)
LOG_MASS_BACK_OF_USED = LOG_MASS_BACK._replace(message="Less yarn used than at the earlier weighing.")
USED_BEFORE_CAST_ON = ProblemKind(
    "used-before-cast-on",
    MISTAKE,
    "Before the cast-on the whole skein is weighed; nothing is used yet.",
    "remove `{word}`",
)

WRONG_METHOD = ProblemKind(
    "wrong-method", MISTAKE, "`{method}` does not {action} stitches.", "write `{instead}`, or no method"
)
WRONG_METHOD_OF_BIND_OFF = ProblemKind(
    "wrong-method", MISTAKE, "Stitches that are bound off have no method.", "remove `{method}`"
)
ODD_WITH_METHOD = ProblemKind(
    "odd-with-method", MISTAKE, "`{method}` decreases {each} stitches at a time.", "write `{more}`", "{more}"
)
PLACE_TWICE = ProblemKind(
    "place-twice",
    MISTAKE,
    "A line that says how stitches are made has each place once; {place} is a second time here.",
    "write a line of its own for it",
)

# Parts and their bands.

NO_BANDS = ProblemKind("no-bands", MISTAKE, "This part has shaping lines but no rows.", "add bands to it")
SHAPING_IN_REPEAT = ProblemKind(
    "shaping-in-repeat", MISTAKE, "Shaping lines come first in a part, not inside a repeat."
)
LATE_SHAPING = ProblemKind("late-shaping", MISTAKE, "Shaping lines come first in a part, before its bands.")
EVEN_WITH_SHAPING = ProblemKind("even-with-shaping", MISTAKE, "A part is worked even or has shaping lines, not both.")
SECOND_AS_YARN_ALLOWS = ProblemKind(
    "second-as-yarn-allows",
    MISTAKE,
    "A description has `as yarn allows` only once.",
    "write a number here or in line {line}",
)
LIST_OUTSIDE_REPEAT = ProblemKind(
    "list-outside-repeat",
    MISTAKE,
    "A list gives one number for each repeat, so it belongs inside a repeat.",
    "indent it under `repeat N times`",
)
NO_ROWS = ProblemKind("no-rows", MISTAKE, "`{stitch}` has no written rows to repeat.", "write `rows` or `ridges`")
NO_ROWS_OF_BUILT_IN = NO_ROWS._replace(mend="write `as {stitch}` in its block, or `rows`")
DROP_AS_BAND = ProblemKind("drop-as-band", MISTAKE, "`drop` can only be written as `drop W wraps`, in a part.")
DROP_AS_BAND_IN_PART = ProblemKind(
    "drop-as-band",
    MISTAKE,
    "`drop` is one elongated row and the next row, which drops the extra wraps.",
    "write the line as `drop W wraps`",
)
DROP_AS_YARN_ALLOWS = ProblemKind(
    "drop-as-yarn-allows",
    MISTAKE,
    "Elongated rows cannot be worked `as yarn allows`.",
    "write the line as `drop W wraps`",
)

# Stitches and their rows.

UNKNOWN_STITCH = ProblemKind(
    "unknown-stitch",
    MISTAKE,
    "Unknown stitch `{stitch:.40}`.",
    ("write `{near}`", "describe it in a block `stitch {new:.40}`"),
)
UNKNOWN_STITCH_OF_TRADE = UNKNOWN_STITCH._replace(
    mend="write `{near}`, or describe your own in a block `stitch {new:.40}`"
)
UNKNOWN_STITCH_NOT_KNOWN = ProblemKind("unknown-stitch", MISTAKE, "Halfhank does not know {term}.", "{mend}")
UNKNOWN_STITCH_KNIT = ProblemKind(
    "unknown-stitch",
    MISTAKE,
    "`{stitch}` alone does not say how wrong-side rows are worked.",
    "write `garter` if every row is knit, `stockinette` if right-side rows are knit and wrong-side rows purled",
)
RESERVED_NAME = ProblemKind(
    "reserved-name", MISTAKE, "`{stitch}` is a word of the language and cannot be a name.", "choose another name"
)
CIRCULAR_AS = ProblemKind("circular-as", MISTAKE, "`{stitch:.40}` cannot take its measures from itself.")
CIRCULAR_AS_IN_TURN = ProblemKind(
    "circular-as", MISTAKE, "`{stitch:.40}` takes from `{base:.40}`, which takes from it in turn."
)
ROW_MISSING = ProblemKind("row-missing", MISTAKE, "Row {row} is missing.", "write every row from 1 on")
ROW_TWICE = ProblemKind("row-twice", MISTAKE, "Row {row} is written twice.")
ROW_TWICE_IN_LINE = ProblemKind("row-twice", MISTAKE, "A row is written twice.")
ROW_TOO_HIGH = ProblemKind("row-too-high", MISTAKE, "A stitch has at most {most:,} rows.")
ROWS_BACKWARDS = ProblemKind(
    "rows-backwards", MISTAKE, "Rows {first} to {last} are in descending order.", "write `{last}-{first}`"
)
BRACKETS_TOO_DEEP = ProblemKind("brackets-too-deep", MISTAKE, "Brackets may be nested {most} deep at most.")
ACROSS_IN_BRACKETS = ProblemKind("across-in-brackets", MISTAKE, "`*…*` cannot be inside brackets.")
SECOND_ACROSS = ProblemKind(
    "second-across",
    MISTAKE,
    "A row has only one `*…*`.",
    "write `[…] N times` for a fixed number",
)
WHOLE_ROW_WORD = ProblemKind("whole-row-word", MISTAKE, "`{word}` alone is a whole row.", "write `{item}` and a number")
MISPLACED_MODIFIER_ALONE = ProblemKind(
    "misplaced-modifier", MISTAKE, "`{word}` belongs after a single item.", "remove it"
)
MISPLACED_MODIFIER = ProblemKind(
    "misplaced-modifier",
    MISTAKE,
    "`{item:.40}` cannot be worked `{modifier}`.",
    "write `[{twice:.40}] 2 times`",
)
MISPLACED_ITEM = ProblemKind(
    "misplaced-item", MISTAKE, "`drop wraps` is the first item of its row.", "write it right after the colon"
)
UNKNOWN_ITEM = ProblemKind("unknown-item", MISTAKE, "Unknown abbreviation `{item:.40}`.", "{mend}")
UNKNOWN_ITEM_NOT_KNOWN = ProblemKind("unknown-item", MISTAKE, "Halfhank does not know {term}.", "{mend}")
