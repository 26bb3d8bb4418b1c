"""Halfhank: what a one-skein shawl will be, and whether the skein pays for it."""

__version__ = "0.1.0"
