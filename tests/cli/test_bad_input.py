"""Input that is no good in every way that we know of: a clear message, the right status, nothing half-written."""

from pathlib import Path

import pytest

from tests.cli.running import GOOD, Result, halfhank

NOT_THERE = "No such file or directory"


def _lines(*replaced: tuple[str, str]) -> str:
    text = GOOD
    for old, new in replaced:
        assert old in text
        text = text.replace(old, new)
    return text


GARTER_GAUGE = "  gauge 20 sts 40 rows over 10 cm\n"
STOCKINETTE_GAUGE = "  gauge 20 sts 28 rows over 10 cm\n"

# Name: (the description, the code of a problem that must be told).
DESCRIPTIONS = {
    "empty": ("", "empty-description"),
    "blank": ("\n \n# nothing\n", "empty-description"),
    "unknown stitch": (_lines(("garter 12 ridges", "gartr 12 ridges")), "unknown-stitch"),
    "zero rows": (_lines(("stockinette 8 rows", "stockinette 0 rows")), None),
    "no gauge at all": (_lines((GARTER_GAUGE, ""), (STOCKINETTE_GAUGE, "")), None),
    "no yarn": (_lines(("  skein 100 g 400 m\n", "")), None),
    "no shape": (GOOD.replace("shape triangle", "shape rhombus"), None),
    "a repeat too many": (_lines(("repeat as yarn allows", "repeat 1000000000 times")), None),
    "a row count too large": (_lines(("garter 12 ridges", "garter 999999999999 ridges")), None),
    "a number too large": (_lines(("skein 100 g", "skein " + "9" * 400 + " g")), None),
    "infinity": (_lines(("skein 100 g", "skein inf g")), None),
    "below one stitch": (
        _lines(("increase 1 at each edge and 1 at spine every 2 rows", "decrease 3 at each edge every 2 rows")),
        None,
    ),
    "no yarn left": (_lines(("skein 100 g 400 m", "skein 1 g 4 m")), None),
    "nothing but quotes": ('"' * 1000, None),
    "deep": ("\n".join(" " * depth + "repeat 2 times" for depth in range(2000)), None),
}
BYTES = {
    "binary": (bytes(range(256)) * 50, None),
    "not utf-8": (b'shawl "caf\xe9"\n', "not-utf-8"),
    "utf-16": (GOOD.encode("utf-16"), "not-text"),
    "too large": (b"# " + b"x" * 2**20, "file-too-large"),
    "one very long line": (b'shawl "' + b"x" * 100_000 + b'"\n', None),
}
CASES = {**{name: (text.encode(), code) for name, (text, code) in DESCRIPTIONS.items()}, **BYTES}


@pytest.mark.parametrize("name", CASES)
def test_a_bad_description_is_told_and_nothing_is_written(tmp_path: Path, name: str) -> None:
    data, code = CASES[name]
    path = tmp_path / "bad.shawl"
    path.write_bytes(data)
    for result in (halfhank("draw", path), halfhank("plan", path), halfhank("check", path)):
        assert result.status == 1, result
        told = result.err + result.out.decode()
        assert "mistake [" in told and "Traceback" not in told
        assert code is None or f"mistake [{code}]" in told
    assert list(tmp_path.iterdir()) == [path]


def test_a_gauge_missing_for_one_stitch_is_no_mistake(good: Path) -> None:
    good.write_text(_lines((STOCKINETTE_GAUGE, "  as garter\n")))
    assert halfhank("check", good).status == 0


@pytest.mark.parametrize("command", ["draw", "plan", "check"])
def test_a_file_that_cannot_be_read(tmp_path: Path, good: Path, command: str) -> None:
    (tmp_path / "folder").mkdir()
    _refused(halfhank(command, tmp_path / "missing.shawl"), f"cannot read {tmp_path}/missing.shawl: {NOT_THERE}")
    _refused(halfhank(command, tmp_path / "folder"), f"cannot read {tmp_path}/folder: Is a directory")
    _refused(halfhank(command, good / "x.shawl"), f"cannot read {good}/x.shawl: Not a directory")
    _refused(halfhank(command, ""), f"cannot read : {NOT_THERE}")
    _refused(halfhank(command, "nul\0"), "cannot read nul\\x00: the name cannot be a file's")
    _refused(halfhank(command, "x" * 5000), "File name too long")
    assert sorted(tmp_path.iterdir()) == [tmp_path / "folder", good]


def test_a_place_that_cannot_be_written(tmp_path: Path, good: Path) -> None:
    (tmp_path / "folder.svg").mkdir()
    (tmp_path / "full.svg").symlink_to("/dev/full")
    (tmp_path / "loop.svg").symlink_to("loop.svg")
    before = sorted(tmp_path.iterdir())
    for name, why in {
        "missing/x.svg": NOT_THERE,
        "good.shawl/x.svg": "Not a directory",
        "folder.svg": "it is a folder",
        "full.svg": "No space left on device",
        "loop.svg": "Too many levels of symbolic links",
        "nul\0.svg": "the name cannot be a file's",
        "x" * 300 + ".svg": "File name too long",
    }.items():
        _refused(halfhank("draw", good, "-o", f"{tmp_path}/{name}"), why)
    _refused(halfhank("draw", good, "-o", "/proc/x.svg"), "cannot write /proc/x.svg")
    assert sorted(tmp_path.iterdir()) == before


def _refused(result: Result, message: str) -> None:
    assert result.status == 2, result
    assert message in result.err
    assert result.out == b"" and result.err.count("\n") <= 2
