"""Mistakes and advice together: advice is given once there is no mistake."""

from halfhank.grammar.parse import parse
from halfhank.model.planning.planning import plan_parsed

from tests.model.texts import text

LINE = "increase 1 at each edge every 2 rows"
ODD = "stitch garter\n  gauge 20 sts 30 rows over 10 cm"


def codes(written: str) -> list[str]:
    return [one.code for one in plan_parsed(parse(written)).problems]


def test_a_shaping_line_with_a_mistake_is_no_missing_one() -> None:
    assert codes(text("garter 20 rows")) == ["unshaped"]
    assert codes(text("garter 20 rows", lines=("increase 4 at each ege every 2 rows until",))) == ["unknown-word"]
    assert codes(text("increase 1 at each edge evry 2 rows\ngarter 20 rows")) == ["unknown-word"]


def test_advice_waits_for_every_kind_of_mistake() -> None:
    """Of reading, of the design, of its rows, of its outline, of the log."""
    assert codes(text("garter 20 rows", stitches=ODD, lines=(LINE,))) == ["odd-gauge"]
    log = "weighed\n  after row 30 90 g left"
    for more, code in (
        ({"lines": ("increase 4 at spine every 2 rows",), "shape": "crescent"}, "place-not-allowed"),
        ({"lines": ("decrease 5 at each edge every 2 rows",)}, "too-few-stitches"),
        ({"lines": ("increase 1 at spine every 6 rows", "pinned straight")}, "fan-not-straight"),
        ({"lines": (LINE,), "tail": log}, "no-such-row"),
    ):
        assert codes(text("garter 20 rows", stitches=ODD, **more)) == [code]  # type: ignore[arg-type]
