"""Two needles with their stitches one by one."""

from collections import deque
from dataclasses import dataclass

from tests.knitter.refusal import needed, sts


@dataclass(slots=True, eq=False)
class Stitch:
    """One live loop: a thing of its own, which stays the same one when it is slipped.

    `made_in`: the row that drew it, 0 for the start. `face`: `knit` or `purl` as seen from the right side of the
    work, empty for a yarn over or where the pattern is not known. `wraps`: how often the yarn lies around the needle.
    `strand_before`: whether a strand that can be lifted runs to it from the stitch worked before it.
    """

    made_in: int
    face: str
    wraps: int = 1
    strand_before: bool = False


class Needles:
    """The stitches still to be worked, next one first, and those worked, last one last."""

    def __init__(self) -> None:
        self.left: deque[Stitch] = deque()
        self.right: list[Stitch] = []
        self.taken = 0
        """Stitches taken from the left needle in this row."""

    def __len__(self) -> int:
        return len(self.left) + len(self.right)

    def take(self, count: int, what: str) -> list[Stitch]:
        """Takes the next stitches from the left needle."""
        needed(len(self.left) >= count, f"`{what}` needs {sts(count)}, on the left needle: {len(self.left)}")
        self.taken += count
        return [self.left.popleft() for _ in range(count)]

    def place(self, stitch: Stitch) -> None:
        """Puts a stitch on the right needle, beside the one before it."""
        stitch.strand_before = bool(self.right)
        self.right.append(stitch)

    def lift_strand(self, what: str) -> None:
        """Uses up the strand before the next stitch."""
        needed(bool(self.left), f"`{what}` at the end of the row: no strand")
        needed(self.left[0].strand_before, f"`{what}`: no strand between the last stitch and the next")
        self.left[0].strand_before = False

    def pass_over(self, what: str) -> None:
        """The second stitch on the right needle goes over the first and off."""
        needed(len(self.right) >= 2, f"`{what}`: no stitch to pass over")
        del self.right[-2]
        self.right[-1].strand_before = False

    def slip_back(self, count: int) -> None:
        """Stitches from the right needle go back to the left."""
        needed(len(self.right) >= count, f"`sl{count} back`: only {sts(len(self.right))} on the right needle")
        for _ in range(count):
            self.left.appendleft(self.right.pop())

    def turn(self) -> None:
        """Turns the work after a row: the last stitch is the first of the next, strands stay where they are."""
        needed(not self.left, f"{sts(len(self.left))} left over on the left needle")
        strands = [stitch.strand_before for stitch in self.right]
        self.left = deque(reversed(self.right))
        for stitch, strand in zip(self.left, [False, *reversed(strands[1:])], strict=True):
            stitch.strand_before = strand
        self.right, self.taken = [], 0
