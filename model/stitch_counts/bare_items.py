"""Items of working notation without their places in the text."""

from halfhank.grammar.description import Across, InOne, Item, Times
from halfhank.grammar.problems.problem import Span

NOWHERE = Span(0, 0, 0)


def bare(item: Item) -> Item:
    """The item without its place in the text, so that like ones are equal."""
    plain = item._replace(span=NOWHERE)
    if isinstance(plain, InOne | Times | Across):
        return plain._replace(items=tuple(bare(one) for one in plain.items))
    return plain
