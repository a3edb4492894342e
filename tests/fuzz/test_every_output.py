"""Hostile names and texts through every way out: text they come in as, and text they come out as.

One session is worked on with each text in every place that takes one; every command then answers about it, and
the same is done with a harmless text, so that a page can be compared tag by tag.
"""

import json
import os
import re
import tomllib
from pathlib import Path

import pytest
from markdown_it import MarkdownIt

from logic.data.clean_text import clean_text
from logic.data.rigs_folder import rigs_folder
from tests.contract.sheet_page import RUNS_OR_LOADS, Page
from tests.fuzz.answers import Answered, called, sound
from tests.fuzz.hostile import FORMULAS, INVISIBLE, MARKUP, TERMINAL, WIDE, obeyed

LONGEST_ID = "a-23456789-123456789-123"
ALL = (*MARKUP, *FORMULAS, *TERMINAL, *INVISIBLE, *WIDE, "x" * 60)
# Every third of them each time; all with BELLYPAN_LONG=1.
TEXTS = ALL if os.environ.get("BELLYPAN_LONG") else (*ALL[::3], TERMINAL[4], INVISIBLE[5])


def profile_with(text: str, path: Path) -> Path:
    """The small demo rig, saying the text in each of its free texts, with ids as long as may be."""
    said = "".join(f"\\U{ord(sign):08x}" for sign in text if not 0xD800 <= ord(sign) < 0xE000)
    rig = (rigs_folder() / "two-tanks.toml").read_text(encoding="utf-8")
    for key in ("name", "kind", "note", "why", "colour", "bundle"):
        rig = re.sub(rf'\b{key} = "[^"]*"', lambda _, key=key: f'{key} = "{said}"', rig)
    rig = rig.replace('bundle = "' + said + '"\n', "").replace('"gray-pad"', f'"{LONGEST_ID}"')
    path.write_text(rig, encoding="utf-8")
    tomllib.loads(rig)
    return path


class Worked:
    """A session that says one text wherever a person's words can stand, and what each command says of it."""

    def __init__(self, text: str, folder: Path) -> None:
        self.home, self.folder, self.text = folder / "home", folder, text
        self.rig = profile_with(text, folder / "rig.toml")
        self.id = self.ask("open", self.rig, "--new").output.strip()
        word = text.replace("\0", "") or "x"
        self.item = self.ask("punch", self.id, "add", f"item {word}", "--place", word)
        self.ask("punch", self.id, "add", word, "--weight", "note")
        self.ask("step", self.id, "chocks:rig", "start", "--note", word)
        self.ask("step", self.id, "chocks:rig", "done", "--note", word, "--record", f"seen={word}")
        self.ask("step", self.id, "stands:rig", "hold", "--note", word)
        items = json.loads(self.ask("punch", self.id, "--json").output)["items"]
        finding = next(one["id"] for one in items if ":" in one["id"] and one["weight"] != "stop")
        self.ask("punch", self.id, "accept", finding, "--reason", word, "--name", word)

    def ask(self, *words: str | Path) -> Answered:
        return sound([str(word).replace("\0", "") for word in words], home=self.home)

    def page(self, name: str) -> str:
        path = self.folder / name
        assert self.ask("sheet", self.id, "-o", path).code == 0
        return path.read_text(encoding="utf-8")


@pytest.fixture(scope="module")
def plain(tmp_path_factory) -> Worked:
    return Worked("plain", tmp_path_factory.mktemp("plain"))


@pytest.fixture(params=range(len(TEXTS)), ids=[ascii(text)[:24] for text in TEXTS], scope="module")
def worked(request, tmp_path_factory) -> Worked:
    return Worked(TEXTS[request.param], tmp_path_factory.mktemp("worked"))


def shown(text: str) -> str:
    """How a text stands in a line of an answer."""
    return clean_text(text)


def test_tables_and_json_of_every_command_say_it_as_text(worked):
    text = shown(worked.text)
    check = json.loads(worked.ask("check", worked.rig, "--json").output)
    assert check["rig"] == text
    assert worked.ask("check", worked.rig).output.startswith(text.split("\n")[0] if text else "")
    assert json.loads(worked.ask("check", "--session", worked.id, "--json").output)["rig"] == text
    assert [one["rig"] for one in json.loads(worked.ask("sessions", "--json").output)["sessions"]] == [text]
    assert text in worked.ask("sessions").output
    assert text in worked.ask("status", worked.id).output
    steps = json.loads(worked.ask("step", worked.id, "--json").output)["steps"]
    assert any(text in " ".join(step["held_by"]) for step in steps)
    assert text in worked.ask("step", worked.id).output
    items = json.loads(worked.ask("punch", worked.id, "--json").output)["items"]
    assert {shown(f"item {worked.text}"), text} <= {item["text"] for item in items}
    assert text in worked.ask("punch", worked.id).output
    assert worked.ask("schema").output == called(["schema"], home=worked.home).output


