"""US sizes of knitting needles, for those that have one."""

US_SIZES = {
    2.25: "1",
    2.75: "2",
    3.25: "3",
    3.5: "4",
    3.75: "5",
    4.0: "6",
    4.5: "7",
    5.0: "8",
    5.5: "9",
    6.0: "10",
    6.5: "10.5",
    8.0: "11",
}
"""The US size by the diameter in mm, as several published conversion tables have it (3.5 and 6.5 from memory)."""


def us_size(needles_mm: float) -> str | None:
    """The US size; None for sizes between two of them."""
    return US_SIZES.get(round(needles_mm, 2))
