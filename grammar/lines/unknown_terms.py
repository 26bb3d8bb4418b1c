"""What the trade knows and the language does not: one table, said so in place of a hint for a misspelt word.

A term leaves the table on the day on which the language takes it up. Loaded only once there is a mistake.
"""

import re

from halfhank.grammar.record import NamedTuple


class UnknownTerm(NamedTuple):
    """A term: its `name` as the problem says it, the `pattern` of how it is written, and what to do instead, if any."""

    name: str
    pattern: str
    instead: str | None = None


_ONE_YARN = "describe the shawl as if it had one colour: the yarn used is the same"
_NO_EFFECT = "remove it and its comma: it changes neither stitches nor yarn"

_AROUND = 80  # A term is not longer; a line may be.

UNKNOWN_TERMS = (
    UnknownTerm("entrelac", r"entrelac"),
    UnknownTerm("brioche", r"(?:half[- ]|full[- ])?brioche(?: +(?:st|stitch|rib))?|brk|brp|sl1yo|yf(?:sl|kyok)?"),
    UnknownTerm("intarsia", r"intarsia", _ONE_YARN),
    UnknownTerm("stranded colourwork", r"fair[- ]?isle|stranded(?: +(?:knitting|colou?rwork))?|colou?rwork|jacquard"),
    UnknownTerm(
        "mosaic knitting", r"mosaics?(?: +(?:knitting|st|stitch|pattern))?", "write its slipped stitches as rows"
    ),
    UnknownTerm(
        "colour changes",
        r"(?:(?:in|with|join|using|change|to) +){0,3}(?:colou?rs?\b(?: +[a-z0-9]\b)?|MC|CC[0-9]?|main +colou?r"
        r"|contrast(?:ing)? +colou?r)",
        _ONE_YARN,
    ),
    UnknownTerm(
        "short rows", r"short[- ]?rows?|german +short[- ]?rows?|wrap(?: +|-)(?:and|&|n)(?: +|-)turn|w *& *t|dst"
    ),
    UnknownTerm("steeks", r"steeks?"),
    UnknownTerm(
        "domino squares", r"modular(?: +(?:knitting|squares?))?|domino(?: +(?:knitting|squares?))?|mitred +squares?"
    ),
    UnknownTerm("double knitting", r"double[- ]knit(?:ting)?"),
    UnknownTerm("pi shawls", r"pi(?:[- ]shawl)?", "write `half-circle`, with `increase … evenly` lines"),
    UnknownTerm(
        "circular shawls",
        r"circular[- ]shawls?|full[- ]circle|in +the +round",
        "write `half-circle` for half of one",
    ),
    UnknownTerm("square shawls from the centre", r"square(?:[- ]shawl)?|cent(?:re|er)[- ]out"),
    UnknownTerm("hexagons", r"hexagon(?:al)?|octagon(?:al)?|pentagon(?:al)?"),
    UnknownTerm("faroese shawls", r"faroese(?:[- ]shawl)?", "write `triangle` with a wide `spine`"),
    UnknownTerm(
        "edgings that are knitted on",
        r"(?:knit(?:ted)?|sewn|worked|sideways|attached|applied)(?:[- ]on)?[- ]+(?:edging|border)",
    ),
    UnknownTerm(
        "i-cord edgings", r"i-?cord +(?:edg(?:e|es|ing)|border|tab)", "write `bind off i-cord` for the bind-off edge"
    ),
    UnknownTerm(
        "provisional cast-ons",
        r"provisional(?:ly)?(?: +cast[- ]?on)?|invisible +cast[- ]?on|crochet +cast[- ]?on",
        "write `cast on N sts`",
    ),
    UnknownTerm("picked-up stitches", r"pick(?:ed)?[- ]?up(?: +(?:and|&) +knit)?|pu *& *k"),
    UnknownTerm("grafting", r"graft(?:ed|ing)?|kitchener(?: +(?:st|stitch))?|three[- ]needle +bind[- ]?off|3-needle"),
    UnknownTerm("beads", r"(?:with +)?bead(?:s|ed|ing)?|place +beads?|pb"),
    UnknownTerm("bobbles", r"bobbles?|make +bobble|mb|nupps?"),
    UnknownTerm("fringes and tassels", r"fringes?|tassels?|pom-?poms?"),
    UnknownTerm("crochet", r"crochet(?:ed)?(?: +(?:edge|edging|chain|bind[- ]?off))?"),
    UnknownTerm("cables with purl stitches", r"[0-9]+/[0-9]+ *(?:rpc|lpc)|(?<=[0-9] )(?:rpc|lpc)|t[0-9]+[fb]"),
    UnknownTerm("stitch markers", r"(?:(?:place|slip) +)?markers?|pm|sm|slm|rm", _NO_EFFECT),
    UnknownTerm(
        "stitches worked as they appear",
        r"k(?:nit)? +(?:all +)?(?:the +)?knits?(?: +and +p(?:url)? +(?:all +)?(?:the +)?purls?)?"
        r"|(?:sts +)?as +(?:they +\w+|set|est(?:ablished)?)",
        "write the stitches, as in `k2, p2`",
    ),
    UnknownTerm("rows given as a chart", r"charts?(?: +[a-z0-9])?", "write its rows in a `stitch` block"),
    UnknownTerm("slipped edge stitches", r"sl(?:ip(?:ped)?)? +(?:the +)?(?:first|edge|1st) +(?:st|stitch).*"),
    UnknownTerm("held stitches", r"(?:on +)?(?:stitch +)?holders?|waste +yarn|scrap +yarn"),
    UnknownTerm(
        "yarns held double", r"(?:held|holding)(?: +(?:yarn|two +strands?))? +(?:double|together)|held[- ]double"
    ),
)
"""The terms, in the order in which they are looked for."""


def unknown_term(words: str) -> UnknownTerm | None:
    """The term that words are, as a whole."""
    return next((term for term in UNKNOWN_TERMS if re.fullmatch(term.pattern, words, re.IGNORECASE)), None)


def term_at(code: str, column: int) -> tuple[UnknownTerm, int, int] | None:
    """The term that stands around a column (from 1) of a line, outside texts in quotes, with its offsets."""
    first = max(0, column - _AROUND)
    bare = re.sub(r'"[^"]*"?', lambda text: "\0" * len(text[0]), code)[first : column + _AROUND]
    for term in UNKNOWN_TERMS:
        for match in re.finditer(rf"(?<![\w-])(?:{term.pattern})(?![\w-])", bare, re.IGNORECASE):
            if match.start() <= column - 1 - first <= match.end():
                return term, match.start() + first, match.end() + first
    return None
