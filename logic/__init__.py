"""The whole job without a screen: pure functions and plain data."""
