"""When the interpreter looks for garbage: not while the program starts, and never again in what start left behind.

Starting makes some fifty thousand objects that all stay; to look through them takes longer than a key may, and
comes again and again. Without a start of our own (in tests) nothing is changed.
"""

import gc

_state = {"held off": False}


def hold_off() -> None:
    """Start is beginning."""
    if gc.isenabled():
        gc.disable()
        _state["held off"] = True


def keep() -> None:
    """What was loaded until now stays: it isn't looked through again."""
    if _state["held off"]:
        gc.freeze()


def tidy() -> None:
    """Give back what was used since for the first frame alone: what is opened next has its place. It takes 6 ms."""
    if _state["held off"]:
        gc.collect()
        gc.freeze()


def resume() -> None:
    """What was made until now stays; look only through what comes from now on."""
    if _state["held off"]:
        _state["held off"] = False
        gc.freeze()
        gc.enable()
