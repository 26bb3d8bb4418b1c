"""`halfhank stitches`: the built-in stitch patterns, and how each is worked."""

import click
from halfhank.cli import terminal
from halfhank.cli.click_options import example, helped
from halfhank.cli.errors import ALL_WELL, CommandError


@click.command("stitches", epilog=example("halfhank stitches moss"))
@click.argument("name", required=False)
@helped
def command(name: str | None) -> int:
    """List the built-in stitch patterns.

    With NAME the rows of that one are shown. The measures are those of a stitch and a row, relative to garter in the
    same yarn; they are used where no gauge is given.
    """
    from halfhank.cli.report.fabric_report import fabric_list, fabric_report
    from halfhank.cli.report.terminal_writer import UNBROKEN, report_text
    from halfhank.grammar.language import BUILT_IN_STITCHES

    if name is not None and name not in BUILT_IN_STITCHES:
        raise CommandError(f"unknown stitch pattern {name!r}", f"built in are {', '.join(BUILT_IN_STITCHES)}")
    terminal.out(report_text(fabric_list() if name is None else fabric_report(name), UNBROKEN))
    return ALL_WELL
