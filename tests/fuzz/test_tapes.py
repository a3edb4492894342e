"""Typed values against the reader that knows all meanings, for a short while; for long: `long_run.py`."""

import random

import pytest

from logic.data.tape import TapeFault, read_value
from tests.fuzz.hostile import obeyed
from tests.fuzz.tape_reader import length, meanings, meter
from tests.fuzz.tapes import agree, slots, try_tape


def test_both_readers_say_the_same_of_texts_by_chance():
    for case in range(3000):
        try:
            try_tape(random.Random(case))
        except AssertionError as wrong:
            raise AssertionError(f"case {case}: {wrong}") from wrong


def test_both_readers_say_the_same_of_every_text_of_up_to_three_signs():
    slot = next(slot for slot in slots() if slot.id == "tank.galley.length")
    signs = "09/8 .-+'\"m½"
    texts = [""]
    for _ in range(3):
        texts += [text + sign for text in texts for sign in signs]
    for text in dict.fromkeys(texts):
        agree(text, slot, metric=False)


def test_the_second_reader_takes_what_it_should():
    assert len(meanings("3' 5 3/8\" ± 1/32", length("in"))) == 1
    assert len(meanings("5-½", length("in"))) == 1
    assert len(meanings("> 20 Mohm", meter("ohms", "Ω"))) == 1
    for nothing in ("413/8 x", "3' 14\"", "5 6", "1/2 m", "", "5 9/8", "1e3", "٣"):
        assert not meanings(nothing, length("in")), nothing


def test_both_meanings_of_a_comma_are_asked_about_without_signs_that_a_terminal_obeys():
    slot = next(slot for slot in slots() if slot.id == "tank.galley.length")
    with pytest.raises(TapeFault) as caught:
        read_value("3,0\u202e\x1b[2J", slot, metric=False)
    assert not obeyed(str(caught.value))
    assert not any(obeyed(meaning) for meaning in caught.value.question)
