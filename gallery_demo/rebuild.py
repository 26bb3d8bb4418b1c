"""Draws every demo of this folder anew, as SVG and PNG, and writes README.md; `--check` only tells what is stale."""

import sys
from pathlib import Path

from halfhank import renderer
from halfhank.cli.planned_file import plan_file
from halfhank.model.shawl import Shawl
from halfhank.renderer.paper.scene import Scene

FOLDER = Path(__file__).parent
README = FOLDER / "README.md"
PNG_DPI = 150.0
HEAD = """# The demos

Invented shawls, each drawn by `halfhank draw NAME.shawl` at the scale that fits. Pictures and this page are made by
`python gallery_demo/rebuild.py`; a test holds that they are up to date.
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


def demos() -> list[Path]:
    """The gallery's descriptions."""
    return sorted(FOLDER.glob("*.shawl"))


def readme(all_demos: list[Demo]) -> bytes:
    """The gallery's page."""
    return "\n".join([HEAD, *map(_entry, all_demos)]).encode()


def _entry(demo: Demo) -> str:
    stem = demo.path.stem
    picture = f"[![{demo.shawl.title}, the schematic]({stem}.png)]({stem}.svg)"
    return f"## {demo.shawl.title}\n\n{demo.sentence} ([description]({stem}.shawl))\n\n{picture}\n"


def main(arguments: list[str]) -> int:
    """Rebuild everything, or with `--check` compare what is the same on every machine (PNGs are not)."""
    found = [Demo(path) for path in demos()]
    wanted = {demo.path.with_suffix(".svg"): demo.svg() for demo in found}
    wanted[README] = readme(found)
    if arguments == ["--check"]:
        stale = [path.name for path, data in wanted.items() if not path.exists() or path.read_bytes() != data]
        print(f"out of date: {', '.join(stale)}" if stale else f"{len(found)} demos are up to date")
        return 1 if stale else 0
    wanted.update((demo.path.with_suffix(".png"), demo.png()) for demo in found)
    for path, data in wanted.items():
        path.write_bytes(data)
    print(f"{len(found)} demos drawn")
    return 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
