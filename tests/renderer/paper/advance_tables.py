"""Writes `renderer/paper/advances.py` from the metrics of the standard PDF fonts that reportlab carries, and
`renderer/paper/scripts/more_advances.py` from those of the Liberation fonts, where they are installed.

Run it from the repository: `python tests/renderer/paper/advance_tables.py`.
"""

from collections import defaultdict
from pathlib import Path

from reportlab.pdfbase._fontdata import widthsByFontGlyph
from reportlab.pdfbase.pdfmetrics import stringWidth
from reportlab.pdfbase.ttfonts import TTFontFile

FACES = {"SANS": "Helvetica", "SANS_BOLD": "Helvetica-Bold", "SERIF": "Times-Roman"}
BEYOND_LATIN_1 = {"\u2212": "minus", "\u2044": "fraction", "\u0141": "Lslash", "\u0142": "lslash", "\u0131": "dotlessi"}
TARGET = Path(__file__).parents[3] / "renderer" / "paper" / "advances.py"
MORE_TARGET = TARGET.parent / "scripts" / "more_advances.py"
LIBERATION = Path("/usr/share/fonts/truetype/liberation")
FILES = {"SANS": "LiberationSans-Regular", "SANS_BOLD": "LiberationSans-Bold", "SERIF": "LiberationSerif-Regular"}
BLOCKS = ((0x100, 0x24F), (0x370, 0x3FF), (0x400, 0x52F), (0x1E00, 0x1EFF), (0x2000, 0x21FF))
"""Latin beyond Western Europe, Greek, Cyrillic, more Latin, punctuation and signs."""

HEAD = '''"""Advance widths in thousandths of an em, by width: the characters that have it.

Helvetica, Helvetica Bold and Times Roman, as Adobe published them for the standard PDF fonts; Arial, Times New
Roman and the Liberation fonts share nearly all of them. Written by `tests/renderer/paper/advance_tables.py`.
"""

'''

MORE_HEAD = '''"""Advance widths in thousandths of an em of more Latin, Greek and Cyrillic: the characters of each.

Liberation Sans, Liberation Sans Bold and Liberation Serif, whose widths are Arial's and Times New Roman's. Written by
`tests/renderer/paper/advance_tables.py`.
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
    """A string literal: on one line if it fits, else in lines of twenty characters, of sixteen where those are long."""
    if len(quoted(text)) <= 110:
        return quoted(text)
    lines = [quoted(text[i : i + 20]) for i in range(0, len(text), 20)]
    if max(map(len, lines)) > 112:
        lines = [quoted(text[i : i + 16]) for i in range(0, len(text), 16)]
    return "(\n        " + "\n        ".join(lines) + "\n    )"


def quoted(text: str) -> str:
    """The text in ASCII and double quotes, in single ones where it holds a double one."""
    if '"' in text:
        return ascii(text)
    return '"' + ascii(text + "'\"")[1:-4].replace("\\'", "'").replace('"', '\\"') + '"'


def more_advances(name: str) -> dict[str, int]:
    """Character to advance width of one Liberation font, without what the first table of the face has."""
    font = TTFontFile(str(LIBERATION / f"{FILES[name]}.ttf"))
    codes = [code for first, last in BLOCKS for code in range(first, last + 1) if code in font.charWidths]
    first_table = advances(FACES[name])
    named = [(chr(code), font.charWidths[code]) for code in codes if chr(code).isprintable()]
    return {character: round(width) for character, width in named if character not in first_table}


def source() -> str:
    """The text of the module for Western Europe."""
    return HEAD + "\n".join(table(name, advances(font)) for name, font in FACES.items())


def more_source() -> str:
    """The text of the module for more alphabets."""
    return MORE_HEAD + "\n".join(table(name, more_advances(name)) for name in FACES)


def table(name: str, widths: dict[str, int]) -> str:
    """One face as the source of a dictionary."""
    by_width: dict[int, str] = defaultdict(str)
    for character, width in widths.items():
        by_width[width] += character
    rows = [f"    {width}: {literal(by_width[width])},\n" for width in sorted(by_width)]
    return f"{name}: dict[int, str] = {{\n{''.join(rows)}}}\n"


if __name__ == "__main__":
    TARGET.write_text(source(), encoding="utf-8")
    if LIBERATION.exists():
        MORE_TARGET.write_text(more_source(), encoding="utf-8")
