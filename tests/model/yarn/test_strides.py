"""No count that `as yarn allows` passes over is too dear or unworkable: budgets just below a dear count."""

from collections.abc import Callable
from random import Random

import pytest
from halfhank.model.design.design import Design
from halfhank.model.yarn.allowance import allowance
from halfhank.model.yarn.row_yarn import RowYarn
from halfhank.model.yarn.stitch_table import StitchTable
from halfhank.model.yarn.supply import YarnSupply

from tests.model.yarn.strides import FAMILIES
from tests.model.yarn.test_allowance import total_m

MOST = 24
SHAWLS = 40
ENDLESS_M = 1e12


def every_total(table: StitchTable) -> list[float]:
    """What the whole takes with 1, 2, 3… times, in m, each worked out whole, as far as it can be worked."""
    totals: list[float] = []
    while len(totals) < MOST and (total := total_m(table, len(totals) + 1)) is not None:
        totals.append(total)
    return totals


def dear_budgets(totals: list[float]) -> list[float]:
    """Budgets in m just below counts that take more than all before them: the dearest steps and the highest peaks."""
    steps: list[tuple[float, float, float]] = []
    best = totals[0]
    for k, total in enumerate(totals[1:], 1):
        if total > best * (1 + 1e-6):
            fall = total - min(totals[k : k + 4])
            steps.append((fall, total - best, best + 0.999 * (total - best)))
        best = max(best, total)
    chosen = [*sorted(steps, reverse=True)[:2], *sorted(steps, key=lambda step: -step[1])[:2], *steps[:1]]
    return sorted({budget for *_, budget in chosen})


def wrong(design: Design) -> list[tuple[float, int, int]]:
    """Budgets in m with the count that they pay for, and the other one that is found."""
    table = StitchTable(design)
    totals = every_total(table)
    if not totals:
        return []
    budgets = dear_budgets(totals) + ([ENDLESS_M] if len(totals) < MOST else [])
    out = []
    for budget in budgets:
        expected = next((k for k, total in enumerate(totals) if total > budget), len(totals))
        found = allowance(RowYarn(table), YarnSupply(budget, 1.0, 0.0, 0.0))[0]
        if found != expected:
            out.append((budget, expected, found))
    return out


@pytest.mark.parametrize("family", FAMILIES)
def test_no_count_passed_over_is_too_dear(family: Callable[[Random], Design]) -> None:
    assert [seed for seed in range(SHAWLS) if wrong(family(Random(seed)))] == []


@pytest.mark.parametrize("family", FAMILIES)
def test_the_shawls_have_dear_counts(family: Callable[[Random], Design]) -> None:
    """The comparison above needs counts to look for."""
    totals = [every_total(StitchTable(family(Random(seed)))) for seed in range(8)]
    assert sum(len(found) > 3 for found in totals) > 4
