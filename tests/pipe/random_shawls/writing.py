"""Descriptions put down from facts, plainly or in any of the ways that the language lets people space and comment
them.
"""

from collections.abc import Sequence
from random import Random

from tests.pipe.random_shawls.spec import AnyBand, Band, BindOff, Drop, Fabric, Line, Part, Spec, Tab, Tension, Written

COMMENTS = (
    "# swatched twice",
    '# "not a text"',
    "#",
    "# maschenprobe nach dem waschen – 20 × 40",
    '# part "x"',
    "# 2,5",
)
Lines = list[tuple[int, list[str]]]


def text(value: str) -> str:
    """The value in double quotes, escaped."""
    return '"' + value.replace("\\", "\\\\").replace('"', '\\"') + '"'


def counted(number: int, unit: str) -> str:
    """`1 st`, `2 sts`: a count and its unit, one token."""
    return f"{number} {unit[:-1] if number == 1 and unit != 'as yarn allows' else unit}"


def tension(words: str, value: Tension) -> list[str]:
    return [words, f"{value.stitches} sts", f"{value.rows} rows", "over", str(value.over)]


def fabric(block: Fabric) -> Lines:
    lines: Lines = [(0, ["stitch", block.name])]
    if block.base:
        lines.append((1, ["as", block.base]))
    if block.gauge:
        lines.append((1, tension("gauge", block.gauge)))
    if block.before:
        lines.append((1, tension("before blocking", block.before)))
    if block.swatch:
        verb = "weighs" if block.swatch.amount.unit in ("g", "oz") else "takes"
        counts = [counted(block.swatch.stitches, "sts"), counted(block.swatch.rows, "rows")]
        lines.append((1, ["swatch", *counts, verb, str(block.swatch.amount)]))
    if block.pattern:
        extra = [f"+ {block.pattern.extra}"] if block.pattern.extra else []
        lines.append((1, ["multiple of", counted(block.pattern.multiple, "sts"), *extra]))
    if block.fill:
        lines.append((1, ["fill", block.fill]))
    if block.pattern:
        lines += [(1, [f"row {k}:", row]) for k, row in enumerate(block.pattern.rows, 1)]
    return lines


# By which the numbers of stitches stay as they are.
METHODS = {
    "increase": ("yo", "m1", "kfb"),
    "decrease": ("k2tog", "ssk", "p2tog", "ssp"),
    "decrease by twos": ("k3tog", "sssk", "sk2p", "p3tog", "sssp"),
}


def method(line: Line, number: int) -> list[str]:
    """How the stitches at one of its places are made, said for every other line."""
    amount, place = line.places[number]
    chosen = 3 * amount + len(place) + (line.every or 0) + (line.until or 0)
    by_twos = line.action == "decrease" and amount % 2 == 0
    methods = METHODS.get("decrease by twos" if by_twos else line.action, ())
    return [methods[chosen % len(methods)]] if methods and chosen % 2 else []


def shaping(line: Line) -> list[str]:
    words = [line.action]
    if line.evenly_to is not None:
        words += ["evenly to", counted(line.evenly_to, "sts")]
    elif line.places[0][1] == "evenly":
        words += [str(line.places[0][0]), *method(line, 0), "evenly"]
    else:
        words.append(
            " and ".join(
                " ".join([str(amount), *method(line, k), f"at {place}"])
                for k, (amount, place) in enumerate(line.places)
            )
        )
    if line.every is not None:
        words.append("every row" if line.every == 1 else f"every {line.every} rows")
    if line.from_row is not None:
        words.append(f"from row {line.from_row}")
    if line.until is not None:
        words += ["until", counted(line.until, "sts")]
    return words


def shape(spec: Spec) -> Lines:
    lines: Lines = [(0, ["shape", spec.shape])]
    if isinstance(spec.start, Tab):
        lines.append((1, ["garter tab", counted(spec.start.stitches, "sts"), counted(spec.start.rows, "rows")]))
    else:
        lines.append((1, ["cast on", counted(spec.start, "sts")]))
    if spec.edge:
        lines.append((1, ["edge", counted(spec.edge[0], "sts"), *([spec.edge[1]] if spec.edge[1] else [])]))
    if spec.spine is not None:
        lines.append((1, ["spine", counted(spec.spine, "sts")]))
    lines += [(1, shaping(line)) for line in spec.lines]
    if spec.pinned:
        lines.append((1, ["pinned", spec.pinned]))
    return lines


def band(item: AnyBand, depth: int) -> Lines:
    label = [text(item.label)] if isinstance(item, Band | Drop) and item.label is not None else []
    if isinstance(item, Drop):
        return [(depth, ["drop", counted(item.wraps, "wraps"), *label])]
    if isinstance(item, Band):
        if not item.counts:
            return [(depth, [item.stitch, "as yarn allows", *label])]
        unit = item.unit[:-1] if item.counts == (1,) else item.unit
        return [(depth, [item.stitch, ", ".join(map(str, item.counts)), unit, *label])]
    times = "as yarn allows" if item.times is None else counted(item.times, "times")
    return [(depth, ["repeat", times])] + [line for inner in item.bands for line in band(inner, depth + 1)]


