"""A plain drawing loads nothing that it can do without: every module is paid for at each start."""

import subprocess
import sys
from pathlib import Path

import pytest
from halfhank.cli.group import COMMANDS

from tests.cli.running import GOOD

# Slow to import, and of no use to a drawing in SVG.
HEAVY = {
    "asyncio",
    "email",
    "http.client",
    "multiprocessing",
    "pdb",
    "socket",
    "ssl",
    "tempfile",
    "traceback",
}
HEAVY |= {
    "unittest",
    "pathlib",
    "urllib.request",
    "cairocffi",
    "cairosvg",
    "lxml",
    "numpy",
    "PIL",
    "scipy",
    "svgwrite.validator2",
}
OTHER_COMMANDS = {*COMMANDS.values(), "halfhank.cli.fault"} - {COMMANDS["draw"]}
REPORTS = ("halfhank.cli.report", "halfhank.model.report_tree", "halfhank.model.instructions.written")
LIST = """
import sys
from halfhank.cli.startup import Postponed, postpone
from halfhank.cli.run import run
postpone()
status = run(sys.argv[1:])
print(*(name for name, module in sys.modules.items() if type(module) is not Postponed), sep="\\n", file=sys.stderr)
sys.exit(status)
"""


def loaded(tmp_path: Path, *arguments: str) -> set[str]:
    """The modules that one command line leaves loaded, started as bare as Python can."""
    command = [sys.executable, "-c", LIST, *arguments]
    done = subprocess.run(command, input=GOOD, capture_output=True, text=True, cwd=tmp_path, timeout=60)
    assert done.returncode == 0, done.stderr
    return set(done.stderr.split())


@pytest.fixture(scope="module")
def bare() -> set[str]:
    """What Python, and what stands in its site-packages to be loaded at each start, has loaded before anything runs."""
    command = [sys.executable, "-c", "import sys; print(*sys.modules)"]
    return set(subprocess.run(command, capture_output=True, text=True, check=True).stdout.split())


def test_a_drawing_loads_nothing_heavy(tmp_path: Path, bare: set[str]) -> None:
    found = loaded(tmp_path, "draw", "-", "-o", "x.svg")
    assert "halfhank.renderer.paper.svg" in found
    assert not found & (HEAVY - bare)
    assert not found & OTHER_COMMANDS
    assert not [name for name in found if name.startswith(REPORTS)]


def test_a_plan_loads_its_report(tmp_path: Path) -> None:
    reports = {name for name in loaded(tmp_path, "plan", "-") if name.startswith(REPORTS)}
    assert {"halfhank.cli.report.plan_report", "halfhank.model.report_tree"} <= reports
    assert not reports & {"halfhank.cli.report.stop_report", "halfhank.cli.report.json_writer"}


def test_a_picture_loads_what_it_needs(tmp_path: Path) -> None:
    assert "cairosvg" in loaded(tmp_path, "draw", "-", "-o", "x.png")


def test_a_command_that_reads_nothing_loads_no_parser(tmp_path: Path) -> None:
    assert not loaded(tmp_path, "new") & {
        "lark",
        "svgwrite",
        "halfhank.grammar.parse",
        "halfhank.model.planning.planning",
    }


def test_the_model_loads_no_parser() -> None:
    """Nor do all of its modules, whatever they import late."""
    code = """
import sys
from importlib import import_module
from pathlib import Path
import halfhank.model
root = Path(halfhank.model.__file__).parent
for path in root.rglob("[!_]*.py"):
    import_module(".".join(("halfhank.model", *path.relative_to(root).with_suffix("").parts)))
rooms = ("lark", "halfhank.grammar.reading", "halfhank.grammar.lines", "halfhank.grammar.parse")
assert "halfhank.model.planning" in sys.modules
assert not [name for name in sys.modules if name.startswith(rooms)]
"""
    subprocess.run([sys.executable, "-c", code], check=True, timeout=60)


def test_what_is_postponed_is_there_once_it_is_used() -> None:
    code = """
import sys
from halfhank.cli.startup import UNUSED, Postponed, postpone
postpone()
assert {name for name in UNUSED if type(sys.modules[name]) is Postponed} >= {"hashlib", "tempfile"}
import hashlib, tempfile
from pickle import dumps
assert hashlib.sha256(dumps(tempfile.gettempdir())).digest()
assert not [name for name in ("hashlib", "pickle", "tempfile") if type(sys.modules[name]) is Postponed]
"""
    subprocess.run([sys.executable, "-c", code], check=True, timeout=60)
