"""Draws every demo and every chart anew, as SVG and PNG, and writes some pattern pages, as HTML and PDF, and README.md.

`--check` only lists what is stale.
"""

import contextlib
import io
import shutil
import sys
import tempfile
from collections.abc import Iterator
from functools import cache
from pathlib import Path
from typing import Any, NamedTuple

from halfhank import renderer
from halfhank.cli.planned_file import plan_file
from halfhank.cli.run import run
from halfhank.model.shawl import Shawl
from halfhank.renderer.paper.scene import Scene

FOLDER = Path(__file__).parent
README = FOLDER / "README.md"
CHART_FOLDER = FOLDER / "charts"
PAGE_FOLDER = FOLDER / "pages"
PAGES = ("hedge-and-ditch", "third-breakwater")
"""The demos whose pattern pages are kept."""
GREY_LEVELS = 2.0
"""What pictures of a PDF's page may differ by on average, in 255: fonts are rasterised differently."""
PNG_DPI = 150.0
HEAD = """# The demos

Invented shawls, each drawn by `halfhank draw NAME.shawl` at the scale that fits, with charts and pattern pages of some
of them. All pictures and pages are made by `python gallery_demo/rebuild.py`; a test holds that they are up to date.
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


def page(stem: str, ending: str) -> bytes:
    """A demo's pattern page, as `.html` or `.pdf`."""
    return _drawn((f"page {stem}.shawl -o {stem}.html",), f"{stem}.html", f"{stem}{ending}")


def page_path(stem: str, ending: str) -> Path:
    """Where a pattern page is kept."""
    return PAGE_FOLDER / f"{stem}{ending}"


def same_pdf(one: bytes, other: bytes) -> bool:
    """Whether two PDFs say the same and look the same, page by page; their bytes differ with the library's version."""
    import pypdfium2

    pairs = [list(pypdfium2.PdfDocument(data)) for data in (one, other)]
    return len(pairs[0]) == len(pairs[1]) and all(map(_same_page, *pairs))


def _same_page(one: Any, other: Any) -> bool:
    from PIL import ImageChops, ImageStat

    words = [found.get_textpage().get_text_range().split() for found in (one, other)]
    pictures = [found.render(scale=1).to_pil().convert("L") for found in (one, other)]
    if words[0] != words[1] or pictures[0].size != pictures[1].size:
        return False
    return float(ImageStat.Stat(ImageChops.difference(*pictures)).mean[0]) <= GREY_LEVELS


def demos() -> list[Path]:
    """The gallery's descriptions."""
    return sorted(FOLDER.glob("*.shawl"))


def readme(all_demos: list[Demo]) -> bytes:
    """The gallery's page."""
    return "\n".join([HEAD, *map(_entry, all_demos), *map(_chart_entry, CHARTS)]).encode()


def _entry(demo: Demo) -> str:
    stem = demo.path.stem
    picture = f"[![{demo.shawl.title}, the schematic]({stem}.png)]({stem}.svg)"
    links = [f"[description]({stem}.shawl)"]
    if stem in PAGES:
        links += [f"[pattern page]({PAGE_FOLDER.name}/{stem}.html)", f"[as PDF]({PAGE_FOLDER.name}/{stem}.pdf)"]
    return f"## {demo.shawl.title}\n\n{demo.sentence} ({', '.join(links)})\n\n{picture}\n"


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
    wanted.update((page_path(stem, ending), page(stem, ending)) for stem in PAGES for ending in (".html", ".pdf"))
    wanted[README] = readme(found)
    count = f"{len(found)} demos, {len(CHARTS)} charts and {len(PAGES)} pattern pages"
    if arguments == ["--check"]:
        stale = [path.name for path, data in wanted.items() if not up_to_date(path, data)]
        print(f"out of date: {', '.join(stale)}" if stale else f"{count} are up to date")
        return 1 if stale else 0
    wanted.update((demo.path.with_suffix(".png"), demo.png()) for demo in found)
    wanted.update((chart.path(".png"), chart.data(".png")) for chart in CHARTS)
    for path, data in wanted.items():
        path.parent.mkdir(exist_ok=True)
        if path.suffix != ".pdf" or not up_to_date(path, data):
            path.write_bytes(data)
    print(f"{count} made")
    return 0


def up_to_date(path: Path, data: bytes) -> bool:
    """Whether a file is what it should be: a PDF in its words and looks, anything else in its bytes."""
    if not path.exists():
        return False
    return same_pdf(path.read_bytes(), data) if path.suffix == ".pdf" else path.read_bytes() == data


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
