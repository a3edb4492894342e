"""A second reckoning of a whole rig, written from the format's conventions alone; it uses no code of the program.

Volumes and heat by plain rules and halving, the spell in small steps, wiring as a matrix of nodes, gauges by trying
every choice, places line by line. `compare.py` sets it beside what `check --json` says; `random_rigs.py` throws the
dice for rigs of every kind that the format allows.
"""
