"""The documentation is run: its commands, its descriptions, its links, and every command's help."""

import re
import shlex
import shutil
import textwrap
from pathlib import Path

import click
import pytest
from halfhank.cli.commands.charts.chart import CHARTS
from halfhank.cli.group import COMMANDS, LazyGroup, halfhank

from tests.cli.running import halfhank as run

ROOT = Path(__file__).parents[2]
FOLDERS = ("grammar", "model", "renderer", "cli", "tests", "gallery_demo")
PAGES = sorted([*ROOT.glob("*.md"), *(path for folder in FOLDERS for path in (ROOT / folder).rglob("*.md"))])
FENCE = re.compile(r"^```(\w*)\n(.*?)^```$", re.MULTILINE | re.DOTALL)
INSTRUCTIONS = re.compile(r"^(<!-- part of the instructions -->\n```text\n)(.*?)^```$", re.MULTILINE | re.DOTALL)
SHOWN_SECTIONS = ("eyelets", "Start")
LINK = re.compile(r"\]\(([^)#\s]+)(?:#[^)]*)?\)")


def blocks(page: Path, language: str) -> list[str]:
    """The fenced blocks of one language."""
    return [text for found, text in FENCE.findall(page.read_text(encoding="utf-8")) if found == language]


def _commands() -> list[str]:
    lines = "".join(blocks(ROOT / "README.md", "sh")).splitlines()
    return [line for line in lines if line.startswith("halfhank ")]


def test_the_commands_of_the_readme_run_in_their_order(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    shutil.copytree(ROOT / "gallery_demo", tmp_path / "gallery_demo")
    monkeypatch.chdir(tmp_path)
    for line in _commands():
        result = run(*shlex.split(line)[1:])
        assert (result.status, result.err) == (0, ""), line
    pictures = {"mine.svg", "bench.pdf", "lintel.png", "column.svg", "skeins.svg", "yarn.svg", "eyelets.svg"}
    pictures |= {"lintel-inline.svg", "moss-inline.svg"}
    others = {"gallery_demo", "mine.shawl", *(f"hedge-and-ditch.{ending}" for ending in ("txt", "html", "pdf"))}
    assert {path.name for path in tmp_path.iterdir()} == pictures | others


def test_the_readme_shows_every_command() -> None:
    assert {shlex.split(line)[1] for line in _commands()} == set(COMMANDS)
    table = (ROOT / "README.md").read_text(encoding="utf-8")
    for name in COMMANDS:
        assert f"| `halfhank {name} " in table


def _shown_instructions() -> str:
    """The sections that the README shows of the first demo's instructions, in lines of its own width."""
    result = run("instructions", ROOT / "gallery_demo/hedge-and-ditch.shawl")
    assert (result.status, result.err) == (0, "")
    text = result.out.decode()
    sections = [one for one in text.strip().split("\n\n") if one.startswith(SHOWN_SECTIONS)]
    assert len(sections) > len(SHOWN_SECTIONS)  # the second wing has its own rows
    part = text[text.index("\nPart 2") + 1 : text.index("\n\nPart 3")]
    lines = "\n\n".join([*sections, part]).split("\n")
    return "".join(f"{_broken(line)}\n" for line in lines)


def _broken(line: str) -> str:
    if len(line) <= 100:
        return line
    indent = " " * (len(line) - len(line.lstrip()) + 2)
    return textwrap.fill(line, 100, subsequent_indent=indent, break_long_words=False, break_on_hyphens=False)


def test_the_readme_shows_what_the_instructions_say(accept: bool) -> None:
    page, shown = ROOT / "README.md", _shown_instructions()
    text = page.read_text(encoding="utf-8")
    if accept:
        text = INSTRUCTIONS.sub(lambda found: f"{found[1]}{shown}```", text)
        page.write_text(text, encoding="utf-8")
    assert [block for _, block in INSTRUCTIONS.findall(text)] == [shown], "pytest --accept writes it anew"


@pytest.mark.parametrize("name", COMMANDS)
def test_every_option_is_documented(name: str) -> None:
    page = (ROOT / "cli/README.md").read_text(encoding="utf-8")
    command = LazyGroup.get_command(halfhank, click.Context(halfhank), name)  # type: ignore[arg-type]
    assert command is not None
    section = page[page.index(f"| `{name}` |") :]
    for parameter in command.params:
        for option in parameter.opts if isinstance(parameter, click.Option) else ():
            assert f"`{option}" in (page if option in ("-h", "--help") else section), option


@pytest.mark.parametrize("name", ["", *COMMANDS])
def test_every_help_is_shown(name: str) -> None:
    result = run(*([name] if name else []), "--help")
    assert (result.status, result.err) == (0, "")
    text = result.out.decode()
    assert text.startswith(f"Usage: {' '.join(('halfhank', name)).strip()} ")
    assert max(map(len, text.splitlines())) <= 80
    assert "..." not in text.partition("Commands:")[2]


COMMAND_LINES = [(name,) for name in COMMANDS] + [("chart", name) for name in CHARTS]


@pytest.mark.parametrize("name", [(), *COMMAND_LINES], ids=" ".join)
def test_every_help_ends_with_an_example_that_runs(
    name: tuple[str, ...], tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    *_, last = run(*name, "--help").out.decode().splitlines()
    assert re.match(rf" *Example: halfhank {' '.join(name)}", last)
    monkeypatch.chdir(tmp_path)
    if name != ("new",):
        shutil.copy(ROOT / "gallery_demo" / "hedge-and-ditch.shawl", "mine.shawl")
    result = run(*shlex.split(last)[2:])
    assert (result.status, result.err) == (0, "")


@pytest.mark.parametrize("page", PAGES, ids=lambda page: str(page.relative_to(ROOT)))
def test_descriptions_in_the_documentation_need_no_advice(page: Path) -> None:
    for text in blocks(page, "shawl"):
        result = run("check", "--strict", "-", stdin=text.encode())
        assert result.status == 0, result.out.decode()


@pytest.mark.parametrize("page", PAGES, ids=lambda page: str(page.relative_to(ROOT)))
def test_links_lead_somewhere(page: Path) -> None:
    for target in LINK.findall(page.read_text(encoding="utf-8")):
        assert "://" in target or (page.parent / target).exists(), target


def test_the_pages_are_found() -> None:
    assert {page.parent.name for page in PAGES} >= set(FOLDERS)


def test_what_the_readme_sets_up_is_what_ci_runs() -> None:
    readme = (ROOT / "README.md").read_text(encoding="utf-8")
    for marker in ("draw", "test"):
        (command,) = re.findall(rf"^<!-- {marker} command -->\n```sh\n(.*)\n```$", readme, re.MULTILINE)
        assert command.startswith("apt-get update && apt-get install -y --no-install-recommends python3-venv")
    (pdf,) = re.findall(r"^<!-- pdf command -->\n```sh\napt-get install -y (.*) && .*$", readme, re.MULTILINE)
    assert set(pdf.split()) <= set(command.split()), "the tests make PDFs too"
    assert "<!-- test command -->" in (ROOT / ".ci/run").read_text(encoding="utf-8")


def test_the_version_is_told_once() -> None:
    version = re.search(r'^version = "(.+)"$', (ROOT / "pyproject.toml").read_text(), re.MULTILINE)
    assert version is not None
    assert run("--version").out.decode() == f"halfhank {version[1]}\n"
