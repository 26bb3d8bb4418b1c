"""The words of the language: its kinds of blocks with the facts inside them, and its lists of names.

A new block or fact takes an entry here, its rule in `shawl.lark`, and its builder in `reading/`.
"""

from halfhank.grammar.record import NamedTuple


class FactKind(NamedTuple):
    """One fact of a block: the lines that say it, in however many forms.

    `key` is the fact's name among those of its block. `words` are the first words of its lines, `rules` the grammar's
    names of their trees. `many`: a block may have it more than once.
    """

    key: str
    words: tuple[str, ...]
    rules: tuple[str, ...]
    many: bool = False


class BlockKind(NamedTuple):
    """One kind of block.

    `name` is made of its header's keywords. `opening` is a pattern: a line that goes on like this after the first
    keyword can only be a header. `place` is the sentence that says where the block belongs, and `rank` orders the
    blocks: none may be before one of a lower rank. `weight`: how reluctantly it is taken to be in the wrong place.
    `many`: there may be several. `may_be_empty`: it has a meaning without lines inside. `missing` is the hint for a
    description that has none, None where it may be left out.
    """

    name: str
    opening: str
    rank: int
    place: str
    weight: float
    facts: tuple[FactKind, ...] = ()
    many: bool = False
    may_be_empty: bool = False
    missing: str | None = None

    @property
    def word(self) -> str:
        """The first word of its header."""
        return self.name.partition(" ")[0]

    @property
    def start(self) -> str:
        """The grammar's start rule for the lines inside; there is none where there are no facts."""
        return f"in_{self.name}"


def _fact(key: str, words: str = "", rules: str = "", many: bool = False) -> FactKind:
    """A fact whose words and rules are as its key where nothing else is given."""
    return FactKind(key, tuple((words or key).split()), tuple((rules or key).split()), many)


_SHAPING = _fact("shaping", "increase decrease bind", "shaping evenly_to", many=True)
_EARLY = "`{}` comes after `shawl` and before the first part."

# The parts make the piece: they weigh most. Its first and last blocks move most easily.
_BLOCKS = (
    BlockKind(
        "shawl",
        opening=' *"',
        rank=0,
        place="`{}` comes first.",
        weight=0.9,
        facts=(_fact("by"), _fact("remark", many=True), _fact("units")),
        may_be_empty=True,
        missing='start with `shawl "…"`',
    ),
    BlockKind(
        "yarn",
        opening=' *(?:"|$)',
        rank=1,
        place=_EARLY,
        weight=1.0,
        facts=(_fact("skein"), _fact("fibre"), _fact("keep", rules="keep_share keep_mass")),
        missing="add `yarn` with its `skein MASS LENGTH`",
    ),
    BlockKind(
        "needles",
        opening=" +[0-9]",
        rank=1,
        place=_EARLY,
        weight=1.0,
        may_be_empty=True,
        missing="add `needles … mm`",
    ),
    BlockKind(
        "stitch",
        opening=r" +(?!as )[^\W\d]",
        rank=1,
        place=_EARLY,
        weight=1.0,
        facts=(
            _fact("gauge"),
            _fact("before_blocking", "before"),
            _fact("swatch"),
            _fact("multiple"),
            _fact("fill"),
            _fact("base", "as"),
            _fact("row", "row rows", many=True),
        ),
        many=True,
    ),
    BlockKind(
        "shape",
        opening=r" +(?!as )[^\W\d]",
        rank=1,
        place=_EARLY,
        weight=1.0,
        facts=(
            _fact("start", "cast garter", "cast_on garter_tab"),
            _fact("edge"),
            _fact("spine"),
            _fact("pinned", rules="pinned_straight pinned_to"),
            _SHAPING,
        ),
        missing="add `shape …` with its start",
    ),
    BlockKind(
        "part",
        opening=' *"',
        rank=2,
        place="`{}` comes before `turn back`, `bind off` and `weighed`.",
        weight=1.5,
        facts=(
            _fact("even"),
            _SHAPING,
            _fact("band", "drop repeat", "band band_allows drop drop_band drop_allows repeat repeat_allows", many=True),
        ),
        many=True,
        missing='add a `part "…"` with its bands',
    ),
    BlockKind(
        "turn back",
        opening=" +back *(?:around|$)",
        rank=3,
        place="`{}` comes after the last part and before `bind off`.",
        weight=0.93,
        may_be_empty=True,
    ),
    BlockKind(
        "bind off",
        opening=" +off +(?:standard|elastic|picot|i-cord|draw|takes)",
        rank=4,
        place="`{}` comes after the parts and before `weighed`.",
        weight=0.95,
        may_be_empty=True,
    ),
    BlockKind(
        "weighed",
        opening=" *$",
        rank=5,
        place="`{}` comes last.",
        weight=0.9,
        facts=(_fact("weighing", "before after", "before_cast_on after_row", many=True),),
    ),
)

BLOCKS = {block.name: block for block in _BLOCKS}
"""The kinds of blocks by name, in the order of the reference."""

HEADERS = {block.word: block for block in _BLOCKS}
"""The same by the first word of their headers."""

FACTS = {block.start: {word: fact for fact in block.facts for word in fact.words} for block in _BLOCKS if block.facts}
"""The facts by the start rule of their block and the first word of their lines."""

FACT_OF_RULE = {rule: fact for block in _BLOCKS for fact in block.facts for rule in fact.rules}
"""The facts by the grammar's names of their trees."""

STARTS = ("header", *FACTS)
"""The start rules of the grammar: the lines of the top level, and those inside each kind of block."""

UNITS = ("mm", "cm", "m", "in", "yd", "g", "oz")

PLAIN_STITCHES = ("garter", "stockinette", "drop")
"""Built-ins that are only measured: a band of them may begin at any of their rows and be any number of rows long."""

PATTERN_STITCHES = ("moss", "eyelet-row", "scattered-eyelets", "open-mesh", "drop-wave", "small-cable")
"""Built-ins with rows that a band works from row 1 on; `builtin/` has them."""

BUILT_IN_STITCHES = PLAIN_STITCHES + PATTERN_STITCHES

RESERVED = frozenset({"part", *FACTS["in_part"]})
"""Names that no stitch may have, so that the first word of a line in a part shows whether it is a band."""

SHAPES = ("triangle", "crescent", "half-circle", "tip-to-tip", "asymmetric", "rectangle")
