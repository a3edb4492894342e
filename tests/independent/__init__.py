"""A second reckoning of a whole rig, written from the format's conventions alone; it uses no code of the program.

Volumes and heat by plain rules and halving, the spell in small steps, wiring as a matrix of nodes, gauges by trying
every choice, places line by line. Readings as exact fractions, their uncertainty by small differences of all that.
`compare.py` sets it beside what `check --json` says of a design, `readings_compare.py` of a session; `random_rigs.py`
throws the dice for rigs of every kind that the format allows, `random_readings.py` for what is read of them.
What a meter should show on the finished wiring: `proving.py`, beside the program's by `proving_compare.py`.
`recorded.py` alone goes through the program's own door, to have those readings taken.
"""
