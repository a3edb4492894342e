"""A session of the small demo rig: begun without a terminal for the commands, or worked in by intents."""

from collections.abc import Callable
from pathlib import Path
from typing import NamedTuple

import pytest

from logic.data.profile_file import load_profile
from logic.data.rigs_folder import rigs_folder
from logic.data.state import Instant
from logic.session.session import new_session
from tests.contract.headless import RIGS, Done, bellypan
from tests.contract.session_day import Day
from tests.crash.faulty_files import QuickFiles
from tests.crash.kept_sessions import START


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


@pytest.fixture
def day(tmp_path):
    loaded = load_profile(rigs_folder() / "two-tanks.toml")
    session = new_session(loaded, Instant(START, -3600), home=tmp_path, by="Ann", files=QuickFiles())
    yield Day(session)
    session.close()
