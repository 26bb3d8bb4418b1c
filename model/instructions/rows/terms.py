"""The terms that rows use, each with how it is worked."""

from collections.abc import Iterable, Iterator

from halfhank.grammar.description import Cable, InOne, Item, Times, Work
from halfhank.model.instructions.rows.segments import WORK
from halfhank.model.report_tree import Content
from halfhank.model.words.catalogue import say_one_of

_WITH_NUMBER = {"bind off": "bind off N", "cast on": "cast on N"}


def explained(items: Iterable[Item]) -> dict[str, Content]:
    """By each term that the items use what it means; `knit` and `purl` of a whole row are plain words."""
    return dict(_terms(items))


def _terms(items: Iterable[Item]) -> Iterator[tuple[str, Content]]:
    for item in items:
        match item:
            case Times():
                yield "[ ] N times", say_one_of("item", "times")
                yield from _terms(item.items)
            case InOne():
                yield "[ ] in N", say_one_of("item", "in")
                yield from _terms(item.items)
            case Cable():
                yield f"{item.first}/{item.second} {item.turn}", cable_words(item)
            case Work():
                yield from _work(item)


def _work(item: Work) -> Iterator[tuple[str, Content]]:
    if item.kind.startswith(f"{WORK} "):
        yield "work N in …", say_one_of("item", WORK)
        return
    name = "yo twice" if item.twice else item.kind
    yield _WITH_NUMBER.get(name, name), say_one_of("item", name)
    if item.twice:
        yield item.kind, say_one_of("item", item.kind)
    for used, term in ((item.tbl, "tbl"), (item.wyif, "wyif"), (item.wraps > 1, "with N wraps")):
        if used:
            yield term, say_one_of("item", term)


def cable_words(cable: Cable) -> Content:
    """`first` over `second`: in a right cross the second group waits at the back, in a left cross the first in
    front."""
    first, second, place = (
        (cable.second, cable.first, "at the back") if cable.turn == "rc" else (cable.first, cable.second, "in front")
    )
    return say_one_of("item", cable.turn, first=first, second=second, place=say_one_of("item", place))
