"""Events, their fold into a state, and keeping them on disk."""
