"""What is loaded when: a command without a screen never loads one, and a check loads no session.

Each question is asked in a clean interpreter, by what stands in `sys.modules` at the end.
"""

import json
import subprocess
import sys

import pytest

from tests.contract.headless import RIGS, ROOT, bellypan, clean_environment

SCREEN = ("textual", "tui.app", "tui.panes", "tui.screens")
SESSION = ("logic.session", "tinydb", "filelock")  # platformdirs comes with pint
LATER = ("logic.handover", "logic.assessment.season", "logic.session.copy")


def loaded_by(code: str, home) -> set[str]:
    """The modules loaded once `code` has run."""
    program = f"import sys, json\n{code}\nsys.stderr.write(json.dumps(sorted(sys.modules)))"
    done = subprocess.run(
        [sys.executable, "-c", program],
        capture_output=True,
        text=True,
        cwd=ROOT,
        env=clean_environment(home),
        timeout=60,
        check=True,
    )
    return set(json.loads(done.stderr.splitlines()[-1]))


def call(*words) -> str:
    return f"from tui.command_line.main import main; main({[str(word) for word in words]!r})"


def among(modules: set[str], names: tuple[str, ...]) -> list[str]:
    """Those of `modules` that are one of `names` or lie in it."""
    return sorted(module for module in modules if any(f"{module}.".startswith(f"{name}.") for name in names))


def test_help_loads_neither_the_job_nor_a_screen(tmp_path):
    modules = loaded_by(call("--help"), tmp_path)
    assert among(modules, (*SCREEN, *SESSION, *LATER, "pint", "logic.assessment", "logic.physics")) == []


def test_a_check_loads_no_session_no_screen_and_no_sheet(tmp_path):
    modules = loaded_by(call("check", RIGS / "two-tanks.toml"), tmp_path)
    assert among(modules, (*SCREEN, *SESSION, *LATER)) == []
    assert "logic.assessment.assess" in modules


@pytest.fixture(scope="module")
def worked_on(tmp_path_factory):
    """A folder of sessions with one session in it, and that session's id."""
    home = tmp_path_factory.mktemp("home")
    begun = bellypan("open", RIGS / "two-tanks.toml", "--new", home=home)
    assert begun.code == 0
    return home, begun.output.strip()


@pytest.mark.parametrize(
    "words",
    [
        ("status", "SESSION"),
        ("check", "--session", "SESSION", "--json"),
        ("read", "SESSION", "tank.gray.length", "41", "3/8"),
        ("step", "SESSION"),
        ("punch", "SESSION"),
        ("sessions",),
        ("sources",),
        ("schema",),
    ],
    ids=lambda words: words[0],
)
def test_no_command_without_a_screen_loads_one(words, worked_on):
    home, session = worked_on
    modules = loaded_by(call(*(session if word == "SESSION" else word for word in words)), home)
    assert among(modules, SCREEN) == []
    assert among(modules, LATER) == []


def test_opening_a_session_needs_no_unit_registry(worked_on):
    home, session = worked_on
    assert among(loaded_by(call("status", session), home), ("pint",)) == []


def test_the_screen_does_load_textual(tmp_path):
    assert "textual" in loaded_by("import tui.app", tmp_path)


FIRST_FRAME = """
import asyncio
from logic.data.state import Instant
from logic.session.session import open_session
from tui.app import Bellypan, terminal_marks
from tui.wiring import Wiring

async def first_frame():
    session = open_session({session!r}, Instant(0.0), read_only=True)
    async with Bellypan(Wiring(session, marks=terminal_marks())).run_test(size=(100, 30)):
        return sorted(sys.modules)

loaded = asyncio.run(first_frame())
sys.modules = dict.fromkeys(loaded)
"""
NOT_BEFORE_THE_FIRST_FRAME = (
    "pint",
    "logic.handover",
    "logic.assessment.season",
    "logic.session.copy",
    "logic.session.as_built_file",
    "logic.data.profile_file",
    "logic.data.profile_check",
    "logic.data.profile_write",
    "tui.command_line",
    "tui.screens.spell_plot",
    "tui.screens.bottom_view",
    "tui.screens.wiring_tree",
    "tui.screens.what_if",
    "tui.screens.new_rig",
)


def test_before_the_first_frame_nothing_is_loaded_that_it_does_not_need(worked_on):
    home, session = worked_on
    modules = loaded_by(FIRST_FRAME.format(session=session), home)
    assert "tui.app" in modules
    assert among(modules, NOT_BEFORE_THE_FIRST_FRAME) == []
