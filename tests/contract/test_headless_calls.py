"""How the commands are called: help, unknown words, exit codes, and what goes to which stream."""

import pytest

from tests.contract.headless import bellypan
from tui.command_line.commands import COMMANDS


def test_help_names_every_command():
    done = bellypan("--help")
    assert done.code == 0
    assert not done.errors
    for name in COMMANDS:
        assert f"\n  {name} " in done.output


@pytest.mark.parametrize("name", COMMANDS)
def test_each_command_explains_itself(name):
    done = bellypan(name, "--help")
    assert done.code == 0
    assert done.output.startswith(f"bellypan {COMMANDS[name].calls[0]}")
    for option in COMMANDS[name].options:
        assert option.name in done.output


@pytest.mark.parametrize("name", COMMANDS)
def test_each_command_is_told_in_one_voice_with_its_exit_codes(name):
    said = COMMANDS[name]
    done = bellypan(name, "--help").output
    first, *_ = said.about.split()
    assert first in {"Open", "Say", "Work", "Take", "List", "Print", "Write"}
    assert said.about.endswith(".")
    assert said.ends in done.splitlines()
    assert "0: " in said.ends
    assert "2: the call or a file is in error" in said.ends
    assert ("1: " in said.ends) == (name in {"check", "read", "step", "day", "punch", "merge"})
    assert all(len(line) <= 110 for line in done.splitlines())
    for option in said.options:
        assert not option.help.endswith(".")


def test_version_is_one_line():
    done = bellypan("--version")
    assert done.code == 0
    assert done.output.startswith("bellypan ")
    assert done.output.count("\n") == 1


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (["chek"], "unknown command chek; expected check"),
        (["check", "--jsom", "x.toml"], "unknown option --jsom; expected --json"),
        (["check", "a.toml", "b.toml"], "one word too many: b.toml; expected one"),
        (["check", "--session"], "--session stands without its value; expected --session SESSION"),
        (["check", "--json=yes", "a.toml"], "--json takes no value; expected --json"),
        (["check", "--session", "a", "--session", "b"], "--session stands twice; expected it once"),
        (["check"], "check has nothing to look at; expected a PROFILE.toml or --session SESSION"),
        (["\x1b[31mred\x1b[0m"], "unknown command [31mred[0m"),
        ([""], "unknown command"),
    ],
)
def test_a_wrong_call_is_one_clear_line_and_exit_2(words, said):
    done = bellypan(*words)
    assert done.code == 2
    if words[1:2] != ["--json=yes"]:
        assert done.output == ""
    assert said in done.errors
    assert done.errors.count("\n") == 1
    assert "\x1b" not in done.errors


def test_a_wrong_call_with_json_is_an_object_on_standard_output():
    done = bellypan("check", "--json")
    assert done.code == 2
    assert done.errors == ""
    [error] = done.json["errors"]
    assert error == {
        "file": "",
        "path": "",
        "found": "check has nothing to look at",
        "expected": "a PROFILE.toml or --session SESSION",
    }


def test_without_a_terminal_the_screen_says_so():
    done = bellypan()
    assert done.code == 2
    assert done.output == ""
    assert "there is no terminal here" in done.errors
    assert done.errors.count("\n") == 1
