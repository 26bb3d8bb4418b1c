"""Working notation by itself, apart from any description."""

from halfhank.grammar.body import Body
from halfhank.grammar.layout import lay_out
from halfhank.grammar.syntax import Item
from halfhank.grammar.values import Teller


def read_notation(text: str) -> tuple[Item, ...] | None:
    """The items of one row of working notation, None where it is none. Their columns count from the row's own start."""
    layout = lay_out(f"row 1: {text}")
    teller = Teller()
    body = Body(teller).read(layout.roots, "in_stitch")
    rows = body.all("row")
    if layout.problems or teller.problems or len(rows) != 1:
        return None
    items: tuple[Item, ...] = rows[0].items
    return items
