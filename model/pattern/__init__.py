"""Stitch patterns: counting rows, checking them, fitting them into the shawl, charting them and writing them out."""
