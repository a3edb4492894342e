"""Declared rules of the punch list, one by one and alike."""
