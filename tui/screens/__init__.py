"""Screens a key away from the panes."""
