"""The yarn chart in sentences, and how sure its end is."""

from halfhank.model.number_words import counted
from halfhank.model.shawl import Shawl
from halfhank.model.weighings.forecast import Forecast
from halfhank.model.weighings.posterior import Estimate
from halfhank.renderer.paper.measure_words import exact, exact_mass
from halfhank.renderer.paper.scripts.directions import isolated
from halfhank.renderer.text_alternatives.yarn_words import chance_words, half_words


def end_words(end: Estimate, unit: str) -> str:
    """What is left over after the bind-off, or short, with its 90 % range."""
    low = f"{exact(end.low, unit)} to" if end.low >= 0 else f"{exact_mass(-end.low, unit)} short to"
    high = exact_mass(end.high, unit) if end.high >= 0 else f"{exact_mass(-end.high, unit)} short"
    end_g = exact_mass(abs(end.mean), unit)
    left = f"After the bind-off: {end_g} left over" if end.mean >= 0 else f"Not enough yarn: {end_g} short"
    return f"{left} (90 % range {low} {high})."


def weighing_count(shawl: Shawl, forecast: Forecast) -> int:
    """How many weighings the log has, that of the whole skein before the start included."""
    return len(forecast.weighings) + (shawl.skein.weighed_g is not None)


def describe_yarn_chart(shawl: Shawl, forecast: Forecast) -> str:
    """The chart's curve from its start to its end, half of the yarn, how sure the end is, and the weighings."""
    yarn, unit = shawl.yarn, shawl.skein.unit
    curve = (
        f"Chart of the yarn on the scale after each of {shawl.rows.count:,} rows: it falls from "
        f"{exact_mass(yarn.skein_g, unit)} to {exact_mass(forecast.end.mean, unit)} after the bind-off, "
        "with its 90 % range around it."
    )
    parts = ", ".join(f"{isolated(part.name)} to {exact_mass(part.left_g, unit)}" for part in shawl.parts)
    logged = weighing_count(shawl, forecast)
    weighed = [f"{counted(logged, 'weighing')} of the log {'is' if logged == 1 else 'are'} shown."] if logged else []
    sentences = [curve, f"Parts: {parts}.", *half_words(shawl), end_words(forecast.end, unit), chance_words(shawl)]
    return " ".join([*sentences, *weighed])
