"""The README is run: its two commands, its example of a profile, the commands and the keys that it names."""

import re

import pytest

from logic.data.profile_file import load_profile
from tests.contract.headless import ROOT
from tui.command_line.commands import COMMANDS

README = (ROOT / "README.md").read_text(encoding="utf-8")


def blocks(language: str) -> list[str]:
    return re.findall(rf"^```{language}\n(.*?)^```", README, flags=re.MULTILINE | re.DOTALL)


def test_the_first_paragraph_comes_right_after_the_name():
    name, paragraph, *_ = README.split("\n\n")
    assert name == "# bellypan"
    assert "holding tanks" in paragraph
    assert "certifies nothing" in paragraph


def test_the_first_two_commands_start_the_program_and_run_the_tests():
    start, tests, *_ = blocks("sh")
    assert start.count("\n") == 1
    assert re.fullmatch(r".*pip install \. && \S*bellypan open (rigs/\S+\.toml)\n", start)
    assert tests.count("\n") == 1
    assert tests.endswith(" && .venv/bin/python -m pytest\n")


@pytest.mark.parametrize("path", sorted(set(re.findall(r"rigs/\S+?\.toml", README))))
def test_every_rig_that_it_names_is_there(path):
    load_profile(ROOT / path)


def test_its_example_of_a_profile_is_one(tmp_path):
    [example] = blocks("toml")
    path = tmp_path / "example.toml"
    path.write_text(example, encoding="utf-8")
    profile = load_profile(path).profile
    assert profile.rig.name == "two tanks, one day of frost"
    assert [heater.id for heater in profile.heaters] == ["gray-a"]


def test_every_command_that_it_names_exists():
    code = blocks("sh") + re.findall(r"`([^`\n]+)`", README)
    named = {name for text in code for name in re.findall(r"bellypan ([a-z]+)\b", text)}
    assert named
    assert named - set(COMMANDS) == set()


def test_it_names_no_host_and_no_place_of_one_machine():
    assert not re.search(r"https?://|/home/|/work/|/tmp/|/root/", README)
