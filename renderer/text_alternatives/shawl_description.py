"""The shawl in a handful of sentences: shape, size, parts, half of its yarn, yarn and chance."""

from halfhank.model.phrases import depth_name
from halfhank.model.shawl import Shawl
from halfhank.model.words.drawn_words import phrase, phrase_of
from halfhank.renderer.paper.measure_words import exact_mass, length_words, row_range, scale_words, stitches
from halfhank.renderer.paper.scripts.directions import isolated
from halfhank.renderer.text_alternatives.yarn_words import chance_words, half_words

MOST_PARTS = 12


def describe_shawl(shawl: Shawl, scale: float) -> str:
    """What a drawing at 1:`scale` shows, for those who do not see it, and the designer's remarks."""
    summary = shawl.summary[:1].upper() + shawl.summary[1:]
    sentences = [f"{summary}.", _size_words(shawl, scale), _parts_words(shawl), *half_words(shawl)]
    return " ".join([*sentences, _yarn_words(shawl), chance_words(shawl), *shawl.remarks])


def _size_words(shawl: Shawl, scale: float) -> str:
    size, units = shawl.outline.size, shawl.units
    across, down = length_words(size.wingspan_cm, units), length_words(size.depth_cm, units)
    start, first = shawl.start.words, stitches(shawl.start.stitches)
    return phrase(
        "alt.drawn",
        scale=scale_words(scale),
        size=phrase_of("alt-size", depth_name(shawl), across=across, down=down),
        rows=shawl.rows.count,
        start=start if start.endswith(first) else phrase("alt.start", start=start, stitches=first),
        stitches=stitches(shawl.bind_off.stitches),
        bind_off=shawl.bind_off.words,
    )


def _parts_words(shawl: Shawl) -> str:
    parts = shawl.parts[:MOST_PARTS]
    more = len(shawl.parts) - len(parts)
    named = "; ".join(
        phrase("alt.part", name=isolated(part.name), rows=row_range(part.first_row, part.last_row)) for part in parts
    )
    return phrase("alt.parts-and-more", parts=named, count=str(more)) if more else phrase("alt.parts", parts=named)


def _yarn_words(shawl: Shawl) -> str:
    yarn, unit = shawl.yarn, shawl.skein.unit
    used, skein, mass = (exact_mass(grams, unit) for grams in (yarn.total_g, yarn.skein_g, abs(yarn.left_g)))
    return phrase("alt.left-over" if yarn.left_g > -0.05 else "alt.short", used=used, skein=skein, mass=mass)
