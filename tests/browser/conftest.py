"""One browser for each file of tests."""

from collections.abc import Iterator
from typing import TYPE_CHECKING

import pytest

from tests.browser.chromium import ARGUMENTS, CHROMIUM

if TYPE_CHECKING:
    from playwright.sync_api import Browser


@pytest.fixture(scope="module")
def browser() -> "Iterator[Browser]":
    # A second to import, in the one process that needs it.
    from playwright.sync_api import sync_playwright

    with sync_playwright() as playwright:
        chromium = playwright.chromium.launch(executable_path=str(CHROMIUM), headless=True, args=ARGUMENTS)
        yield chromium
        chromium.close()
