"""Blocks into one description."""

from halfhank.grammar.description import BindOff, Description, Length, Name, Part, Shape, Text, TurnBack, Weighing, Yarn
from halfhank.grammar.language import BLOCKS, FACTS, SHAPES
from halfhank.grammar.lines.synonyms import SHAPES_OF_TRADE
from halfhank.grammar.problems import parse_problems as known
from halfhank.grammar.problems.problem import Problem, Span
from halfhank.grammar.problems.spelling import nearest
from halfhank.grammar.reading.block_body import BlockBody
from halfhank.grammar.reading.blocks import Block, Blocks
from halfhank.grammar.reading.cross_checks import check_keep, check_log, check_turn_back
from halfhank.grammar.reading.parse_context import Branch, ParseContext
from halfhank.grammar.reading.part_reader import PartReader
from halfhank.grammar.reading.stitch_blocks import Stitches
from halfhank.grammar.reading.values import branch, branches, count, decimal, length, maybe, name, text


def assemble(context: ParseContext, blocks: Blocks) -> Description | None:
    """The description that the blocks make, None where a required fact was not understood."""
    stitches = Stitches().read(context, blocks)
    title, heads = _shawl(context, blocks)
    yarn = _yarn(context, blocks)
    needles = _needles(context, blocks)
    context.shape = _named_shape(blocks)
    shape = _shape(context, blocks, stitches)
    parts = _parts(context, blocks, stitches)
    turn_back = check_turn_back(context, _turn_back(context, blocks), blocks)
    bind_off = _bind_off(context, blocks)
    log = _log(context, blocks, yarn)
    _report_missing(context, blocks, stitches)
    if not (title and yarn and needles and shape and parts and any(s.gauge for s in stitches.blocks.values())):
        return None
    by, remarks, units = heads.get("by"), heads.all("remark"), heads.get("units") or "cm"
    span = next((block.span for block in blocks.of("weighed")), None)
    all_stitches = tuple(stitches.blocks.values())
    return Description(
        title, by, remarks, units, yarn, needles, all_stitches, shape, parts, turn_back, bind_off, log, span
    )


def _report_missing(context: ParseContext, blocks: Blocks, stitches: Stitches) -> None:
    if blocks.unsure:
        return
    for kind in BLOCKS.values():
        if kind.missing and not blocks.of(kind.name) and not context.misplaced_words & set(FACTS.get(kind.start, ())):
            context.report(known.MISSING_BLOCK.at(None, block=kind.name, mend=kind.missing))
    if not stitches.maybe_gauge and "gauge" not in context.misplaced_words:
        span = next((block.span for block in blocks.of("stitch")), None)
        context.report(known.MISSING_FACT_OF_GAUGE.at(span))


def _first_block(context: ParseContext, blocks: Blocks, kind: str) -> tuple[Block | None, BlockBody]:
    """The first block of a kind and its facts; those of any second one are read for their mistakes alone."""
    first: tuple[Block | None, BlockBody] = (None, BlockBody(context))
    for block in blocks.of(kind):
        body = BlockBody(context).read(block.lines, block.kind.start)
        if first[0] is None:
            first = (block, body)
    return first


def _shawl(context: ParseContext, blocks: Blocks) -> tuple[Text | None, BlockBody]:
    block, body = _first_block(context, blocks, "shawl")
    return _header_text(context, block), body


def _header_text(context: ParseContext, block: Block | None) -> Text | None:
    if block is None or block.tree is None:
        return None
    context.line = block.source.number
    found = maybe(block.tree, 0)
    return None if found is None else text(context, found)


def _require(context: ParseContext, block: Block, body: BlockBody, key: str, problem: Problem) -> None:
    if block.lines and body.lacks(key):
        context.report(problem)


def _yarn(context: ParseContext, blocks: Blocks) -> Yarn | None:
    block, body = _first_block(context, blocks, "yarn")
    if block is None:
        return None
    _require(context, block, body, "skein", known.MISSING_FACT_OF_YARN.at(block.span))
    title = _header_text(context, block)
    skein, keep = body.get("skein"), body.get("keep")
    if skein is None:
        return None
    return Yarn(title, skein, body.get("fibre"), check_keep(context, keep, skein), block.span)


