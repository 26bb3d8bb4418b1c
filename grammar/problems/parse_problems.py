"""The problems that reading finds: every wording of them. All are mistakes."""

from halfhank.grammar.problems.problem import MISTAKE, ProblemKind

# The file and its characters.

NOT_TEXT = ProblemKind("not-text", MISTAKE, "This file is no UTF-8 text.", "save it as UTF-8")
NOT_UTF_8 = ProblemKind("not-utf-8", MISTAKE, "This character is not in UTF-8.", "save the file as UTF-8")
EMPTY_DESCRIPTION = ProblemKind("empty-description", MISTAKE, "This description is empty.", 'start with `shawl "…"`')
FILE_TOO_LARGE = ProblemKind("file-too-large", MISTAKE, "The file has {size:,} bytes; {most:,} are read.")
MORE_PROBLEMS = ProblemKind("more-problems", MISTAKE, "{rest:,} more problems are not shown.")
MORE_PROBLEMS_AT_LEAST = ProblemKind("more-problems", MISTAKE, "At least {rest:,} more problems are not shown.")
LINE_TOO_LONG = ProblemKind(
    "line-too-long", MISTAKE, "The line has {length:,} characters; {most:,} are read.", "shorten it"
)
CURLY_QUOTE = ProblemKind("curly-quote", MISTAKE, "Texts stand in straight double quotes.", 'write `"`')
CURLY_QUOTE_FOR_INCHES = ProblemKind("curly-quote", MISTAKE, "The sign `″` stands for inches.", "write `in`")
DASH = ProblemKind("dash", MISTAKE, "A dash is no hyphen.", "write `-`")
ODD_SPACE = ProblemKind("odd-space", MISTAKE, "{char} is no space between words.", "write a plain space")
CONTROL_CHARACTER = ProblemKind(
    "control-character", MISTAKE, "The control character {char} stands in this line.", "delete it"
)

# Indentation.

NESTING_TOO_DEEP = ProblemKind("nesting-too-deep", MISTAKE, "Blocks nest at most {most} deep.", "unroll a repeat")
UNEXPECTED_INDENT = ProblemKind(
    "unexpected-indent",
    MISTAKE,
    "This line is indented under a line that opens no block.",
    "start it in column {column}",
)
TAB_INDENTATION = ProblemKind("tab-indentation", MISTAKE, "A tab stands in the indentation.", "indent with spaces")
INDENTED_HEADER = ProblemKind(
    "indented-header", MISTAKE, "A line that opens a block of its own is not indented.", "start it in column 1"
)
UNEVEN_INDENTATION = ProblemKind(
    "uneven-indentation", MISTAKE, "The lines of one block start in one column.", "start it in column {column}"
)
NOT_INDENTED = ProblemKind(
    "not-indented",
    MISTAKE,
    "`{word}` stands inside a block and is indented under its first line.",
    "indent it by two spaces",
)

NOT_INDENTED_OF_STITCH = NOT_INDENTED._replace(
    mend="write it under `stitch garter`, or another stitch, indented by two spaces"
)
NOT_INDENTED_OF_OTHER_BLOCK = NOT_INDENTED._replace(mend="write it under `{home}`, indented by two spaces")

# Lines that do not read.

