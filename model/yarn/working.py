"""A shawl worked out from the first row to the last, with all of its yarn."""

from functools import cached_property
from itertools import accumulate

from halfhank.model.design.design import Design
from halfhank.model.rows.shaping import WorkedPart, last_stitch
from halfhank.model.yarn.ledger import Ledger
from halfhank.model.yarn.row_yarn import RowYarn, bind_off_m, start_m
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
        return list(accumulate(rows_m, initial=start_m(self.table)))

    @cached_property
    def total_m(self) -> float:
        """Yarn of the whole, in m."""
        return self.used_m[-1] + bind_off_m(self.table, last_stitch(self.parts)) * self.parts[-1].end

    @property
    def row_count(self) -> int:
        """How many rows there are."""
        return len(self.used_m) - 1
