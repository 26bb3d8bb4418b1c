"""The plan record: all that planning works out of a description, each thing once. Every view takes it."""

from collections.abc import Callable, Mapping
from typing import Any, TypeVar, cast

from halfhank.grammar.problems.problem import MISTAKE, Problem
from halfhank.grammar.record import NamedTuple
from halfhank.model.design.design import Design
from halfhank.model.rows.row_table import Rows
from halfhank.model.rows.shaping import WorkedPart
from halfhank.model.shawl import Shawl
from halfhank.model.yarn.ledger import Ledger
from halfhank.model.yarn.stitch_table import StitchTable
from halfhank.model.yarn.working import Working

T = TypeVar("T")


class Plan:
    """A computed design.

    `working` has its parts, stitches and ledger with the log taken in; `table` and `ledger` are the stitches and yarn
    ledger before any row was weighed. `shawl` is what drawings and tables show of it. `made`: what is made of the plan
    already, see `once`.
    """

    def __init__(
        self, working: Working, table: StitchTable, ledger: Ledger, shawl: Shawl, made: "Made | None" = None
    ) -> None:
        self.working, self.table, self.ledger, self.shawl = working, table, ledger, shawl
        self._made = dict(made or {})

    @property
    def design(self) -> Design:
        """What the description means."""
        return self.working.design

    @property
    def parts(self) -> list[WorkedPart]:
        """The parts as worked, mirrored ones included."""
        return self.working.parts

    @property
    def rows(self) -> Rows:
        """Every row."""
        return self.shawl.rows

    @property
    def problems(self) -> tuple[Problem, ...]:
        """All advice."""
        return self.shawl.problems

    def once(self, make: Callable[["Plan"], T]) -> T:
        """What `make` makes of this plan, made at the first call."""
        if make not in self._made:
            self._made[make] = make(self)
        return cast(T, self._made[make])


Made = Mapping[Callable[[Plan], Any], Any]


class Planned(NamedTuple):
    """What planning gives back: the plan (None where a mistake is in the way) and all problems by place."""

    plan: Plan | None
    problems: tuple[Problem, ...]

    @property
    def shawl(self) -> Shawl | None:
        """The computed shawl, None without a plan."""
        return self.plan.shawl if self.plan else None

    @property
    def has_mistakes(self) -> bool:
        """Whether a problem is a mistake."""
        return any(problem.severity == MISTAKE for problem in self.problems)
