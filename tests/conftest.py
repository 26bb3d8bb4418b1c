"""What all tests share: `pytest --accept` writes golden files anew in place of comparing with them."""

import pytest


def pytest_addoption(parser: pytest.Parser) -> None:
    parser.addoption("--accept", action="store_true", help="write golden files anew in place of comparing with them")


@pytest.fixture
def accept(request: pytest.FixtureRequest) -> bool:
    """Whether changed golden files are to be accepted."""
    return bool(request.config.getoption("--accept"))
