"""Input nobody would type: run by hand, `python -m tests.fuzz.long_run SECONDS [SEED]`."""
