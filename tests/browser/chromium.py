"""The browser in which drawings are looked at."""

import os
from pathlib import Path

import pytest

CHROMIUM = Path("/usr/bin/chromium")
ARGUMENTS = [
    "--no-sandbox",
    "--disable-gpu",
    "--disable-quic",
    "--no-first-run",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
]
HERE = pytest.mark.skipif(not CHROMIUM.exists() and not os.environ.get("CI"), reason="Chromium is not installed here")
