"""The hand-over sheet: the top layer, loaded only when asked for."""
