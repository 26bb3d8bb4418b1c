"""Descriptions as they look after a slip of the keyboard, a bad merge or a careless script."""

from random import Random

SCRAPS = (
    "0",
    "-1",
    "1e308",
    "9" * 40,
    "2,5",
    "½",
    "NaN",
    '"',
    "“",
    "\\",
    "#",
    "\t",
    "\x00",
    "\x1b[31m",
    "\u202e",
    "–",
    "*",
    "[",
    "]",
    "every row",
    "as yarn allows",
    "repeat",
    "times",
    "drop",
    "until 3 sts",
    "from row 0",
    "even",
    "at spine",
    "bind off",
    "\r",
    "turn back",
    "part",
    "in",
    "(",
    ":",
    "/",
    "%",
    "yards",
    "Garter",
    "  ",
    "\n",
    "\n  ",
    "\n    ",
    "\ufeff",
    "e\u0301",
    "🧶",
)


def mangle(pick: Random, text: str) -> str:
    """The text with one to four slips."""
    for _ in range(pick.randint(1, 4)):
        text = pick.choice((cut, insert, swap_lines, drop_line, double_line, other_number, dent))(pick, text)
    return text


def cut(pick: Random, text: str) -> str:
    at = pick.randrange(len(text) + 1)
    return text[:at] + text[at + pick.randint(1, 9) :]


def insert(pick: Random, text: str) -> str:
    at = pick.randrange(len(text) + 1)
    return text[:at] + pick.choice(SCRAPS) + text[at:]


def swap_lines(pick: Random, text: str) -> str:
    lines = text.split("\n")
    one, other = pick.randrange(len(lines)), pick.randrange(len(lines))
    lines[one], lines[other] = lines[other], lines[one]
    return "\n".join(lines)


def drop_line(pick: Random, text: str) -> str:
    lines = text.split("\n")
    del lines[pick.randrange(len(lines))]
    return "\n".join(lines)


def double_line(pick: Random, text: str) -> str:
    lines = text.split("\n")
    at = pick.randrange(len(lines))
    return "\n".join([*lines[:at], lines[at], *lines[at:]])


def dent(pick: Random, text: str) -> str:
    lines = text.split("\n")
    at = pick.randrange(len(lines))
    lines[at] = pick.choice((lines[at].strip(), " " + lines[at], "    " + lines[at], lines[at].removeprefix(" ")))
    return "\n".join(lines)


def other_number(pick: Random, text: str) -> str:
    """One of the text's numbers made another."""
    places = [k for k, character in enumerate(text) if character.isdigit()]
    if not places:
        return text
    at = pick.choice(places)
    return text[:at] + pick.choice(("0", "1", "7", "99", "2000", "0.001", "1" + "0" * 30)) + text[at + 1 :]
