"""A shawl worked out from the first row to the last, with all of its yarn."""

from functools import cached_property
from itertools import accumulate

from halfhank.model.design.design import Design
from halfhank.model.rows.shaping import WorkedPart, last_stitch
from halfhank.model.yarn.ledger import Ledger
from halfhank.model.yarn.row_yarn import RowYarn, before_rows_m, bind_off_m
from halfhank.model.yarn.stitch_table import StitchTable
from halfhank.model.yarn.supply import YarnSupply


class Working:
    """The worked `parts` of a shawl with the `ledger` of their yarn and the `supply` that it is taken from."""

    def __init__(self, yarn: RowYarn, parts: list[WorkedPart], ledger: Ledger, supply: YarnSupply) -> None:
        self.yarn, self.parts, self.ledger, self.supply = yarn, parts, ledger, supply

    @property
    def table(self) -> StitchTable:
        """The stitches, as corrected as the ledger."""
        return self.yarn.table

    @property
    def design(self) -> Design:
        """What is worked."""
        return self.yarn.table.design

    @cached_property
    def used_m(self) -> list[float]:
        """Yarn used after each row from 0, in m."""
        rows_m = (metres for part in self.parts for metres in self.yarn.rows_m(part))
        used_m = list(accumulate(rows_m, initial=before_rows_m(self.table)))
        past_m = self.table.corrections.past_m[: len(used_m)]
        return [used - (past_m[-1] - past) for used, past in zip(used_m, past_m, strict=False)] + used_m[len(past_m) :]

    @cached_property
    def left_g(self) -> list[float]:
        """Yarn left after each row from 0, in g; from the last weighing on no more than the scale showed."""
        return [self.left_after_g(row, metres) for row, metres in enumerate(self.used_m)]

    def left_after_g(self, row: int, used_m: float, bind_off_m: float = 0.0) -> float:
        """What is left after a row by which so much is used, a bind-off of `bind_off_m` in it, in g."""
        left_g = self.supply.skein_g - used_m / self.supply.metres_per_gram
        shown = self.table.corrections.shown
        if shown is None or row < shown.row:
            return left_g
        return shown.at_most_g(left_g, bind_off_m / self.supply.metres_per_gram)

    @cached_property
    def total_m(self) -> float:
        """Yarn of the whole, in m."""
        return self.used_m[-1] + bind_off_m(self.table, last_stitch(self.parts)) * self.parts[-1].end

    @property
    def left_over_g(self) -> float:
        """What is left after the bind-off, in g; less than nothing where the yarn is short."""
        return self.left_after_g(self.row_count, self.total_m, self.total_m - self.used_m[-1])

    @property
    def row_count(self) -> int:
        """How many rows there are."""
        return len(self.used_m) - 1
