"""Advance widths in thousandths of an em, by width: the characters that have it.

Helvetica, Helvetica Bold and Times Roman, as Adobe published them for the standard PDF fonts; Arial, Times New
Roman and the Liberation fonts share nearly all of them. Written by `tests/renderer/paper/advance_tables.py`.
"""

SANS: dict[int, str] = {
    167: "\u2044",
    191: "'",
    222: "ijl\u201a\u2018\u2019\u0142",
    260: "|\xa6",
    278: " !,./:;I[\\]ft\xa0\xb7\xcc\xcd\xce\xcf\xec\xed\xee\xef\u0131",
    333: "()-`r\u201e\u02c6\u2039\u201c\u201d\u02dc\u203a\xa1\xa8\xaf\xb2\xb3\xb4\xb8\xb9",
    334: "{}",
    350: "\u2022",
    355: '"',
    365: "\xba",
    370: "\xaa",
    389: "*",
    400: "\xb0",
    469: "^",
    500: "Jcksvxyz\u0161\u017e\xe7\xfd\xff",
    537: "\xb6",
    556: (
        "#$0123456789?L_abdeg"
        "hnopqu\u20ac\u0192\u2020\u2021\u2013\xa2\xa3\xa4\xa5\xa7\xab\xb5\xbb\xe0"
        "\xe1\xe2\xe3\xe4\xe5\xe8\xe9\xea\xeb\xf0\xf1\xf2\xf3\xf4\xf5\xf6\xf9\xfa\xfb\xfc"
        "\xfe\u0141"
    ),
    584: "+<=>~\xac\xb1\xd7\xf7\u2212",
    611: "FTZ\u017d\xbf\xdf\xf8",
    667: "&ABEKPSVXY\u0160\u0178\xc0\xc1\xc2\xc3\xc4\xc5\xc8\xc9\xca\xcb\xdd\xde",
    722: "CDHNRUw\xc7\xd0\xd1\xd9\xda\xdb\xdc",
    737: "\xa9\xae",
    778: "GOQ\xd2\xd3\xd4\xd5\xd6\xd8",
    833: "Mm",
    834: "\xbc\xbd\xbe",
    889: "%\xe6",
    944: "W\u0153",
    1000: "\u2026\u2030\u0152\u2014\u2122\xc6",
    1015: "@",
}

SANS_BOLD: dict[int, str] = {
    167: "\u2044",
    238: "'",
    278: " ,./I\\ijl\u201a\u2018\u2019\xa0\xb7\xcc\xcd\xce\xcf\xec\xed\xee\xef\u0142\u0131",
    280: "|\xa6",
    333: "!()-:;[]`ft\u02c6\u2039\u02dc\u203a\xa1\xa8\xaf\xb2\xb3\xb4\xb8\xb9",
    350: "\u2022",
    365: "\xba",
    370: "\xaa",
    389: "*r{}",
    400: "\xb0",
    474: '"',
    500: "z\u201e\u201c\u201d\u017e",
    556: (
        "#$0123456789J_aceksv"
        "xy\u20ac\u0192\u2020\u2021\u2013\u0161\xa2\xa3\xa4\xa5\xa7\xab\xb6\xbb\xe0\xe1\xe2\xe3"
        "\xe4\xe5\xe7\xe8\xe9\xea\xeb\xfd\xff"
    ),
    584: "+<=>^~\xac\xb1\xd7\xf7\u2212",
    611: "?FLTZbdghnopqu\u017d\xb5\xbf\xdf\xf0\xf1\xf2\xf3\xf4\xf5\xf6\xf8\xf9\xfa\xfb\xfc\xfe\u0141",
    667: "EPSVXY\u0160\u0178\xc8\xc9\xca\xcb\xdd\xde",
    722: "&ABCDHKNRU\xc0\xc1\xc2\xc3\xc4\xc5\xc7\xd0\xd1\xd9\xda\xdb\xdc",
    737: "\xa9\xae",
    778: "GOQw\xd2\xd3\xd4\xd5\xd6\xd8",
    833: "M",
    834: "\xbc\xbd\xbe",
    889: "%m\xe6",
    944: "W\u0153",
    975: "@",
    1000: "\u2026\u2030\u0152\u2014\u2122\xc6",
}

SERIF: dict[int, str] = {
    167: "\u2044",
    180: "'",
    200: "|\xa6",
    250: " ,.\xa0\xb7",
    276: "\xaa",
    278: "/:;\\ijlt\xec\xed\xee\xef\u0142\u0131",
    300: "\xb2\xb3\xb9",
    310: "\xba",
    333: "!()-I[]`fr\u201a\u02c6\u2039\u2018\u2019\u02dc\u203a\xa1\xa8\xaf\xb4\xb8\xcc\xcd\xce\xcf",
    350: "\u2022",
    389: "Js\u0161",
    400: "\xb0",
    408: '"',
    444: "?acez\u201e\u201c\u201d\u017e\xbf\xe0\xe1\xe2\xe3\xe4\xe5\xe7\xe8\xe9\xea\xeb",
    453: "\xb6",
    469: "^",
    480: "{}",
    500: (
        "#$*0123456789_bdghkn"
        "opquvxy\u20ac\u0192\u2020\u2021\u2013\xa2\xa3\xa4\xa5\xa7\xab\xb5\xbb"
        "\xdf\xf0\xf1\xf2\xf3\xf4\xf5\xf6\xf8\xf9\xfa\xfb\xfc\xfd\xfe\xff"
    ),
    541: "~",
    556: "FPS\u0160\xde",
    564: "+<=>\xac\xb1\xd7\xf7\u2212",
    611: "ELTZ\u017d\xc8\xc9\xca\xcb\u0141",
    667: "BCR\xc7\xe6",
    722: "ADGHKNOQUVXYw\u0153\u0178\xc0\xc1\xc2\xc3\xc4\xc5\xd0\xd1\xd2\xd3\xd4\xd5\xd6\xd8\xd9\xda\xdb\xdc\xdd",
    750: "\xbc\xbd\xbe",
    760: "\xa9\xae",
    778: "&m",
    833: "%",
    889: "M\u0152\xc6",
    921: "@",
    944: "W",
    980: "\u2122",
    1000: "\u2026\u2030\u2014",
}
