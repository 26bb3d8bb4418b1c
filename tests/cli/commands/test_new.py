"""`halfhank new`: every start draws at once and needs no advice."""

from pathlib import Path

import pytest
from halfhank.cli.commands.new import SHAPES

from tests.cli.running import halfhank, shawl_of


@pytest.mark.parametrize("shape", SHAPES)
def test_a_start_draws_without_advice(tmp_path: Path, shape: str) -> None:
    path = tmp_path / f"{shape}.shawl"
    assert halfhank("new", shape, "-o", path) == (0, b"", "")
    drawn = halfhank("draw", path)
    assert (drawn.status, drawn.err) == (0, "")
    assert halfhank("check", "--strict", path).status == 0


@pytest.mark.parametrize("shape", SHAPES)
def test_a_start_is_a_whole_shawl_of_its_shape(tmp_path: Path, shape: str) -> None:
    path = tmp_path / "new.shawl"
    path.write_bytes(halfhank("new", shape).out)
    shawl = shawl_of(path)
    assert shawl.shape == shape
    assert shawl.rows.count > 60
    assert 0.5 * shawl.yarn.skein_g < shawl.yarn.total_g <= shawl.yarn.skein_g - shawl.yarn.keep_g
    comments = [line for line in path.read_text().split("\n") if line.lstrip().startswith("#")]
    assert len(comments) >= 5


def test_a_triangle_unless_another_is_asked_for() -> None:
    assert halfhank("new").out == halfhank("new", "triangle").out


def test_no_description_is_written_over(good: Path) -> None:
    before = good.read_bytes()
    result = halfhank("new", "crescent", "-o", good)
    assert result.status == 2 and "exists already" in result.err
    assert good.read_bytes() == before
