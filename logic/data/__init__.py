"""Shapes, tables, and the edges where text becomes values."""
