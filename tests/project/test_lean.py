"""A plain drawing loads nothing that it can do without: every module is paid for at each start."""

import subprocess
import sys
import sysconfig
from pathlib import Path

import pytest
from halfhank.cli.group import COMMANDS

from tests.cli.running import GOOD

ROOT = Path(__file__).parents[2]
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
    "weasyprint",
    "numpy",
    "PIL",
    "scipy",
    "svgwrite.validator2",
}
OTHER_COMMANDS = {*COMMANDS.values(), "halfhank.cli.fault"} - {COMMANDS["draw"]}
DRAWN_CHARTS = ("halfhank.model.stitches.chart", "halfhank.renderer.charts")
ELSEWHERE = ("halfhank.renderer.inline", "halfhank.markdown")
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


class Bare:
    """Python without `site`: nothing is loaded but what is asked for, however Halfhank is installed here.

    (The finder of an editable install loads pathlib at each start, which would hide that a command loads it.)
    """

    def __init__(self, package: Path) -> None:
        self.path = [str(package), sysconfig.get_path("purelib"), sysconfig.get_path("platlib")]

    def run(self, code: str, *arguments: str, folder: Path = ROOT) -> "subprocess.CompletedProcess[str]":
        """What the code prints, with GOOD on its standard input."""
        code = f"import sys; sys.path[1:1] = {self.path!r}\n{code}"
        command = [sys.executable, "-S", "-c", code, *arguments]
        return subprocess.run(command, input=GOOD, capture_output=True, text=True, cwd=folder, timeout=60)


@pytest.fixture(scope="module")
def bare(tmp_path_factory: pytest.TempPathFactory) -> Bare:
    """With the package of this tree, as links."""
    folder = tmp_path_factory.mktemp("package")
    cli = folder / "halfhank" / "cli"
    cli.mkdir(parents=True)
    for floor in ("grammar", "model", "renderer"):
        (folder / "halfhank" / floor).symlink_to(ROOT / floor)
    for entry in (ROOT / "cli" / "halfhank").glob("*.py"):
        (folder / "halfhank" / entry.name).symlink_to(entry)
    for entry in (ROOT / "cli").iterdir():
        if entry.name != "halfhank":
            (cli / entry.name).symlink_to(entry)
    return Bare(folder)


def loaded(bare: Bare, folder: Path, *arguments: str) -> set[str]:
    """The modules that one command line leaves loaded."""
    done = bare.run(LIST, *arguments, folder=folder)
    assert done.returncode == 0, done.stderr
    return set(done.stderr.split())


def test_nothing_heavy_is_there_before_anything_runs(bare: Bare) -> None:
    assert not set(bare.run("print(*sys.modules)").stdout.split()) & HEAVY


def test_nothing_is_imported_before_the_collector_is_off(bare: Bare) -> None:
    loaded_first = set(
        bare.run(
            "before = set(sys.modules); import halfhank.cli.main; print(*set(sys.modules) - before)"
        ).stdout.split()
    )
    assert loaded_first == {"halfhank", "halfhank.interface", "halfhank.cli", "halfhank.cli.main"}


def test_a_plan_without_a_log_loads_nothing_of_the_scale(bare: Bare, tmp_path: Path) -> None:
    found = loaded(bare, tmp_path, "draw", "-", "-o", "x.svg")
    assert not [name for name in found if name.startswith("halfhank.model.weighings")]
    assert "halfhank.model.planning.plan_with_log" not in found


def test_a_drawing_loads_nothing_heavy(bare: Bare, tmp_path: Path) -> None:
    found = loaded(bare, tmp_path, "draw", "-", "-o", "x.svg")
    assert "halfhank.renderer.paper.svg" in found
    assert not sorted(found & HEAVY)
    assert not found & OTHER_COMMANDS
    assert not [name for name in found if name.startswith((*REPORTS, *ELSEWHERE))]


def test_a_drawing_with_written_rows_loads_no_charts(bare: Bare, tmp_path: Path) -> None:
    found = loaded(bare, tmp_path, "draw", str(ROOT / "gallery_demo" / "hedge-and-ditch.shawl"), "-o", "x.svg")
    assert "halfhank.model.checks.pattern_review" in found
    assert not sorted(found & HEAVY)
    assert not [name for name in found if name.startswith(DRAWN_CHARTS)]


def test_a_plan_loads_its_report(bare: Bare, tmp_path: Path) -> None:
    reports = {name for name in loaded(bare, tmp_path, "plan", "-") if name.startswith(REPORTS)}
    assert {"halfhank.cli.report.plan_report", "halfhank.model.report_tree"} <= reports
    assert not reports & {"halfhank.cli.report.stop_report", "halfhank.cli.report.json_writer"}


def test_a_picture_loads_what_it_needs(bare: Bare, tmp_path: Path) -> None:
    assert "cairosvg" in loaded(bare, tmp_path, "draw", "-", "-o", "x.png")


def test_a_command_that_reads_nothing_loads_no_parser(bare: Bare, tmp_path: Path) -> None:
    unwanted = {"lark", "svgwrite", "halfhank.grammar.parse", "halfhank.model.planning.planning"}
    assert not loaded(bare, tmp_path, "new") & unwanted


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


POSTPONED = """
from halfhank.cli.startup import UNUSED, Postponed, postpone
postpone()
assert {name for name in UNUSED if type(sys.modules[name]) is Postponed} >= {"hashlib", "tempfile"}
import hashlib, tempfile
from pickle import dumps
assert hashlib.sha256(dumps(tempfile.gettempdir())).digest()
assert not [name for name in ("hashlib", "pickle", "tempfile") if type(sys.modules[name]) is Postponed]
print("there")
"""


def test_what_is_postponed_is_there_once_it_is_used(bare: Bare) -> None:
    done = bare.run(POSTPONED)
    assert done.stdout == "there\n", done.stderr


WITHOUT = """
from halfhank.cli.startup import load_without_unused
from halfhank.renderer.paper.svg import svgwrite_package
load_without_unused(svgwrite_package)
for name in ("urllib.request", "pathlib", "ssl", "socket", "svgwrite.validator2"):
    assert name not in sys.modules, name
import svgwrite, svgwrite.utils, svgwrite.container, urllib.request, pathlib
assert callable(urllib.request.urlopen) and urllib.request.Request
assert isinstance(svgwrite.utils.Path("a"), pathlib.Path)
assert svgwrite.container.urlopen("data:,whole").read() == b"whole"
drawing = svgwrite.Drawing()
try:
    drawing.add(drawing.rect(insert=(0, 0), size=(1, "wide")))
except TypeError:
    print("checked")
"""


def test_svgwrite_without_its_unused_modules_is_whole_once_they_are_used(bare: Bare) -> None:
    done = bare.run(WITHOUT)
    assert done.stdout == "checked\n", done.stderr


THERE_ALREADY = """
import pathlib, urllib.request
from halfhank.cli.startup import load_without_unused
from halfhank.renderer.paper.svg import svgwrite_package
whole = pathlib, urllib.request
load_without_unused(svgwrite_package)
load_without_unused(svgwrite_package)
assert (sys.modules["pathlib"], sys.modules["urllib.request"]) == whole
import svgwrite.utils
assert svgwrite.utils.Path is pathlib.Path
print("left alone")
"""


def test_modules_that_are_there_already_are_left_alone(bare: Bare) -> None:
    done = bare.run(THERE_ALREADY)
    assert done.stdout == "left alone\n", done.stderr
