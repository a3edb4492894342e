"""Profile, state and the moment in; one immutable assessment out."""
