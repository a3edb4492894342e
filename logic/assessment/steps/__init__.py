"""Declared templates of the steps, group by group."""
