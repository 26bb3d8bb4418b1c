"""Draws every demo and every chart anew, as SVG and PNG, and writes README.md; `--check` only lists what is stale."""

import contextlib
import io
import shutil
import sys
import tempfile
from collections.abc import Iterator
from functools import cache
from pathlib import Path
from typing import NamedTuple

from halfhank import renderer
from halfhank.cli.planned_file import plan_file
from halfhank.cli.run import run
from halfhank.model.shawl import Shawl
from halfhank.renderer.paper.scene import Scene

FOLDER = Path(__file__).parent
README = FOLDER / "README.md"
CHART_FOLDER = FOLDER / "charts"
PNG_DPI = 150.0
HEAD = """# The demos

Invented shawls, each drawn by `halfhank draw NAME.shawl` at the scale that fits, and charts made of some of them. All
pictures and this page are made by `python gallery_demo/rebuild.py`; a test holds that they are up to date.
"""


class Demo:
    """One description of the gallery with its drawing."""

    def __init__(self, path: Path) -> None:
        found = plan_file(str(path))
        assert found.plan is not None, (path, found.problems)
        self.path = path
        self.shawl: Shawl = found.plan.shawl
        self.scene: Scene = renderer.draw_schematic(self.shawl, renderer.Options())

    @property
    def sentence(self) -> str:
        """The comment that the description opens with."""
        lines = []
        for line in self.path.read_text(encoding="utf-8").split("\n"):
            if not line.startswith("#"):
                break
            lines.append(line.removeprefix("#").strip())
        return " ".join(lines)

    def svg(self) -> bytes:
        return renderer.to_svg(self.scene)

    def png(self) -> bytes:
        return renderer.to_png(self.scene, PNG_DPI)


class Chart(NamedTuple):
    """One picture: its file's name without the ending, its heading, a sentence, and the command lines that make it,
    which are typed among the demos; the last one draws it as `STEM.svg`."""

    stem: str
    heading: str
    sentence: str
    lines: tuple[str, ...]

    def data(self, ending: str) -> bytes:
        """The picture as `.svg` or `.png`."""
        return _drawn(self.lines, f"{self.stem}.svg", f"{self.stem}{ending}")

    def path(self, ending: str) -> Path:
        """Where the picture is kept."""
        return CHART_FOLDER / f"{self.stem}{ending}"


CHARTS = (
    Chart(
        "hedge-and-ditch-yarn",
        "Hedge and Ditch, the yarn chart",
        "The yarn on the scale, row by row, after three made-up weighings: plan and forecast with their 90 % ranges.",
        (
            "weigh hedge-and-ditch.shawl 0 101.2",
            "weigh hedge-and-ditch.shawl 52 84.4",
            "weigh hedge-and-ditch.shawl 92 54.2",
            "chart yarn hedge-and-ditch.shawl -o hedge-and-ditch-yarn.svg",
        ),
    ),
    Chart(
        "drop-wave",
        "Drop wave, the stitch chart",
        "The chart of a built-in stitch pattern, drawn from its written rows in the proportions of its gauge.",
        ("chart stitch drop-wave -o drop-wave.svg",),
    ),
    Chart(
        "ratchet-skeins",
        "Ratchet Row, other skeins",
        "The same shawl from skeins of 180, 240 (its own) and 300 m in 100 g, all at the same gauge, to one scale.",
        ("skeins ratchet.shawl 180m 240m 300m -o ratchet-skeins.svg",),
    ),
)


def demos() -> list[Path]:
    """The gallery's descriptions."""
    return sorted(FOLDER.glob("*.shawl"))


def readme(all_demos: list[Demo]) -> bytes:
    """The gallery's page."""
    return "\n".join([HEAD, *map(_entry, all_demos), *map(_chart_entry, CHARTS)]).encode()


def _entry(demo: Demo) -> str:
    stem = demo.path.stem
    picture = f"[![{demo.shawl.title}, the schematic]({stem}.png)]({stem}.svg)"
    return f"## {demo.shawl.title}\n\n{demo.sentence} ([description]({stem}.shawl))\n\n{picture}\n"


def _chart_entry(chart: Chart) -> str:
    place = f"{CHART_FOLDER.name}/{chart.stem}"
    lines = "\n".join(f"halfhank {line}" for line in chart.lines)
    picture = f"[![{chart.heading}]({place}.png)]({place}.svg)"
    return f"## {chart.heading}\n\n{chart.sentence}\n\n```sh\n{lines}\n```\n\n{picture}\n"


@cache
def _drawn(lines: tuple[str, ...], drawn: str, wanted: str) -> bytes:
    """The file that the lines write, under another name where another format is wanted."""
    *before, last = lines
    with _copied_demos() as folder:
        for line in (*before, last.replace(drawn, wanted)):
            said = io.TextIOWrapper(io.BytesIO(), encoding="utf-8")
            with contextlib.redirect_stdout(said):
                status = run(line.split())
            assert status == 0, line
        return (folder / wanted).read_bytes()


@contextlib.contextmanager
def _copied_demos() -> Iterator[Path]:
    """A folder of its own with a copy of each description, and the process in it: `weigh` writes into them."""
    with tempfile.TemporaryDirectory() as name:
        for path in demos():
            shutil.copy(path, name)
        with contextlib.chdir(name):
            yield Path(name)


def main(arguments: list[str]) -> int:
    """Rebuild everything, or with `--check` compare what is the same on every machine (PNGs are not)."""
    found = [Demo(path) for path in demos()]
    wanted = {demo.path.with_suffix(".svg"): demo.svg() for demo in found}
    wanted.update((chart.path(".svg"), chart.data(".svg")) for chart in CHARTS)
    wanted[README] = readme(found)
    count = f"{len(found)} demos and {len(CHARTS)} charts"
    if arguments == ["--check"]:
        stale = [path.name for path, data in wanted.items() if not path.exists() or path.read_bytes() != data]
        print(f"out of date: {', '.join(stale)}" if stale else f"{count} are up to date")
        return 1 if stale else 0
    wanted.update((demo.path.with_suffix(".png"), demo.png()) for demo in found)
    wanted.update((chart.path(".png"), chart.data(".png")) for chart in CHARTS)
    CHART_FOLDER.mkdir(exist_ok=True)
    for path, data in wanted.items():
        path.write_bytes(data)
    print(f"{count} drawn")
    return 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
