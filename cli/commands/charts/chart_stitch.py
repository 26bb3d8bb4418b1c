"""`halfhank chart stitch`: a stitch's written rows as a chart."""

import os
from typing import TYPE_CHECKING

import click
from halfhank.cli import drawing_files, files, planned_file, terminal
from halfhank.cli.click_options import EMBED, FileName, example, helped
from halfhank.cli.errors import ALL_WELL, MISTAKES, CommandError

if TYPE_CHECKING:
    from halfhank.model.design.stitch_measures import StitchMeasures
    from halfhank.model.stitches.pattern import Pattern
    from halfhank.renderer.paper.scene import Scene


@click.command("stitch", epilog=example("halfhank chart stitch moss -o moss.svg"))
@click.argument("file", type=FileName())
@click.argument("name", required=False)
@click.option("-o", "--output", metavar="OUT", type=FileName(), help="Where to draw: .svg, .png, .pdf, or - for SVG.")
@click.option("--embed", is_flag=True, help=EMBED)
@helped
def command(file: str, name: str | None, output: str | None, embed: bool) -> int:
    """Draw the chart of a stitch of FILE, from its written rows.

    NAME may be left out where FILE has one stitch with rows. FILE may also be the name of a built-in stitch pattern
    (see halfhank stitches). Without -o the chart goes beside the description as FILE-NAME.svg, or to standard output if
    FILE is -.
    """
    format_ = ".svg" if output is None else drawing_files.format_of(output)
    if name is None and _is_built_in(file):
        scene, source = _built_in_scene(file), None
        target = f"{file}.svg" if output is None else output
    else:
        found = planned_file.plan_file(file)
        planned_file.print_mistakes(found)
        if found.plan is None:
            return MISTAKES
        source, measures = found.source, found.plan.table.measures
        pattern = _pattern(measures, name)
        scene = _scene(pattern, measures)
        target = drawing_files.beside(file, f"-{pattern.name}") if output is None else output
    files.write(target, drawing_files.rendered(lambda: scene, format_, embed), source)
    if target != files.STANDARD:
        terminal.out(f"{terminal.safe(target)}\n")
    return ALL_WELL


def _is_built_in(file: str) -> bool:
    from halfhank.grammar.language import BUILT_IN_STITCHES

    return file in BUILT_IN_STITCHES and not os.path.exists(file)


def _pattern(measures: "StitchMeasures", name: str | None) -> "Pattern":
    """The stitch that is asked for. Raises `CommandError` where it is not known which, or it has no rows."""
    from halfhank.grammar.builtin.built_in_stitches import built_in_stitch
    from halfhank.grammar.language import BUILT_IN_STITCHES
    from halfhank.model.stitches.pattern import built_in_pattern, patterns_with

    patterns = patterns_with(measures, name)
    named = ", ".join(patterns)
    if name is None:
        if len(patterns) != 1:
            many = f"several stitches have rows: {named}" if patterns else "no stitch of this description has rows"
            raise CommandError(many, "name one of them after the file" if patterns else "see halfhank stitches")
        return next(iter(patterns.values()))
    if name in patterns:
        return patterns[name]
    if name in BUILT_IN_STITCHES and name not in measures.blocks:
        return built_in_pattern(built_in_stitch(name))
    raise CommandError(f"no stitch {name!r} with rows", f"stitches with rows: {named}" if named else None)


def _built_in_scene(name: str) -> "Scene":
    """A built-in by itself, in squares of its default measures."""
    from halfhank.grammar.builtin.built_in_stitches import built_in_stitch
    from halfhank.grammar.builtin.stitch_patterns import STITCH_PATTERNS
    from halfhank.model.stitches.pattern import built_in_pattern

    built_in = STITCH_PATTERNS[name]
    garter_row = 0.5  # two garter rows to a stitch's width
    row_to_stitch = garter_row * built_in.row_ratio / built_in.stitch_ratio
    return _drawn(built_in_pattern(built_in_stitch(name)), (built_in.words,), row_to_stitch)


def _scene(pattern: "Pattern", measures: "StitchMeasures") -> "Scene":
    """A stitch of a description, in squares of its gauge."""
    from halfhank.model.words.drawn_words import phrase
    from halfhank.renderer.paper.measure_words import plain_number

    measure = measures.measure(pattern.name)
    stitches, rows = measure.gauge
    gauge = phrase(
        "stitch-chart.about" if measure.assumed else "stitch-chart.gauge",
        stitches=plain_number(stitches),
        rows=plain_number(rows),
        length=phrase("measure.cm", number=plain_number(measure.over_cm)),
    )
    source = phrase("stitch-chart.from", shawl=measures.design.title)
    return _drawn(pattern, (source, gauge), measure.row_cm / measure.stitch_cm)


def _drawn(pattern: "Pattern", lines: tuple[str, ...], row_to_stitch: float) -> "Scene":
    from halfhank.model.stitches.chart import chart_of
    from halfhank.model.stitches.worked_rows import too_large
    from halfhank.model.words.drawn_words import phrase
    from halfhank.renderer.charts.stitch_chart import Captions, stitch_chart

    problem = too_large(pattern)
    if problem:
        raise CommandError(f"{pattern.name}: {problem.message}")
    rows = phrase("count.row", count=len(pattern.rows))
    counts = phrase("stitch-chart.counts", multiple=pattern.multiple.short_words, rows=rows)
    title = phrase("stitch-chart.title", name=pattern.name)
    return stitch_chart(chart_of(pattern), Captions(title, (counts, *lines), row_to_stitch))
