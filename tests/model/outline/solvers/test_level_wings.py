"""Wings that come up level with the start, though their radius is sought over a sample of the rows."""

import pytest
from halfhank.model.outline.solvers.arcs import right_end
from halfhank.model.outline.solvers.level_wings import level_radii
from halfhank.model.outline.solvers.strip import Strip


@pytest.mark.parametrize("longer", [214, 299])
def test_the_highest_row_is_level_though_it_is_not_in_the_sample(longer: int) -> None:
    """300 rows that grow by 3.6 cm a cm, one of them 5 % longer than that: its ends are the highest."""
    along, lengths = [0.25 * row for row in range(301)], [9 + 0.9 * row for row in range(301)]
    lengths[longer] *= 1.05
    radii = level_radii(Strip(along, lengths, lengths), 3.6)
    assert radii is not None
    heights = [right_end(radii, *row)[1] for row in zip(along, lengths, strict=True)]
    wide = [height for height, length in zip(heights, lengths, strict=True) if length > max(lengths) / 2]
    assert min(wide) == heights[longer] == pytest.approx(heights[0], abs=1e-3)


def test_a_single_row_can_be_level() -> None:
    assert level_radii(Strip([0.0, 5.0], [10.0, 28.0], [10.0, 28.0]), 3.6) is not None
