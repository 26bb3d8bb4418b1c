"""Title and the line under it."""

from halfhank.model.shawl import Shawl
from halfhank.renderer.block import Block, Column
from halfhank.renderer.metrics import wrap
from halfhank.renderer.scene import Group, Item, Label
from halfhank.renderer.style import INK, SOFT, SUBTITLE, TITLE


def heading(shawl: Shawl, column: Column, top: float) -> Block:
    """The title in at most two lines, the summary in at most three."""
    items: list[Item] = []
    y = top
    for line in wrap(shawl.title, column.width, TITLE, 2, face="serif"):
        y += TITLE * (0.95 if not items else 1.2)
        items.append(Label(column.left, y, line, TITLE, INK, face="serif"))
    y += 1.0
    for line in wrap(shawl.summary, column.width, SUBTITLE, 3):
        y += SUBTITLE * 1.45
        items.append(Label(column.left, y, line, SUBTITLE, SOFT))
    return Block(Group("heading", tuple(items)), y + 1.0)
