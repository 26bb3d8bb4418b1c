"""Knits invented by another model than the forecast's, to hold its ranges against.

Yarn of a row is a product, not a sum of errors: its swatch's factor, its ratio's and that of the tension while the row
was worked, which is a number of its own for every row. Nothing here is taken from the forecast but which grams of a row
hang on which swatch and ratio.
"""

from typing import NamedTuple

import numpy as np
from halfhank.model.weighings.weighing_model import WeighingModel
from halfhank.model.yarn.uncertainty import BIND_OFF, GAUGE, RATIO, START, SWATCH

TRUE_SD = {SWATCH: 0.06, RATIO: 0.05, GAUGE: 0.10, START: 0.15, BIND_OFF: 0.15}
TRUE_LABEL_SD = 0.02
TRUE_HANDLING_G = 0.5
TENSIONS = ("none", "walk 2 %", "walk 4 %", "step 2 %")


class Grams(NamedTuple):
    """Grams of the start, each row and the bind-off (`whole`), and of those what hangs on each error by itself.

    `alone` hangs on a swatch or gauge alone, `ratio` on a ratio too; `root` says of which error the entry is.
    """

    whole: np.ndarray
    hanging: np.ndarray


class Knits(NamedTuple):
    """Many knits of one shawl: `skein_g` of each, and `left_g` after start, rows and bind-off, one line for a knit."""

    skein_g: np.ndarray
    left_g: np.ndarray


def grams_of(model: WeighingModel) -> Grams:
    """What each entry takes, from the model's steps."""
    steps = [*model.steps, model.bind_off]
    hanging = np.zeros((len(steps), len(model.errors)))
    for entry, step in enumerate(steps):
        for k, weight in step.weights.items():
            hanging[entry, k] = -weight
    return Grams(np.array([-step.constant for step in steps]), hanging)


def tension(kind: str, whole: np.ndarray, count: int, rng: np.random.Generator) -> np.ndarray:
    """By how much each entry of each knit takes more or less than its stitch does at the cast-on."""
    name, _, size = kind.partition(" ")
    used = np.cumsum(whole) / whole.sum()
    if name == "walk":
        sds = float(size.split()[0]) / 100 * np.sqrt(whole / whole.sum())
        return np.cumsum(rng.normal(0, 1, (count, len(whole))) * sds, axis=1)
    if name == "step":
        sizes = float(size.split()[0]) / 100 * rng.choice([-1.0, 1.0], count)
        return sizes[:, None] * (used > 0.5)[None, :]
    return np.zeros((count, len(whole)))


def knits(model: WeighingModel, kind: str, count: int, rng: np.random.Generator) -> Knits:
    """So many knits, each with errors and a tension of its own."""
    whole, hanging = grams_of(model)
    factors = {k: 1 + rng.normal(0, TRUE_SD[e.kind], count) for k, e in enumerate(model.errors) if e.kind in TRUE_SD}
    grams = np.empty((count, len(whole)))
    for entry, amounts in enumerate(hanging):
        grams[:, entry] = _entry(model, amounts, whole[entry], factors)
    grams *= 1 + tension(kind, whole, count, rng)
    skein_g = model.skein_g * (1 + rng.normal(0, TRUE_LABEL_SD, count))
    return Knits(skein_g, skein_g[:, None] - np.cumsum(grams, axis=1))


def _entry(model: WeighingModel, amounts: np.ndarray, whole: float, factors: dict[int, np.ndarray]) -> np.ndarray:
    """Grams of one entry in each knit. Every gram hangs on one swatch or gauge, some on one more error besides."""
    roots = [k for k in factors if amounts[k] and model.errors[k].kind in (SWATCH, GAUGE)]
    more = [k for k in factors if amounts[k] and k not in roots]
    root = factors[roots[0]] if roots else 1.0
    alone = whole - sum(amounts[k] for k in more)
    return root * (alone + sum(amounts[k] * factors[k] for k in more))


def shown(true_g: np.ndarray, step_g: float, rng: np.random.Generator) -> np.ndarray:
    """What a scale shows: handling, then its last figure."""
    handled = true_g + rng.normal(0, TRUE_HANDLING_G, true_g.shape)
    return np.maximum(np.round(handled / step_g) * step_g, 0.0)
