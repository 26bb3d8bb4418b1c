"""The shawl in a handful of sentences: shape, size, parts, half of its yarn, yarn and chance."""

from halfhank.model.phrases import depth_name
from halfhank.model.shawl import Shawl
from halfhank.renderer.paper.measure_words import exact_mass, length_words, row_range, scale_words, stitches
from halfhank.renderer.paper.scripts.directions import isolated
from halfhank.renderer.text_alternatives.yarn_words import chance_words, half_words

MOST_PARTS = 12
NAMES_OF_SIDES = {"depth": ("wide", "deep"), "length": ("wide", "long"), "width": ("long", "wide")}
"""What the piece is across and down, by the name of its depth."""


def describe_shawl(shawl: Shawl, scale: float) -> str:
    """What a drawing at 1:`scale` shows, for those who do not see it, and the designer's remarks."""
    summary = shawl.summary[:1].upper() + shawl.summary[1:]
    sentences = [f"{summary}.", _size_words(shawl, scale), _parts_words(shawl), *half_words(shawl)]
    return " ".join([*sentences, _yarn_words(shawl), chance_words(shawl), *shawl.remarks])


def _size_words(shawl: Shawl, scale: float) -> str:
    size, units = shawl.outline.size, shawl.units
    across, down = NAMES_OF_SIDES[depth_name(shawl)]
    measures = f"{length_words(size.wingspan_cm, units)} {across} and {length_words(size.depth_cm, units)} {down}"
    start = shawl.start.words
    begun = start if start.endswith(stitches(shawl.start.stitches)) else f"{start}, {stitches(shawl.start.stitches)}"
    return (
        f"Drawn at {scale_words(scale)}, {measures}: {shawl.rows.count:,} rows from {begun} "
        f"to {stitches(shawl.bind_off.stitches)}, {shawl.bind_off.words}."
    )


def _parts_words(shawl: Shawl) -> str:
    parts = shawl.parts[:MOST_PARTS]
    more = len(shawl.parts) - len(parts)
    named = [f"{isolated(part.name)}, {row_range(part.first_row, part.last_row)}" for part in parts]
    return f"Parts: {'; '.join([*named, *([f'and {more} more'] if more else [])])}."


def _yarn_words(shawl: Shawl) -> str:
    yarn, unit = shawl.yarn, shawl.skein.unit
    used = f"Yarn used: {exact_mass(yarn.total_g, unit)} of {exact_mass(yarn.skein_g, unit)}"
    return f"{used}, {exact_mass(abs(yarn.left_g), unit)} {'left over' if yarn.left_g > -0.05 else 'short'}."
