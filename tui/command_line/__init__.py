"""The commands without a screen; none of them imports textual."""
