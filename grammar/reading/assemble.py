"""Blocks into one description."""

from halfhank.grammar.description import BindOff, Description, Length, Part, Shape, Text, TurnBack, Weighing, Yarn
from halfhank.grammar.language import BLOCKS, FACTS, SHAPES
from halfhank.grammar.problems import Span
from halfhank.grammar.reading.block_body import Body
from halfhank.grammar.reading.blocks import Block, Blocks
from halfhank.grammar.reading.cross_checks import check_keep, check_log, check_turn_back
from halfhank.grammar.reading.part_reader import PartReader
from halfhank.grammar.reading.stitch_blocks import Stitches
from halfhank.grammar.reading.values import Branch, Teller, branch, branches, count, decimal, length, maybe, name, text
from halfhank.grammar.spelling import nearest

_PICOT = (2, 4)


def assemble(teller: Teller, blocks: Blocks) -> Description | None:
    """The description that the blocks make, None where a required fact was not understood."""
    stitches = Stitches().read(teller, blocks)
    title, heads = _shawl(teller, blocks)
    yarn = _yarn(teller, blocks)
    needles = _needles(teller, blocks)
    shape = _shape(teller, blocks, stitches)
    parts = _parts(teller, blocks, stitches)
    turn_back = check_turn_back(teller, _turn_back(teller, blocks), blocks)
    bind_off = _bind_off(teller, blocks)
    log = _log(teller, blocks, yarn)
    _tell_missing(teller, blocks, stitches)
    if not (title and yarn and needles and shape and parts and any(s.gauge for s in stitches.blocks.values())):
        return None
    by, remarks, units = heads.get("by"), heads.all("remark"), heads.get("units") or "cm"
    span = next((block.span for block in blocks.of("weighed")), None)
    all_stitches = tuple(stitches.blocks.values())
    return Description(
        title, by, remarks, units, yarn, needles, all_stitches, shape, parts, turn_back, bind_off, log, span
    )


def _tell_missing(teller: Teller, blocks: Blocks, stitches: Stitches) -> None:
    if blocks.unsure:
        return
    for kind in BLOCKS.values():
        if kind.missing and not blocks.of(kind.name) and not teller.strays & set(FACTS.get(kind.start, ())):
            teller.tell("missing-block", None, f"There is no `{kind.name}` block.", kind.missing)
    if not stitches.maybe_gauge and "gauge" not in teller.strays:
        span = next((block.span for block in blocks.of("stitch")), None)
        hint = "add `gauge … sts … rows over 10 cm` to a `stitch` block"
        teller.tell("missing-fact", span, "No stitch has a gauge.", hint)


def _first_block(teller: Teller, blocks: Blocks, kind: str) -> tuple[Block | None, Body]:
    """The first block of a kind and its facts; those of any second one are read for their mistakes alone."""
    first: tuple[Block | None, Body] = (None, Body(teller))
    for block in blocks.of(kind):
        body = Body(teller).read(block.lines, block.kind.start)
        if first[0] is None:
            first = (block, body)
    return first


def _shawl(teller: Teller, blocks: Blocks) -> tuple[Text | None, Body]:
    block, body = _first_block(teller, blocks, "shawl")
    return _header_text(teller, block), body


def _header_text(teller: Teller, block: Block | None) -> Text | None:
    if block is None or block.tree is None:
        return None
    teller.line = block.source.number
    found = maybe(block.tree, 0)
    return None if found is None else text(teller, found)


def _require(teller: Teller, block: Block, body: Body, key: str, message: str, hint: str) -> None:
    if block.lines and body.lacks(key):
        teller.tell("missing-fact", block.span, message, hint)


def _yarn(teller: Teller, blocks: Blocks) -> Yarn | None:
    block, body = _first_block(teller, blocks, "yarn")
    if block is None:
        return None
    _require(teller, block, body, "skein", "The skein is missing.", "add `skein MASS LENGTH`, as on the label")
    title = _header_text(teller, block)
    skein, keep = body.get("skein"), body.get("keep")
    if skein is None:
        return None
    return Yarn(title, skein, body.get("fibre"), check_keep(teller, keep, skein), block.span)


