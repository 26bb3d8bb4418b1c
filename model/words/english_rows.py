"""The sentences around the rows of a shawl, in English."""

from halfhank.model.words.templates import Template, forms

ROWS: dict[str, Template] = {
    "every-row.abbreviations": "Abbreviations",
    "every-row.start": "Start",
    "every-row.part": "Part {number}, {name}",
    "every-row.bind-off": "Bind off",
    "every-row.knit-tab": forms("rows", one="Knit 1 row.", other="Knit {rows} rows."),
    "every-row.right": "RS",
    "every-row.wrong": "WS",
    "every-row.row": "Row {row} ({side}): {items} ({stitches})",
    "every-row.rows": "Rows {first}-{last}: {items} ({stitches})",
    "every-row.set-up-row": "Set-up row (WS): {items} ({stitches})",
    "every-row.bind-off-row": "Bind-off row ({side}): {items} ({stitches})",
    "every-row.any-bind-off": "Note: the pattern does not name a bind-off; you may use another one.",
    "every-row.cut": forms(
        "count",
        one="Cut the yarn and draw it through the last st.",
        other="Cut the yarn and draw it through the last {count} sts.",
    ),
}
