"""Stitches that take over from others by `as`: the blocks to ask, nearest first."""

from collections.abc import Iterable, Iterator, Mapping

from halfhank.model.design.design import StitchBlock

Blocks = Mapping[str, StitchBlock]


def by_name(blocks: Iterable[StitchBlock]) -> dict[str, StitchBlock]:
    """Blocks by their stitch's name."""
    return {block.name: block for block in blocks}


def chain(blocks: Blocks, built_ins: Blocks, name: str) -> Iterator[StitchBlock]:
    """A stitch's block and those that it is `as`, nearest first; a ring ends where it closes.

    A built-in with rows ends it, where its name has no block or its own block is `as` it.
    """
    seen = set[str]()
    while name in blocks and name not in seen:
        seen.add(name)
        yield blocks[name]
        name = blocks[name].base or ""
    if name in built_ins and (name not in blocks or blocks[name].base == name):
        yield built_ins[name]
