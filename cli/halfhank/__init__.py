"""Halfhank: what a one-skein shawl will be, and whether the skein pays for it."""

from halfhank.interface import DescriptionError, draw, plan

__all__ = ["DescriptionError", "draw", "plan"]
__version__ = "0.1.0"
