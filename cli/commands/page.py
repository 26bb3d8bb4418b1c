"""`halfhank page`: the whole pattern page, as HTML or PDF."""

import os
from typing import TYPE_CHECKING

import click
from halfhank.cli import files, planned_file, terminal
from halfhank.cli.click_options import FileName, example, helped
from halfhank.cli.errors import ALL_WELL, MISTAKES, CommandError

if TYPE_CHECKING:
    from halfhank.cli.report.html.elements import Element

PAPERS, RAMPS = ("a4", "letter"), ("tide", "haze")
HTML, PDF = ".html", ".pdf"


@click.command("page", epilog=example("halfhank page mine.shawl -o mine.pdf --without skeins"))
@click.argument("file", type=FileName())
@click.option("-o", "--output", metavar="OUT", type=FileName(), help="Where to write: .html, .pdf, or - for HTML.")
@click.option("--without", metavar="PART", multiple=True, help="Leave out a part; may be given more than once.")
@click.option("--with", "asked", metavar="PART", multiple=True, help="Add a part: yarn-chart.")
@click.option("--paper", type=click.Choice(PAPERS), default=PAPERS[0], show_default=True, help="The paper's size.")
@click.option("--large-print", "large", is_flag=True, help="Set texts and drawings larger.")
@click.option("--ramp", type=click.Choice(RAMPS), default=RAMPS[0], show_default=True, help="Shading: haze saves ink.")
@click.option("--as-planned", is_flag=True, help="Leave the log out: the page of the plan before any weighing.")
@helped
def command(
    file: str,
    output: str | None,
    without: tuple[str, ...],
    asked: tuple[str, ...],
    paper: str,
    large: bool,
    ramp: str,
    as_planned: bool,
) -> int:
    """Write the pattern page of FILE.

    It has all that a knitter needs, in this order: size, yarn, needles, gauge, notes, construction, schematic,
    instructions, charts, abbreviations, checkpoints, skeins. These are the names of its parts for --without; with
    --with yarn-chart the chart of the yarn follows them.
    NAME.shawl becomes NAME.html in the same folder unless -o says otherwise. From standard input HTML goes to standard
    output. PDF needs WeasyPrint: pip install 'halfhank[pdf]'.
    """
    from halfhank.cli.report.page.page_parts import chosen_parts

    parts = chosen_parts(without, asked)
    target = output if output is not None else _beside(file)
    format_ = _format_of(target)
    found = planned_file.plan_file(file)
    found = found.without_log() if as_planned else found
    planned_file.print_mistakes(found)
    if found.plan is None:
        return MISTAKES
    from halfhank.cli.report.html.html_page import PageForm
    from halfhank.cli.report.page.pattern_page import PageOptions, pattern_page

    page = pattern_page(found.plan, PageOptions(parts, PageForm(paper, large), ramp))
    files.write(target, _written(page, format_), found.source)
    if target != files.STANDARD:
        terminal.out(f"{terminal.safe(target)}\n")
    return ALL_WELL


def _beside(file: str) -> str:
    return files.STANDARD if file == files.STANDARD else os.path.splitext(file)[0] + HTML


def _format_of(target: str) -> str:
    if target == files.STANDARD:
        return HTML
    extension = os.path.splitext(target)[1]
    if extension.lower() not in (HTML, PDF):
        refused = f"{target}: a page cannot be written as {extension or 'that'}"
        raise CommandError(refused, f"end its name in {HTML} or {PDF}")
    return extension.lower()


def _written(page: "Element", format_: str) -> bytes:
    if format_ == PDF:
        from halfhank.cli.report.html.pdf_writer import pdf_bytes

        return pdf_bytes(page)
    from halfhank.cli.report.html.html_page import html_bytes

    return html_bytes(page)