UNKNOWN_WORD = ProblemKind(
    "unknown-word", MISTAKE, "`{word}` is no word that fits here.", ("write `{meant}`", "{fits}")
)
UNKNOWN_WORD_OF_TRADE = ProblemKind("unknown-word", MISTAKE, "`{written}` is not said like this.", "{mend}")
UNKNOWN_WORD_IN_ROW = ProblemKind(
    "unknown-word", MISTAKE, "This row is not written like this.", "write `{shown}`", "{row}"
)
UNKNOWN_WORD_AS_HEADER = ProblemKind(
    "unknown-word", MISTAKE, "`{word}` opens no block.", ("write `{meant}` in a `{home}` block", "{fits}")
)
UNKNOWN_WORD_IN_BLOCK = ProblemKind(
    "unknown-word",
    MISTAKE,
    "`{word}` says nothing in a `{block}` block.",
    ("`{full}` belongs in a `{home}` block", "{fits}"),
)
MISSING_UNIT = ProblemKind("missing-unit", MISTAKE, "A unit is missing before `{word}`.", "{fits}")
MISSING_UNIT_AT_END = ProblemKind("missing-unit", MISTAKE, "A unit is missing at the end of this line.", "{fits}")
LINE_GOES_ON = ProblemKind("line-goes-on", MISTAKE, "The line has said everything before `{written}`.", "{mend}")
LINE_GOES_ON_WITH_WORDS = LINE_GOES_ON._replace(mend="leave the rest out, or give it a line of its own")
LINE_GOES_ON_WITH_BRACKET = LINE_GOES_ON._replace(mend="leave it out, or open it with `[`")
LINE_GOES_ON_WITH_NUMBER = LINE_GOES_ON._replace(mend="write `{item}{written}`")
LINE_TOO_SHORT = ProblemKind("line-too-short", MISTAKE, "The line ends before it has said everything.", "{fits}")
UNPAIRED_SIGN = ProblemKind(
    "unpaired-sign", MISTAKE, "This `{sign}` has no partner.", "set `{partner}` where it ends or begins"
)
UNEXPECTED_NUMBER = ProblemKind("unexpected-number", MISTAKE, "The number `{number}` does not fit here.", "{fits}")
UNEXPECTED_NUMBER_OF_TRADE = ProblemKind(
    "unexpected-number", MISTAKE, "`{written}` is not written like this.", "{mend}"
)
UNEXPECTED_TEXT = ProblemKind("unexpected-text", MISTAKE, "A text in quotes does not fit here.", "{fits}")
UNEXPECTED_SIGN = ProblemKind(
    "unexpected-sign", MISTAKE, "The sign `{sign}` does not fit here.", ("write `{meant}`", "{fits}")
)
UNEXPECTED_SIGN_OF_TRADE = ProblemKind("unexpected-sign", MISTAKE, "`{written}` is not written like this.", "{mend}")
WRONG_UNIT_OF_TRADE = ProblemKind("wrong-unit", MISTAKE, "Needles are measured in mm, not by `{written}`.", "{mend}")

# Numbers, measures, texts and names.

NOT_WHOLE = ProblemKind("not-whole", MISTAKE, "`{number}` is counted and has to be whole.", "write `{whole}`")
ZERO_NUMBER = ProblemKind("zero-number", MISTAKE, "There has to be at least one.")
ZERO_NUMBER_OF_MEASURE = ProblemKind("zero-number", MISTAKE, "This has to be more than nothing.")
ZERO_NUMBER_IN_CABLE = ProblemKind("zero-number", MISTAKE, "A cable crosses at least one stitch over one.")
ZERO_NUMBER_OF_STITCHES = ProblemKind("zero-number", MISTAKE, "This many stitches cannot be worked.")
NUMBER_TOO_SMALL = ProblemKind(
    "number-too-small", MISTAKE, "`{number}` is smaller than anything that is measured here."
)
NUMBER_TOO_LARGE = ProblemKind("number-too-large", MISTAKE, "Numbers go up to {most:,}.")
NUMBER_TOO_LARGE_IN_CABLE = ProblemKind("number-too-large", MISTAKE, "No needle holds a cable as wide as that.")
NUMBER_TOO_LARGE_OF_STITCHES = ProblemKind("number-too-large", MISTAKE, "This many stitches cannot be worked.")
NEGATIVE_NUMBER = ProblemKind("negative-number", MISTAKE, "A number has no sign.", "write `{number}`")
COMMA_NUMBER = ProblemKind("comma-number", MISTAKE, "A comma stands between digits without a space.", "write {numbers}")
EXPONENT_NUMBER = ProblemKind(
    "exponent-number", MISTAKE, "Numbers are written out, without an exponent.", "write `{number}`"
)
BARE_POINT_AT_START = ProblemKind("bare-point", MISTAKE, "A number starts with a digit.", "write `0{number}`")
BARE_POINT_AT_END = ProblemKind("bare-point", MISTAKE, "A number does not end with a point.", "write `{number}`")
BARE_POINT_TWICE = ProblemKind("bare-point", MISTAKE, "`{number}` has more than one point.")
WRONG_UNIT_FOR_LENGTH = ProblemKind(
    "wrong-unit", MISTAKE, "A length belongs here, not a mass.", "use `cm`, `m`, `in` or `yd`"
)
WRONG_UNIT_FOR_MASS = ProblemKind("wrong-unit", MISTAKE, "A mass belongs here, not a length.", "use `g` or `oz`")
WRONG_UNIT_OF_NEEDLES = ProblemKind("wrong-unit", MISTAKE, "Needles are measured in mm.", "write their size in `mm`")
WRONG_UNIT_SECOND_MASS = ProblemKind(
    "wrong-unit", MISTAKE, "A skein has a mass and a length; this is a second mass.", "use `m` or `yd`"
)
WRONG_UNIT_SECOND_LENGTH = ProblemKind(
    "wrong-unit", MISTAKE, "A skein has a mass and a length; this is a second length.", "use `g` or `oz`"
)
UNCLOSED_TEXT = ProblemKind("unclosed-text", MISTAKE, "The text is not closed on its line.", 'end it with `"`')
EMPTY_TEXT = ProblemKind("empty-text", MISTAKE, "The text says nothing.")
UNKNOWN_ESCAPE = ProblemKind("unknown-escape", MISTAKE, "`{escape}` stands for nothing.", r"write `\\` for a backslash")
ODD_NAME = ProblemKind("odd-name", MISTAKE, "`{char}` stands in no name: letters, digits and hyphens do.")

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
    "empty-block", MISTAKE, "This `{block}` block is empty.", "indent its lines under it, or delete it"
)
EMPTY_BLOCK_OF_REPEAT = ProblemKind("empty-block", MISTAKE, "This repeat is empty.", "indent its bands under it")
DUPLICATE_BLOCK = ProblemKind(
    "duplicate-block", MISTAKE, "A description has one `{block}` block.", "line {line} has it already"
)
MISPLACED_BLOCK = ProblemKind("misplaced-block", MISTAKE, "{place}")
DUPLICATE_FACT = ProblemKind("duplicate-fact", MISTAKE, "A block says this only once.", "line {line} has it already")
DUPLICATE_FACT_OF_START = DUPLICATE_FACT._replace(message="A shape has one start.")
DUPLICATE_FACT_OF_EVEN = ProblemKind("duplicate-fact", MISTAKE, "A part says `even` only once.")
DUPLICATE_NAME_OF_PART = ProblemKind(
    "duplicate-name", MISTAKE, "Two parts have the same name.", "line {line} has it already"
)
DUPLICATE_NAME_OF_STITCH = ProblemKind(
    "duplicate-name", MISTAKE, "There are two stitches `{stitch:.40}`.", "line {line} describes it already"
)

