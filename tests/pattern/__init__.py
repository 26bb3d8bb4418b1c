"""Stitch patterns."""