def test_a_profile_written_says_it_in_toml_and_reads_back(worked):
    out = worked.folder / "built.toml"
    out.unlink(missing_ok=True)
    assert worked.ask("profile", worked.id, "-o", out).code == 0
    written = out.read_text(encoding="utf-8")
    assert not obeyed(written)
    rig = tomllib.loads(written)
    assert rig["rig"]["name"] == rig["rig"]["note"] == shown(worked.text)
    assert [run["colour"] for run in rig["run"]] == [shown(worked.text)] * 2
    assert tomllib.loads(worked.ask("profile", worked.id).output) == rig
    assert worked.ask("check", out).code in (0, 1)


def test_the_page_has_no_tag_and_no_attribute_from_it_and_may_load_nothing(worked, plain):
    made = worked.page("sheet.html")
    page, other = Page(made), Page(plain.page("sheet.html"))
    assert page.tags == other.tags
    assert page.attributes == other.attributes
    assert not RUNS_OR_LOADS & page.tags
    assert not {
        name for name in page.attributes if name.startswith("on") or name in ("src", "href", "action")
    }
    assert page.text.count(shown(worked.text).replace("\u00a0", " ")) >= 5
    assert re.search(r"""Content-Security-Policy" content="default-src (?:'|&\#x27;)none""", made)
    assert not obeyed(made)


def test_markdown_says_it_as_text_to_a_reader_of_markdown(worked, plain):
    reader = MarkdownIt("gfm-like", {"html": True, "linkify": True})
    made = worked.page("sheet.md")
    page, other = (Page(reader.render(each)) for each in (made, plain.page("sheet.md")))
    assert page.tags == other.tags
    assert "href" not in page.attributes
    assert page.text.count(" ".join(shown(worked.text).split())) >= 5
    assert not obeyed(made)


def test_a_copy_holds_it_cleaned_and_is_taken_in_elsewhere(worked):
    path = worked.folder / "copy.json"
    path.unlink(missing_ok=True)
    assert worked.ask("copy", worked.id, path).code == 0
    raw = path.read_text(encoding="utf-8")
    assert not obeyed(raw)
    document = json.loads(raw)
    assert document["meta"]["1"]["rig"] == shown(worked.text)
    elsewhere = sound(["merge", path], home=worked.folder / "elsewhere")
    assert elsewhere.code == 0


def test_whatever_is_refused_is_quoted_without_what_a_terminal_obeys(worked):
    word = worked.text.replace("\0", "") or "x"
    for words in (
        [word], [f"--{word}"], ["check", word], ["check", f"{word}.toml", "--json"], ["check", f"--{word}"],
        ["status", word], ["open", f"{word}.toml", "--new"], ["read", worked.id, word, "41"],
        ["read", worked.id, "tank.gray.length", word], ["read", worked.id, "tank.gray.length", "--strike", word],
        ["step", worked.id, word, "start"], ["step", worked.id, "chocks:rig", word], ["punch", worked.id, word],
        ["punch", worked.id, "done", word], ["punch", worked.id, "add", "x", "--weight", word],
        ["sheet", worked.id, "-o", f"/nowhere/{word}.html"], ["sheet", worked.id, "-o", word],
        ["profile", worked.id, "-o", f"/nowhere/{word}"], ["copy", worked.id, f"/nowhere/{word}"],
        ["merge", word], ["season", worked.rig, "--hourly", word], ["help", word],
        ["step", worked.id, "chocks:rig", "done", "--record", word],
    ):  # fmt: skip
        worked.ask(*words)  # an exit code of ours, and nothing that isn't text: see `sound`
    given = f"tank.gray.length {word}\n{word} 41\n{word}\n".encode("utf-8", "surrogatepass")
    answer = sound(["read", worked.id, "-", "--json"], home=worked.home, given=given)
    assert all(json.loads(line).get("refused") for line in answer.output.splitlines())