def _needles(context: ParseContext, blocks: Blocks) -> Length | None:
    found = []
    for block in blocks.of("needles"):
        context.line = block.source.number
        before = len(context.problems)
        if block.tree is None:
            continue
        size = length(context, branch(block.tree, 0))
        if size.unit != "mm" and len(context.problems) == before:
            context.report(known.WRONG_UNIT_OF_NEEDLES.at(size.span))
        if context.is_clean(before):
            found.append(size)
    return found[0] if found else None


def _named_shape(blocks: Blocks) -> str | None:
    """The shape that the first header names or most likely means, None where nobody knows."""
    trees = [block.tree for block in blocks.of("shape")[:1] if block.tree]
    written = str(branch(trees[0], 0).children[0]) if trees else ""
    return written if written in SHAPES else _meant_shape(written)


def _meant_shape(written: str) -> str | None:
    return SHAPES_OF_TRADE.get(written.lower()) or nearest(written, SHAPES)


def _report_shape(context: ParseContext, shape: Name) -> None:
    """Report a shape that there is not."""
    from halfhank.grammar.lines.unknown_terms import unknown_term

    term = unknown_term(shape.value)
    if term:
        context.report(known.UNKNOWN_SHAPE_NOT_KNOWN.at(shape.span, term=term.name, mend=term.instead))
        return
    near = _meant_shape(shape.value)
    shapes = None if near else ", ".join(f"`{name}`" for name in SHAPES)
    context.report(known.UNKNOWN_SHAPE.at(shape.span, shape=shape.value, near=near, shapes=shapes))


def _shape(context: ParseContext, blocks: Blocks, stitches: Stitches) -> Shape | None:
    block, body = _first_block(context, blocks, "shape")
    if block is None:
        return None
    _require(context, block, body, "start", known.MISSING_FACT_OF_SHAPE.at(block.span))
    edge = body.get("edge")
    if edge and edge.stitch:
        edge = edge if stitches.checked(context, edge.stitch) else None
    start = body.get("start")
    if block.tree is None:
        return None
    context.line = block.source.number
    shape = name(context, branch(block.tree, 0))
    if shape.value not in SHAPES:
        _report_shape(context, shape)
        return None
    if start is None:
        return None
    return Shape(shape, start, edge, body.get("spine"), body.all("shaping"), body.get("pinned"), block.span)


def _parts(context: ParseContext, blocks: Blocks, stitches: Stitches) -> tuple[Part, ...]:
    reader = PartReader(context, stitches)
    lines: dict[str, Span] = {}
    found = []
    for part in map(reader.part, blocks.of("part")):
        if part is None:
            continue
        if part.name.value in lines:
            line = lines[part.name.value].line
            context.report(known.DUPLICATE_NAME_OF_PART.at(part.name.span, line=line))
            continue
        lines[part.name.value] = part.name.span
        found.append(part)
    return tuple(found)


def _turn_back(context: ParseContext, blocks: Blocks) -> TurnBack | None:
    for block in blocks.of("turn back"):
        if block.tree is None:
            continue
        context.line = block.source.number
        around = maybe(block.tree, 0)
        return TurnBack(None if around is None else text(context, around), block.span)
    return None


def _bind_off(context: ParseContext, blocks: Blocks) -> BindOff | None:
    found = []
    for block in blocks.of("bind off"):
        if block.tree is None:
            continue
        context.line = block.source.number
        before = len(context.problems)
        bind_off = _method(context, branch(block.tree, 0), block.span)
        if context.is_clean(before):
            found.append(bind_off)
    return found[0] if found else None


def _method(context: ParseContext, tree: Branch, span: Span) -> BindOff:
    method = tree.data.replace("i_cord", "i-cord").replace("_", " ")
    if method in ("measured", "measured each"):
        return BindOff(method, 0, 0, decimal(context, branch(tree, 0)), span)
    if method != "picot":
        return BindOff(method, 0, 0, None, span)
    numbers = [count(context, number) for number in branches(tree)]
    cast_on, bind_off = numbers or (0, 0)
    if numbers and bind_off <= cast_on:
        place = context.span(branch(tree, 1))
        context.report(known.PICOT_TOO_TIGHT.at(place, least=cast_on + 1))
    return BindOff(method, cast_on, bind_off, None, span)


def _log(context: ParseContext, blocks: Blocks, yarn: Yarn | None) -> tuple[Weighing, ...]:
    _, body = _first_block(context, blocks, "weighed")
    return check_log(context, body.all("weighing"), None if yarn is None else yarn.skein)
