"""The entry point. It imports next to nothing, so that the collector is off before the real imports begin."""


def main() -> None:
    """Run the command line of this process, and end it with the exit status."""
    import sys

    from halfhank.cli import startup

    startup.collector_off()
    from halfhank.cli.run import run

    startup.postpone()
    status = run(sys.argv[1:])
    startup.collector_done()
    sys.exit(status)
