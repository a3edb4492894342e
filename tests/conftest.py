"""Property tests draw the same cases on every run and keep nothing between runs; long runs by hand draw anew."""

from hypothesis import settings

settings.register_profile("repeatable", derandomize=True, database=None, deadline=None)
settings.load_profile("repeatable")
