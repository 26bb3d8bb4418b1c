"""What the machine says instead of knitting on."""

from collections.abc import Iterator
from contextlib import contextmanager


class RefusedError(Exception):
    """Something that cannot be worked as it is written, with the line where it stands."""


@contextmanager
def at(place: str) -> Iterator[None]:
    """Names the line in whatever is refused inside it."""
    try:
        yield
    except RefusedError as refused:
        raise RefusedError(f"{place}: {refused}") from None


def sts(count: int) -> str:
    """A count of stitches in words."""
    return f"{count} st" if count == 1 else f"{count} sts"


def needed(holds: bool, message: str) -> None:
    """Refuses where something does not hold."""
    if not holds:
        raise RefusedError(message)
