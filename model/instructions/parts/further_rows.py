"""The rows past those planned, where the yarn sets the count: one more repeat, or some more rows of a band."""

from collections.abc import Sequence

from halfhank.model.design.band_walk import open_piece
from halfhank.model.design.design import Band
from halfhank.model.instructions.parts.worked_blocks import BandBlock, blocks_of
from halfhank.model.marks_and_stops.variants import with_more
from halfhank.model.plan import Plan
from halfhank.model.planning.computing import Uncorrected, computed

_MORE_STEPS = 6
"""Steps of a band whose rows are told past the plan: they have the next shaped row of most shawls."""


def further_plan(plan: Plan) -> Plan | None:
    """The shawl with one more repeat, or some more rows of the band that the yarn sets; None if it cannot be worked."""
    return plan.once(_further)


def _further(plan: Plan) -> Plan | None:
    piece = open_piece(plan.design)
    if piece is None or not plan.shawl.allowed:
        return None
    more = _MORE_STEPS if isinstance(piece, Band) else 1
    variant = with_more(plan, more)
    if variant is None:
        return None
    worked = Uncorrected(plan.table, plan.shawl.allowed + more, variant.parts, variant.rows)
    return computed(worked, plan.working.table, []).plan


def further_block(plan: Plan, place: int, block: BandBlock) -> BandBlock | None:
    """The same block of the part at that place with what is past the plan; None for a block that does not grow."""
    longer = further_plan(plan) if block.by_yarn and not block.back else None
    if longer is None:
        return None
    found = next((one for one in blocks_of(longer, longer.parts[place]) if one.number == block.number), None)
    return found if found and _rows(found)[0] == _rows(block)[0] and len(_rows(found)) > len(_rows(block)) else None


def _rows(block: BandBlock) -> Sequence[int]:
    return range(block.turns[0].first_row, block.turns[-1].last_row + 1)
