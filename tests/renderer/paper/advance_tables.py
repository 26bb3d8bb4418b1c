"""Writes `renderer/paper/advances.py` from the metrics of the standard PDF fonts that reportlab carries.

Run it from the repository: `python tests/renderer/paper/advance_tables.py`.
"""

from collections import defaultdict
from pathlib import Path

from reportlab.pdfbase._fontdata import widthsByFontGlyph
from reportlab.pdfbase.pdfmetrics import stringWidth

FACES = {"SANS": "Helvetica", "SANS_BOLD": "Helvetica-Bold", "SERIF": "Times-Roman"}
BEYOND_LATIN_1 = {"\u2212": "minus", "\u2044": "fraction", "\u0141": "Lslash", "\u0142": "lslash", "\u0131": "dotlessi"}
TARGET = Path(__file__).parents[3] / "renderer" / "paper" / "advances.py"

HEAD = '''"""Advance widths in thousandths of an em, by width: the characters that have it.

Helvetica, Helvetica Bold and Times Roman, as Adobe published them for the standard PDF fonts; Arial, Times New
Roman and the Liberation fonts share nearly all of them. Written by `tests/renderer/paper/advance_tables.py`.
"""

'''


def characters() -> list[str]:
    """Windows code page 1252: the characters that the standard fonts encode, without controls."""
    codes = "".join(bytes([code]).decode("cp1252", "ignore") for code in range(32, 256))
    return [c for c in codes if c.isprintable() or c == "\xa0"]


def advances(font: str) -> dict[str, int]:
    """Character to advance width of one reportlab font."""
    widths = {c: round(stringWidth(c, font, 1000)) for c in characters()}
    return widths | {c: widthsByFontGlyph[font][glyph] for c, glyph in BEYOND_LATIN_1.items()}


def literal(text: str) -> str:
    """A string literal: on one line if it fits, else in lines of twenty characters."""
    if len(quoted(text)) <= 110:
        return quoted(text)
    lines = [quoted(text[i : i + 20]) for i in range(0, len(text), 20)]
    return "(\n        " + "\n        ".join(lines) + "\n    )"


def quoted(text: str) -> str:
    """The text in ASCII and double quotes, in single ones where it holds a double one."""
    if '"' in text:
        return ascii(text)
    return '"' + ascii(text + "'\"")[1:-4].replace("\\'", "'").replace('"', '\\"') + '"'


def source() -> str:
    """The module's text."""
    parts = [HEAD]
    for name, font in FACES.items():
        by_width: dict[int, str] = defaultdict(str)
        for character, width in advances(font).items():
            by_width[width] += character
        parts.append(f"{name}: dict[int, str] = {{\n")
        parts += [f"    {width}: {literal(by_width[width])},\n" for width in sorted(by_width)]
        parts.append("}\n\n" if name != "SERIF" else "}\n")
    return "".join(parts)


if __name__ == "__main__":
    TARGET.write_text(source(), encoding="utf-8")