def _needles(teller: Teller, blocks: Blocks) -> Length | None:
    found = []
    for block in blocks.of("needles"):
        teller.line = block.source.number
        before = len(teller.problems)
        if block.tree is None:
            continue
        size = length(teller, branch(block.tree, 0))
        if size.unit != "mm" and len(teller.problems) == before:
            teller.tell("wrong-unit", size.span, "Needles are measured in mm.", "write their size in `mm`")
        if len(teller.problems) == before and block.source.number not in teller.told:
            found.append(size)
    return found[0] if found else None


def _shape(teller: Teller, blocks: Blocks, stitches: Stitches) -> Shape | None:
    block, body = _first_block(teller, blocks, "shape")
    if block is None:
        return None
    message = "The shape has no start."
    _require(teller, block, body, "start", message, "add `cast on N sts` or `garter tab A sts B rows`")
    edge = body.get("edge")
    if edge and edge.stitch:
        edge = edge if stitches.checked(teller, edge.stitch) else None
    start = body.get("start")
    if block.tree is None:
        return None
    teller.line = block.source.number
    shape = name(teller, branch(block.tree, 0))
    if shape.value not in SHAPES:
        near = nearest(shape.value, SHAPES)
        hint = f"write `{near}`" if near else "shapes are " + ", ".join(SHAPES)
        teller.tell("unknown-shape", shape.span, f"There is no shape `{shape.value[:40]}`.", hint)
        return None
    if start is None:
        return None
    return Shape(shape, start, edge, body.get("spine"), body.all("shaping"), body.get("pinned"), block.span)


def _parts(teller: Teller, blocks: Blocks, stitches: Stitches) -> tuple[Part, ...]:
    reader = PartReader(teller, stitches)
    lines: dict[str, Span] = {}
    found = []
    for part in map(reader.part, blocks.of("part")):
        if part is None:
            continue
        if part.name.value in lines:
            hint = f"line {lines[part.name.value].line} has it already"
            teller.tell("duplicate-name", part.name.span, "Two parts have the same name.", hint)
            continue
        lines[part.name.value] = part.name.span
        found.append(part)
    return tuple(found)


def _turn_back(teller: Teller, blocks: Blocks) -> TurnBack | None:
    for block in blocks.of("turn back"):
        if block.tree is None:
            continue
        teller.line = block.source.number
        around = maybe(block.tree, 0)
        return TurnBack(None if around is None else text(teller, around), block.span)
    return None


def _bind_off(teller: Teller, blocks: Blocks) -> BindOff | None:
    found = []
    for block in blocks.of("bind off"):
        if block.tree is None:
            continue
        teller.line = block.source.number
        before = len(teller.problems)
        bind_off = _method(teller, branch(block.tree, 0), block.span)
        if len(teller.problems) == before and block.source.number not in teller.told:
            found.append(bind_off)
    return found[0] if found else None


def _method(teller: Teller, tree: Branch, span: Span) -> BindOff:
    method = tree.data.replace("i_cord", "i-cord").replace("_", " ")
    if method == "measured":
        return BindOff(method, 0, 0, decimal(teller, branch(tree, 0)), span)
    if method != "picot":
        return BindOff(method, 0, 0, None, span)
    numbers = [count(teller, number) for number in branches(tree)]
    cast_on, bind_off = numbers or _PICOT
    if bind_off <= cast_on:
        place = teller.span(branch(tree, 1))
        message = "A picot binds off more stitches than it casts on, or the row would never end."
        teller.tell("picot-too-tight", place, message, f"bind off at least {cast_on + 1}")
    return BindOff(method, cast_on, bind_off, None, span)


def _log(teller: Teller, blocks: Blocks, yarn: Yarn | None) -> tuple[Weighing, ...]:
    _, body = _first_block(teller, blocks, "weighed")
    return check_log(teller, body.all("weighing"), None if yarn is None else yarn.skein)