# Yarn, shape, bind-off and log.

KEEP_TOO_LARGE = ProblemKind("keep-too-large", MISTAKE, "A margin of the whole skein leaves nothing to knit with.")
UNKNOWN_SHAPE = ProblemKind(
    "unknown-shape", MISTAKE, "There is no shape `{shape:.40}`.", ("write `{near}`", "shapes are {shapes}")
)
ODD_TAB_ROWS = ProblemKind(
    "odd-tab-rows",
    MISTAKE,
    "A garter tab has an even number of rows: one stitch is picked up from each ridge.",
    "write `{rows}`",
)
PICOT_TOO_TIGHT = ProblemKind(
    "picot-too-tight",
    MISTAKE,
    "A picot binds off more stitches than it casts on, or the row would never end.",
    "bind off at least {least}",
)
NOT_LAST_PART = ProblemKind("not-last-part", MISTAKE, "The shawl turns back around its last part.", "write {part}")
LOG_ORDER = ProblemKind("log-order", MISTAKE, "The rows of the log rise.", "line {line} is already past it")
LOG_ORDER_OF_CAST_ON = LOG_ORDER._replace(message="The cast-on comes before all rows.")
LOG_MASS = ProblemKind("log-mass", MISTAKE, "This is more yarn than there was.")
LOG_MASS_BACK = ProblemKind(
    "log-mass",
    MISTAKE,
    "Yarn that is used does not come back.",
    "line {line} has {mass:g}: one of the two is wrong",
)
USED_BEFORE_CAST_ON = ProblemKind(
    "used-before-cast-on",
    MISTAKE,
    "Before the cast-on the whole skein is weighed; nothing is used yet.",
    "leave `{word}` out",
)

# Parts and their bands.

