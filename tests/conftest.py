"""What all tests share: `pytest --accept` writes golden files anew in place of comparing with them."""

import gc

import pytest
from hypothesis import settings

# No test is a timed one.
settings.register_profile("untimed", deadline=None)
settings.load_profile("untimed")

# Nothing that is imported or collected becomes garbage, and Python's collector would go through all of it again and
# again: a quarter of the tests' time. So it is off until all is there, passes that over, and then comes seldom.
gc.disable()
BETWEEN_COLLECTIONS = 50_000
"""New objects before the youngest are looked through; Python's own 700 is for programs that have little memory."""


def pytest_collection_finish() -> None:
    gc.collect()
    gc.freeze()
    gc.set_threshold(BETWEEN_COLLECTIONS, 20, 1000)
    gc.enable()


def pytest_addoption(parser: pytest.Parser) -> None:
    parser.addoption("--accept", action="store_true", help="write golden files anew in place of comparing with them")


@pytest.fixture
def accept(request: pytest.FixtureRequest) -> bool:
    """Whether changed golden files are to be accepted."""
    return bool(request.config.getoption("--accept"))
