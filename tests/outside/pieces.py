"""Short descriptions with only what a check is about; the rest is the same plain yarn and garter stitch."""


def piece(
    *,
    shape: str,
    start: str,
    parts: str,
    shaping: str = "",
    fabric: str = "stitch garter\n  gauge 20 sts 40 rows over 10 cm",
    skein: str = "1000 g 4000 m",
    keep: str = "0%",
    needles: str = "4 mm",
    end: str = "",
) -> str:
    """A description; `shaping` and `parts` are lines of the shape and whole blocks, `end` what follows the parts."""
    lines = [
        f'shawl "Check"\nyarn\n  skein {skein}\n  keep {keep}\nneedles {needles}\n{fabric}\nshape {shape}\n  {start}'
    ]
    lines += [f"  {line.strip()}" for line in shaping.splitlines() if line.strip()]
    return "\n".join(lines) + f"\n{parts}\n{end}\n"


def part(*bands: str, name: str = "all") -> str:
    return "\n".join([f'part "{name}"', *(f"  {band}" for band in bands)])