def part(block: Part) -> Lines:
    lines: Lines = [(0, ["part", text(block.name)])]
    if block.even:
        lines.append((1, ["even"]))
    lines += [(1, shaping(line)) for line in block.lines]
    return lines + [line for item in block.bands for line in band(item, 1)]


def yarn(spec: Spec) -> Lines:
    lines: Lines = [(0, ["yarn", *([text(spec.yarn)] if spec.yarn is not None else [])])]
    lines.append((1, ["skein", str(spec.skein_mass), str(spec.skein_length)]))
    if spec.fibre is not None:
        lines.append((1, ["fibre", text(spec.fibre)]))
    if spec.keep is not None:
        lines.append((1, ["keep", str(spec.keep) if isinstance(spec.keep, Written) else f"{spec.keep} %"]))
    return lines


def head(spec: Spec) -> Lines:
    lines: Lines = [(0, ["shawl", text(spec.title)])]
    if spec.by is not None:
        lines.append((1, ["by", text(spec.by)]))
    lines += [(1, ["remark", text(remark)]) for remark in spec.remarks]
    if spec.units:
        lines.append((1, ["units", spec.units]))
    return lines


def bind_off(off: BindOff) -> list[str]:
    if off.method == "measured":
        return ["bind off takes", off.takes or "", "times the width"]
    if off.method == "measured each":
        return ["bind off takes", off.takes or "", "sts each"]
    numbers = ["cast on", str(off.numbers[0]), "bind off", str(off.numbers[1])] if off.numbers else []
    return ["bind off", off.method, *numbers]


def foot(spec: Spec) -> Lines:
    lines: Lines = []
    if spec.turn_back is not None:
        lines.append((0, ["turn back", *(["around", text(spec.turn_back)] if spec.turn_back else [])]))
    if spec.bind_off:
        lines.append((0, bind_off(spec.bind_off)))
    if spec.weighed:
        lines.append((0, ["weighed"]))
    for weighing in spec.weighed:
        when = ["after row", str(weighing.row)] if weighing.row else ["before cast on"]
        what = ["used" if weighing.used else "left"] if weighing.row else []
        lines.append((1, [*when, str(weighing.mass), *what]))
    return lines


def blocks(spec: Spec, order: Random | None) -> list[Lines]:
    """All blocks in a workable order: those before the first part may stand in any."""
    early = [yarn(spec), [(0, ["needles", str(spec.needles)])], *map(fabric, spec.fabrics), shape(spec)]
    if order:
        order.shuffle(early)
    return [head(spec), *early, *map(part, spec.parts), foot(spec)]


def write(spec: Spec, style: Random | None = None) -> str:
    """The description; with `style`, in a spacing, order of blocks and sprinkling of comments that it chooses."""
    if style is None:
        return (
            "\n\n".join(
                "\n".join("  " * depth + " ".join(words) for depth, words in block)
                for block in blocks(spec, None)
                if block
            )
            + "\n"
        )
    out: list[str] = []
    step = style.choice((1, 2, 2, 3, 4, 8))
    for block in blocks(spec, style):
        for depth, words in block:
            out += decoration(style)
            tail = "  " + style.choice(COMMENTS) if style.random() < 0.05 else " " * style.choice((0, 0, 0, 2))
            out.append(" " * (step * depth) + spaced(words, style) + tail)
    newline = style.choice(("\n", "\n", "\r\n"))
    return style.choice(("", "", "\ufeff")) + newline.join(out) + style.choice(("", newline, newline * 3))


def decoration(style: Random) -> list[str]:
    """Blank lines and comments, which stand anywhere in any column."""
    chance = style.random()
    if chance < 0.08:
        return [""]
    if chance < 0.12:
        return [" " * style.randint(0, 9) + style.choice(COMMENTS)]
    return []


def spaced(words: Sequence[str], style: Random) -> str:
    """The words with one space between them, or more, or tabs; a unit may touch its number."""
    joined = [touching(word) if style.random() < 0.2 else word for word in words]
    gaps = [style.choice((" ", " ", " ", "  ", "\t", " \t ")) for _ in joined[1:]] + [""]
    return "".join(word + gap for word, gap in zip(joined, gaps, strict=True))


def touching(word: str) -> str:
    """`100 g` as `100g`: only for a figure with one unit behind it."""
    figure, _, unit = word.partition(" ")
    return figure + unit if figure.replace(".", "", 1).isdigit() and (unit.isalpha() or unit == "%") else word
