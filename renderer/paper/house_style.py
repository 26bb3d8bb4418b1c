"""The drawing's few inks and sizes (mm), in one place."""

INK = "#1d2b34"
SOFT = "#4b5c67"
RULE = "#b9c2c7"
LIGHT = "#ffffff"
PAPER = "#f3efe6"
RED = "#8e1614"
"""The marks' brick red, 9.3:1 on white: it or its white casing is 3:1 on any grey."""

TITLE, SUBTITLE = 8.0, 3.5
DIMENSION, TEXT, SMALL = 3.8, 3.3, 3.1
HEADING = 3.9

MARGIN = 10.0
"""White around everything."""
BADGE_RADIUS = 2.35
HAIRLINE, THIN, EDGE, HEAVY = 0.13, 0.2, 0.3, 1.0
MARK_WIDTH, CASING_WIDTH = 0.75, 1.35
