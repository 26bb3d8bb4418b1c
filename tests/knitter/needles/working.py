"""Works the items of a row on the needles, one after the other, exactly as they are written."""

from collections import Counter
from dataclasses import dataclass, field

from tests.knitter.needles.needle import Needles, Stitch
from tests.knitter.refusal import RefusedError, needed
from tests.knitter.text.items import (
    KNIT,
    LIFTED,
    MEANINGS,
    PURL,
    BindOff,
    Cable,
    CastOn,
    DropWraps,
    Group,
    InPlace,
    Item,
    Items,
    Lift,
    Over,
    PassOver,
    Slip,
    SlipBack,
    WholeRow,
    Work,
    WorkIn,
)


@dataclass
class Worked:
    """What a row drew: loops (of them those of crossed stitches), wraps beyond the first, new stitches by their face,
    and its shaping by abbreviation."""

    loops: int = 0
    crossed: int = 0
    extra_wraps: int = 0
    faces: Counter[str] = field(default_factory=Counter)
    shaping: Counter[str] = field(default_factory=Counter)


class RowWorker:
    """One row on its way along the needle. `bind_off`: a bind-off row, where stitches may go back to the left."""

    def __init__(self, needles: Needles, row: int, wrong_side: bool, bind_off: bool = False) -> None:
        self.needles = needles
        self.row = row
        self.wrong_side = wrong_side
        self.bind_off = bind_off
        self.done = Worked()
        self.owing = False
        """A bind-off at the start of the row still needs the stitch that it passes its last one over."""

    def work(self, items: Items) -> Worked:
        """Works all items of the row."""
        self._check_wraps(items)
        for item in items:
            self._item(item)
        needed(not self.owing, "`bind off` has no stitch to pass over")
        return self.done

    def _check_wraps(self, items: Items) -> None:
        """Extra wraps live for one row: the next drops them first."""
        wrapped = any(stitch.wraps > 1 for stitch in self.needles.left)
        needed(isinstance(items[0], DropWraps) or not wrapped, "the extra wraps of the row before are not dropped")

    def _item(self, item: Item) -> None:
        needed(
            not self.owing or _is_one_stitch(item),
            f"after `bind off` one stitch is worked first, which is none of {item}",
        )
        match item:
            case Work(name, count, wraps):
                for _ in range(count):
                    self._work(name, wraps)
            case WholeRow(name):
                self._whole(name)
            case Group():
                self._group(item)
            case InPlace(items, stitches):
                self._in_place(items, stitches)
            case Slip(count):
                self._slip(count)
            case Over(count):
                self._over(count)
            case Lift(name):
                self._lift(name)
            case Cable(first, second, turn):
                self._cable(first + second, f"{first}/{second} {turn}")
            case WorkIn(count, pattern):
                self._unwritten(count, f"work {count} in {pattern}")
            case DropWraps():
                self._drop()
            case BindOff(count):
                self._bind_off(count)
            case CastOn(count, to_left):
                self._cast_on(count, to_left)
            case SlipBack() | PassOver():
                self._bind_off_only(item)

    def _draw(self, face: str, wraps: int = 1) -> None:
        """A new loop on the right needle; its face is turned to the right side of the work."""
        seen = {KNIT: PURL, PURL: KNIT}.get(face, "") if self.wrong_side else face
        self.needles.place(Stitch(self.row, seen, wraps))
        self.done.faces[seen] += 1
        self._loops(1)
        self.done.extra_wraps += wraps - 1

    def _loops(self, count: int) -> None:
        self.done.loops += count

    def _work(self, name: str, wraps: int = 1) -> None:
        meaning = MEANINGS[name]
        self.needles.take(meaning.taken, name)
        self.owing = False
        for _ in range(meaning.made):
            self._draw(meaning.face, wraps)
        self._loops(meaning.loops - meaning.made)
        if meaning.taken != meaning.made:
            self.done.shaping[name] += 1

    def _whole(self, name: str) -> None:
        needed(not self.needles.right and bool(self.needles.left), f"`{name}` is not the whole row")
        for _ in range(len(self.needles.left)):
            self._work({"knit": "k", "purl": "p"}[name])

    def _group(self, group: Group) -> None:
        for time in range(1, group.times + 1):
            try:
                for item in group.items:
                    self._item(item)
            except RefusedError as refused:
                raise RefusedError(f"the repeat does not come out, time {time} of {group.times}: {refused}") from None

    def _in_place(self, items: Items, stitches: int) -> None:
        self.needles.take(stitches, f"[ ] in {stitches}")
        self.owing = False
        self._draw_in_place(items)

    def _draw_in_place(self, items: Items) -> None:
        """Loops drawn without a stitch being taken."""
        for item in items:
            if isinstance(item, Group):
                self._draw_in_place(item.items * item.times)
            elif isinstance(item, Over):
                self._over(item.number)
            elif isinstance(item, Work):
                for _ in range(item.number):
                    self._draw(MEANINGS[item.name].face, item.wraps)

    def _slip(self, count: int) -> None:
        for stitch in self.needles.take(count, f"sl{count}"):
            self.needles.place(stitch)
        self.owing = False

    def _over(self, count: int) -> None:
        for _ in range(count):
            self._draw("")
        self.done.shaping["yo"] += count

    def _lift(self, name: str) -> None:
        self.needles.lift_strand(name)
        self._draw(LIFTED[name])
        self.done.shaping[name] += 1

    def _cable(self, count: int, what: str) -> None:
        self.needles.take(count, what)
        for _ in range(count):
            self._draw(KNIT)
        self.done.crossed += count

    def _unwritten(self, count: int, what: str) -> None:
        self.needles.take(count, what)
        self.owing = False
        for _ in range(count):
            self._draw("")

    def _drop(self) -> None:
        fresh = not self.needles.right and not self.needles.taken
        needed(fresh and any(stitch.wraps > 1 for stitch in self.needles.left), "`drop wraps` with nothing to drop")
        for stitch in self.needles.left:
            stitch.wraps = 1

    def _bind_off(self, count: int) -> None:
        """At the start of a row the stitch that is worked for the last one to be passed over is still to come."""
        needed(not self.bind_off, "`bind off` inside the bind-off")
        what = f"bind off {count}"
        if self.needles.right:
            for _ in range(count):
                self.needles.take(1, what)
                self.needles.place(Stitch(self.row, KNIT))
                self.needles.pass_over(what)
        else:
            needed(not self.needles.taken, f"`{what}` after stitches that are gone")
            self.needles.take(count, what)
            self.owing = True
        self._loops(count)
        self.done.shaping["bind off"] += count

    def _cast_on(self, count: int, to_left: bool) -> None:
        needed(to_left == self.bind_off, "stitches are cast on to the left needle in a bind-off, and there alone")
        if to_left:
            self.needles.left.extendleft(Stitch(self.row, KNIT) for _ in range(count))
            self._loops(count)
            return
        for _ in range(count):
            self._draw(KNIT)
        self.done.shaping["cast on"] += count

    def _bind_off_only(self, item: SlipBack | PassOver) -> None:
        needed(self.bind_off, f"{item} belongs to the bind-off")
        if isinstance(item, SlipBack):
            self.needles.slip_back(item.number)
        else:
            self.needles.pass_over("pass over")


def _is_one_stitch(item: Item) -> bool:
    """Whether the item begins with a stitch that a bind-off can pass another over."""
    match item:
        case Work(name):
            return MEANINGS[name].made == 1
        case Group(items):
            return _is_one_stitch(items[0])
        case InPlace((Work(number=1),)):
            return True
    return isinstance(item, Slip | WorkIn)
