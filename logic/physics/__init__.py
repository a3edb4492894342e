"""Formulas: floats in, floats out. Knows no rig, no id and no event."""
