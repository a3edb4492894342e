"""A session of the small demo rig, begun without a terminal, for the tests of the commands."""

from collections.abc import Callable
from pathlib import Path
from typing import NamedTuple

import pytest

from tests.contract.headless import RIGS, Done, bellypan


class Begun(NamedTuple):
    """A session and where it lies."""

    id: str
    home: Path

    def call(self, *words: str | Path, **more) -> Done:
        """A call of the program on this machine of its own."""
        return bellypan(*words, home=self.home, **more)


@pytest.fixture
def begin(tmp_path) -> Callable[[], Begun]:
    """Begins one more session of the small demo rig."""

    def begin_one() -> Begun:
        done = bellypan("open", RIGS / "two-tanks.toml", "--new", home=tmp_path / "home")
        assert done.code == 0, done.errors
        return Begun(done.output.strip(), tmp_path / "home")

    return begin_one


@pytest.fixture
def session(begin) -> Begun:
    return begin()
