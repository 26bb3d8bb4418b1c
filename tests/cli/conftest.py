"""What the command's tests share."""

from pathlib import Path

import pytest

from tests.cli.running import GOOD


@pytest.fixture
def good(tmp_path: Path) -> Path:
    """A description without problems, in a folder of its own."""
    path = tmp_path / "good.shawl"
    path.write_text(GOOD, encoding="utf-8")
    return path
