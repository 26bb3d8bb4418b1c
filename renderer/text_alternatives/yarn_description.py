"""The yarn chart in sentences, and how sure its end is."""

from halfhank.model.shawl import Shawl
from halfhank.model.weighings.forecast import Forecast
from halfhank.model.weighings.posterior import Estimate
from halfhank.model.words.drawn_words import phrase
from halfhank.renderer.paper.measure_words import exact, exact_mass
from halfhank.renderer.paper.scripts.directions import isolated
from halfhank.renderer.text_alternatives.yarn_words import chance_words, half_words


def end_words(end: Estimate, unit: str) -> str:
    """What is left over after the bind-off, or short, with its 90 % range."""
    if end.low >= 0:
        low = phrase("range.from", low=exact(end.low, unit))
    else:
        low = phrase("range.from-short", low=exact_mass(-end.low, unit))
    far = exact_mass(abs(end.high), unit)
    high = far if end.high >= 0 else phrase("size.short", mass=far)
    mass = exact_mass(abs(end.mean), unit)
    return phrase("range.left-over" if end.mean >= 0 else "range.short", mass=mass, low=low, high=high)


def weighing_count(shawl: Shawl, forecast: Forecast) -> int:
    """How many weighings the log has, that of the whole skein before the start included."""
    return len(forecast.weighings) + (shawl.skein.weighed_g is not None)


def describe_yarn_chart(shawl: Shawl, forecast: Forecast) -> str:
    """The chart's curve from its start to its end, half of the yarn, how sure the end is, and the weighings."""
    yarn, unit = shawl.yarn, shawl.skein.unit
    skein, end = exact_mass(yarn.skein_g, unit), exact_mass(forecast.end.mean, unit)
    curve = phrase("alt.curve", rows=shawl.rows.count, skein=skein, end=end)
    parts = ", ".join(
        phrase("alt.part-to", name=isolated(part.name), mass=exact_mass(part.left_g, unit)) for part in shawl.parts
    )
    logged = weighing_count(shawl, forecast)
    weighed = [phrase("alt.logged", count=logged)] if logged else []
    sentences = [
        curve,
        phrase("alt.parts", parts=parts),
        *half_words(shawl),
        end_words(forecast.end, unit),
        chance_words(shawl),
    ]
    return " ".join([*sentences, *weighed])