NO_BANDS = ProblemKind("no-bands", MISTAKE, "This part is shaped but has no rows.", "add bands to it")
SHAPING_IN_REPEAT = ProblemKind(
    "shaping-in-repeat", MISTAKE, "Shaping stands at the head of a part, not inside a repeat."
)
LATE_SHAPING = ProblemKind("late-shaping", MISTAKE, "Shaping stands at the head of a part, before its bands.")
EVEN_WITH_SHAPING = ProblemKind("even-with-shaping", MISTAKE, "A part is worked even or has shaping lines, not both.")
SECOND_AS_YARN_ALLOWS = ProblemKind(
    "second-as-yarn-allows",
    MISTAKE,
    "`as yarn allows` stands once in a description.",
    "line {line} has it already",
)
LIST_OUTSIDE_REPEAT = ProblemKind(
    "list-outside-repeat",
    MISTAKE,
    "A list takes its values pass by pass, so it stands inside a repeat.",
    "indent it under `repeat N times`",
)
NO_ROWS = ProblemKind("no-rows", MISTAKE, "`{stitch}` has no rows of its own to repeat.", "write `rows` or `ridges`")
NO_ROWS_OF_BUILT_IN = NO_ROWS._replace(mend="write `as {stitch}` in its block, or `rows`")
DROP_AS_BAND = ProblemKind("drop-as-band", MISTAKE, "`drop` is worked only as `drop W wraps`, in a part.")
DROP_AS_BAND_IN_PART = ProblemKind(
    "drop-as-band",
    MISTAKE,
    "`drop` is one elongated row and its release, counted in wraps.",
    "write `drop W wraps`",
)
DROP_AS_YARN_ALLOWS = ProblemKind(
    "drop-as-yarn-allows",
    MISTAKE,
    "Dropped rows are not counted by what the yarn allows.",
    "write `drop W wraps`",
)

# Stitches and their rows.

UNKNOWN_STITCH = ProblemKind(
    "unknown-stitch",
    MISTAKE,
    "There is no stitch `{stitch:.40}`.",
    ("write `{near}`", "describe it: `stitch {new:.40}`"),
)
UNKNOWN_STITCH_OF_TRADE = UNKNOWN_STITCH._replace(
    mend="write `{near}`, or describe a stitch of your own: `stitch {new:.40}`"
)
UNKNOWN_STITCH_KNIT = ProblemKind(
    "unknown-stitch",
    MISTAKE,
    "`{stitch}` alone does not say what wrong-side rows are.",
    "write `garter` where they are worked the same, `stockinette` where right-side rows are knit and wrong-side rows "
    "purled",
)
RESERVED_NAME = ProblemKind(
    "reserved-name", MISTAKE, "`{stitch}` is a word of the language and names no stitch.", "choose another name"
)
CIRCULAR_AS = ProblemKind("circular-as", MISTAKE, "`{stitch:.40}` takes its measures from itself.")
CIRCULAR_AS_IN_TURN = ProblemKind(
    "circular-as", MISTAKE, "`{stitch:.40}` takes from `{base:.40}`, which takes from it in turn."
)
ROW_MISSING = ProblemKind("row-missing", MISTAKE, "Row {row} is not written.", "rows run from 1 without a gap")
ROW_TWICE = ProblemKind("row-twice", MISTAKE, "Row {row} is written twice.")
ROW_TWICE_IN_LINE = ProblemKind("row-twice", MISTAKE, "A row is written twice.")
ROW_TOO_HIGH = ProblemKind("row-too-high", MISTAKE, "A stitch has at most {most:,} rows.")
ROWS_BACKWARDS = ProblemKind(
    "rows-backwards", MISTAKE, "Rows {first} to {last} run backwards.", "write `{last}-{first}`"
)
BRACKETS_TOO_DEEP = ProblemKind("brackets-too-deep", MISTAKE, "Brackets nest at most {most} deep.")
ACROSS_IN_BRACKETS = ProblemKind(
    "across-in-brackets", MISTAKE, "The part worked across the row stands outside brackets."
)
SECOND_ACROSS = ProblemKind(
    "second-across",
    MISTAKE,
    "Only one part of a row is worked across it.",
    "write `[…] N times` for a fixed number",
)
WHOLE_ROW_WORD = ProblemKind(
    "whole-row-word", MISTAKE, "`{word}` stands alone, for the whole row.", "write `{item}` and a number"
)
MISPLACED_MODIFIER_ALONE = ProblemKind(
    "misplaced-modifier", MISTAKE, "`{word}` belongs behind a single item.", "leave it out"
)
MISPLACED_MODIFIER = ProblemKind(
    "misplaced-modifier",
    MISTAKE,
    "`{item:.40}` is not worked `{modifier}`.",
    "write `[{twice:.40}] 2 times`",
)
UNKNOWN_ITEM = ProblemKind("unknown-item", MISTAKE, "`{item:.40}` is nothing that is worked.", "{mend}")
