"""Shell completion, as the README sets it up."""

import pytest

from tests.cli.running import process


def complete(words: str, index: int) -> list[str]:
    """What bash would be offered."""
    environment = {"_HALFHANK_COMPLETE": "bash_complete", "COMP_WORDS": words, "COMP_CWORD": str(index)}
    result = process(env=environment)
    assert (result.status, result.err) == (0, "")
    return [line.partition(",")[2] for line in result.out.decode().splitlines()]


def test_commands_and_options_are_completed() -> None:
    commands = ["draw", "plan", "check", "new", "weigh", "stops", "skeins", "chart"]
    commands += ["instructions", "page", "stitches"]
    assert complete("halfhank ", 1) == commands
    assert complete("halfhank ch", 1) == ["check", "chart"]
    assert complete("halfhank draw --co", 2) == ["--contours"]
    assert complete("halfhank new tip", 2) == ["tip-to-tip"]
    assert complete("halfhank draw --ramp ", 3) == ["tide", "haze"]


@pytest.mark.parametrize("shell", ["bash", "zsh", "fish"])
def test_every_shell_gets_its_script(shell: str) -> None:
    result = process(env={"_HALFHANK_COMPLETE": f"{shell}_source"})
    assert (result.status, result.err) == (0, "")
    assert b"_HALFHANK_COMPLETE" in result.out
