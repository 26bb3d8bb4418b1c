"""The same description gives the same bytes, whatever the hash seed, locale, time zone and folder."""

import os
import subprocess
import sys
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[2]
SCRIPT = """
import hashlib, json, locale, sys
sys.path.insert(0, sys.argv[1])
try:
    locale.setlocale(locale.LC_ALL, "")
except locale.Error:
    pass
from tests.pipe.random_shawls.making import seeded
from tests.pipe.random_shawls.writing import write
from tests.whole import planned
from halfhank.model.plan_json import plan_json
from halfhank.renderer.schematic.page import draw_schematic
from halfhank.renderer.paper.svg import to_svg
digest = hashlib.sha256()
for number in range(0, 30, 2):
    plan = planned(write(seeded(number)))
    if plan.shawl is not None:
        digest.update(to_svg(draw_schematic(plan.shawl)))
    digest.update(json.dumps(plan_json(plan.shawl, plan.problems, with_rows=True)).encode())
print(digest.hexdigest())
"""


def digest(folder: Path, **changed: str) -> str:
    environment = {**os.environ, **changed}
    done = subprocess.run(
        [sys.executable, "-c", SCRIPT, str(ROOT)],
        env=environment,
        cwd=folder,
        capture_output=True,
        text=True,
        check=False,
    )
    assert done.returncode == 0, done.stderr
    return done.stdout.strip()


@pytest.fixture(scope="module")
def usual() -> str:
    return digest(ROOT, PYTHONHASHSEED="0", LC_ALL="C.UTF-8")


@pytest.mark.parametrize(
    "changed",
    [
        {"PYTHONHASHSEED": "1", "LC_ALL": "C", "TZ": "UTC"},
        {"PYTHONHASHSEED": "77", "LC_ALL": "de_DE.UTF-8", "TZ": "Asia/Kathmandu", "PYTHONUTF8": "1"},
    ],
    ids=["plain", "elsewhere"],
)
def test_same_bytes(usual: str, changed: dict[str, str], tmp_path: Path) -> None:
    assert digest(tmp_path, **changed) == usual
