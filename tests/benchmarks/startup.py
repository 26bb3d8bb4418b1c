"""What a cold `halfhank draw` costs, as a multiple of `python -c pass`, and where the time goes.

Run it with the Python that Halfhank is installed in; the ratio is to be at most twelve. An editable install makes
Python itself start more slowly: measure an ordinary one. Arguments: the number of pairs (21), and a description.
"""

import subprocess
import sys
import tempfile
import time
from pathlib import Path
from statistics import median

ROOT = Path(__file__).parents[2]
DEMO = ROOT / "gallery_demo" / "hedge-and-ditch.shawl"
GOAL = 12.0
SHOWN = 30


def seconds(command: list[str]) -> float:
    """Wall time of one run, which must go well."""
    start = time.perf_counter()
    subprocess.run(command, check=True, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL, cwd="/")
    return time.perf_counter() - start


def pairs(command: list[str], count: int) -> tuple[float, float, float]:
    """Medians, in s: of `python -c pass`, of the command; and the median ratio of runs made one after the other."""
    empty = [sys.executable, "-c", "pass"]
    seconds(empty), seconds(command)
    measured = [(seconds(empty), seconds(command)) for _ in range(count)]
    ratios = [drawn / nothing for nothing, drawn in measured]
    return median(nothing for nothing, _ in measured), median(drawn for _, drawn in measured), median(ratios)


def imports(command: list[str]) -> list[tuple[float, float, str]]:
    """Every module that the command imports: its own time and that with what it imports, in ms, and its name."""
    timed = [command[0], "-X", "importtime", *command[1:]]
    told = subprocess.run(timed, check=True, capture_output=True, text=True, cwd="/").stderr
    rows = []
    for line in told.splitlines():
        if line.startswith("import time:") and "|" in line and "self" not in line:
            own, whole, name = line.removeprefix("import time:").split("|")
            rows.append((int(own) / 1000, int(whole) / 1000, name.rstrip()[1:]))
    return rows


def main(arguments: list[str]) -> int:
    """Measure and print; ends with 1 where the goal is missed."""
    count = int(arguments[0]) if arguments else 21
    demo = Path(arguments[1]).resolve() if len(arguments) > 1 else DEMO
    with tempfile.TemporaryDirectory() as folder:
        out = f"{folder}/x.svg"
        script = Path(sys.executable).parent / "halfhank"
        nothing, drawn, ratio = pairs([str(script), "draw", str(demo), "-o", out], count)
        rows = imports([sys.executable, str(script), "draw", str(demo), "-o", out])
    print(f"python -c pass  {1000 * nothing:6.1f} ms")
    print(f"halfhank draw   {1000 * drawn:6.1f} ms")
    print(f"ratio           {ratio:6.2f}    (goal: at most {GOAL:g})\n")
    print("   own ms  with its imports  module")
    for own, whole, name in sorted(rows, reverse=True)[:SHOWN]:
        print(f"{own:9.2f}{whole:18.2f}  {name.strip()}")
    print(f"{sum(own for own, _, _ in rows):9.2f}  all {len(rows)} modules")
    return 0 if ratio <= GOAL else 1


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
